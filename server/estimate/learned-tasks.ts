import { BOOK_COUNTS_AS_JOBS, type LearnedUnit, learnedUnit, type UnitPoints, writtenPoints } from './learning.ts';
import { toFourDecimals } from './money.ts';
import type { PriceItem } from './price-book.ts';

/** A job that is done, by the number of its quote: hours, labor units and cost quoted, hours and cost that it took. */
export interface DoneJob {
  number: string;
  /** What the job costs by the estimate, before markup, overhead and profit. */
  costCents: number;
  quotedTasks: readonly { key: string; hours: number; hoursPerUnit: number }[];
  actuals: { tasks: readonly { key: string; hours: number }[]; totalCents?: number | undefined };
}

/** Hours of a task on one job. 0 hours were quoted where nobody thought of it, and 0 worked where it was not needed. */
export interface TaskOnDoneJob {
  number: string;
  quotedHours: number;
  actualHours: number;
  /** Actual hours over quoted ones; null where none were quoted. */
  ratio: number | null;
}

/** A task over all jobs, and what they propose for its labor unit. Hours are person-hours. */
export interface LearnedTask {
  key: string;
  description: string;
  unit: string;
  jobs: TaskOnDoneJob[];
  /** So many of the jobs teach: those that quoted the task and did it. */
  learnedFrom: number;
  quotedHours: number;
  actualHours: number;
  /** Actual hours over quoted ones, of all jobs together; null where none were quoted. */
  ratio: number | null;
  /** The labor unit as it is in the book, and its revision; null where the book has none of this key any more. */
  book: (UnitPoints & { revision: number }) | null;
  /** As it was stated before anything was learned: what the proposal starts from. */
  stated: UnitPoints | null;
  proposed: (UnitPoints & { interval: { low: number; high: number }; weight: number }) | null;
  /** Does the proposal say anything else than the book? */
  differs: boolean;
  because: string[];
}

/** What jobs cost in all against what was quoted of them, where both are known; whole cents. */
export interface JobsInAll {
  jobs: number;
  quotedCents: number;
  actualCents: number;
  /** Actual over quoted, to four decimals; null where nothing was quoted. */
  ratio: number | null;
}

/** Sums the cost of the jobs of which it was entered. */
export function jobsInAll(jobs: readonly DoneJob[]): JobsInAll {
  const known = jobs.flatMap(({ costCents, actuals: { totalCents } }) =>
    totalCents === undefined ? [] : [{ costCents, totalCents }],
  );
  const quotedCents = known.reduce((sum, { costCents }) => sum + costCents, 0);
  const actualCents = known.reduce((sum, { totalCents }) => sum + totalCents, 0);
  return { jobs: known.length, quotedCents, actualCents, ratio: ratioOf(quotedCents, actualCents) };
}

/** A labor unit of the book as it becomes where a proposal is accepted on a day, YYYY-MM-DD. */
export function withProposal(
  current: PriceItem,
  { proposed, learnedFrom, day }: { proposed: UnitPoints; learnedFrom: number; day: string },
): PriceItem {
  const { low, likely, high } = proposed;
  const source = `learned from ${learnedFrom} ${learnedFrom === 1 ? 'job' : 'jobs'}`;
  return { ...current, low, likely, high, date: day, source };
}

/** The labor unit of a task: as it is in the book, and as it was stated before anything was learned. */
export interface UnitOfTask {
  current: PriceItem;
  stated: PriceItem;
}

/**
 * Sets hours against hours, task by task over all jobs, and proposes labor units.
 * @param unitOf  the labor unit of a task's key; undefined where the book has none
 */
export function learnedTasks(jobs: readonly DoneJob[], unitOf: (key: string) => UnitOfTask | undefined): LearnedTask[] {
  const keys = [...new Set(jobs.flatMap(({ actuals }) => actuals.tasks.map(({ key }) => key)))].sort();
  return keys.map((key) => learnedTask({ key, jobs: jobsWith(key, jobs), unit: unitOf(key) }));
}

interface JobHours {
  number: string;
  quotedHours: number;
  actualHours: number;
  /** The labor unit that was quoted with; 0 where the task was not quoted. */
  hoursPerUnit: number;
}

function jobsWith(key: string, jobs: readonly DoneJob[]): JobHours[] {
  return jobs.flatMap(({ number, quotedTasks, actuals }) => {
    const quoted = quotedTasks.find((task) => task.key === key);
    const actual = actuals.tasks.find((task) => task.key === key);
    if (!actual) return [];
    const { hours = 0, hoursPerUnit = 0 } = quoted ?? {};
    return [{ number, quotedHours: hours, actualHours: actual.hours, hoursPerUnit }];
  });
}

interface TaskInput {
  key: string;
  jobs: readonly JobHours[];
  unit: UnitOfTask | undefined;
}

const quotedOf = (jobs: readonly JobHours[]) => toFourDecimals(jobs.reduce((sum, job) => sum + job.quotedHours, 0));
const actualOf = (jobs: readonly JobHours[]) => toFourDecimals(jobs.reduce((sum, job) => sum + job.actualHours, 0));

function learnedTask({ key, jobs, unit }: TaskInput): LearnedTask {
  const [quotedHours, actualHours] = [quotedOf(jobs), actualOf(jobs)];
  // How long a task takes is taught by who was to do it, and did it.
  const teaching = jobs.filter((job) => job.quotedHours > 0 && job.actualHours > 0);
  const learned = unit && teaching.length > 0 ? learnedUnit(unit.stated, teaching) : undefined;
  const written = learned && writtenPoints(learned);
  const { current, stated } = unit ?? {};
  return {
    key,
    description: current?.description ?? key,
    unit: current?.unit ?? '',
    jobs: jobs.map(({ hoursPerUnit: _unit, ...job }) => ({ ...job, ratio: ratioOf(job.quotedHours, job.actualHours) })),
    learnedFrom: teaching.length,
    quotedHours,
    actualHours,
    ratio: ratioOf(quotedHours, actualHours),
    book: current ? { ...pointsOf(current), revision: current.revision } : null,
    stated: stated ? pointsOf(stated) : null,
    proposed: learned && written ? { ...written, interval: intervalOf(learned), weight: learned.weight } : null,
    differs: current !== undefined && written !== undefined && !isSame(written, current),
    because: [
      ...(unit && learned ? reasonsOf({ unit, learned, teaching }) : whyNothing(unit, teaching)),
      ...aside(jobs),
    ],
  };
}

/** To four decimals; null where nothing was quoted. */
function ratioOf(quoted: number, actual: number): number | null {
  return quoted > 0 ? toFourDecimals(actual / quoted) : null;
}

const pointsOf = ({ low, likely, high }: UnitPoints): UnitPoints => ({ low, likely, high });
const intervalOf = ({ interval }: LearnedUnit) => ({
  low: toFourDecimals(interval.low),
  high: toFourDecimals(interval.high),
});
const isSame = (a: UnitPoints, b: UnitPoints) => a.low === b.low && a.likely === b.likely && a.high === b.high;

function whyNothing(unit: UnitOfTask | undefined, teaching: readonly JobHours[]): string[] {
  if (!unit) return ['The price book has no labor unit of this key, so there is nothing to change.'];
  if (teaching.length === 0) return [];
  return ['The labor unit of the book is 0 hours: no ratio of hours changes it.'];
}

const jobsInWords = (count: number) => (count === 1 ? '1 job' : `${count} jobs`);
const hoursInWords = (value: number) => `${toFourDecimals(value)} h`;

/** What jobs say besides how long the task takes. */
function aside(jobs: readonly JobHours[]): string[] {
  const unneeded = jobs.filter(({ quotedHours, actualHours }) => quotedHours > 0 && actualHours === 0);
  const unquoted = jobs.filter(({ quotedHours, actualHours }) => quotedHours === 0 && actualHours > 0);
  return [
    ...(unneeded.length === 0
      ? []
      : [
          `${jobsInWords(unneeded.length)} did not need it, though ${hoursInWords(quotedOf(unneeded))} were quoted: that ` +
            'says how often it comes up, not how long it takes.',
        ]),
    ...(unquoted.length === 0
      ? []
      : [
          `${jobsInWords(unquoted.length)} took ${hoursInWords(actualOf(unquoted))} that nobody quoted: that says what to ` +
            'think of next time, not how long a unit takes.',
        ]),
  ];
}

interface Reasons {
  unit: UnitOfTask;
  learned: LearnedUnit;
  teaching: readonly JobHours[];
}

/** The formula with its numbers, to be read aloud. */
function reasonsOf({ unit: { current, stated }, learned, teaching }: Reasons): string[] {
  const { jobs, weight, jobsUnit, interval } = learned;
  const hours = hoursInWords;
  const times = (value: number) => String(Math.round(value * 100) / 100);
  const wasLearned = !isSame(current, stated);
  return [
    `${jobsInWords(jobs)} took ${hours(actualOf(teaching))} where ${hours(quotedOf(teaching))} were quoted.`,
    `Each job counts once, by the logarithm of its hours over those quoted: on the whole ${hours(jobsUnit)} a unit, ` +
      `${times(jobsUnit / stated.likely)} times the ${hours(stated.likely)} of the book` +
      `${wasLearned ? ' before anything was learned' : ''}.`,
    `The book counts as ${BOOK_COUNTS_AS_JOBS} jobs, so the jobs weigh ${jobs} / (${jobs} + ${BOOK_COUNTS_AS_JOBS}) = ` +
      `${Math.round(weight * 100)} %: ${hours(stated.likely)} × ${times(jobsUnit / stated.likely)} to the power of ` +
      `${times(weight)} = ${hours(learned.likely)}.`,
    `By the spread of the jobs and their count it lies between ${hours(interval.low)} and ${hours(interval.high)} in 8 ` +
      'of 10 cases.',
    'Difficult soil or access of these jobs is in their factors already; what the factors miss is learned as well.',
  ];
}
