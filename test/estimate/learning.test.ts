import fc from 'fast-check';
import jStatLibrary from 'jstat';
import { describe, expect, it } from 'vitest';
import { jobsInAll, learnedTasks, type UnitOfTask, withProposal } from '../../server/estimate/learned-tasks.ts';
import { BOOK_COUNTS_AS_JOBS, learnedUnit, t90, type UnitPoints } from '../../server/estimate/learning.ts';
import { PriceItem } from '../../server/estimate/price-book.ts';

const { jStat: jstat } = jStatLibrary;

const book: UnitPoints = { low: 0.03, likely: 0.05, high: 0.1 };
/** Jobs that were quoted with the book's own figure. */
const jobsOf = (ratios: readonly number[], unit = book) =>
  ratios.map((ratio) => ({ quotedHours: 10, actualHours: 10 * ratio, hoursPerUnit: unit.likely }));
/** What is learned; the book's figure is above 0 throughout. */
function learn(ratios: readonly number[], unit = book) {
  const learned = learnedUnit(unit, jobsOf(ratios, unit));
  if (!learned) throw new Error('Nothing was learned.');
  return learned;
}

describe('a labor unit that jobs teach', () => {
  /**
   * Worked by hand, by the formula of the normal and inverse gamma prior with the book as 4 jobs: two jobs took twice
   * and half as long again (ratios 2 and 1.5).
   *   mean of logs = (0.693147 + 0.405465) / 2 = 0.549306      weight = 2 / 6
   *   likely = 0.05 × e^0.183102 = 0.0600468
   */
  it('lies a third of the way to two jobs, by the mean of their logarithms', () => {
    const learned = learn([2, 1.5]);
    expect(learned.weight).toBeCloseTo(1 / 3, 12);
    expect(learned.likely).toBeCloseTo(0.0600468, 7);
    expect(learned.jobsUnit).toBeCloseTo(0.05 * Math.sqrt(3), 12); // the geometric mean of 2 and 1.5
  });

  /** The same by jStat: its mean, its variance of a sample, and its quantile of Student's t. Row 6 of t is printed. */
  it.each([[[2, 1.5]], [[1.2, 0.9, 1.4, 1.1]], [[0.5]], [[1.8, 2.2, 1.9, 2.4, 2.1, 1.7, 2, 2.3]]])(
    'agrees with jStat on mean, spread and interval: %j',
    (ratios) => {
      const logs = ratios.map(Math.log);
      const n = logs.length;
      const mean = jstat.mean(logs);
      const likely = book.likely * Math.exp((n / (n + 4)) * mean);
      const squares = n > 1 ? jstat.variance(logs, true) * (n - 1) : 0;
      const bookSpread = Math.log(book.high / book.low) / 6;
      const spread = Math.sqrt((4 * bookSpread ** 2 + squares + ((n * 4) / (n + 4)) * mean ** 2) / (n + 4));
      const half = (t90(n + 4) * spread) / Math.sqrt(n + 4);
      const learned = learn(ratios);
      expect(learned.likely).toBeCloseTo(likely, 12);
      expect(learned.interval.low).toBeCloseTo(likely * Math.exp(-half), 12);
      expect(learned.interval.high).toBeCloseTo(likely * Math.exp(half), 12);
    },
  );

  /** Rows are rounded to four decimals: half of the last one is the tolerance. */
  it("has the quantiles of Student's t that jStat has, and between two rows the wider one", () => {
    for (const freedom of [4, 5, 6, 7, 8, 9, 10, 12, 15, 20, 30, 60, 120]) {
      expect(Math.abs(t90(freedom) - jstat.studentt.inv(0.9, freedom))).toBeLessThanOrEqual(0.00005 + 1e-9);
    }
    expect(t90(11)).toBe(t90(10));
    expect(t90(5000)).toBe(t90(120));
  });

  it('starts from the labor unit that each job was quoted with, not from the one of today', () => {
    const quotedWithOld = [{ quotedHours: 8, actualHours: 12, hoursPerUnit: 0.04 }]; // took 0.06 a unit
    const quotedWithNew = [{ quotedHours: 10, actualHours: 12, hoursPerUnit: 0.05 }]; // the same 0.06 a unit
    const [old, now] = [learnedUnit(book, quotedWithOld), learnedUnit(book, quotedWithNew)];
    expect(old?.likely).toBeCloseTo(now?.likely ?? 0, 12);
  });

  it('says nothing of a labor unit of 0, which no ratio changes', () => {
    expect(learnedUnit({ low: 0, likely: 0, high: 0 }, jobsOf([2]))).toBeUndefined();
  });

  it('widens where jobs differ among each other, and where they differ from the book', () => {
    const width = ({ low, high }: { low: number; high: number }) => Math.log(high / low);
    expect(width(learn([0.5, 2]).interval)).toBeGreaterThan(width(learn([1, 1]).interval));
    expect(width(learn([2, 2]).interval)).toBeGreaterThan(width(learn([1, 1]).interval));
  });
});

const points = fc
  .tuple(
    fc.double({ min: 0.01, max: 1, noNaN: true }),
    fc.double({ min: 1, max: 3, noNaN: true }),
    fc.double({ min: 1, max: 5, noNaN: true }),
  )
  .map(([low, toLikely, toHigh]) => ({ low, likely: low * toLikely, high: low * toLikely * toHigh }));
const ratio = fc.double({ min: 0.05, max: 20, noNaN: true });
/** Rounding of binary fractions, far below the four decimals that the book writes. */
const HAIR = 1e-9;

describe('laws of what jobs teach', () => {
  it('leaves the figure of the book where there is no job', () => {
    fc.assert(
      fc.property(points, (unit) => {
        const { low, likely, high, weight } = learn([], unit);
        expect(weight).toBe(0);
        expect(likely).toBe(unit.likely);
        expect(low).toBeCloseTo(unit.low, 9);
        expect(high).toBeCloseTo(unit.high, 9);
      }),
    );
  });

  it('goes on toward one ratio the more jobs say it, and never past it', () => {
    fc.assert(
      fc.property(points, ratio, fc.integer({ min: 0, max: 60 }), (unit, r, n) => {
        const off = (count: number) => Math.abs(Math.log(learn(Array(count).fill(r), unit).likely / (unit.likely * r)));
        expect(off(n + 1)).toBeLessThanOrEqual(off(n) + HAIR);
        const { likely } = learn(Array(n).fill(r), unit);
        const [least = 0, most = 0] = [unit.likely, unit.likely * r].sort((a, b) => a - b);
        expect(likely).toBeGreaterThanOrEqual(least * (1 - HAIR));
        expect(likely).toBeLessThanOrEqual(most * (1 + HAIR));
      }),
    );
  });

  it('proposes nothing that neither the book nor a job ever saw, and three points that rise', () => {
    fc.assert(
      fc.property(points, fc.array(ratio, { minLength: 1, maxLength: 30 }), (unit, ratios) => {
        const { low, likely, high, interval } = learn(ratios, unit);
        const seen = ratios.map((r) => r * unit.likely);
        expect(low).toBeGreaterThanOrEqual(Math.min(unit.low, ...seen) * (1 - HAIR));
        expect(high).toBeLessThanOrEqual(Math.max(unit.high, ...seen) * (1 + HAIR));
        expect(low).toBeLessThanOrEqual(likely);
        expect(likely).toBeLessThanOrEqual(high);
        expect(interval.low).toBeLessThanOrEqual(likely);
        expect(likely).toBeLessThanOrEqual(interval.high);
      }),
    );
  });

  it('does not care for the order of jobs, nor for their size', () => {
    fc.assert(
      fc.property(points, fc.array(ratio, { minLength: 2, maxLength: 10 }), (unit, ratios) => {
        const jobs = jobsOf(ratios, unit);
        const larger = jobs.map((job) => ({
          ...job,
          quotedHours: job.quotedHours * 7,
          actualHours: job.actualHours * 7,
        }));
        const [one, two] = [learnedUnit(unit, jobs), learnedUnit(unit, larger.reverse())];
        expect(two?.likely).toBeCloseTo(one?.likely ?? 0, 9);
      }),
    );
  });
});

/** An invented labor unit. */
function unitItem(changes: Partial<PriceItem> = {}): PriceItem {
  return PriceItem.parse({
    key: 'pull-wire',
    kind: 'labor-unit',
    description: 'Pull wire',
    class: 'labor',
    scope: 'wire',
    category: 'labor',
    unit: 'ft',
    ...book,
    date: '2026-01-15',
    region: 'US',
    source: 'invented for a test',
    revision: 3,
    ...changes,
  });
}

describe('tasks over all jobs', () => {
  const job = (number: string, hours: Record<string, [quoted: number, actual: number]>) => ({
    number,
    costCents: 100_000,
    quotedTasks: Object.entries(hours).flatMap(([key, [quoted]]) =>
      quoted > 0 ? [{ key, hours: quoted, hoursPerUnit: 0.05 }] : [],
    ),
    actuals: { tasks: Object.entries(hours).map(([key, [, actual]]) => ({ key, hours: actual })) },
  });
  const jobs = [job('2026-0001', { 'pull-wire': [4, 6], gone: [1, 1] }), job('2026-0002', { 'pull-wire': [8, 10] })];
  const asStated: UnitOfTask = { current: unitItem(), stated: unitItem() };

  it('set hours against hours, and say the formula with its numbers', () => {
    const [gone, task] = learnedTasks(jobs, (key) => (key === 'pull-wire' ? asStated : undefined));
    expect(gone).toMatchObject({ key: 'gone', book: null, proposed: null, differs: false });
    // 6 + 10 of 4 + 8 hours; the mean of ln 1.5 and ln 1.25 is 0.314304, a third of it 0.104768: 0.05 × 1.11045
    expect(task).toMatchObject({ quotedHours: 12, actualHours: 16, ratio: 1.3333, differs: true });
    expect(task?.jobs.map(({ ratio: each }) => each)).toEqual([1.5, 1.25]);
    expect(task?.proposed?.likely).toBe(0.0555);
    expect(task?.because[0]).toBe('2 jobs took 16 h where 12 h were quoted.');
    expect(task?.because[2]).toContain(`2 / (2 + ${BOOK_COUNTS_AS_JOBS}) = 33 %`);
  });

  it('propose the same again once it was accepted: no job counts twice', () => {
    const [before] = learnedTasks(jobs, () => asStated).slice(-1);
    const { low = 0, likely = 0, high = 0 } = before?.proposed ?? {};
    const current = unitItem({ low, likely, high, revision: 4 });
    const [after] = learnedTasks(jobs, () => ({ current, stated: unitItem() })).slice(-1);
    expect(after?.proposed).toEqual(before?.proposed);
    expect(after?.differs).toBe(false);
  });

  /** Of 4 jobs one did not need it and one did not quote it: what is left are the two jobs of the first test. */
  it('learn how long it takes from who quoted it and did it, and tell the others apart', () => {
    const unneeded = job('2026-0003', { 'pull-wire': [3, 0] });
    const unquoted = job('2026-0004', { 'pull-wire': [0, 2.5] });
    const [task] = learnedTasks([...jobs, unneeded, unquoted], () => asStated).slice(-1);
    const [alone] = learnedTasks(jobs, () => asStated).slice(-1);
    expect(task?.proposed).toEqual(alone?.proposed);
    // 4 + 8 + 3 + 0 hours were quoted, 6 + 10 + 0 + 2.5 were worked: 18.5 / 15
    expect(task).toMatchObject({ learnedFrom: 2, quotedHours: 15, actualHours: 18.5, ratio: 1.2333 });
    expect(task?.jobs.map(({ ratio: each }) => each)).toEqual([1.5, 1.25, 0, null]);
    expect(task?.because[0]).toBe('2 jobs took 16 h where 12 h were quoted.');
    expect(task?.because.slice(-2)).toEqual([
      '1 job did not need it, though 3 h were quoted: that says how often it comes up, not how long it takes.',
      '1 job took 2.5 h that nobody quoted: that says what to think of next time, not how long a unit takes.',
    ]);
  });

  it('propose nothing where no job quoted it and did it', () => {
    const [task] = learnedTasks([job('2026-0001', { 'pull-wire': [0, 2] })], () => asStated);
    expect(task).toMatchObject({ learnedFrom: 0, ratio: null, proposed: null, differs: false });
    const [byName] = learnedTasks([job('2026-0001', { 'waited for the inspector': [0, 2] })], () => undefined);
    expect(byName).toMatchObject({ description: 'waited for the inspector', book: null, proposed: null });
  });

  it('become the labor unit as they were proposed, with their day and how many jobs taught it', () => {
    const proposed = { low: 0.04, likely: 0.06, high: 0.11 };
    expect(withProposal(unitItem(), { proposed, learnedFrom: 2, day: '2026-05-04' })).toEqual({
      ...unitItem(),
      ...proposed,
      date: '2026-05-04',
      source: 'learned from 2 jobs',
    });
  });
});

describe('jobs in all', () => {
  const job = (costCents: number, totalCents?: number) => ({
    number: '2026-0001',
    costCents,
    quotedTasks: [],
    actuals: { tasks: [], ...(totalCents !== undefined && { totalCents }) },
  });

  // 100 and 200 dollars quoted, 150 and 210 spent: 360 / 300; the third says nothing of its cost
  it('set cost against cost where both are known', () => {
    const jobs = [job(10_000, 15_000), job(20_000, 21_000), job(99_999)];
    expect(jobsInAll(jobs)).toEqual({ jobs: 2, quotedCents: 30_000, actualCents: 36_000, ratio: 1.2 });
  });

  it('have no ratio where nothing was quoted', () => {
    expect(jobsInAll([])).toEqual({ jobs: 0, quotedCents: 0, actualCents: 0, ratio: null });
    expect(jobsInAll([job(0, 500)]).ratio).toBeNull();
  });
});
