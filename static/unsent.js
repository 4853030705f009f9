// Words left in this browser by an earlier page of the same wedding: sent, then shown.
import { drop, send, unsent } from "./shelf.js";

const form = document.querySelector("form[data-drafts]");
const ON_ITS_WAY = 60_000; // milliseconds
let typing = false;
form?.addEventListener("input", () => { typing = true; });

// Kept on the page before this one, or shown on this one.
function hasArrived({ sheet, turn }) {
  if (document.querySelector(`.kept-${sheet}`)) return true;
  const showed = form?.elements.showed.value.split(".")[0] === sheet;
  return showed && turn <= Number(form.dataset.turn);
}

// The list of steps says that something is begun; its links stay, so that no tap on one is lost.
async function mark() {
  const steps = [...document.querySelectorAll(".steps li")];
  if (!steps.length) return;
  const page = new DOMParser().parseFromString(await (await fetch(location.href)).text(), "text/html");
  page.querySelectorAll(".steps li").forEach((fresh, i) => {
    steps[i].className = fresh.className;
    for (const part of [".step-mark", ".step-hint"]) steps[i].querySelector(part).textContent = fresh.querySelector(part).textContent;
  });
}

async function bring() {
  let found = "";
  for (const words of unsent()) {
    if (form?.elements.sheet.value === words.sheet) continue; // this page's own
    if (hasArrived(words)) { drop(words.sheet); continue; }
    const here = new URL(words.url, location).pathname === location.pathname;
    if (words.sent) { // this page may have been on its way when the words arrived
      const late = here && Date.now() - words.sent < ON_ITS_WAY;
      if (late) found = `${location.pathname}?sheet=${words.sheet}`;
      if (here || Date.now() - words.sent > ON_ITS_WAY) drop(words.sheet);
      continue;
    }
    const draft = await send(words.sheet).catch(() => false);
    if (draft && here) found = `${location.pathname}?sheet=${words.sheet}`;
    else if (draft) await mark().catch(() => {});
  }
  if (found && !typing) location.replace(found);
}

bring();
addEventListener("online", bring);
