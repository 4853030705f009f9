// Adds and removes rows without a round trip. Without it the same buttons and boxes post the form.
const focusFirst = (row) => row.querySelector("input:not([type=hidden]), select, textarea")?.focus();

function addRow(form, prefix) {
  const total = form.elements[`${prefix}-TOTAL_FORMS`];
  const section = form.querySelector(`[data-prefix="${prefix}"]`);
  const template = section.querySelector("template");
  const holder = document.createElement("template");
  holder.innerHTML = template.innerHTML.replaceAll("__prefix__", total.value);
  const row = holder.content.querySelector(".row");
  row.querySelector("[name$=-key]").value = newKey();
  for (const span of row.querySelectorAll(".row-number")) {
    span.textContent = Number(total.value) + 1;
  }
  template.before(row);
  total.value = Number(total.value) + 1;
  bindRow(row);
  focusFirst(row);
}

// Known by its key, a row is saved once however often the form is sent.
function newKey() {
  const bytes = crypto.getRandomValues(new Uint8Array(8));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

// A removed row stays in the form, ticked, so that the server hears of it and it can come back.
function bindRow(row) {
  const box = row.querySelector(".remove input");
  if (!box) return;
  const show = () => row.classList.toggle("removed", box.checked);
  box.addEventListener("change", show);
  show();
}

for (const form of document.querySelectorAll("form[data-rows]")) {
  form.querySelectorAll(".row").forEach(bindRow);
  form.addEventListener("click", (event) => {
    const prefix = event.target.dataset?.add;
    if (!prefix) return;
    event.preventDefault();
    addRow(form, prefix);
  });
}

document.querySelector("[data-focus]")?.focus();
