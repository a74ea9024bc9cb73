/** Longer words are no slip of the keyboard, and comparing them would cost time. */
const LONGEST_SLIP = 40;

/** So many letters begin a word well enough to guess it. */
const SHORTEST_BEGINNING = 4;

/**
 * The word that was probably meant: the only one of `names` that begins so, else the nearest, when it is within a third
 * of its letters (at least two edits are forgiven), whatever the case. Equally near: the first.
 */
export function nearWord(word: string, names: readonly string[]): string | undefined {
  if (word.length > LONGEST_SLIP) return undefined;
  const begun = names.filter((name) => name.toLowerCase().startsWith(word.toLowerCase()));
  if (word.length >= SHORTEST_BEGINNING && begun.length === 1) return begun[0];
  let nearest: { name: string; edits: number } | undefined;
  for (const name of names) {
    const edits = editsBetween(word.toLowerCase(), name.toLowerCase());
    if (edits > Math.max(2, Math.floor(name.length / 3)) || edits >= name.length) continue;
    if (!nearest || edits < nearest.edits) nearest = { name, edits };
  }
  return nearest?.name;
}

/** How many letters must be put in, left out or exchanged to make one word of the other (Levenshtein's distance). */
function editsBetween(from: string, to: string): number {
  let row = Array.from({ length: to.length + 1 }, (_, at) => at);
  for (const [done, letter] of [...from].entries()) {
    const next = [done + 1];
    for (let at = 0; at < to.length; at += 1) {
      const exchanged = (row[at] ?? 0) + (to[at] === letter ? 0 : 1);
      next.push(Math.min(exchanged, (row[at + 1] ?? 0) + 1, (next[at] ?? 0) + 1));
    }
    row = next;
  }
  return row.at(-1) ?? 0;
}
