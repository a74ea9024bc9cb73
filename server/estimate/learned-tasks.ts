import { BOOK_COUNTS_AS_JOBS, type LearnedUnit, learnedUnit, type UnitPoints, writtenPoints } from './learning.ts';
import { toFourDecimals } from './money.ts';
import type { PriceItem } from './price-book.ts';

/** A job that is done, by the number of its quote: hours and labor units quoted, hours that it took, by task. */
export interface DoneJob {
  number: string;
  quotedTasks: readonly { key: string; hours: number; hoursPerUnit: number }[];
  actuals: { tasks: readonly { key: string; hours: number }[] };
}

/** A task over all jobs, and what they propose for its labor unit. Hours are person-hours. */
export interface LearnedTask {
  key: string;
  description: string;
  unit: string;
  jobs: { number: string; quotedHours: number; actualHours: number; ratio: number }[];
  quotedHours: number;
  actualHours: number;
  /** Actual hours over quoted ones, of all jobs together. */
  ratio: number;
  /** The labor unit as it is in the book, and its revision; null where the book has none of this key any more. */
  book: (UnitPoints & { revision: number }) | null;
  /** As it was stated before anything was learned: what the proposal starts from. */
  stated: UnitPoints | null;
  proposed: (UnitPoints & { interval: { low: number; high: number }; weight: number }) | null;
  /** Does the proposal say anything else than the book? */
  differs: boolean;
  because: string[];
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
  hoursPerUnit: number;
}

function jobsWith(key: string, jobs: readonly DoneJob[]): JobHours[] {
  return jobs.flatMap(({ number, quotedTasks, actuals }) => {
    const quoted = quotedTasks.find((task) => task.key === key);
    const actual = actuals.tasks.find((task) => task.key === key);
    if (!quoted || !actual) return [];
    return [{ number, quotedHours: quoted.hours, actualHours: actual.hours, hoursPerUnit: quoted.hoursPerUnit }];
  });
}

interface TaskInput {
  key: string;
  jobs: readonly JobHours[];
  unit: UnitOfTask | undefined;
}

function learnedTask({ key, jobs, unit }: TaskInput): LearnedTask {
  const quotedHours = toFourDecimals(jobs.reduce((sum, job) => sum + job.quotedHours, 0));
  const actualHours = toFourDecimals(jobs.reduce((sum, job) => sum + job.actualHours, 0));
  const learned = unit && learnedUnit(unit.stated, jobs);
  const written = learned && writtenPoints(learned);
  const { current, stated } = unit ?? {};
  return {
    key,
    description: current?.description ?? key,
    unit: current?.unit ?? '',
    jobs: jobs.map(({ hoursPerUnit: _unit, ...job }) => ({ ...job, ratio: ratioOf(job) })),
    quotedHours,
    actualHours,
    ratio: ratioOf({ quotedHours, actualHours }),
    book: current ? { ...pointsOf(current), revision: current.revision } : null,
    stated: stated ? pointsOf(stated) : null,
    proposed: learned && written ? { ...written, interval: intervalOf(learned), weight: learned.weight } : null,
    differs: current !== undefined && written !== undefined && !isSame(written, current),
    because: unit && learned ? reasonsOf({ unit, learned, quotedHours, actualHours }) : [whyNothing(unit)],
  };
}

const ratioOf = ({ quotedHours, actualHours }: { quotedHours: number; actualHours: number }) =>
  quotedHours > 0 ? toFourDecimals(actualHours / quotedHours) : 0;
const pointsOf = ({ low, likely, high }: UnitPoints): UnitPoints => ({ low, likely, high });
const intervalOf = ({ interval }: LearnedUnit) => ({
  low: toFourDecimals(interval.low),
  high: toFourDecimals(interval.high),
});
const isSame = (a: UnitPoints, b: UnitPoints) => a.low === b.low && a.likely === b.likely && a.high === b.high;

function whyNothing(unit: UnitOfTask | undefined): string {
  if (!unit) return 'The price book has no labor unit of this key, so there is nothing to change.';
  return 'The labor unit of the book is 0 hours: no ratio of hours changes it.';
}

interface Reasons {
  unit: UnitOfTask;
  learned: LearnedUnit;
  quotedHours: number;
  actualHours: number;
}

/** The formula with its numbers, to be read aloud. */
function reasonsOf({ unit: { current, stated }, learned, quotedHours, actualHours }: Reasons): string[] {
  const { jobs, weight, jobsUnit, interval } = learned;
  const hours = (value: number) => `${toFourDecimals(value)} h`;
  const times = (value: number) => String(Math.round(value * 100) / 100);
  const wasLearned = !isSame(current, stated);
  return [
    `${jobs === 1 ? '1 job' : `${jobs} jobs`} took ${hours(actualHours)} where ${hours(quotedHours)} were quoted.`,
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
