// Every act answers at once and says what moved. Without it the same buttons post the page.
const said = () => document.getElementById("said");
const rows = () => [...document.querySelectorAll("tr[data-key]")];
const usable = (element) => element?.checkVisibility() && element.tabIndex >= 0 && !element.disabled;

async function send(form, act, row) {
  const data = new FormData(form);
  data.set("do", act);
  let page;
  try {
    const answer = await fetch(form.action, { method: "POST", body: data });
    if (!answer.ok) throw new Error(answer.status);
    history.replaceState(null, "", answer.url);
    page = new DOMParser().parseFromString(await answer.text(), "text/html");
  } catch {
    said().textContent = "";
    form.requestSubmit(); // the plain way; it also says what is wrong
    return;
  }
  const { id } = document.activeElement;
  const place = rows().indexOf(row);
  const heading = [...document.querySelectorAll("#order h2")].filter((h) => h.compareDocumentPosition(form) & 4).at(-1)?.id;
  const open = [...document.querySelectorAll("#order details[open]")].map((details) => details.id);
  document.dispatchEvent(new CustomEvent("redrawing", { detail: form }));
  document.getElementById("order").replaceWith(page.getElementById("order"));
  document.dispatchEvent(new Event("redrawn"));
  for (const name of open) document.getElementById(name)?.setAttribute("open", "");
  const told = page.querySelector(".messages");
  said().textContent = `${told?.textContent.trim() ?? ""} ${document.getElementById("order").dataset.costs.trim()}`;
  said().classList.toggle("error", !!told?.querySelector(".error"));
  // Where the hand was; else its row, or the one that took its place; else its heading.
  const button = document.querySelector(`[name="do"][value="${CSS.escape(act)}"]:not(:disabled)`);
  const same = rows().find((other) => other.dataset.key === (row?.dataset.key ?? act.split(":")[1]));
  const near = same ?? (row ? rows()[place] ?? rows().at(-1) : null);
  const hand = [document.getElementById(id || "?"), button, near?.querySelector("button:not(:disabled)")].find(usable);
  (hand ?? document.getElementById(heading || "said")).focus();
  same?.classList.add("moved");
}

document.addEventListener("submit", (event) => {
  const form = event.target.closest("form[data-order]");
  if (!form || !event.submitter?.value) return;
  event.preventDefault();
  send(form, event.submitter.value, rowOf(event.submitter) ?? rowOf(document.activeElement));
});

const rowOf = (element) => element.closest?.("tr[data-key]");
const formOf = (row) => row.closest("form") ?? row.querySelector("button[form]")?.form;
document.addEventListener("keydown", (event) => {
  const way = { ArrowUp: "up", ArrowDown: "down" }[event.key];
  const row = rowOf(event.target);
  if (!event.altKey || !way || !row || !formOf(row) || event.target.matches("select")) return;
  event.preventDefault();
  send(formOf(row), `${way}:${row.dataset.key}`, row);
});

document.addEventListener("ask", ({ detail }) => send(detail.form, detail.act, detail.row));
