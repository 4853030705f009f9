// The number of a row is its handle, so that names can still be selected and copied.
const rows = () => [...document.querySelectorAll("tr[data-key]")];
const rowOf = (element) => element.closest?.("tr[data-key]");
const formOf = (row) => row.closest("form") ?? row.querySelector("button[form]")?.form;
const arm = () => rows().forEach((row) => { row.cells[0].draggable = !!formOf(row); });
let dragged = null;
arm();
document.addEventListener("redrawn", arm);
document.addEventListener("dragstart", (event) => { dragged = rowOf(event.target); });
document.addEventListener("dragover", (event) => { if (dragged && rowOf(event.target)) event.preventDefault(); });
document.addEventListener("dragend", () => { dragged = null; });
document.addEventListener("drop", (event) => {
  const row = rowOf(event.target);
  if (!dragged || !row || row === dragged) return;
  event.preventDefault();
  const act = `to:${dragged.dataset.key}:${row.dataset.place}`;
  document.dispatchEvent(new CustomEvent("ask", { detail: { form: formOf(row), act, row: dragged } }));
});
