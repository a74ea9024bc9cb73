import { normalQuantile } from './normal.ts';

/*
 * Draws that fill their space evenly: each stream takes one normal score out of the middle of each of so many equal
 * chances, so that every line fills its whole width in every estimate. What matters most goes in the strides of a
 * lattice, which spreads the combinations evenly too; the rest in orders of chance.
 */

/**
 * How many times the job is drawn. A prime, so that any stride through the scores meets each of them once. Drawn like
 * this the tenth and ninetieth percentiles scatter no more than those of 10,000 plain draws: test/reference/range.
 */
export const DRAWS = 8_191;
/** Where the draws start: the same job always gives the same range. */
export const SEED = 20_250_701;
/**
 * Strides of a rank-1 lattice of 8,191 points, the weightiest dimension first: sought component by component for the
 * least P2 (the worst error on smooth periodic functions), weights 0.5 / j^1.5. Computed once for this.
 */
const LATTICE = [
  1, 2431, 3799, 1141, 3006, 709, 500, 2915, 2577, 3664, 402, 1743, 1082, 341, 3875, 2940, 3105, 1633, 3054, 3772, 179,
  1334, 3955, 1248, 232, 1448, 3586, 876, 2535, 319, 2121, 3360,
];

/** A way through scores: where it begins, and how far it goes at each draw. */
export interface Stream {
  scores: Float32Array;
  at: number;
  stride: number;
}

/** The scores of equal chances, rising. Of single precision, which is finer than any price, and half as far to fetch. */
const RISING = Float32Array.from({ length: DRAWS }, (_, at) => normalQuantile((at + 0.5) / DRAWS));

/** Streams, one after the other, the same ones for the same seed: those of the lattice first, then orders of chance. */
export function streamsOf(seed: number): () => Stream {
  const random = randomFrom(seed);
  const inChance = seed === SEED ? usualOrder() : shuffled(RISING, randomFrom(seed + 1));
  let dimension = 0;
  return () => {
    const stride = LATTICE[dimension++];
    const at = Math.floor(random() * DRAWS);
    if (stride !== undefined) return { scores: RISING, at, stride };
    return { scores: inChance, at, stride: 1 + Math.floor(random() * (DRAWS - 1)) };
  };
}

/** The usual seed's order of chance, made when it is first asked for: most jobs ask for it. */
function usualOrder(): Float32Array {
  order ??= shuffled(RISING, randomFrom(SEED + 1));
  return order;
}
let order: Float32Array | undefined;

/** All scores of a stream, in the order of the draws. */
export function scoresOf({ scores, at, stride }: Stream): Float32Array {
  const drawn = new Float32Array(DRAWS);
  let place = at;
  for (let draw = 0; draw < DRAWS; draw++) {
    place += stride;
    if (place >= DRAWS) place -= DRAWS;
    drawn[draw] = scores[place] ?? 0;
  }
  return drawn;
}

/** Scores that lines share, already weighted, and how much is left to each line's own. */
export interface SharedScores {
  scores: Float32Array;
  ownWeight: number;
}

/** Mixes causes by their weights. Squares of the weights add up to less than 1: the rest is the line's own. */
export function sharedScores(parts: readonly { weight: number; scores: Float32Array }[]): SharedScores {
  const scores = new Float32Array(DRAWS);
  let own = 1;
  for (const { weight, scores: cause } of parts) {
    if (weight === 0) continue;
    own -= weight * weight;
    for (let draw = 0; draw < DRAWS; draw++) scores[draw] = (scores[draw] ?? 0) + weight * (cause[draw] ?? 0);
  }
  return { scores, ownWeight: Math.sqrt(own) };
}

/** Tables are read at normal scores from −4 to 4, four entries to a score, and between them. */
export const TABLE = { lastScore: 4, perScore: 4 } as const;
/** Entries of one table. */
export const TABLE_SIZE = 2 * TABLE.lastScore * TABLE.perScore + 1;
/** Just below the last entry, so that the one above it is always there. */
const LAST_PLACE = TABLE_SIZE - 1 - 1e-9;

/** Where a score stands in a table. */
export function placeOf(score: number): number {
  return Math.max(0, Math.min(LAST_PLACE, (score + TABLE.lastScore) * TABLE.perScore));
}

interface Drawn {
  own: Stream;
  shared: SharedScores;
  /** What a line comes to by score; several tables one behind the other, where `tableOf` says which one a draw takes. */
  tables: Float64Array;
  tableOf?: Uint8Array;
}

/**
 * Draws a line and adds it to sums, one for each draw. Own and shared scores together are a normal score again. Most of
 * a range's time is spent here: hence plain loops, and `placeOf` written out.
 */
export function addDraws(sums: Float64Array, { own, shared, tables, tableOf }: Drawn): void {
  if (tableOf && tables.length > TABLE_SIZE) addFromSeveral(sums, { own, shared, tables, tableOf });
  else addFromOne(sums, { own, shared, tables });
}

function addFromOne(sums: Float64Array, { own, shared: { scores, ownWeight }, tables }: Drawn): void {
  const { scores: ordered, stride } = own;
  const weight = ownWeight * TABLE.perScore;
  let { at } = own;
  for (let draw = 0; draw < DRAWS; draw++) {
    at += stride;
    if (at >= DRAWS) at -= DRAWS;
    let place = weight * (ordered[at] ?? 0) + TABLE.perScore * (scores[draw] ?? 0) + MIDDLE;
    if (place < 0) place = 0;
    else if (place > LAST_PLACE) place = LAST_PLACE;
    const entry = place | 0;
    const low = tables[entry] ?? 0;
    sums[draw] = (sums[draw] ?? 0) + low + (place - entry) * ((tables[entry + 1] ?? 0) - low);
  }
}
/** Where the score of 0 stands in a table. */
const MIDDLE = TABLE.lastScore * TABLE.perScore;

function addFromSeveral(sums: Float64Array, { own, shared, tables, tableOf }: Required<Drawn>): void {
  const { scores: ordered, stride } = own;
  const { scores } = shared;
  const weight = shared.ownWeight * TABLE.perScore;
  let { at } = own;
  for (let draw = 0; draw < DRAWS; draw++) {
    at += stride;
    if (at >= DRAWS) at -= DRAWS;
    let place = weight * (ordered[at] ?? 0) + TABLE.perScore * (scores[draw] ?? 0) + MIDDLE;
    if (place < 0) place = 0;
    else if (place > LAST_PLACE) place = LAST_PLACE;
    const entry = place | 0;
    const index = (tableOf[draw] ?? 0) * TABLE_SIZE + entry;
    const low = tables[index] ?? 0;
    sums[draw] = (sums[draw] ?? 0) + low + (place - entry) * ((tables[index + 1] ?? 0) - low);
  }
}

/** In which draws something happens that has this chance: 1 where it does. As exactly as the draws can be divided. */
export function happens(own: Stream, chance: number): Uint8Array {
  const below =
    chance <= 0 ? Number.NEGATIVE_INFINITY : chance >= 1 ? Number.POSITIVE_INFINITY : normalQuantile(chance);
  const scores = scoresOf(own);
  const drawn = new Uint8Array(DRAWS);
  for (let draw = 0; draw < DRAWS; draw++) if ((scores[draw] ?? 0) < below) drawn[draw] = 1;
  return drawn;
}

/** Which of so many equal parts of its chances each draw's score lies in, counted from 0. */
export function partsOf(scores: Float32Array, parts: number): Uint8Array {
  const drawn = new Uint8Array(DRAWS);
  for (let part = 1; part < parts; part++) {
    const end = normalQuantile(part / parts);
    for (let draw = 0; draw < DRAWS; draw++) if ((scores[draw] ?? 0) >= end) drawn[draw] = part;
  }
  return drawn;
}

/** The value at a place between the entries of a table; beyond its ends, that of the end. */
export function valueAt(table: Float64Array, place: number): number {
  const last = table.length - 1;
  const inside = Math.max(0, Math.min(place, last));
  const below = Math.floor(inside);
  const low = table[below] ?? 0;
  return below === last ? low : low + (inside - below) * ((table[below + 1] ?? low) - low);
}

function shuffled(rising: Float32Array, random: () => number): Float32Array {
  const scores = rising.slice();
  for (let at = scores.length - 1; at > 0; at--) {
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
