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

let dragged = null;
const grab = (row) => { row.draggable = true; };
document.addEventListener("pointerdown", (event) => {
  const row = event.target.closest?.("tr[data-key]");
  if (row && !event.target.closest("button, input, summary, label")) grab(row);
});
document.addEventListener("dragstart", (event) => { dragged = event.target.closest?.("tr[data-key]"); });
document.addEventListener("dragover", (event) => { if (dragged && event.target.closest?.("tr[data-key]")) event.preventDefault(); });
document.addEventListener("drop", (event) => {
  const row = event.target.closest?.("tr[data-key]");
  if (!dragged || !row || row === dragged) return;
  event.preventDefault();
  send(row.closest("form"), `to:${dragged.dataset.key}:${row.dataset.place}`);
});
document.addEventListener("dragend", () => { dragged?.removeAttribute("draggable"); dragged = null; });
