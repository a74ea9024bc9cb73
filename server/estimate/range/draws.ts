import { normalQuantile } from './normal.ts';

/*
 * Stratified draws: each stream takes one normal score out of the middle of each of so many equal chances, in an order
 * of its own, so that every line fills its whole width in every estimate.
 */

/** How many times the job is drawn. A prime, so that any stride through the scores meets each of them once. */
export const DRAWS = 4_001;
/** Where the draws start: the same lines always give the same range. */
const SEED = 20_250_701;

/** A way through the shuffled scores: where it begins, and how far it goes at each draw. */
export interface Stream {
  at: number;
  stride: number;
}

/** The scores in an order of chance, the same one always. */
const SCORES = shuffledScores(randomFrom(SEED));

/** Streams, one after the other, the same ones always. */
export function streams(): () => Stream {
  const random = randomFrom(SEED + 1);
  return () => ({ at: Math.floor(random() * DRAWS), stride: 1 + Math.floor(random() * (DRAWS - 1)) });
}

/** All scores of a stream. */
export function scoresOf({ at, stride }: Stream): Float64Array {
  let place = at;
  return Float64Array.from({ length: DRAWS }, () => {
    place = (place + stride) % DRAWS;
    return SCORES[place] ?? 0;
  });
}

/** Scores that lines share, already weighted, and how much is left to each line's own. */
export interface SharedScores {
  scores: Float64Array;
  ownWeight: number;
}

/** Mixes causes by their weights. Squares of the weights add up to less than 1: the rest is the line's own. */
export function sharedScores(parts: readonly { weight: number; scores: Float64Array }[]): SharedScores {
  const scores = new Float64Array(DRAWS);
  let own = 1;
  for (const { weight, scores: cause } of parts) {
    own -= weight * weight;
    for (let draw = 0; draw < DRAWS; draw++) scores[draw] = (scores[draw] ?? 0) + weight * (cause[draw] ?? 0);
  }
  return { scores, ownWeight: Math.sqrt(own) };
}

/**
 * Draws a line and adds it to sums, one for each draw. Own and shared scores together are a normal score again.
 * @param table  what the line comes to at normal scores from `-lastScore` up, `perScore` entries to a score
 */
export function addDraws(
  sums: Float64Array,
  {
    own,
    shared: { scores, ownWeight },
    table,
    lastScore,
    perScore,
  }: { own: Stream; shared: SharedScores; table: Float64Array; lastScore: number; perScore: number },
): void {
  let place = own.at;
  for (let draw = 0; draw < DRAWS; draw++) {
    place += own.stride;
    if (place >= DRAWS) place -= DRAWS;
    const score = ownWeight * (SCORES[place] ?? 0) + (scores[draw] ?? 0);
    sums[draw] = (sums[draw] ?? 0) + valueAt(table, (score + lastScore) * perScore);
  }
}

/** The value at a place between the entries of a table; beyond its ends, that of the end. */
export function valueAt(table: Float64Array, place: number): number {
  const last = table.length - 1;
  const inside = Math.max(0, Math.min(place, last));
  const below = Math.floor(inside);
  const low = table[below] ?? 0;
  return below === last ? low : low + (inside - below) * ((table[below + 1] ?? low) - low);
}

function shuffledScores(random: () => number): Float64Array {
  const scores = Float64Array.from({ length: DRAWS }, (_, at) => normalQuantile((at + 0.5) / DRAWS));
  for (let at = DRAWS - 1; at > 0; at--) {
    const other = Math.floor(random() * (at + 1));
    const score = scores[at] ?? 0;
    scores[at] = scores[other] ?? 0;
    scores[other] = score;
  }
  return scores;
}

/** Numbers from 0 up to 1, the same ones for one seed: a counter, mixed in 32 bits (the mulberry32 mixing, from memory). */
function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}
