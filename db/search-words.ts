/** A word as the search index cuts them: letters, digits and marks that belong to letters. */
const WORD = /[\p{L}\p{N}\p{M}\p{Co}]+/gu;

/**
 * Makes a query of the search index from what somebody typed: every word must be there, and words with letters match
 * from their start on. A number is a size, so it matches whole: 6 does not find 60. Signs mean nothing, so that
 * nothing typed is a mistake.
 * @returns a query, or nothing where no word was typed
 */
export function searchQuery(typed: string): string | undefined {
  const words = wordsOf(typed);
  if (words.length === 0) return undefined;
  return words.map((word) => (/^\p{N}+$/u.test(word) ? `"${word}"` : `"${word}"*`)).join(' ');
}

/** The words of a text, as the search index cuts them. */
export function wordsOf(text: string): string[] {
  return text.match(WORD) ?? [];
}
