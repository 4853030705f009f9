// Counts the groups and their minutes as they are typed; the server counts the same when it keeps.
import { counted } from "./plural.js";

const tally = document.querySelector("[data-tally]");
const form = tally?.closest("form");

const namesIn = (row) => new Set(row.querySelector("textarea").value.split(/[\n,;]+/)
  .filter((name) => /[\p{L}\p{N}]/u.test(name)).map((name) => name.trim().toLocaleLowerCase()));

function size(row, everybody) {
  const extra = parseInt(row.querySelector("[name$=-extra]").value, 10) || 0;
  const everyone = row.querySelector("[name$=-everyone]").checked;
  return everyone ? Math.max(everybody, extra) : namesIn(row).size + extra;
}

function count() {
  const rows = [...form.querySelectorAll(".row")].filter((row) => !row.querySelector(".remove input")?.checked);
  const everybody = new Set(rows.flatMap((row) => [...namesIn(row)])).size;
  const sizes = rows.map((row) => size(row, everybody)).filter((people) => people > 0);
  const { base, personSeconds, groups, minutes, room, crowded } = tally.dataset;
  const sum = sizes.reduce((all, people) => all + Number(base) + (people * personSeconds) / 60, 0);
  const time = counted(minutes, Math.ceil(sum.toFixed(1)));
  let told = sizes.length ? counted(groups, sizes.length).replace("{time}", () => time) : "";
  if (sizes.length > Number(crowded)) told = room.replace("{told}", () => told);
  if (tally.textContent !== told) tally.textContent = told; // said once, not at every letter
}

form?.addEventListener("input", count);
form?.addEventListener("click", () => setTimeout(count));
