// Words left in this browser by an earlier page of the same wedding: sent, then shown.
import { drop, send, unsent } from "./shelf.js";

const form = document.querySelector("form[data-drafts]");
let typing = false;
form?.addEventListener("input", () => { typing = true; });

// Kept on the page before this one, or shown on this one.
function hasArrived({ sheet, turn }) {
  if (document.querySelector(`.kept-${sheet}`)) return true;
  const showed = form?.elements.showed.value.split(".")[0] === sheet;
  return showed && turn <= Number(form.dataset.turn);
}

async function bring() {
  let found = "";
  for (const words of unsent()) {
    if (form?.elements.sheet.value === words.sheet) continue; // this page's own
    if (hasArrived(words)) { drop(words.sheet); continue; }
    const here = new URL(words.url, location).pathname === location.pathname;
    const draft = await send(words.sheet).catch(() => false);
    if (draft && here) found = `${location.pathname}?sheet=${words.sheet}`;
    else if (draft && document.querySelector(".steps")) found = location.href;
  }
  if (found && !typing) location.replace(found);
}

bring();
addEventListener("online", bring);
