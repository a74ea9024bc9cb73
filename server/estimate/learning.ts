import { toFourDecimals } from './money.ts';

/*
 * What jobs teach the book about its labor units. Each job says by how much its hours differed from those quoted; the
 * logarithm of that ratio counts, so that twice and half cancel out. The book's own figure is kept as if it came from
 * BOOK_COUNTS_AS_JOBS jobs more, with the spread that its low and high stand for: the normal distribution with unknown
 * mean and spread, learned from by its conjugate prior (normal and inverse gamma), as textbooks of statistics have it.
 * That few jobs move the book little is the aim: one crew on one bad day is no labor unit.
 */

/** The book's figure weighs as much as so many jobs. Ours; common practice, no source. */
export const BOOK_COUNTS_AS_JOBS = 4;
/** Low and high of a three-point figure lie six standard deviations apart (the PERT rule), three to each side. */
const DEVIATIONS_TO_AN_END = 3;

/** Three points of a labor unit, in hours a unit. */
export interface UnitPoints {
  low: number;
  likely: number;
  high: number;
}

/** What one job says of a task: hours quoted, hours it took, and the labor unit that was quoted with, hours a unit. */
export interface TaskOnJob {
  quotedHours: number;
  actualHours: number;
  hoursPerUnit: number;
}

/** A labor unit as jobs teach it. */
export interface LearnedUnit extends UnitPoints {
  jobs: number;
  /** The share that jobs have in it: jobs / (jobs + BOOK_COUNTS_AS_JOBS). */
  weight: number;
  /** The geometric mean of the jobs' own labor units, in hours a unit; the book's figure where there is no job. */
  jobsUnit: number;
  /** Where the likely unit lies in 8 of 10 cases, in hours a unit: by the spread of the jobs and their count. */
  interval: { low: number; high: number };
}

/** Quantiles of Student's t, 0.90 one-sided, by degrees of freedom; 4 is the least that the prior leaves. */
const T_90 = {
  source: { note: "printed in every table of Student's t; from memory, held against jStat in the tests" },
  rows: [
    [4, 1.5332],
    [5, 1.4759],
    [6, 1.4398],
    [7, 1.4149],
    [8, 1.3968],
    [9, 1.383],
    [10, 1.3722],
    [12, 1.3562],
    [15, 1.3406],
    [20, 1.3253],
    [30, 1.3104],
    [60, 1.2958],
    [120, 1.2886],
  ],
} as const;

/** The quantile for at least so many degrees of freedom: between two rows that of fewer, which is the wider one. */
export function t90(freedom: number): number {
  return T_90.rows.findLast(([row]) => row <= freedom)?.[1] ?? T_90.rows[0][1];
}

/**
 * The labor unit that the jobs propose, shrunk toward the book's figure b:
 *
 *   y(i)   = ln(actual(i) / quoted(i) × unit quoted with(i) / b)       what job i says, once whatever its size
 *   w      = n / (n + k)                                                k = BOOK_COUNTS_AS_JOBS
 *   likely = b × exp(w × mean(y))
 *   s²     = (k s0² + Σ (y − mean)² + n k / (n + k) × mean²) / (n + k)  s0 = ln(high / low) / 6, of the book
 *   interval = likely × exp(± t(n + k; 0.90) × s / √(n + k))
 *
 * Low and high lie as many s from likely as the book's lie s0 from b. No point goes beyond what the book or a job says:
 * hours that nobody ever saw are not proposed.
 * @param jobs  none: the book's figure
 * @returns     hours a unit, not rounded; undefined where the book's figure is 0, which no ratio changes
 */
export function learnedUnit(book: UnitPoints, jobs: readonly TaskOnJob[]): LearnedUnit | undefined {
  if (book.likely <= 0) return undefined;
  const units = jobs.map(unitOnJob).filter((unit) => unit > 0);
  const logs = units.map((unit) => Math.log(unit / book.likely));
  const n = logs.length;
  const k = BOOK_COUNTS_AS_JOBS;
  const weight = n / (n + k);
  const mean = n === 0 ? 0 : sum(logs) / n;
  const bookSpread = spreadOf(book);
  const squares = sum(logs.map((log) => (log - mean) ** 2));
  const spread = Math.sqrt((k * bookSpread ** 2 + squares + k * weight * mean ** 2) / (n + k));
  const seen = { least: Math.min(book.likely, ...units), most: Math.max(book.likely, ...units) };
  const likely = within(book.likely * Math.exp(weight * mean), seen);
  const halfWidth = (t90(n + k) * spread) / Math.sqrt(n + k);
  return {
    ...endsAround({ likely, spread, book, bookSpread, units }),
    jobs: n,
    weight,
    jobsUnit: book.likely * Math.exp(mean),
    interval: { low: likely * Math.exp(-halfWidth), high: likely * Math.exp(halfWidth) },
  };
}

/** The labor unit that a job had: what was quoted with, by as much as it took longer. */
function unitOnJob({ quotedHours, actualHours, hoursPerUnit }: TaskOnJob): number {
  return quotedHours > 0 ? (hoursPerUnit * actualHours) / quotedHours : 0;
}

/** The standard deviation of the logarithm that the book's low and high stand for; a low of 0 says nothing of it. */
function spreadOf({ low, likely, high }: UnitPoints): number {
  const above = Math.log(high / likely);
  const below = low > 0 ? Math.log(likely / low) : above;
  return (above + below) / (2 * DEVIATIONS_TO_AN_END);
}

interface Around {
  likely: number;
  spread: number;
  book: UnitPoints;
  bookSpread: number;
  units: readonly number[];
}

function endsAround({ likely, spread, book, bookSpread, units }: Around): UnitPoints {
  const deviations = (log: number) => (bookSpread > 0 ? log / bookSpread : DEVIATIONS_TO_AN_END);
  const above = deviations(Math.log(book.high / book.likely));
  const below = book.low > 0 ? deviations(Math.log(book.likely / book.low)) : Number.POSITIVE_INFINITY;
  const low = book.low > 0 ? likely * Math.exp(-below * spread) : 0;
  return {
    low: Math.min(likely, Math.max(low, Math.min(book.low, ...units))),
    likely,
    high: Math.max(likely, Math.min(likely * Math.exp(above * spread), Math.max(book.high, ...units))),
  };
}

const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
const within = (value: number, { least, most }: { least: number; most: number }) =>
  Math.min(most, Math.max(least, value));

/** The points as the book writes them: hours a unit with at most four decimals. */
export function writtenPoints({ low, likely, high }: UnitPoints): UnitPoints {
  return { low: toFourDecimals(low), likely: toFourDecimals(likely), high: toFourDecimals(high) };
}
