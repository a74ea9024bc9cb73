const STORED = 'feedrun-project';

/** The project that was open last in this tab, to go back to and to show what a price changes. */
export function lastProjectId(): string | undefined {
  try {
    return sessionStorage.getItem(STORED) ?? undefined;
  } catch {
    return undefined; // storage is shut off: the projects' list is the way back
  }
}

/** Remembers the open project for this tab; undefined forgets it. */
export function rememberProject(id: string | undefined): void {
  try {
    if (id === undefined) sessionStorage.removeItem(STORED);
    else sessionStorage.setItem(STORED, id);
  } catch {
    // Storage is shut off: nothing is remembered, and nothing needs it.
  }
}
