import { describe, expect, it } from 'vitest';
import type { Line } from '../../server/estimate/answer.ts';
import { trying } from '../../server/estimate/changed-option.ts';
import { priceTakeoff } from '../../server/estimate/lines.ts';
import { changedOptions, estimateOption } from '../../server/estimate/option-estimate.ts';
import { bookOf } from '../../server/estimate/price-book.ts';
import { isGuessed, LENGTHS, plansAtLengths } from '../../server/estimate/range/lengths.ts';
import { takeoffOf } from '../../server/estimate/takeoff/takeoff.ts';
import { ownCircuitOf, uncertaintyOf } from '../../server/estimate/uncertainty.ts';
import { widthOf } from './range-lines.ts';
import { house, SEEDED, uncertain } from './uncertain-jobs.ts';

const UNKNOWN_SERVICE = { service: { ratingA: null, freeSpaces: 6 }, load: { method: 'unknown' } };
const GUESSED = '19 joists, 24..40..90 lawn-trench clay, 10..12..13 gravel-trench';
const names = ({ range }: ReturnType<typeof uncertain>) => range.chances.map(({ name }) => name);

describe('a house of which everything is known', () => {
  it('has no chances and nothing to find out, and a range of prices and hours alone', () => {
    const { range, unknowns, findings } = uncertain();
    expect(range.chances).toEqual([]);
    expect(unknowns).toEqual([]);
    expect(findings).toEqual([]);
    expect(range.humps).toBeUndefined();
    expect(range.p90Cents).toBeGreaterThan(range.p10Cents);
  });

  it('tells the sum of likely values apart from the middle, and why they differ', () => {
    const { range, answer } = uncertain();
    expect(range.likelyCents).toBe(answer.totals.totalCents); // no contingency is stated
    expect(range.p50Cents).not.toBe(range.likelyCents);
    expect(range.because[0]).toContain('Likely prices, hours and lengths add up to $');
  });

  it('draws its shape so that all draws are in it', () => {
    const { range } = uncertain();
    expect(range.shape.shares.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 2); // each has four decimals
    expect(range.shape.fromCents).toBeLessThan(range.p10Cents);
    expect(range.shape.fromCents + range.shape.stepCents * range.shape.shares.length).toBeGreaterThan(range.p90Cents);
  });
});

describe('a fact that nobody knows', () => {
  it('parts the range into two humps where it is a new service at 35 %', () => {
    const { range, answer } = uncertain({ site: UNKNOWN_SERVICE, chances: { 'new-service': 0.35 } });
    expect(answer.totals.totalCents).toBe(range.likelyCents); // the likeliest case is without it
    const [chance] = range.chances;
    expect(chance).toMatchObject({ name: 'new-service', chance: 0.35 });
    expect(chance?.because).toContain('35 %, as stated');
    const [usual, changed] = range.humps ?? [];
    expect(usual?.chance).toBeCloseTo(0.65, 3);
    expect(changed?.chance).toBeCloseTo(0.35, 3);
    // What lies between the two middles is nearly empty: each bar there holds less than the tallest of either hump.
    const { fromCents, stepCents, shares } = range.shape;
    const barOf = (cents: number) => Math.floor((cents - fromCents) / stepCents);
    const between = shares.slice(barOf(usual?.p50Cents ?? 0), barOf(changed?.p50Cents ?? 0));
    expect(Math.min(...between)).toBeLessThan(0.2 * Math.max(...shares));
    expect(Math.abs((changed?.p50Cents ?? 0) - (usual?.p50Cents ?? 0) - (chance?.addsCents ?? 0))).toBeLessThan(
      0.35 * (chance?.addsCents ?? 0), // the middles lie above the likely values, which are skewed
    );
  });

  /**
   * A new service at 30 %, a panel that fails at 12 %, one with fuses at 25 %: none of them with 0.7 × 0.88 × 0.75 =
   * 46.2 %, any of them with 53.8 %. Room made in a full panel costs a small part of a new one.
   */
  it('leaves a fact that adds little out of the hump of those that add much', () => {
    const panel = { kind: null, state: null };
    const site = { ...UNKNOWN_SERVICE, service: { ratingA: null, freeSpaces: null, panel } };
    const large = { 'new-service': 0.3, 'panel-known-to-fail': 0.12, 'panel-with-fuses': 0.25 };
    for (const full of [0.25, 0.9]) {
      const { range } = uncertain({ site, chances: { ...large, 'panel-full': full } });
      const adds = (name: string) => range.chances.find((chance) => chance.name === name)?.addsCents ?? 0;
      expect(adds('panel-full')).toBeGreaterThan(0);
      expect(adds('panel-full')).toBeLessThan(0.25 * adds('panel-with-fuses'));
      const [usual, changed] = range.humps ?? [];
      expect(Math.abs((usual?.chance ?? 0) - 0.462)).toBeLessThan(0.01); // 8,191 plain draws would scatter by 0.0055
      expect(Math.abs((changed?.chance ?? 0) - 0.538)).toBeLessThan(0.01);
      expect(range.because[1]).toContain('with new service or panel known to fail or panel with fuses, 54 % around $');
    }
  });

  it('has the chance of the price book until one is stated', () => {
    const booked = SEEDED.byKey('chance-new-service-unknown-rating')?.likely;
    expect(uncertain({ site: UNKNOWN_SERVICE }).range.chances[0]?.chance).toBe(booked);
    const never = uncertain({ site: UNKNOWN_SERVICE, chances: { 'new-service': 0 } }).range;
    const always = uncertain({ site: UNKNOWN_SERVICE, chances: { 'new-service': 1 } }).range;
    expect(never.humps).toBeUndefined();
    expect(always.humps).toBeUndefined();
    expect(always.p10Cents).toBeGreaterThan(never.p90Cents);
  });

  /** The option with the new service stated is planned on its own, and has the same lines: hence no tolerance. */
  it('adds what the same option asks with the fact stated', () => {
    const { range } = uncertain({ site: UNKNOWN_SERVICE });
    const stated = uncertain({
      site: UNKNOWN_SERVICE,
      option: { serviceUpgrade: { toA: 200, supply: null, meter: null } },
    });
    const added = stated.answer.totals.totalCents - range.likelyCents;
    expect(range.chances[0]?.addsCents).toBe(added);
  });

  it('is left out of the range with a caution where the book has no chance of it', () => {
    const book = bookOf(
      SEEDED.items.filter(({ key }) => !key.startsWith('chance-new-service')),
      1,
    );
    const { range, findings } = uncertain({ site: UNKNOWN_SERVICE }, book);
    expect(range.chances).toEqual([]);
    expect(findings).toMatchObject([{ rule: 'chance-left-out', severity: 'caution' }]);
    expect(findings[0]?.message).toContain('state chances.new-service');
    expect(uncertain({ site: UNKNOWN_SERVICE, chances: { 'new-service': 0.2 } }, book).range.chances).toHaveLength(1);
  });

  it('is said to change nothing where its name is not known', () => {
    const { findings } = uncertain({ chances: { 'new-servise': 0.2, rain: 0.3 } });
    expect(findings.map(({ message }) => message)).toEqual([
      'There is no chance by the name of "new-servise", so that it changes nothing. Did you mean "new-service"?',
      expect.stringContaining(
        'There is no chance by the name of "rain", so that it changes nothing. Known are new-service,',
      ),
    ]);
  });

  it('refuses mesh and bars that are both more than likely', () => {
    expect(() => house({ chances: { 'slab-mesh': 0.7, 'slab-rebar': 0.4 } })).toThrow(
      'chances.slab-rebar must make no more than 1 together with slab-mesh, 0.7; it is 0.4',
    );
  });

  it.each([
    ['a panel nobody counted', { site: { service: { ratingA: 200, freeSpaces: null } } }, ['panel-full']],
    [
      'a panel nobody looked into',
      { site: { service: { ratingA: 200, freeSpaces: 6, panel: { kind: null, state: null } } } },
      ['panel-known-to-fail', 'panel-with-fuses'],
    ],
    [
      'walls of 1938 that are opened',
      { site: { yearBuilt: 1938, hazards: null }, route: '12 finished-wall' },
      ['lead-paint', 'asbestos', 'plaster', 'blocked-wall'],
    ],
    [
      'the same walls of 2001',
      { site: { yearBuilt: 2001, hazards: null }, route: '12 finished-wall' },
      ['blocked-wall'],
    ],
    ['walls that are being built', { site: { work: 'new-construction' }, route: '12 finished-wall' }, []],
    ['walls that are known to be of plaster', { site: { hazards: ['plaster'] }, route: '12 finished-wall' }, []],
    [
      'a slab nobody knows of',
      { route: [{ kind: 'concrete-cut', lengthFt: 9, reinforcement: null }] },
      ['slab-rebar', 'slab-mesh'],
    ],
    [
      'a larger service with unknown ends',
      { option: { serviceUpgrade: { toA: 320, supply: null, meter: null } } },
      ['overhead-service', 'meter-kept'],
    ],
  ])('%s', (_, stated, expected) => {
    expect(names(uncertain(stated))).toEqual(expected);
  });

  it('counts a new panel once where more than one reason asks for it', () => {
    const panel = { kind: null, state: null };
    const chances = { 'panel-with-fuses': 1, 'panel-known-to-fail': 1 };
    const site = { service: { ratingA: 200, freeSpaces: 6, panel } };
    const both = uncertain({ site, chances }).range;
    const one = uncertain({ site, chances: { ...chances, 'panel-known-to-fail': 0 } }).range;
    expect(Math.abs(both.p50Cents / one.p50Cents - 1)).toBeLessThan(0.005);
  });

  it('makes an outlet that may lack ground-fault protection one that may be replaced', () => {
    const option = {
      feed: 'existing-receptacle',
      chargers: [{ amps: 12, connection: 'receptacle-5-15', equipment: 'owned' }],
      receptacle: { circuitA: 20, sharedWith: [], gfci: null, grounded: true },
    };
    const { range, unknowns, answer } = uncertain({ option });
    expect(range.chances).toMatchObject([{ name: 'no-ground-fault-protection', chance: 0.6 }]);
    const replaced = uncertain({
      option: { ...option, receptacle: { ...option.receptacle, gfci: false, replace: true } },
    });
    expect(range.chances[0]?.addsCents).toBe(replaced.answer.totals.totalCents - answer.totals.totalCents);
    expect(unknowns.map(({ path }) => path)).toEqual(['options.0.receptacle.gfci']);
  });
});

describe('an outlet whose circuit nobody knows', () => {
  const receptacle = { circuitA: 15, sharedWith: null, gfci: true, grounded: null };
  const option = {
    feed: 'existing-receptacle',
    chargers: [{ amps: 12, connection: 'receptacle-5-15', equipment: 'owned' }],
    receptacle,
  };
  const DRYER_OUTLET = {
    ...option,
    chargers: [{ amps: 24, connection: 'receptacle-14-50', equipment: 'owned' }],
    receptacle: { ...receptacle, circuitA: 30, grounded: true },
  };

  /** What may be so, and what it adds; and what a circuit of its own adds to the same option. */
  function withOwnCircuit(stated: { option: Record<string, unknown>; site?: Record<string, unknown> }) {
    const description = house({ ...stated, route: '25 joists' });
    const [first] = description.options;
    if (!first) throw new Error('There is an option.');
    const one = estimateOption({ description, option: first, book: SEEDED });
    const estimateChanged = changedOptions({ description, book: SEEDED }, [one]);
    const ownCircuit = ownCircuitOf(one, description, trying(estimateChanged));
    const { range, unknowns } = uncertaintyOf({ one, ownCircuit, description, book: SEEDED });
    const { receptacle: _receptacle, ...rest } = first;
    const instead = estimateChanged({ ...rest, feed: 'dedicated-circuit' }).answer.totals.totalCents;
    return {
      adds: range.chances.map(({ name, addsCents }) => ({ name, addsCents })),
      ownAddsCents: instead - one.answer.totals.totalCents,
      unknowns,
      checked: one.answer.findings.find(({ rule }) => rule === 'individual-branch-circuit'),
    };
  }

  /** NEC 2023, 625.40: 12 A at 120 V may share; 12 × 1.25 = 15 A is what the circuit carries for hours (210.23). */
  it('comes to a circuit of its own for want of a ground, and not for sharing what it may share', () => {
    const { adds, ownAddsCents, unknowns, checked } = withOwnCircuit({ option });
    expect(checked?.message).toContain('Charging at 12 A may share a 15 A circuit');
    expect(adds).toEqual([{ name: 'no-ground', addsCents: ownAddsCents }]);
    const shared = unknowns.find(({ path }) => path === 'options.0.receptacle.sharedWith');
    expect(shared?.swingCents).toBe(0); // it trips or does not: worth a look, and no money
  });

  /** NEC 2020, 625.40: no other outlet on it. Above 80 % of the circuit or at 240 V: none in any edition. */
  it.each([
    ['by the edition of 2020', { option, site: { code: { edition: '2020' } } }, ['shared-circuit', 'no-ground']],
    [
      'above 80 % of its circuit',
      { option: { ...option, chargers: [{ ...option.chargers[0], connection: 'receptacle-5-20', amps: 16 }] } },
      ['shared-circuit', 'no-ground'],
    ],
    ['at 240 V', { option: DRYER_OUTLET }, ['shared-circuit']],
  ])('may come to a circuit of its own for sharing %s', (_, stated, names) => {
    const { adds, ownAddsCents } = withOwnCircuit(stated);
    expect(adds).toEqual(names.map((name) => ({ name, addsCents: ownAddsCents })));
  });

  it('is worth finding out even where nothing can be priced', () => {
    const { range, unknowns } = uncertain({ option, route: [] });
    expect(range.chances).toEqual([]);
    expect(unknowns.map(({ path, swingCents }) => `${path} ${swingCents}`)).toEqual([
      'options.0.receptacle.grounded 0',
      'options.0.receptacle.sharedWith 0',
    ]);
  });
});

describe('guessed lengths', () => {
  it('are taken off anew at seventeen lengths, all long or short together, in whole packages', () => {
    const { plan } = uncertain({ route: GUESSED });
    const plans = plansAtLengths(plan);
    expect(plans).toHaveLength(LENGTHS);
    const feet = plans.map(({ route }) => route.filter(isGuessed).map((leg) => leg.feet.likely));
    for (const leg of [0, 1]) {
      const along = feet.map((one) => one[leg] ?? 0);
      expect(along).toEqual([...along].sort((a, b) => a - b));
    }
    expect(feet[0]?.[0]).toBeGreaterThan(24);
    expect(feet.at(-1)?.[0]).toBeLessThan(90);
    expect(plansAtLengths(uncertain().plan)).toEqual([]);
  });

  it('come to the same where lines that were made before are taken as they are', () => {
    const { plan } = uncertain({ route: GUESSED });
    const known = new Map();
    for (const at of plansAtLengths(plan)) {
      const taken = { takeoff: takeoffOf(at), plan: at, book: SEEDED };
      const numbers = ({ because: _because, ...rest }: Line) => rest;
      expect(priceTakeoff({ ...taken, known }).lines.map(numbers)).toEqual(priceTakeoff(taken).lines.map(numbers));
    }
  });

  it('widen the range, and are worth measuring the more the more they may be', () => {
    const guessed = uncertain({ route: GUESSED });
    const measured = uncertain({ route: '19 joists, 40 lawn-trench clay, 12 gravel-trench' });
    expect(widthOf(guessed.range)).toBeGreaterThan(widthOf(measured.range));
    expect(guessed.unknowns.map(({ path }) => path)).toEqual(['route.1.lengthFt', 'route.2.lengthFt']);
    const [lawn, gravel] = guessed.unknowns;
    expect(lawn?.swingCents).toBeGreaterThan(gravel?.swingCents ?? 0);
    expect(guessed.range.drivers.map(({ name }) => name)).toContain('guessed lengths');
  });

  it('narrow to the measured range when the only guess is known', () => {
    const guessed = uncertain({ route: '19 joists, 24..40..90 lawn-trench clay' });
    const measured = uncertain({ route: '19 joists, 40 lawn-trench clay' });
    const known = widthOf(guessed.range) - (guessed.unknowns[0]?.swingCents ?? 0);
    expect(Math.abs(known / widthOf(measured.range) - 1)).toBeLessThan(0.1); // prices of the longest are wider in themselves
  });

  it('of an option with its own route are named there', () => {
    const { unknowns } = uncertain({ option: { route: '20..30..45 joists' } });
    expect(unknowns.map(({ path }) => path)).toEqual(['options.0.route.0.lengthFt']);
  });
});

describe('what is worth finding out', () => {
  const site = {
    yearBuilt: 1948,
    hazards: null,
    service: { ratingA: null, freeSpaces: null, panel: { kind: null, state: null } },
    load: { method: 'unknown' },
  };
  const stated = { site, route: [{ kind: 'finished-wall', lengthFt: { low: 8, likely: 14, high: 30 } }] };

  it('stands most money first', () => {
    const swings = uncertain(stated).unknowns.map(({ swingCents }) => swingCents);
    expect(swings).toEqual([...swings].sort((a, b) => b - a));
    expect(swings[0]).toBeGreaterThan(10_000);
  });

  it('is found out without anybody taking a cover off', () => {
    const { unknowns } = uncertain(stated);
    expect(unknowns.length).toBeGreaterThanOrEqual(7);
    for (const { howToFindOut } of unknowns) {
      expect(howToFindOut).not.toMatch(/(?:open|remove|take off|unscrew) the (?:panel|cover)|cover off/i);
    }
  });

  it('says of a panel that its cover stays on', () => {
    const spaces = uncertain(stated).unknowns.find(({ path }) => path === 'site.service.freeSpaces');
    expect(spaces?.howToFindOut).toContain('leave its cover on');
    expect(spaces?.whoCanTell).toBe('you');
  });
});

describe('days of work', () => {
  /**
   * Two people alike, one paid by the trip: with further days costing nothing the spread is that of the lines; with
   * trips of two hours it is wider, since a slow crew drives once more.
   */
  it('cost a whole trip more where a crew is slow, and only whole trips', () => {
    const far = { terms: { travel: { minutesEachWay: 120, milesEachWay: 90 } } };
    const description = house(far);
    const [option] = description.options;
    if (!option) throw new Error('There is an option.');
    const one = estimateOption({ description, option, book: SEEDED });
    const paid = { one, description, book: SEEDED };
    const byOwner = { ...description, terms: { ...description.terms, who: 'owner' as const } };
    expect(widthOf(uncertaintyOf(paid).range)).toBeGreaterThan(
      widthOf(uncertaintyOf({ ...paid, one: { ...one, plan: { ...one.plan, description: byOwner } } }).range),
    );
  });
});

describe('the age of prices', () => {
  it('widens the range beyond their shelf life, and leaves the likely total', () => {
    const fresh = uncertain();
    const old = uncertain({ asOf: '2028-08-01' });
    expect(old.range.likelyCents).toBe(fresh.range.likelyCents);
    expect(widthOf(old.range)).toBeGreaterThan(widthOf(fresh.range) * 1.02);
  });
});
