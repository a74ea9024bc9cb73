import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { EstimateOption } from '../../server/estimate/answer.ts';
import { bookOf } from '../../server/estimate/price-book.ts';
import { pricedRemedies } from '../../server/estimate/remedies.ts';
import { around, firstOf } from './around.ts';
import { household, optionOf, SEEDED, type Stated, takenOf } from './fields/priced.ts';

/** An option of a household, with its remedies priced. */
const whole = (stated: Stated, book = SEEDED): EstimateOption => {
  const { planned, tryChanged } = around(household(stated), book);
  const own = firstOf(planned);
  return { ...own.answer, service: { ...own.answer.service, remedies: pricedRemedies(own, book, tryChanged) } };
};
const charger = (amps: number) => ({ amps, connection: 'hardwired', equipment: 'owned', distanceFt: 4 });
const house = (peakA: number, more: Record<string, unknown> = {}) => ({
  service: { ratingA: 100, freeSpaces: 6 },
  load: { method: 'measured', peakA, days: 365 },
  ...more,
});
const remedies = (option: EstimateOption, kind: string) =>
  option.service.remedies.filter((remedy) => remedy.kind === kind);
const totalOf = (stated: Stated) => optionOf(stated).totals.totalCents;
const SLOW_MS = 60_000;

describe('a service that does not carry the option', () => {
  /** 220.87: 100 A − 1.25 × 48 A = 40 A for the charger, / 1.25 = 32 A; with 48 A it is 60 + 60 = 120 A, so 125 A are sold. */
  const full: Stated = { site: house(48), option: { chargers: [charger(48)] } };

  it('is answered by what each remedy costs as an option of its own', () => {
    const own = whole(full);
    const differs = (option: Record<string, unknown>) => totalOf({ ...full, option }) - own.totals.totalCents;
    expect(remedies(own, 'lower-amps')).toMatchObject([
      { amps: 32, differenceCents: differs({ chargers: [charger(32)] }) },
    ]);
    const loadManagement = { kind: 'service-monitor', maxA: 48 };
    expect(remedies(own, 'load-management')).toMatchObject([
      { differenceCents: differs({ chargers: [charger(48)], loadManagement }) },
    ]);
    const serviceUpgrade = { toA: 125, supply: null, meter: null };
    expect(remedies(own, 'service-upgrade')).toMatchObject([
      { amps: 125, differenceCents: differs({ chargers: [charger(48)], serviceUpgrade }) },
    ]);
  });

  it('says how long the utility is waited for', () => {
    const upgraded = optionOf({
      ...full,
      option: { chargers: [charger(48)], serviceUpgrade: { toA: 125, supply: null, meter: null } },
    });
    const waitDays = upgraded.schedule.find(({ step }) => step === 'utility')?.waitDays;
    expect(waitDays).toBeGreaterThan(0);
    expect(remedies(whole(full), 'service-upgrade')[0]?.detail).toContain(`about ${waitDays} days`);
  });

  /** 100 − 1.25 × 30 = 62.5 A, / 1.25 = 50 A: two of 48 A do not fit, and share 48 A on one circuit. */
  it('lets several chargers share one circuit', () => {
    const two: Stated = { site: house(30), option: { chargers: [charger(48), charger(48)] } };
    const own = whole(two);
    const shared = {
      chargers: [charger(48), charger(48)].map((one) => ({ ...one, group: 'A' })),
      loadManagement: { kind: 'shared-circuit', maxA: 48 },
    };
    const [remedy] = remedies(own, 'load-management').filter(({ amps }) => amps !== undefined);
    expect(remedy).toMatchObject({
      amps: 48,
      differenceCents: totalOf({ ...two, option: shared }) - own.totals.totalCents,
    });
  });

  it('is without a price for what the book does not sell, and never with a price of nothing', () => {
    const items = SEEDED.items.filter(({ key }) => key !== 'utility-service-overhead');
    const own = whole(full, bookOf(items, 1));
    const [upgrade] = remedies(own, 'service-upgrade');
    expect(upgrade).toBeDefined();
    expect(upgrade?.differenceCents).toBeUndefined();
    expect(own.service.remedies.at(-1)?.kind).toBe('service-upgrade');
  });

  it('has the same remedies without their differences in the core', () => {
    const core = optionOf(full).service.remedies;
    expect(core.every(({ differenceCents }) => differenceCents === undefined)).toBe(true);
    expect(core.map(({ kind }) => kind).sort()).toEqual(
      whole(full)
        .service.remedies.map(({ kind }) => kind)
        .sort(),
    );
  });

  it(
    'offers its remedies in order of cost, and each makes it fit',
    () => {
      const asked = fc.record({
        peakA: fc.integer({ min: 5, max: 75 }),
        amps: fc.integer({ min: 16, max: 80 }),
        chargers: fc.integer({ min: 1, max: 2 }),
        freeSpaces: fc.integer({ min: 0, max: 4 }),
      });
      fc.assert(
        fc.property(asked, ({ peakA, amps, chargers, freeSpaces }) => {
          const site = house(peakA, { service: { ratingA: 100, freeSpaces } });
          const stated = (setA: number): Stated => ({
            site,
            option: { chargers: Array.from({ length: chargers }, () => charger(setA)) },
          });
          const own = whole(stated(amps));
          const costs = own.service.remedies.map(({ differenceCents }) => differenceCents ?? Number.POSITIVE_INFINITY);
          expect(costs).toEqual([...costs].sort((a, b) => a - b));
          const [lower] = remedies(own, 'lower-amps');
          if (lower?.amps !== undefined) expect(optionOf(stated(lower.amps)).service.fits).toBe('yes');
          const helped = own.service.remedies.filter(({ kind }) => kind !== 'free-spaces');
          expect(helped.length > 0).toBe(own.service.fits !== 'yes');
        }),
        { numRuns: 12 },
      );
    },
    SLOW_MS,
  );
});

describe('a service that nobody knows', () => {
  it('is measured, at what the price book asks for it', () => {
    const unknown: Stated = { site: { load: { method: 'unknown' } } };
    const likely = SEEDED.byKey('load-recording-30-days')?.likely;
    expect(remedies(whole(unknown), 'measure')).toMatchObject([{ differenceCents: likely }]); // no markup, no tax on fees
    const solar = whole({ site: { ...unknown.site, service: { ratingA: 200, freeSpaces: 6, backfeedA: 40 } } });
    expect(remedies(solar, 'measure')[0]?.differenceCents).toBeUndefined(); // 220.87 bars it: there is nothing to buy
    const rating = whole({ site: { service: { ratingA: null, freeSpaces: 6 } } });
    expect(remedies(rating, 'measure')).toMatchObject([{ differenceCents: 0 }]); // the handle is read for nothing
  });
});

describe('a panel without free spaces', () => {
  const none: Stated = { site: { service: { ratingA: 200, freeSpaces: 0 } } };
  const withRoom: Stated = { site: { service: { ratingA: 200, freeSpaces: 6 } } };

  /**
   * Two spaces are lacking: two tandem breakers, and four circuits touched. Instead: a subpanel that takes two circuits for
   * those and two more for its own breaker, 4 of its 6 spaces.
   */
  it('gets tandem breakers, which the price holds, or a subpanel beside it', () => {
    const own = whole(none);
    expect(takenOf(own, 'tandem-breaker')).toBe(2);
    const [tandems, beside, ...others] = remedies(own, 'free-spaces');
    expect(others).toEqual([]);
    expect(tandems).toMatchObject({ differenceCents: 0 });
    expect(beside?.differenceCents).toBeGreaterThan(0);
    expect(remedies(whole(withRoom), 'free-spaces')).toEqual([]);
  });

  /**
   * Whole prices of the starting book, likely ones, for a crew of one at its rate: panel of 6 spaces, a breaker of 60 A, 4
   * of 20 A, 2 connectors, a ground bar, 3 × 6 AWG and 10 AWG of 2 + 2 × 5 ft and 3 % = 12.36 ft, 2.1 ft of EMT.
   */
  it('prices the subpanel by its parts and hours in place of the tandem breakers', () => {
    const own = whole(none);
    const cents = (key: string) => {
      const item = SEEDED.byKey(key);
      if (!item) throw new Error(`The starting book has ${key}.`);
      return item.offers[0]?.likelyCents ?? item.likely;
    };
    const rate = cents('rate-electrician');
    const hours = (key: string) => cents(key);
    const parts =
      cents('panel-100a-6sp-indoor') +
      2 * cents('emt-connector-1') +
      cents('ground-bar-kit') -
      2 * cents('tandem-breaker') +
      rate *
        (hours('subpanel-mount-60') +
          hours('breaker-2p-small') +
          4 * hours('breaker-1p') +
          (4 - 4) * hours('panel-rearrange'));
    const breaker = (ratingA: number, poles: 1 | 2) =>
      SEEDED.bySpec({ is: 'breaker', ratingA, poles, gfci: false })?.likely ?? Number.NaN;
    const [, beside] = remedies(own, 'free-spaces');
    const wireCents = (beside?.differenceCents ?? 0) - parts - breaker(60, 2) - 4 * breaker(20, 1);
    // 37 ft of 6 AWG and 12 ft of 10 AWG copper, and a stick of EMT: between 30 and 150 dollars (common practice, no source)
    expect(wireCents).toBeGreaterThan(3_000);
    expect(wireCents).toBeLessThan(15_000);
  });

  it('is not helped by tandem breakers where it has fuses: it is replaced', () => {
    const service = { ratingA: 100, freeSpaces: 0, panel: { kind: 'fuses', state: 'obsolete' } };
    const fuses = whole({ site: { service, load: { method: 'measured', peakA: 20, days: 365 } } });
    expect(fuses.buildable).toBe(false);
    expect(fuses.service.remedies).toMatchObject([{ kind: 'service-upgrade', amps: 100 }]);
    expect(fuses.service.remedies[0]?.differenceCents).toBeGreaterThan(0);
  });
});
