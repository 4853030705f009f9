// Says before the sending what would be refused after it, and that sending takes a while.
for (const form of document.querySelectorAll("form[data-pictures]")) {
  const { most, megabytes, large, many, sending } = form.dataset;
  const input = form.elements.files;
  const said = form.querySelector("[data-said]");
  const name = (file) => (file.name.length > 60 ? `${file.name.slice(0, 59)}…` : file.name);

  function look() {
    const files = [...input.files];
    const lines = files
      .filter((file) => file.size > megabytes * 1024 * 1024)
      .map((file) => large.replace("{name}", name(file)).replace("{size}", Math.ceil(file.size / 1024 / 1024)));
    const room = most - form.querySelectorAll(".row:not(.removed) img").length;
    if (files.length > room) lines.push(many.replace("{room}", room));
    said.replaceChildren(...lines.map((line) => Object.assign(document.createElement("p"), { textContent: line })));
  }

  input?.addEventListener("change", look);
  form.addEventListener("submit", () => { if (input?.files.length) said.textContent = sending; });
}
