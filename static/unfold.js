// Sections are folded where the page would be too long: on a phone, and where there are no scripts.
const folds = document.querySelectorAll("details.fold");
if (matchMedia("(min-width: 62rem)").matches) folds.forEach((fold) => (fold.open = true));
