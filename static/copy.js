// Copies the link. Without it the link can still be selected by hand.
for (const button of document.querySelectorAll("[data-copy]")) {
  button.hidden = false;
  button.addEventListener("click", async () => {
    const field = document.getElementById(button.dataset.copy);
    field.select();
    try {
      await navigator.clipboard.writeText(field.value);
    } catch {
      document.execCommand("copy"); // plain http in a home network has no clipboard
    }
    const status = document.getElementById("copied");
    status.textContent = status.dataset.words;
  });
}
