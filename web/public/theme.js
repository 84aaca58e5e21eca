// Before the first paint, so that a dark page does not flash white.
try {
  const kept = localStorage.getItem("theme");
  if (kept === "light" || kept === "dark") document.documentElement.dataset.theme = kept;
} catch {
  // a browser that keeps nothing follows its own setting
}
