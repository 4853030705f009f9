// The phone's own clock finds what should be ending; every plan is in the page already.
const endings = [...document.querySelectorAll(".ending")];
const of = (name) => endings[at].querySelector(`.${name}`).textContent;
const end = (i) => Number(endings[i].dataset.end);
const panel = document.getElementById("now");
const part = (name) => panel.querySelector(`[data-part=${name}]`);
const says = (words, value) => panel.dataset[words].replace("%s", () => value);
const now = () => Math.floor(Date.now() / 1000);
let at = -1, done = -1, behind = 0, until = 0; // `until` the hand or the answer holds the block
// The end that is nearest, if the day runs as late as it last did; none that has been answered.
function due() {
  const days = [...document.querySelectorAll("[data-from]")];
  const today = days.find(({ dataset }) => dataset.from <= now() && now() <= dataset.until);
  const away = (i) => Math.abs(end(i) + behind - now());
  const left = [...endings.keys()].filter((i) => i > done && today?.contains(endings[i]));
  return left.sort((a, b) => away(a) - away(b))[0] ?? (today ? done : -1);
}

function show(which, seconds = 0) {
  [at, until, panel.hidden] = [which, now() + seconds, which < 0];
  document.getElementById("another-day")?.toggleAttribute("hidden", at >= 0);
  if (panel.hidden) return;
  [part("clock").textContent, part("title").textContent] = [of("clock"), of("title")];
  part("press").textContent = says(now() < end(at) + 60 ? "ends" : "ended", of("title"));
  [part("before").disabled, part("next").disabled] = [at === 0, at === endings.length - 1];
  part("plan").replaceChildren();
}

function answer() {
  const late = Math.max(0, Math.floor((now() - end(at)) / 60));
  const steps = [...endings[at].querySelectorAll("[data-late]")];
  const step = steps.find((each) => each.dataset.late >= late) ?? steps.at(-1);
  const plan = step.cloneNode(true);
  show(at, 600);
  [done, behind] = [at, late * 60];
  const clock = new Date((end(at) + behind + Number(endings[at].dataset.ahead)) * 1000).toISOString();
  plan.querySelector(".clock").textContent = clock.slice(11, 16);
  if (Number(step.dataset.late) !== late) {
    const note = says(step.dataset.late > late ? "as" : "beyond", step.dataset.late);
    plan.querySelector(".by").textContent = `${says("by", late)}. ${note}`;
    if (navigator.onLine) exact(endings[at].dataset.name, late);
  }
  part("plan").replaceChildren(...plan.childNodes);
}
// To the minute, where the network answers; in flight mode what stands there is enough.
async function exact(after, late) {
  const query = new URLSearchParams({ after, late, ...("rain" in panel.dataset && { rain: 1 }) });
  const reply = await fetch(`?${query}`, { signal: AbortSignal.timeout(8000) }).catch(() => null);
  const page = new DOMParser().parseFromString(await reply?.text().catch(() => "") ?? "", "text/html");
  const found = page.querySelectorAll("#answer > :not(h2)");
  if (found.length && at === done && endings[at].dataset.name === after) part("plan").replaceChildren(...found);
}
const look = () => (now() >= until && due() !== at ? show(due()) : at >= 0 && !part("plan").firstChild && show(at, until - now()));
if (panel) {
  const presses = { press: answer, before: () => show(at - 1, 600), next: () => show(at + 1, 600) };
  panel.addEventListener("click", ({ target }) => presses[target.dataset.part]?.());
  look();
  setInterval(look, 15000);
}
