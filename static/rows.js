// Adds and removes rows without a round trip. Without it the same buttons and boxes post the form.
const focusFirst = (row) => row.querySelector("input:not([type=hidden]), select, textarea")?.focus();

// The blank row's names, ids and their kin say __prefix__ where a row's own number stands.
function number(row, count) {
  for (const element of [row, ...row.querySelectorAll("*")]) {
    for (const attribute of element.attributes) {
      attribute.value = attribute.value.replaceAll("__prefix__", count);
    }
  }
}

function addRow(form, prefix) {
  const total = form.elements[`${prefix}-TOTAL_FORMS`];
  const section = form.querySelector(`[data-prefix="${prefix}"]`);
  const template = section.querySelector("template");
  const row = template.content.querySelector(".row").cloneNode(true);
  number(row, Number(total.value));
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
