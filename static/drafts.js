// Writes down what is typed, in the browser at once and on the server soon, until "Keep" is
// pressed. Without it the page works the same and "Keep" keeps.
import { drop, put, send } from "./shelf.js";

const form = document.querySelector("form[data-drafts]");
const status = form.querySelector("[data-said]");
const { sheet, turn } = form.elements;
const SOON = 1000, LATER = 5000; // milliseconds
let timer, waiting = false, sending = false, tried = false;

function say(words) {
  const time = new Date().toLocaleTimeString(document.documentElement.lang, { hour: "2-digit", minute: "2-digit" });
  const text = words.replace("{time}", time);
  if (status.textContent !== text) status.textContent = text;
}

function write() {
  turn.value = Math.round(performance.timeOrigin + performance.now());
  const body = new URLSearchParams(new FormData(form)).toString();
  put(sheet.value, { url: form.action, turn: Number(turn.value), body });
  waiting = true;
}

async function push() {
  clearTimeout(timer);
  if (!waiting || sending) return;
  const sent = turn.value;
  sending = true;
  try {
    const draft = await send(sheet.value);
    if (sent === turn.value) waiting = false;
    say(draft ? status.dataset.said : "");
    if (waiting) timer = setTimeout(push, SOON);
  } catch (answer) {
    say([403, 404].includes(answer.status) ? status.dataset.refused : status.dataset.alone);
    timer = setTimeout(push, LATER);
  }
  sending = false;
}

form.addEventListener("input", () => {
  write();
  clearTimeout(timer);
  timer = setTimeout(push, SOON);
});
form.addEventListener("submit", (event) => {
  clearTimeout(timer);
  if (event.submitter?.value === "forget") return drop(sheet.value);
  if (waiting) write();
  if (navigator.onLine || tried) return;
  event.preventDefault(); // the browser would show its own page in place of this one
  tried = waiting = true;
  write();
  push().finally(() => { if (!waiting) form.requestSubmit(event.submitter); tried = false; });
});
const leave = () => { if (waiting && document.visibilityState === "hidden") send(sheet.value).catch(() => {}); };
document.addEventListener("visibilitychange", leave);
addEventListener("online", push);

// Typed before this script was there, on a slow line: what the boxes hold is not what they came with.
const filled = (each) => new URLSearchParams(new FormData(each)).toString();
const came = form.cloneNode(true);
came.reset();
if (filled(came) !== filled(form)) form.dispatchEvent(new Event("input"));
