// Offers names typed before, and puts a chosen one among the people. Without it the box is sent
// with the form and the server does the same.
const list = document.getElementById("names");
const known = new Set([...list.options].map((option) => option.value));

function learn(row) {
  for (const name of row.querySelector("[name$=-people]").value.split(/[\n,;]+/).map((each) => each.trim())) {
    if (!name || known.has(name)) continue;
    known.add(name);
    list.append(new Option("", name));
  }
}

function move(box) {
  const people = box.closest(".row").querySelector("[name$=-people]");
  people.value = [people.value.trimEnd(), box.value.trim()].filter(Boolean).join("\n");
  box.value = "";
  people.dispatchEvent(new Event("input", { bubbles: true }));
}

document.addEventListener("change", ({ target }) => {
  const row = target.closest?.(".row");
  if (target.name?.endsWith("-also") && target.value.trim()) move(target);
  else if (target.name?.endsWith("-people")) learn(row);
});
