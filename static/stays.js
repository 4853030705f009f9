// Pages that are sent whole (a list to paste, lines beside pictures, what is not right): their words
// stay in this browser until a page that follows says that they came. Files cannot stay.
const said = document.querySelector("[data-stays]");
const prefix = "foreday-page:";
const take = (act) => { try { return act(localStorage); } catch { return null; } };

const boxesOf = (form) => [...form.querySelectorAll("textarea[name], input[type=text][name]")];
// A picture's line goes with the picture, whichever number it has by then.
const nameOf = (box) => {
  const row = box.closest(".row")?.querySelector("[name$=-key]")?.value ?? "";
  return `${row}:${box.name.split("-").at(-1)}`;
};

// What was sent came if the page after it stands here; one step back to it after a cut says nothing.
const [{ type }] = performance.getEntriesByType("navigation");
const from = document.referrer && new URL(document.referrer).pathname;
if (type === "navigate" && take((shelf) => JSON.parse(shelf[prefix + from]).sent)) take((shelf) => shelf.removeItem(prefix + from));

function stay(form, key) {
  const words = take((shelf) => JSON.parse(shelf[key]).words) ?? {};
  const put = (sent) => take((shelf) => shelf.setItem(key, JSON.stringify({ words, sent })));
  let brought = false;
  for (const box of boxesOf(form)) {
    const kept = words[nameOf(box)];
    if (kept === undefined || kept === box.value || box.value !== box.defaultValue) continue;
    box.value = kept;
    brought = true;
  }
  if (brought) said.textContent = said.dataset.stays;
  form.addEventListener("input", ({ target }) => {
    if (!boxesOf(form).includes(target)) return;
    words[nameOf(target)] = target.value;
    put(false);
  });
  form.addEventListener("submit", (event) => {
    if (navigator.onLine) return Object.keys(words).length && put(true);
    event.preventDefault(); // the browser would show its own page in place of this one
    said.textContent = said.dataset.alone;
  });
}

if (said) stay(said.closest("form"), prefix + location.pathname);
