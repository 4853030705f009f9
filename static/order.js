// Every act answers at once and says what moved. Without it the same buttons post the page.
const said = () => document.getElementById("said");

async function send(form, act) {
  const data = new FormData(form);
  data.set("do", act);
  let page;
  try {
    const answer = await fetch(form.action, { method: "POST", body: data });
    if (!answer.ok) throw new Error(answer.status);
    page = new DOMParser().parseFromString(await answer.text(), "text/html");
  } catch {
    said().textContent = "";
    form.requestSubmit(); // the plain way; it also says what is wrong
    return;
  }
  document.getElementById("order").replaceWith(page.getElementById("order"));
  arm();
  said().textContent = page.querySelector(".messages")?.textContent.trim() ?? "";
  const button = document.querySelector(`[name="do"][value="${CSS.escape(act)}"]:not(:disabled)`);
  const key = act.split(":")[1];
  const row = document.querySelector(`tr[data-key="${CSS.escape(key ?? "")}"]`);
  (button ?? row?.querySelector("button:not(:disabled)"))?.focus();
  row?.classList.add("moved");
}

document.addEventListener("submit", (event) => {
  const form = event.target.closest("form[data-order]");
  if (!form || !event.submitter?.value) return;
  event.preventDefault();
  send(form, event.submitter.value);
});

document.addEventListener("keydown", (event) => {
  const way = { ArrowUp: "up", ArrowDown: "down" }[event.key];
  const row = event.target.closest?.("tr[data-key]");
  if (!event.altKey || !way || !row) return;
  event.preventDefault();
  send(row.closest("form"), `${way}:${row.dataset.key}`);
});

// The number of a row is its handle, so that names can still be selected and copied.
let dragged = null;
const rowOf = (event) => event.target.closest?.("tr[data-key]");
function arm() {
  for (const number of document.querySelectorAll("tr[data-key] > td:first-child")) number.draggable = true;
}
arm();
document.addEventListener("dragstart", (event) => { dragged = rowOf(event); });
document.addEventListener("dragover", (event) => { if (dragged && rowOf(event)) event.preventDefault(); });
document.addEventListener("dragend", () => { dragged = null; });
document.addEventListener("drop", (event) => {
  const row = rowOf(event);
  if (!dragged || !row || row === dragged) return;
  event.preventDefault();
  send(row.closest("form"), `to:${dragged.dataset.key}:${row.dataset.place}`);
});
