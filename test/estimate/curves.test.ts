import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { byAmps, byDistance } from '../../server/estimate/curves.ts';
import { type Description, readDescription } from '../../server/estimate/description.ts';
import { estimate } from '../../server/estimate/estimate.ts';
import { around } from './around.ts';
import { household, optionOf, SEEDED } from './fields/priced.ts';

const charger = (amps: number) => ({ amps, connection: 'hardwired', equipment: 'owned', distanceFt: 4 });
const circuit = { id: 'circuit', label: 'circuit', feed: 'dedicated-circuit', chargers: [charger(32)] };
const panel = {
  id: 'panel',
  label: 'panel',
  feed: 'subpanel',
  chargers: [charger(32)],
  subpanel: { ratingA: 125, spaces: 12, feederA: 90, otherCircuits: [] },
};
const outlet = {
  id: 'outlet',
  label: 'outlet',
  feed: 'existing-receptacle',
  chargers: [{ amps: 12, connection: 'receptacle-5-20', equipment: 'owned' }],
  receptacle: { circuitA: 20, sharedWith: [], gfci: true, grounded: true },
};
const ROUTE = '30 joists, 40 lawn-trench, 12 concrete-cut';
const described = (options: unknown[], route: unknown = ROUTE, site: Record<string, unknown> = {}) =>
  readDescription({
    title: 'A household for tests',
    asOf: '2025-08-01',
    site: {
      building: 'outdoor',
      service: { ratingA: 400, freeSpaces: 12 },
      load: { method: 'measured', peakA: 60, days: 365 },
      ...site,
    },
    route,
    options,
  });
const byDistanceOf = (options: unknown[], ...rest: [route?: unknown, site?: Record<string, unknown>]) => {
  const description = described(options, ...rest);
  return byDistance(description, around(description).tryChanged);
};
const byAmpsOf = (description: Description) => {
  const { planned, tryChanged } = around(description);
  return byAmps(planned, tryChanged);
};
const SLOW_MS = 90_000;

describe('price against distance', () => {
  it('lets the longest trench grow, planned anew, though another leg is longer', () => {
    const route = '60 joists, 40 lawn-trench, 12 concrete-cut';
    const rows = byDistanceOf([circuit, panel, outlet], route);
    expect(rows.map(({ lengthFt }) => lengthFt)).toEqual([20, 30, 40, 60, 80, 120]);
    const twice = estimate(described([circuit, panel], '60 joists, 80 lawn-trench, 12 concrete-cut'), SEEDED, {
      parts: 'core',
    });
    const [first, second] = twice.options.map(({ totals }) => totals.totalCents);
    expect(rows[4]?.totals).toEqual({ circuit: first, panel: second, outlet: rows[0]?.totals.outlet });
  });

  it('has the outlet that is there as a flat line, and no curve where nothing else can be built', () => {
    const own = estimate(described([outlet]), SEEDED, { parts: 'core' }).options[0]?.totals.totalCents;
    const rows = byDistanceOf([circuit, outlet]);
    expect(rows.map(({ totals }) => totals.outlet)).toEqual(Array.from({ length: 6 }, () => own));
    expect(byDistanceOf([outlet])).toEqual([]);
    const noneFits = { service: { ratingA: 100, freeSpaces: 6 }, load: { method: 'measured', peakA: 78, days: 365 } };
    expect(byDistanceOf([circuit, outlet], ROUTE, noneFits)).toEqual([]);
  });

  it('lets the longest leg grow where nothing is dug, its guess with it', () => {
    const route = [
      { kind: 'joists', lengthFt: 10 },
      { kind: 'attic', lengthFt: { low: 20, likely: 24, high: 30 } },
    ];
    const rows = byDistanceOf([circuit], route);
    expect(rows.map(({ lengthFt }) => lengthFt)).toEqual([12, 18, 24, 36, 48, 72]);
    const stretched = [
      { kind: 'joists', lengthFt: 10 },
      { kind: 'attic', lengthFt: { low: 60, likely: 72, high: 90 } },
    ];
    const [third] = estimate(described([circuit], stretched), SEEDED, { parts: 'core' }).options;
    expect(rows[5]?.totals.circuit).toBe(third?.totals.totalCents);
  });

  it('ends where a leg may be no longer, and leaves out what cannot be built there', () => {
    const long = byDistanceOf([circuit], '1200 lawn-trench');
    expect(long.map(({ lengthFt }) => lengthFt)).toEqual([600, 900, 1200, 1800, 2400]); // 3,600 ft is more than a leg
    const noneFits = { service: { ratingA: 100, freeSpaces: 6 }, load: { method: 'measured', peakA: 78, days: 365 } };
    expect(byDistanceOf([circuit], ROUTE, noneFits)).toEqual([]);
  });

  it(
    'never falls with length',
    () => {
      const leg = fc.record({
        kind: fc.constantFrom(
          'joists',
          'interior-surface',
          'under-deck',
          'lawn-trench',
          'gravel-trench',
          'concrete-cut',
        ),
        lengthFt: fc.integer({ min: 4, max: 120 }),
      });
      const options = fc.constantFrom(circuit, panel, { ...circuit, chargers: [charger(48)] });
      fc.assert(
        fc.property(fc.array(leg, { minLength: 1, maxLength: 3 }), options, (route, option) => {
          const totals = byDistanceOf([option], route).map((row) => row.totals[option.id] ?? Number.NaN);
          expect(totals).toEqual([...totals].sort((a, b) => a - b));
        }),
        { numRuns: 15 },
      );
    },
    SLOW_MS,
  );
});

describe('price against amperes', () => {
  it('is what each setting costs, all chargers alike', () => {
    const option = { chargers: [charger(32), charger(32)] };
    const description = household({ site: { service: { ratingA: 800, freeSpaces: 8 } }, option });
    const rows = byAmpsOf(description);
    expect(rows.map(({ amps }) => amps)).toEqual([16, 24, 32, 40, 48, 64, 80]);
    for (const { amps, totals } of rows) {
      const at = optionOf({
        site: { service: { ratingA: 800, freeSpaces: 8 } },
        option: { chargers: [charger(amps), charger(amps)] },
      });
      expect(totals).toEqual({ a: at.totals.totalCents });
    }
  });

  it('leaves out what its outlet, its nameplate or the service does not let charge so fast', () => {
    const plug = { ...circuit, id: 'plug', chargers: [{ ...charger(32), connection: 'receptacle-14-50' }] };
    const small = { ...circuit, id: 'small', chargers: [{ ...charger(32), nameplateA: 40 }] };
    const rows = byAmpsOf(described([circuit, plug, small, outlet]));
    const of = (id: string) => rows.filter(({ totals }) => totals[id] !== undefined).map(({ amps }) => amps);
    expect(of('circuit')).toEqual([16, 24, 32, 40, 48, 64, 80]);
    expect(of('plug')).toEqual([16, 24, 32, 40]); // a 50 A receptacle: 40 A (625.42)
    expect(of('small')).toEqual([16, 24, 32, 40]);
    expect(of('outlet')).toEqual([]);
  });
});
