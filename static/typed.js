// What was typed in the boxes of other forms stays when one act redraws the page.
let kept = [];
const boxes = () => [...document.querySelectorAll("#order :is(input, select)[id]")];
const differs = (box) => box.type === "checkbox" ? box.checked !== box.defaultChecked
  : box.tagName === "SELECT" ? !box.selectedOptions[0]?.defaultSelected && box.selectedIndex > 0
  : box.value !== box.defaultValue;

document.addEventListener("redrawing", ({ detail }) => {
  kept = boxes().filter((box) => box.form !== detail && differs(box))
    .map((box) => [box.id, box.type === "checkbox" ? "checked" : "value", box.type === "checkbox" ? box.checked : box.value]);
});

document.addEventListener("redrawn", () => {
  for (const [id, name, value] of kept) {
    const box = document.getElementById(id);
    if (box) box[name] = value;
  }
});
