// Before the first paint: the theme that was chosen, so that a dark room is not lit up by a white page.
try {
  const chosen = localStorage.getItem("tapemark.theme");
  if (chosen === "light" || chosen === "dim") document.documentElement.dataset.theme = chosen;
} catch {
  // storage is closed: the system's preference decides
}
