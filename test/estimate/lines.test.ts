import { describe, expect, it } from 'vitest';
import { Extra } from '../../server/estimate/description/terms.ts';
import { priceTakeoff } from '../../server/estimate/lines.ts';
import type { MaterialDemand, Takeoff, TaskDemand } from '../../server/estimate/plan-types.ts';
import { bookOf } from '../../server/estimate/price-book.ts';
import { ITEMS, smallBook } from './small-book.ts';
import { described, laid, planOf, run, section } from './takeoff/plans.ts';

type Terms = Record<string, unknown>;

const CABLE: MaterialDemand = {
  spec: { is: 'cable', form: 'uf-b', metal: 'copper', size: '8', conductors: 2 },
  description: 'UF-B 8/2, copper',
  class: 'material',
  scope: 'wire',
  unit: 'ft',
  pieces: [53.55],
  legs: [1],
  because: ['the ditch and its ends'],
};
const counted = (name: string, unit: string, quantity: number): MaterialDemand => ({
  spec: { is: 'other', name },
  description: name,
  class: 'material',
  scope: 'other',
  unit,
  quantity,
  legs: [],
  because: [],
});
const DIG: TaskDemand = {
  task: 'hand-dig-loam',
  scope: 'trench',
  quantity: 41,
  unit: 'ft',
  factors: ['factor-soil-clay'],
  legs: [2],
  because: ['41 ft by hand'],
};
const BREAKER: TaskDemand = {
  ...DIG,
  task: 'breaker-2p-small',
  scope: 'breaker',
  quantity: 1,
  unit: 'each',
  factors: [],
};

interface Job {
  materials?: MaterialDemand[];
  tasks?: TaskDemand[];
  terms?: Terms;
  site?: Terms;
  extras?: Terms[];
  book?: ReturnType<typeof smallBook>;
}

/** Prices what is asked for in a house where nothing is laid, so that no trip is added. */
function priced({ materials = [], tasks = [], terms = {}, site = {}, extras = [], book = smallBook() }: Job) {
  const base = described({ route: [{ kind: 'joists', lengthFt: 10 }], terms, site });
  const takeoff: Takeoff = { materials, tasks, wire: {} };
  const description = { ...base, asOf: '2026-03-02', extras: extras.map((extra) => Extra.parse(extra)) };
  return priceTakeoff({ takeoff, plan: planOf(description, { runs: [] }), book });
}

describe('lines of material', () => {
  /** 53.55 ft are cut as 54 whole feet: 54 × 2.62 = 141.48. The example of the trade's own arithmetic, no source needed. */
  it('counts what is sold by the foot in whole feet, and says what is taken and left', () => {
    const { lines } = priced({ materials: [CABLE] });
    expect(lines).toHaveLength(1);
    expect(lines[0]).toMatchObject({
      ...{ key: 'uf-b-8-2-cu', quantity: 54, unit: 'ft', unitPriceCents: 262, amountCents: 14_148 },
      ...{ taken: 53.55, takenUnit: 'ft', leftOver: 0.45, legs: [1], priced: true },
    });
    expect(lines[0]).not.toHaveProperty('package');
  });

  /** Two runs of 60 ft: by the foot 2 × 60 × 2.62 = 314.40, one coil of 125 ft 290.00. */
  it('buys one spec of all runs together', () => {
    const { lines } = priced({
      materials: [
        { ...CABLE, pieces: [60] },
        { ...CABLE, pieces: [60], legs: [0] },
      ],
    });
    expect(lines).toHaveLength(1);
    expect(lines[0]).toMatchObject({
      ...{ quantity: 1, unit: 'coil 125 ft', package: { size: 125, unit: 'ft' }, amountCents: 29_000 },
      ...{ taken: 120, leftOver: 5, legs: [0, 1] },
    });
  });

  /** 125 ft in one coil and 20 ft by the foot: two lines of one key, told apart by the package. */
  it('has a line for each offer that is bought', () => {
    const { lines } = priced({ materials: [{ ...CABLE, pieces: [125, 20] }] });
    expect(lines.map(({ key, amountCents }) => [key, amountCents])).toEqual([
      ['uf-b-8-2-cu', 5240],
      ['uf-b-8-2-cu', 29_000],
    ]);
  });

  /** 53.55 × 2.62 = 140.301, rounded once. */
  it('charges what is taken where offcuts go back to the stock', () => {
    const { lines } = priced({ materials: [CABLE], terms: { offcuts: 'stock' } });
    expect(lines[0]).toMatchObject({ quantity: 53.55, amountCents: 14_030, leftOver: 0 });
  });

  /** 41.2 ft of conduit from stock at the smallest package's foot: 41.2 × 0.97 = 39.964. */
  it('takes the foot of the smallest package where none is sold by the foot', () => {
    const conduit = { ...counted('x', 'ft', 41.2), spec: { is: 'raceway', type: 'pvc-40', tradeSize: '1' } } as const;
    const { lines } = priced({ materials: [conduit], terms: { offcuts: 'stock' } });
    expect(lines[0]).toMatchObject({ quantity: 41.2, unitPriceCents: 97, amountCents: 3996 });
  });

  /** 6.3 bags are 7 bags, 7 × 7.20 = 50.40; 0.0617 yd³ are poured as they are, 0.0617 × 55.00 = 3.39. */
  it('buys bags whole, and what is poured by the part', () => {
    const { lines } = priced({
      materials: [counted('concrete-80', 'each', 6.3), counted('gravel-yd3', 'yd3', 0.0617)],
    });
    expect(lines[0]).toMatchObject({ quantity: 7, taken: 6.3, leftOver: 0.7, amountCents: 5040 });
    expect(lines[1]).toMatchObject({ quantity: 0.0617, leftOver: 0, amountCents: 339 });
  });

  it('shows a thing that the book lacks without a price, and says so', () => {
    const { lines } = priced({
      materials: [{ ...CABLE, spec: { ...CABLE.spec, size: '6' } as MaterialDemand['spec'] }],
    });
    expect(lines[0]).toMatchObject({ key: 'uf-b-6-2-cu', priced: false, amountCents: 0, quantity: 53.55, unit: 'ft' });
    expect(lines[0]?.because).toContain('The price book has no UF-B 8/2, copper.');
  });

  it('does not price what the book counts in another unit', () => {
    const { lines } = priced({ materials: [counted('concrete-80', 'yd3', 2)] });
    expect(lines[0]).toMatchObject({ priced: false, amountCents: 0 });
    expect(lines[0]?.because).toContain('The price book sells concrete-80 by each, and yd3 is asked for.');
  });

  it('does not price what is only sold in packages that are not to be had', () => {
    const gone = ITEMS.map((one) => ({ ...one, offers: one.offers.map((offer) => ({ ...offer, available: false })) }));
    const { lines } = priced({ materials: [CABLE], book: bookOf(gone, 1) });
    expect(lines[0]).toMatchObject({ priced: false, amountCents: 0 });
  });

  it('marks what is older than its shelf life: wire after 90 days, bags after a year', () => {
    const old = ITEMS.map((one) => ({ ...one, date: '2025-12-01' })); // 91 days before 2026-03-02
    const { lines } = priced({ materials: [CABLE, counted('concrete-80', 'each', 1)], book: bookOf(old, 1) });
    expect(lines.map(({ stale }) => stale)).toEqual([true, false]);
  });

  it('judges the age of the package that is bought, not of one that lies beside it', () => {
    // 53.55 ft are bought by the foot: 54 × 2.62 $ are less than a coil for 290 $.
    const dated = (at: number) =>
      ITEMS.map((one) => {
        const offers = one.offers.map((offer, place) => (place === at ? { ...offer, date: '2026-03-01' } : offer));
        return { ...one, date: '2025-12-01', offers };
      });
    const stale = (at: number) => priced({ materials: [CABLE], book: bookOf(dated(at), 1) }).lines[0]?.stale;
    expect([stale(0), stale(1)]).toEqual([false, true]);
  });

  it('lets a stated permit fee take the place of the book, the same in every case', () => {
    const permit = { ...counted('permit-circuit', 'each', 1), class: 'fee' as const, scope: 'permit' as const };
    const { lines } = priced({ materials: [permit], site: { permit: { feeCents: 8750 } } });
    expect(lines).toHaveLength(1);
    expect(lines[0]).toMatchObject({ key: 'permit-circuit', amountCents: 8750, lowCents: 8750, highCents: 8750 });
    expect(priced({ materials: [permit] }).lines[0]).toMatchObject({ amountCents: 11_000, highCents: 35_000 });
  });
});

describe('lines of labor', () => {
  /** 41 ft × 0.08 h × 1.5 = 4.92 h; × 50.00 = 246.00 at the labor rate. */
  it('multiplies units, hours and factors, and takes the labor rate', () => {
    const { lines, labor } = priced({ tasks: [DIG] });
    expect(lines).toHaveLength(1);
    expect(lines[0]).toMatchObject({
      key: 'hand-dig-loam',
      quantity: 4.92,
      unit: 'h',
      amountCents: 24_600,
      hours: 4.92,
    });
    expect(labor).toMatchObject({ hours: 4.92, workingDays: 1, ownerHours: 0 });
    expect(labor.tasks[0]).toMatchObject({ quantity: 41, unit: 'ft', hoursPerUnit: 0.08, factor: 1.5, hours: 4.92 });
  });

  /** The labourer of the crew digs at 30.00: 4.92 × 30.00 = 147.60; the breaker stays at the labor rate: 0.4 × 50.00. */
  it('takes the rate of the trade where the crew names it', () => {
    const crew = [
      { rate: 'rate-labourer', count: 1 },
      { rate: 'rate-helper', count: 1 },
    ];
    const { lines, labor } = priced({ tasks: [DIG, BREAKER], terms: { crew } });
    expect(lines.map(({ amountCents }) => amountCents)).toEqual([14_760, 2000]);
    expect(labor.workingDays).toBe(1); // 5.32 h by two heads of 8 h
  });

  it('takes the rate that the terms name', () => {
    const { lines } = priced({ tasks: [BREAKER], terms: { laborRate: 'rate-helper' } });
    expect(lines[0]).toMatchObject({ unitPriceCents: 2500, amountCents: 1000 });
  });

  it('has one line for one task, with factors of their own for each part', () => {
    const plain = { ...DIG, factors: [], quantity: 10, legs: [0] };
    const { lines, labor } = priced({ tasks: [DIG, plain] });
    expect(lines).toHaveLength(1);
    expect(lines[0]).toMatchObject({ quantity: 5.72, legs: [0, 2] }); // 4.92 + 10 × 0.08
    expect(labor.tasks.map(({ hours }) => hours)).toEqual([4.92, 0.8]);
  });

  /** 0.625, 1 and 1.625 of the hours, and 0.8, 1 and 1.0667 of the factor: √(0.375² + 0.2²) = 0.425 and √(0.625² + 0.0667²) = 0.6286. */
  it('spreads hours by the roots of squares of what makes them unsure', () => {
    const { lines } = priced({ tasks: [DIG] });
    expect(lines[0]?.lowCents).toBe(14_145); // 4.92 × (1 − 0.425) = 2.829 h
    expect(Math.abs((lines[0]?.highCents ?? 0) - 24_600 * 1.62855)).toBeLessThan(5); // the sum above has five decimals
  });

  it('keeps the hours of what the owner does, and asks no money for them', () => {
    const some = priced({ tasks: [DIG, BREAKER], terms: { ownerDoes: ['trench'] } });
    expect(some.lines.map(({ key }) => key)).toEqual(['breaker-2p-small']);
    expect(some.labor).toMatchObject({ hours: 5.32, ownerHours: 4.92 });
    const all = priced({ tasks: [DIG, BREAKER], terms: { who: 'owner' } });
    expect(all.lines).toEqual([]);
    expect(all.labor).toMatchObject({ hours: 5.32, ownerHours: 5.32 });
  });

  it.each([
    ['a labor unit', { ...DIG, task: 'sing' }, {}, 'The price book has no labor unit "sing".'],
    ['a factor', { ...DIG, factors: ['factor-moon'] }, {}, 'The price book has no factor "factor-moon".'],
    ['the unit', { ...DIG, unit: 'yd3' }, {}, 'The price book counts "hand-dig-loam" by ft, and yd3 is asked for.'],
    ['a rate', DIG, { laborRate: 'rate-x' }, 'The price book has no rate "rate-x".'],
    ['a rate that is none', DIG, { laborRate: ITEMS[0]?.key }, `The price book has no rate "${ITEMS[0]?.key}".`],
  ])('gives a line without a price where the book lacks %s', (_, task, terms, reason) => {
    const { lines } = priced({ tasks: [task], terms });
    expect(lines[0]).toMatchObject({ priced: false, amountCents: 0 });
    expect(lines[0]?.because).toContain(reason);
    expect(lines[0]?.quantity).toBeGreaterThan(0);
  });
});

describe('trips', () => {
  const description = described({ route: [{ kind: 'joists', lengthFt: 10 }], terms: { travel: { milesEachWay: 10 } } });
  const plan = planOf(
    { ...description, asOf: '2026-03-02' },
    { runs: [run({ sections: [section({ insulation: 'nm-b', legs: [0] })], legs: [laid(0, 'nm-b')] })] },
  );
  const priceHours = (hours: number) =>
    priceTakeoff({
      takeoff: { materials: [], tasks: [{ ...BREAKER, quantity: hours / 0.4 }], wire: {} },
      plan,
      book: smallBook(),
    });

  /**
   * 14 h of work, days of 8 h, one final inspection: with 2 days and the inspection 3 trips of 2 × 30 minutes take
   * 1 + 2 × 0.8 + 3 × 1 = 5.6 h, 19.6 h in all, a third day; 4 trips take 7.4 h, 21.4 h, still three days. 4 × 2 × 10 miles.
   */
  it('adds the days that driving itself takes', () => {
    const { lines, labor } = priceHours(14);
    expect(labor.hours).toBeCloseTo(21.4, 4);
    expect(labor.workingDays).toBe(3);
    expect(lines.find(({ key }) => key === 'vehicle-mile')).toMatchObject({ quantity: 80, amountCents: 5600 });
  });

  it('ends where the drive takes longer than a day', () => {
    const far = described({ route: [{ kind: 'joists', lengthFt: 10 }], terms: { hoursPerDay: 0.5 } });
    const { labor } = priceTakeoff({
      takeoff: { materials: [], tasks: [BREAKER], wire: {} },
      plan: { ...plan, description: far },
      book: smallBook(),
    });
    expect(Number.isFinite(labor.hours)).toBe(true);
  });
});

describe('what is added by hand', () => {
  const cover = {
    description: 'locking cover',
    class: 'material',
    scope: 'other',
    quantity: 3,
    unit: 'each',
    unitPriceCents: 1234,
  };
  const help = {
    ...cover,
    description: 'a day of help',
    class: 'labor',
    quantity: 1,
    unit: 'day',
    unitPriceCents: 20_000,
    hours: 8,
  };

  /** 3 × 12.34 = 37.02 */
  it('is a line of its own', () => {
    const { lines } = priced({ extras: [cover] });
    expect(lines[0]).toMatchObject({ key: 'extra-1', description: 'locking cover', amountCents: 3702, priced: true });
  });

  it('has its hours among the tasks, and no money where the owner does it', () => {
    const { labor } = priced({ extras: [help] });
    expect(labor).toMatchObject({ hours: 8, ownerHours: 0 });
    expect(labor.tasks).toHaveLength(1);
    const owners = priced({ extras: [help], terms: { who: 'owner' } });
    expect(owners.lines).toEqual([]);
    expect(owners.labor).toMatchObject({ hours: 8, ownerHours: 8 });
  });

  it('is made up to the minimum of the terms, and never for an owner', () => {
    const { lines } = priced({ extras: [cover], terms: { minimumCents: 20_000 } });
    expect(lines.at(-1)).toMatchObject({ class: 'labor', description: 'minimum charge', amountCents: 16_298 }); // 200.00 − 37.02
    expect(priced({ extras: [cover], terms: { minimumCents: 3702 } }).lines).toHaveLength(1);
    expect(priced({ extras: [cover], terms: { minimumCents: 20_000, who: 'owner' } }).lines).toHaveLength(1);
  });
});
