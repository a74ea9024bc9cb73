/*
 * What each piece is worth: the dual prices of the relaxed problem, in which fills of coils may be bought in fractions.
 * They are found by column generation and then made whole numbers. What the pieces are worth in all, less what fills
 * are worth above the price of their coils, is the least that the pieces can cost: that holds for any worths at all,
 * so that nothing hangs on how well they were found.
 */
import { type Fullest, fullest, heldBy, stockOf } from './fullest.ts';
import type { CuttingJob } from './job.ts';
import { type Basis, enter, unitBasis } from './simplex.ts';

/** Worths are whole thousandths of a cent. */
export const PARTS_OF_A_CENT = 1000;
/** A fill that would better the relaxed cost by less than this, in thousandths of a cent, is left. */
const TOO_LITTLE = 20;
/** Ours: how often fills are exchanged, and how far one search for a fill goes, before what was reached is taken. */
const MOST_EXCHANGES = 3000;
const FEW_FILL_STEPS = 200;
const MOST_FILL_STEPS = 10_000;

/** Amounts are set this little apart, so that exchanges do not go in circles; the bound knows nothing of them. */
const APART = 1e-6;

/** A way to fill a coil: indices of the lengths of the job, and how many of each. */
export interface Fill {
  coil: number;
  at: number[];
  counts: number[];
}
/** What is still to be cut, and how many coils of each kind may and must still be bought. */
export interface Left {
  counts: readonly number[];
  /** One range a coil of the job. */
  ranges: readonly { least: number; most: number }[];
}
export interface Worths {
  /** Of each length, in thousandths of a cent. */
  worths: number[];
  /** What a coil of each kind is worth more than what it holds, because so many must be bought (less: may be). */
  coilWorths: number[];
  /** What is left costs at least this, in thousandths of a cent. */
  least: number;
  /** Coils of each kind in the relaxed problem. */
  coils: number[];
}

/** A row of the relaxed problem beside those of the pieces: a coil must be bought so often, or may. */
interface LimitRow {
  coil: number;
  must: boolean;
}
interface Relaxed {
  job: CuttingJob;
  left: Left;
  /** Lengths of which some are left: one row each. */
  rows: number[];
  limits: LimitRow[];
  basis: Basis;
  fills: Fill[];
  work: { steps: number };
  tooDear: number;
}

/**
 * What each length is worth for what is left.
 * @param tooDear  a cost that is of no interest, in cents: what cannot be cut is taken to cost that
 * @param fills    known fills; what is found is added
 * @param work     counts the steps that were taken
 */
export function worthsOf(
  job: CuttingJob,
  left: Left,
  { tooDear, fills, work }: { tooDear: number; fills: Fill[]; work: { steps: number } },
): Worths {
  const relaxed = start({ job, left, tooDear, fills, work });
  for (let exchange = 0; ; exchange++) {
    if (exchange < MOST_EXCHANGES && exchangeKnown(relaxed)) continue;
    const whole = wholeWorths(relaxed);
    const quick = priced(relaxed, whole, FEW_FILL_STEPS);
    const found = quick.added.length > 0 && exchange < MOST_EXCHANGES ? quick : priced(relaxed, whole, MOST_FILL_STEPS);
    fills.push(...found.added);
    if (found.added.length > 0 && exchange < MOST_EXCHANGES) continue;
    return { ...whole, least: leastOf(relaxed, { ...whole, found: found.found }), coils: coilsOf(relaxed) };
  }
}

function start({ job, left, tooDear, fills, work }: Omit<Relaxed, 'rows' | 'limits' | 'basis'>): Relaxed {
  const rows = [...left.counts.keys()].filter((at) => (left.counts[at] ?? 0) > 0);
  const pieces = rows.reduce((total, at) => total + (left.counts[at] ?? 0), 0);
  const limits = left.ranges.flatMap(({ least, most }, coil): LimitRow[] => [
    ...(least > 0 ? [{ coil, must: true }] : []),
    ...(most < pieces ? [{ coil, must: false }] : []),
  ]);
  const limitOf = ({ coil, must }: LimitRow) => left.ranges[coil]?.[must ? 'least' : 'most'] ?? 0;
  const basis = unitBasis({
    amounts: [...rows.map((at) => left.counts[at] ?? 0), ...limits.map(limitOf)].map(
      (amount, row) => amount + APART * (1 + ((row * 37) % 61)),
    ),
    worths: [...rows.map((at) => job.byFoot[at]?.cents ?? tooDear), ...limits.map(({ must }) => (must ? tooDear : 0))],
  });
  return { job, left, rows, limits, basis, fills, work, tooDear };
}

/** Takes the known fill into the basis that betters the relaxed cost the most. Fills are cut down to what is left. */
function exchangeKnown(relaxed: Relaxed): boolean {
  const { job, left, rows, limits, basis, fills, work } = relaxed;
  const limitWorths = coilWorths(relaxed);
  const worths = job.lengths.map(() => 0);
  rows.forEach((at, row) => {
    worths[at] = basis.worths[row] ?? 0;
  });
  let best = { column: -1, gain: TOO_LITTLE / PARTS_OF_A_CENT };
  for (let column = 0; column < fills.length; column++) {
    const { coil = 0, at: held = [], counts = [] } = fills[column] ?? {};
    let gain = (limitWorths[coil] ?? 0) - (job.coils[coil]?.cents ?? 0);
    for (let of = 0; of < held.length; of++) {
      const at = held[of] ?? 0;
      gain += Math.min(counts[of] ?? 0, left.counts[at] ?? 0) * (worths[at] ?? 0);
    }
    if (gain > best.gain) best = { column, gain };
  }
  work.steps += 1 + ((fills.length * 4 + rows.length * rows.length) >> 5);
  const fill = fills[best.column];
  if (!fill) return exchangeUnit(relaxed);
  const inFill = job.lengths.map(() => 0);
  fill.at.forEach((at, of) => {
    inFill[at] = Math.min(fill.counts[of] ?? 0, left.counts[at] ?? 0);
  });
  const held = [...rows.map((at) => inFill[at] ?? 0), ...limits.map(({ coil }) => (coil === fill.coil ? 1 : 0))];
  enter(basis, { held, ...best });
  return true;
}

/** The same with a piece by the foot, or with what a limit leaves open. */
function exchangeUnit({ job, rows, limits, basis }: Relaxed): boolean {
  const gains = basis.worths.map((worth, row) => {
    const at = rows[row];
    if (at !== undefined) return worth - (job.byFoot[at]?.cents ?? Number.POSITIVE_INFINITY);
    return limits[row - rows.length]?.must ? -worth : worth;
  });
  const gain = Math.max(...gains);
  if (gain <= TOO_LITTLE / PARTS_OF_A_CENT) return false;
  const row = gains.indexOf(gain);
  const sign = limits[row - rows.length]?.must ? -1 : 1;
  enter(basis, { held: gains.map((_, of) => (of === row ? sign : 0)), gain, column: -1 });
  return true;
}

/** What a coil of each kind is worth for the limits alone, in cents. */
function coilWorths({ job, rows, limits, basis }: Relaxed): number[] {
  const worths = job.coils.map(() => 0);
  limits.forEach(({ coil }, of) => {
    worths[coil] = (worths[coil] ?? 0) + (basis.worths[rows.length + of] ?? 0);
  });
  return worths;
}

interface Whole {
  worths: number[];
  coilWorths: number[];
}

/** Worths in whole thousandths of a cent; no piece is worth more than it costs by the foot. */
function wholeWorths(relaxed: Relaxed): Whole {
  const { job, rows, basis } = relaxed;
  const worths = job.lengths.map(() => 0);
  rows.forEach((at, row) => {
    const alone = (job.byFoot[at]?.cents ?? Number.POSITIVE_INFINITY) * PARTS_OF_A_CENT;
    worths[at] = Math.floor(Math.min(alone, Math.max(0, (basis.worths[row] ?? 0) * PARTS_OF_A_CENT)));
  });
  return { worths, coilWorths: coilWorths(relaxed).map((worth) => Math.floor(worth * PARTS_OF_A_CENT)) };
}

/** The fill of each coil that is worth the most, and those that better the relaxed cost. */
function priced({ job, left, work }: Relaxed, whole: Whole, steps: number): { found: Fullest[]; added: Fill[] } {
  const stock = stockOf(job.lengths, { counts: left.counts, worths: whole.worths });
  const prices = job.coils.map(({ cents }, coil) => cents * PARTS_OF_A_CENT - (whole.coilWorths[coil] ?? 0));
  const found = job.coils.map(({ length }, coil): Fullest => {
    if (left.ranges[coil]?.most === 0) return { atMost: 0, steps: 0 };
    return fullest(stock, { room: length, above: prices[coil] ?? 0, steps });
  });
  work.steps += found.reduce((total, one) => total + one.steps, 0);
  const added = found.flatMap(({ fill, atMost }, coil): Fill[] =>
    fill && atMost > (prices[coil] ?? 0) + TOO_LITTLE ? [{ coil, ...heldBy(stock, fill) }] : [],
  );
  return { found, added };
}

/** What is left costs at least what it is worth, less what each coil may hold above its price, as often as it may be bought. */
function leastOf(
  { job, left, tooDear }: Relaxed,
  { worths, coilWorths: limitWorths, found }: Whole & { found: Fullest[] },
): number {
  const pieces = left.counts.reduce((total, count) => total + count, 0);
  let least = left.counts.reduce((total, count, at) => total + count * (worths[at] ?? 0), 0);
  job.coils.forEach(({ cents }, coil) => {
    const worth = limitWorths[coil] ?? 0;
    const { least: must = 0, most = 0 } = left.ranges[coil] ?? {};
    least += worth > 0 ? worth * must : worth * Math.min(most, pieces);
    const excess = (found[coil]?.atMost ?? 0) + worth - cents * PARTS_OF_A_CENT;
    const affordable = cents > 0 ? Math.floor(tooDear / cents) : pieces;
    if (excess > 0) least -= excess * Math.min(most, pieces, affordable);
  });
  return least;
}

function coilsOf({ job, basis, fills }: Relaxed): number[] {
  const coils = job.coils.map(() => 0);
  basis.columns.forEach((column, row) => {
    const fill = fills[column];
    if (fill) coils[fill.coil] = (coils[fill.coil] ?? 0) + (basis.amounts[row] ?? 0);
  });
  return coils;
}
