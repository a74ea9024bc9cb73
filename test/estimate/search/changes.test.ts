import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { planBy } from '../../../server/estimate/plan/plan.ts';
import type { PlannedOption, PlannedRun } from '../../../server/estimate/plan-types.ts';
import { type Book, bookOf } from '../../../server/estimate/price-book.ts';
import { layingOf } from '../../../server/estimate/search/laying.ts';
import { costOfChoice } from '../../../server/estimate/search/option-model.ts';
import { takeoffOf } from '../../../server/estimate/takeoff/takeoff.ts';
import type { ConductorSize, Metal } from '../../../server/estimate/vocabulary.ts';
import { household, wired } from '../plan/shop.ts';
import { read } from '../random-jobs.ts';
import { waysOfRun } from './exhaustive.ts';
import { plainJob, searched } from './small-jobs.ts';
import { cutTo, fewOfEach, ITEMS, threeWirings } from './small-shop.ts';

/** Ω/1000 ft of stranded conductors. NEC Chapter 9 Table 8, direct-current resistance at 75 °C, uncoated copper. */
const OHMS_PER_1000_FT: Record<Metal, Partial<Record<ConductorSize, number>>> = {
  copper: { 12: 1.98, 10: 1.24, 8: 0.778, 6: 0.491, 4: 0.308, 3: 0.245, 2: 0.194, 1: 0.154 },
  aluminum: { 8: 1.28, 6: 0.808, 4: 0.508, 2: 0.319, 1: 0.253, '1/0': 0.201, '2/0': 0.159 },
};

interface Part {
  metal: Metal;
  size: ConductorSize;
}

/** What an answer says lies along the legs before the splice and after it. */
function partsOf({ begins, conductor, legs }: PlannedRun) {
  const before = new Set(begins?.legs);
  return {
    before: begins && { ...begins.conductor, legs: begins.legs },
    after: { ...conductor, legs: legs.map(({ leg }) => leg).filter((leg) => !before.has(leg)) },
  };
}

/** Volts lost on so many feet there and back. Worked here by hand: 2 × amperes × Ω/1000 ft × feet / 1000. */
function lostV({ metal, size }: Part, currentA: number, lengthFt: number): number {
  const ohms = OHMS_PER_1000_FT[metal][size];
  if (ohms === undefined) throw new Error(`The shop of this test sells no ${size} ${metal}.`);
  return (2 * currentA * ohms * lengthFt) / 1000;
}

const feetOf = (plan: PlannedOption, legs: readonly number[]) =>
  legs.reduce((sum, leg) => sum + (plan.route[leg]?.feet.high ?? 0) + (plan.route[leg]?.stated.riseFt ?? 0), 0);

/** The plan that a search chose for a job, its cost, and the least that any plan without a change costs. */
function chosenBy(job: unknown, book: Book) {
  const { opened, model, found, opening, option } = searched(read(job), book);
  const best = found?.priced[0];
  if (!best) return undefined;
  const layings = best.chosen.map((way, run) => ({ laying: layingOf(model, run, way), size: way.sized.size }));
  const unchanged = [...waysOfRun(model, 0, opening)].filter(({ sized, dropPercent }) => {
    return !sized.begins && dropPercent <= option.maxDropPercent;
  });
  const costs = unchanged.flatMap((way) => costOfChoice(model, [way]) ?? []);
  const whole = costs.filter(({ unpriced }) => unpriced <= best.cost.unpriced);
  const plan = planBy(opened, layings);
  return { plan, cents: best.cost.cents, leastUnchanged: Math.min(...whole.map(({ cents }) => cents)) };
}

/** A chosen plan whose run changes. */
interface Changed extends NonNullable<ReturnType<typeof chosenBy>> {
  run: PlannedRun;
  begins: NonNullable<PlannedRun['begins']>;
}

/** Both metals may land at the charger, and a raceway in the middle takes no large conductor: here a change is worth it. */
const worthAChange = fc
  .record({
    job: plainJob(2),
    tradeSize: fc.constantFrom('3/4', '1'),
    thereFt: fc.integer({ min: 10, max: 80 }),
    trenchFt: fc.integer({ min: 40, max: 250 }),
  })
  .map(({ job, tradeSize, thereFt, trenchFt }) => ({
    ...job,
    route: [
      ...job.route,
      { kind: 'existing-raceway', lengthFt: thereFt, type: 'pvc-40', tradeSize, place: 'outdoor' },
      { kind: 'lawn-trench', lengthFt: trenchFt },
    ],
  }));

describe('a change of metal or size in the plan that costs the least', () => {
  /** Of so many jobs about every fourth changes; the laws want so many changes at least. */
  const JOBS = 150;
  const CHANGES = 20;
  const jobs = fc.record({ job: worthAChange, wirings: threeWirings, sizes: fewOfEach(4) });
  const changes: Changed[] = [];

  beforeAll(() => {
    for (const { job, wirings, sizes } of fc.sample(jobs, { numRuns: JOBS, seed: 42 })) {
      const one = chosenBy(job, cutTo(wirings, sizes));
      const [run] = one?.plan.runs ?? [];
      if (one && run?.begins) changes.push({ ...one, run, begins: run.begins });
    }
  }, 300_000);

  it('is found often enough for its laws to be tried', () => {
    expect(changes.length).toBeGreaterThanOrEqual(CHANGES);
  });

  it('is chosen only where no plan without one costs as little and keeps the drop', () => {
    for (const { cents, leastUnchanged } of changes) expect(cents).toBeLessThan(leastUnchanged);
  });

  it('lies along all legs before the splice as it begins, and along all after it as it ends', () => {
    for (const { run } of changes) {
      const { before, after } = partsOf(run);
      expect(before?.legs.length).toBeGreaterThan(0);
      expect([...(before?.legs ?? []), ...after.legs]).toEqual(run.legs.map(({ leg }) => leg));
      for (const { metal, size, legs, tail } of run.sections) {
        const own = !tail && legs.every((leg) => before?.legs.includes(leg)) ? before : after;
        expect({ metal, size }).toEqual({ metal: own?.metal, size: own?.size });
      }
    }
  });

  it('lands at the panel as it begins, at the end as it ends, with compound at every end of aluminum', () => {
    for (const { run, begins } of changes) {
      const { terminations, conductor, sections } = run;
      expect(terminations[0]).toMatchObject({ metal: begins.conductor.metal, size: begins.conductor.size });
      expect(terminations.at(-1)).toMatchObject({ metal: conductor.metal, size: conductor.size });
      const splice = terminations.findIndex(({ at }) => at === begins.until);
      expect(terminations[splice]).toMatchObject({ metal: conductor.metal, size: conductor.size });
      const meets = [sections[splice - 1]?.metal, sections[splice]?.metal];
      expect(terminations[splice]?.compound).toBe(meets.includes('aluminum'));
      expect(terminations.length).toBe(sections.length + 1);
    }
  });

  it('is bought as both parts: the wire list has each along its own legs', () => {
    for (const { plan, run } of changes) {
      const { before, after } = partsOf(run);
      const carrying = (takeoffOf(plan).wire[run.name] ?? []).filter(({ use }) => use !== 'ground');
      expect(carrying.length).toBeGreaterThan(1);
      for (const { metal, size, legs } of carrying) {
        const own = legs.length > 0 && legs.every((leg) => before?.legs.includes(leg)) ? before : after;
        expect({ metal, size }).toEqual({ metal: own?.metal, size: own?.size });
      }
    }
  });

  it('carries the load in both parts', () => {
    for (const { run, begins } of changes) {
      expect(begins.conductor.ampacityA).toBeGreaterThanOrEqual(run.loadA - 1e-9);
      expect(run.conductor.ampacityA).toBeGreaterThanOrEqual(run.loadA - 1e-9);
    }
  });

  it('loses what both parts lose, by Chapter 9 Table 8', () => {
    const ofChargers = changes.filter(({ run }) => run.role === 'branch-circuit');
    expect(ofChargers.length).toBeGreaterThan(0);
    for (const { plan, run } of ofChargers) {
      const { before, after } = partsOf(run);
      if (!before) throw new Error('Here every run changes.');
      const firstV = lostV(before, run.loadA, feetOf(plan, before.legs));
      const restV = lostV(after, run.loadA, feetOf(plan, after.legs) + (run.tail?.lengthFt ?? 0));
      expect(Math.abs(run.dropV - firstV - restV)).toBeLessThanOrEqual(0.00005); // results carry four decimals
    }
  });
});

describe('a change in a shop that sells few sizes', () => {
  /**
   * 48 A, 176 ft (test/estimate/plan/change-of-conductor.test.ts works the drop by hand). 6 AWG copper throughout loses
   * 3.46 %, more than 3 %; 2 AWG aluminum does not fit into the EMT that is there; 4 AWG copper fits (2 × 0.0824 + 0.0211 =
   * 0.186 of 0.213 in²) and loses 2.17 %, and is the dearest by the foot. 6 AWG copper as far as the EMT goes and 2 AWG
   * aluminum from there on lose 2.80 %. At $ 1.00, 1.60 and 0.60 a foot two hots cost 2 × 176 × 1.60 = $ 563 in 4 AWG, and
   * 2 × 80 × 1.00 + 2 × 96 × 0.60 = $ 275 with the change: $ 288 less, far more than one splice in a box.
   */
  it('goes from 6 AWG copper to 2 AWG aluminum where the EMT ends', () => {
    const priced: Record<string, number> = {
      'copper 10': 40,
      'copper 6': 100,
      'copper 4': 160,
      'aluminum 6': 35,
      'aluminum 2': 60,
    };
    const shop = cutTo(['pvc', 'emt'], { copper: ['10', '6', '4'], aluminum: ['6', '2'] });
    const items = shop.items.map((item) => {
      const { spec } = item;
      const cents = spec?.is === 'conductor' ? priced[`${spec.metal} ${spec.size}`] : undefined;
      return cents === undefined ? item : { ...item, low: cents, likely: cents, high: cents, offers: [] };
    });
    const { description } = household({
      site: { building: 'outdoor' },
      route: [
        { kind: 'joists', lengthFt: 30 },
        { kind: 'existing-raceway', lengthFt: 50, type: 'emt', tradeSize: '3/4', place: 'indoor' },
        { kind: 'lawn-trench', lengthFt: 90 },
      ],
      option: wired(48, { terminals: 'copper-or-aluminum', mount: 'post' }),
    });
    const { found } = searched(description, bookOf(items, 1));
    const [way] = found?.priced[0]?.chosen ?? [];
    expect(way?.sized).toMatchObject({
      metal: 'aluminum',
      size: '2',
      begins: { pieces: 2, metal: 'copper', size: '6' },
    });
    expect(found?.proof.proven).toBe(true);
  });

  /**
   * 24 A, 30 A device: 10 AWG carries it (30 A at 60 °C). 20 ft of raceway that is there, 1/2 in: two 10 AWG and a ground of
   * 10 AWG take 3 × 0.0211 = 0.063 of the 0.285 × 40 % = 0.114 in² (PVC 40, Chapter 9 Tables 4 and 5), two 4 AWG
   * 2 × 0.0824 do not go in. 10 AWG throughout, 1.24 Ω/1000 ft: 2 × 24 × 1.24 × 0.206 = 12.26 V, 5.1 %. 10 AWG for 20 ft and
   * 4 AWG, 0.308 Ω/1000 ft, for 186 ft: 48 × (1.24 × 0.020 + 0.308 × 0.186) = 3.94 V, 1.64 %.
   */
  it('keeps the drop by a change where one size throughout does not', () => {
    const { description } = household({
      site: { building: 'outdoor' },
      route: [
        { kind: 'existing-raceway', lengthFt: 20, type: 'pvc-40', tradeSize: '1/2', place: 'outdoor' },
        { kind: 'lawn-trench', lengthFt: 180 },
      ],
      option: wired(24, { mount: 'post' }),
    });
    const { found } = searched(description, cutTo(['pvc'], { copper: ['10', '4'], aluminum: [] }));
    const [way] = found?.priced[0]?.chosen ?? [];
    expect(way?.sized).toMatchObject({ size: '4', begins: { pieces: 1, metal: 'copper', size: '10' } });
    expect(way?.sized.dropPercent).toBeCloseTo((100 * 48 * (1.24 * 0.02 + 0.308 * 0.186)) / 240, 6);
  });

  /**
   * Where nothing keeps 3 %: 10 AWG along 212 ft of UF-B loses 5.26 %, 8 AWG over the first leg loses less, which leaves the
   * branch behind the subpanel its own size. Asking for a raceway there may only cost more than leaving it open.
   */
  it('leaves what hangs on a subpanel the room that a change of its feeder makes', () => {
    const job = (method: 'auto' | 'emt') => ({
      site: {
        building: 'attached',
        service: { ratingA: 400, freeSpaces: 20 },
        load: { method: 'measured', peakA: 20, days: 365 },
        code: { terminalsC: 60 },
      },
      route: [
        { kind: 'under-deck', lengthFt: 25.9, method },
        { kind: 'under-deck', lengthFt: 58.6 },
        { kind: 'finished-ceiling', lengthFt: 64.5 },
        { kind: 'joists', lengthFt: 63.1, soil: 'roots' },
      ],
      options: [
        {
          ...{ id: 'a', label: 'A subpanel', feed: 'subpanel', metal: 'copper' },
          chargers: [{ amps: 24, connection: 'hardwired', equipment: 'owned' }],
          subpanel: { ratingA: 125, spaces: 12, otherCircuits: [] },
        },
      ],
    });
    const book = bookOf(ITEMS, 1);
    const [open, asked] = [job('auto'), job('emt')].map((one) => {
      return searched(read({ title: 'A job that loses much', ...one }), book).found;
    });
    expect(open?.proof.proven).toBe(true);
    expect(open?.priced[0]?.cost.cents).toBeLessThanOrEqual(asked?.priced[0]?.cost.cents ?? 0);
  });
});
