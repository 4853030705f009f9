// Counts the groups and their minutes as they are typed; the server counts the same when it keeps.
const tally = document.querySelector("[data-tally]");
const form = tally?.closest("form");

function size(row) {
  if (row.querySelector(".remove input")?.checked) return 0;
  const names = row.querySelector("textarea").value.split(/[\n,;]+/).filter((name) => /[\p{L}\p{N}]/u.test(name));
  return names.length + (parseInt(row.querySelector("[name$=-extra]").value, 10) || 0);
}

function count() {
  const sizes = [...form.querySelectorAll(".row")].map(size).filter((people) => people > 0);
  const { base, personSeconds, one, many } = tally.dataset;
  const minutes = sizes.reduce((sum, people) => sum + Number(base) + (people * personSeconds) / 60, 0);
  const words = sizes.length > 1 ? many : sizes.length ? one : "";
  tally.textContent = words.replace("{count}", sizes.length).replace("{minutes}", Math.ceil(minutes.toFixed(1)));
}

form?.addEventListener("input", count);
form?.addEventListener("click", () => setTimeout(count));
