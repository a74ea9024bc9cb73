import type { Line } from './answer.ts';

/**
 * Lines of one description and book that were made before, by what decides their numbers. A job that is taken off again
 * at another length buys most of its things again: those lines come from here, with the reasons of their first time, so
 * that only their numbers may be used.
 */
export type KnownLines = Map<string, Line[]>;

/** The lines by this text, made where they are not known yet. */
export function once(known: KnownLines, words: string, make: () => Line[]): Line[] {
  const found = known.get(words);
  if (found) return found;
  const made = make();
  known.set(words, made);
  return made;
}
