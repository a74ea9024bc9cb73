// Runs before the first paint, so that a chosen light or dark sheet never flashes the other one.
try {
  const chosen = localStorage.getItem('feedrun-sheet');
  if (chosen === 'light' || chosen === 'dark') document.documentElement.dataset.sheet = chosen;
} catch {
  // Storage is shut off: the system's choice holds.
}
