// What is now and what comes next, by the phone's own clock; without it the whole day stands there.
const panel = document.getElementById("now");
const rows = [...document.querySelectorAll(".hours.mine > [data-from]")];
const from = ({ dataset }) => Number(dataset.from);
const until = ({ dataset }) => Number(dataset.until);
const AHEAD = 20 * 3600; // seconds; what begins later is another day's

function fill(name, row, more) {
  const line = panel.querySelector(`[data-part=${name}]`);
  line.hidden = !row;
  for (const each of row ? ["title", "clock", "to", "where"] : []) {
    const slot = line.querySelector(`.${each}`);
    if (slot) slot.textContent = row.querySelector(`.${each}`)?.textContent ?? "";
  }
  more(line);
}

function look() {
  const date = new Date();
  const now = Math.floor(date / 1000);
  const on = rows.filter((row) => from(row) <= now && now < until(row)).at(-1);
  const next = rows.find((row) => from(row) > now && from(row) < now + AHEAD);
  for (const row of rows) {
    row.classList.toggle("past", until(row) <= now);
    if (row === on) row.setAttribute("aria-current", "time");
    else row.removeAttribute("aria-current");
  }
  panel.hidden = !on && !next;
  if (panel.hidden) return;
  fill("on", on, () => {});
  fill("next", next, (line) => {
    const wait = next ? Math.ceil((from(next) - now) / 60) : 0;
    line.querySelector(".wait").textContent = wait && wait < 100 ? panel.dataset.in.replace("%s", wait) : "";
  });
  panel.querySelector("[data-part=clock]").textContent = date.toTimeString().slice(0, 5);
}

if (panel && rows.length) {
  look();
  setInterval(look, 15000);
}

// Whether the plan is another one by now, asked when the page is opened and when it is looked at again;
// past the browser's copy (no-store), which would be lost if the page were left meanwhile.
const main = document.getElementById("main");
const newer = document.getElementById("newer");
let asked = 0;
async function ask() {
  if (document.hidden || Date.now() - asked < 300000) return;
  const mine = (asked = Date.now());
  const reply = await fetch(location.href, { cache: "no-store", signal: AbortSignal.timeout(8000) }).catch(() => null);
  const page = new DOMParser().parseFromString(await reply?.text().catch(() => "") ?? "", "text/html");
  const mark = page.getElementById("main")?.dataset.mark;
  // No answer changes nothing, and one that comes after a later question was asked is out of date.
  if (mark && mine === asked) newer.hidden = mark === main.dataset.mark;
}
newer.addEventListener("click", () => location.reload());
document.addEventListener("visibilitychange", ask);
if (navigator.onLine) ask();
