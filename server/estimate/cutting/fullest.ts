/*
 * The fill of a coil that is worth the most: a knapsack, where every length is there a number of times.
 */

/** Pieces that a coil may hold, the most worth for its length first. Lengths and worths are whole numbers. */
export interface Stock {
  /** Index of the length in the job. */
  at: number[];
  lengths: number[];
  counts: number[];
  worths: number[];
  /** What all pieces from here on are worth, and how long the shortest of them is. */
  worthFrom: number[];
  shortestFrom: number[];
}

/** Orders what is there for `fullest`. */
export function stockOf(
  lengths: readonly number[],
  { counts, worths }: { counts: readonly number[]; worths: readonly number[] },
): Stock {
  const of = (values: readonly number[]) => (at: number) => values[at] ?? 0;
  const [lengthOf, countOf, worthOf] = [of(lengths), of(counts), of(worths)];
  const at = [...lengths.keys()].filter((one) => countOf(one) > 0);
  at.sort((a, b) => worthOf(b) * lengthOf(a) - worthOf(a) * lengthOf(b) || a - b);
  const worthFrom = at.map(() => 0);
  const shortestFrom = at.map(() => 0);
  for (let k = at.length - 1; k >= 0; k--) {
    const one = at[k] ?? 0;
    worthFrom[k] = (worthFrom[k + 1] ?? 0) + countOf(one) * worthOf(one);
    shortestFrom[k] = Math.min(shortestFrom[k + 1] ?? Number.POSITIVE_INFINITY, lengthOf(one));
  }
  return { at, lengths: at.map(lengthOf), counts: at.map(countOf), worths: at.map(worthOf), worthFrom, shortestFrom };
}

export interface Fullest {
  /** No fill is worth more than this. */
  atMost: number;
  /** How many of each length of the stock; nothing where no fill that is worth more than the threshold was found. */
  fill?: number[];
  /** How far it looked. */
  steps: number;
}

/**
 * The fill that is worth the most, if it is worth more than a threshold. Depth first, with the worth of the room left
 * at the best worth for length as bound.
 * @param steps  how far it may look; beyond them `atMost` is what the bound says
 */
export function fullest(stock: Stock, { room, above, steps }: { room: number; above: number; steps: number }): Fullest {
  const { lengths, counts, worths, worthFrom, shortestFrom } = stock;
  const fill = lengths.map(() => 0);
  const kinds = lengths.length;
  let best: { worth: number; fill?: number[] } = { worth: above };
  let left = steps;
  const from = (k: number, space: number, worth: number): void => {
    if (worth > best.worth) best = { worth, fill: [...fill] };
    if (k >= kinds || space < (shortestFrom[k] ?? 0)) return;
    if (left < 0 || worth + mostWorth(stock, k, space) <= best.worth || left-- <= 0) return;
    const length = lengths[k] ?? 1;
    for (let count = Math.min(counts[k] ?? 0, Math.floor(space / length)); count >= 0; count--) {
      fill[k] = count;
      from(k + 1, space - count * length, worth + count * (worths[k] ?? 0));
    }
    fill[k] = 0;
  };
  from(0, room, 0);
  const atMost = left >= 0 ? best.worth : Math.min(worthFrom[0] ?? 0, mostWorth(stock, 0, room));
  return {
    atMost: Math.max(atMost, best.worth),
    steps: steps - Math.max(0, left),
    ...(best.fill && { fill: best.fill }),
  };
}

/** What room may be worth if it is filled with pieces from `k` on, were they divisible. */
export function mostWorth({ lengths, worths, worthFrom }: Stock, k: number, room: number): number {
  return Math.min(worthFrom[k] ?? 0, Math.floor((room * (worths[k] ?? 0)) / (lengths[k] ?? 1) + 1e-3));
}

/** A fill of the stock as indices of the lengths of the job, and how many of each. */
export function heldBy({ at }: Stock, fill: readonly number[]): { at: number[]; counts: number[] } {
  const held = { at: [] as number[], counts: [] as number[] };
  fill.forEach((count, k) => {
    if (count === 0) return;
    held.at.push(at[k] ?? 0);
    held.counts.push(count);
  });
  return held;
}
