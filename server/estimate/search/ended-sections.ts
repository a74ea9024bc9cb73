/*
 * Sections that have ended on a way, and what their pieces cost beyond the lines that bound them: no piece is spliced.
 */
import type { Layers, Stretch } from './layers.ts';
import type { Manner } from './manners.ts';

/** A section that has ended, with those before it. */
export interface Ended extends Stretch {
  wiring: number;
  line: number;
  /** What all sections of its wiring so far cost beyond its line. */
  beyondCents: number;
  before: Ended | undefined;
}

const listed = (ended: Ended | undefined, wiring: number): Ended[] => {
  const some: Ended[] = [];
  for (let one = ended; one; one = one.before) if (one.wiring === wiring) some.unshift(one);
  return some;
};

/** The sections that have ended with this one, and what its pieces cost more than was thought of its wiring. */
export function endSection(
  layers: Layers,
  wiring: number,
  { start, piece, manner, ended }: { start: number; piece: number; manner: Manner; ended: Ended | undefined },
) {
  if (manner.line < 0 || !layers.isAlonePriced(wiring)) return { ended, moreCents: 0 };
  const known = listed(ended, wiring);
  const itself = { wiring, from: start, to: piece, line: manner.line, before: ended };
  const beyondCents = layers.beyondLine(wiring, manner.line, [...known, itself]);
  return { ended: { ...itself, beyondCents }, moreCents: beyondCents - (known.at(-1)?.beyondCents ?? 0) };
}

/** What the pieces of all wirings cost more, now that no further section comes. */
export function atLast(layers: Layers, ended: Ended | undefined): number {
  let cents = 0;
  const seen = new Set<number>();
  for (let one = ended; one; one = one.before) {
    if (seen.has(one.wiring)) continue;
    seen.add(one.wiring);
    cents += layers.beyondLineAtLast(one.wiring, one.line, listed(ended, one.wiring)) - one.beyondCents;
  }
  return cents;
}
