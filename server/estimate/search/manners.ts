/*
 * In which manner the conductors of a section are bounded, and what was said of each wiring on the way to it.
 */
import type { Layers } from './layers.ts';

/** Three bits for each wiring: not used, alone, or by which line and whether once or more. */
const BITS = 3;
const UNUSED = 0;
const ALONE = 1;
const onceBy = (line: number) => 2 + 2 * line;
const moreBy = (line: number) => 3 + 2 * line;
const manyOf = (used: number, wiring: number) => (used >> (BITS * wiring)) & 7;
const withUse = (used: number, wiring: number, use: number) =>
  (used & ~(7 << (BITS * wiring))) | (use << (BITS * wiring));

/** How a section's conductors are bounded: alone, or by a line that its wiring may have paid for already. */
export interface Manner {
  used: number;
  /** Of its wiring; -1 where it is alone. */
  line: number;
  paysFixed: boolean;
  withMakeup: boolean;
}

/** The ways to buy the conductors of a section that begins. */
export function mannersOf(layers: Layers, wiring: number, used: number): Manner[] {
  const use = manyOf(used, wiring);
  if (!layers.isAlonePriced(wiring)) {
    const withMakeup = use <= ALONE;
    return [{ used: withUse(used, wiring, use === UNUSED ? ALONE : moreBy(0)), line: 0, paysFixed: false, withMakeup }];
  }
  if (use === ALONE) return [];
  if (use !== UNUSED) {
    const line = (use >> 1) - 1;
    const isSecond = use === onceBy(line);
    return [{ used: withUse(used, wiring, moreBy(line)), line, paysFixed: false, withMakeup: isSecond }];
  }
  const alone = { used: withUse(used, wiring, ALONE), line: -1, paysFixed: false, withMakeup: true };
  const byLine = layers.lines(wiring).map((_, line) => {
    return { used: withUse(used, wiring, onceBy(line)), line, paysFixed: true, withMakeup: true };
  });
  return [alone, ...byLine];
}

/** Was it said of some wiring that it comes again, and it does not? */
export function isOwed(layers: Layers, used: number): boolean {
  for (let wiring = 0; wiring < layers.wirings; wiring += 1) {
    const use = manyOf(used, wiring);
    if (use > ALONE && use % 2 === 0) return true;
  }
  return false;
}

/**
 * What was said of wirings, once the section at a piece has ended. What comes before a change does not come again after
 * it: nothing of it is kept then. Nothing where the section may not end there.
 */
export function usedAfter(layers: Layers, piece: number, used: number): number | undefined {
  if (piece + 1 !== layers.changesAt) return used;
  return isOwed(layers, used) ? undefined : 0;
}

/** What the conductors of a section cost. */
export function wireCents(
  layers: Layers,
  wiring: number,
  { from, to, manner }: { from: number; to: number; manner: Manner },
) {
  if (manner.line < 0) return layers.aloneCents(wiring, from, to);
  const line = layers.lines(wiring)[manner.line];
  if (!line) return 0;
  const cents = layers.pooledCents(wiring, { from, to, line: manner.line, withMakeup: manner.withMakeup });
  return cents + (manner.paysFixed ? line.fixedCents : 0);
}
