// Sets the remembered theme before the first paint, so that the page doesn't flash in the other one.
try {
  const kept = localStorage.getItem('layshaft-theme');
  if (kept === 'paper' || kept === 'slate') document.documentElement.dataset.theme = kept;
} catch {
  // A browser may refuse storage; the system's preference then decides.
}
