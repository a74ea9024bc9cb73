import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { PlannedOption, Takeoff } from '../../../server/estimate/plan-types.ts';
import { takeoffOf } from '../../../server/estimate/takeoff/takeoff.ts';
import { isDitch, type LegKind } from '../../../server/estimate/vocabulary.ts';
import { described, laid, planOf, run, section } from './plans.ts';

const SURFACE: LegKind[] = [
  'joists',
  'finished-ceiling',
  'crawlspace',
  'attic',
  'interior-surface',
  'exterior-wall',
  'under-deck',
];
const GROUND: LegKind[] = [
  'lawn-trench',
  'gravel-trench',
  'planting-bed',
  'concrete-cut',
  'asphalt-cut',
  'pavers-lift',
];

const surfaceLeg = fc.record({ kind: fc.constantFrom(...SURFACE), lengthFt: fc.integer({ min: 1, max: 200 }) });
const groundLeg = fc.record({
  kind: fc.constantFrom(...GROUND),
  lengthFt: fc.integer({ min: 1, max: 200 }),
  soil: fc.constantFrom('loam', 'clay', 'rocky'),
  dig: fc.constantFrom('hand', 'trencher', 'excavator'),
});
/** Routes through and out of a house, as people have them: some legs inside or on it, then some in the ground. */
const route = fc
  .tuple(fc.array(surfaceLeg, { minLength: 1, maxLength: 3 }), fc.array(groundLeg, { maxLength: 3 }))
  .map(([above, below]) => [...above, ...below]);
const laying = fc.constantFrom('cable' as const, 'pvc' as const, 'emt' as const, 'rmc' as const);

/** A circuit over a route: cable, or one raceway throughout. */
function planned(legs: { kind: LegKind; lengthFt: number }[], method: 'cable' | 'pvc' | 'emt' | 'rmc'): PlannedOption {
  const all = legs.map((_, at) => at);
  const buried = all.filter((at) => isDitch(legs[at]?.kind ?? 'joists'));
  const type = method === 'pvc' ? 'pvc-40' : method === 'cable' ? undefined : method;
  const wired = type
    ? section({ insulation: 'thwn-2', legs: all })
    : section({ insulation: 'uf-b', cable: { form: 'uf-b', conductors: 2 }, legs: all });
  const conduit = type && ({ type, tradeSize: '1', fillPercent: 30 } as const);
  return planOf(described({ site: { building: 'detached' }, route: legs }), {
    runs: [
      run({
        sections: [wired],
        legs: all.map((leg) =>
          laid(leg, method === 'cable' ? 'uf-b' : method, { ...(conduit && { conduit }), coverIn: 24 }),
        ),
      }),
    ],
    ditches: buried.length > 0 ? [{ legs: buried, coverIn: 24, depthIn: 26 }] : [],
  });
}

/** All that is asked for, by what it is; tasks by their name. */
function amounts({ materials, tasks }: Takeoff): Map<string, number> {
  const sums = new Map<string, number>();
  const add = (key: string, amount: number) => sums.set(key, (sums.get(key) ?? 0) + amount);
  for (const { spec, quantity, pieces = [] } of materials) {
    add(JSON.stringify(spec), quantity ?? pieces.reduce((a, b) => a + b, 0));
  }
  for (const { task, quantity } of tasks) add(task, quantity);
  return sums;
}

describe('laws of the take-off', () => {
  it('asks for more than nothing of everything, with a reason that can be read aloud', () => {
    fc.assert(
      fc.property(route, laying, (legs, method) => {
        const { materials, tasks } = takeoffOf(planned(legs, method));
        for (const demand of materials) {
          const { quantity, pieces } = demand;
          expect([quantity, pieces].filter((one) => one !== undefined)).toHaveLength(1);
          if (quantity !== undefined) expect(quantity).toBeGreaterThan(0);
          for (const piece of pieces ?? [1]) expect(piece).toBeGreaterThan(0);
          expect(demand.because.every((text) => text.length > 3)).toBe(true);
        }
        for (const task of tasks) {
          expect(task.quantity).toBeGreaterThan(0);
          expect(task.because.every((text) => text.length > 3)).toBe(true);
        }
      }),
    );
  });

  it('cuts every piece at least as long as the legs it covers', () => {
    fc.assert(
      fc.property(route, laying, (legs, method) => {
        const { materials, wire } = takeoffOf(planned(legs, method));
        const alongFt = legs.reduce((sum, { lengthFt }) => sum + lengthFt, 0);
        const cut = wire.charger ?? [];
        expect(cut.length).toBeGreaterThan(0);
        for (const { cutLengthFt } of cut) expect(cutLengthFt).toBeGreaterThanOrEqual(alongFt);
        const pieces = materials
          .filter(({ scope, pieces }) => scope === 'wire' && pieces)
          .flatMap(({ pieces = [] }) => pieces);
        expect(pieces.length).toBe(cut.reduce((sum, { count }) => sum + count, 0));
        for (const piece of pieces) expect(piece).toBeGreaterThanOrEqual(alongFt);
      }),
    );
  });

  it('never needs less of anything for a longer leg', () => {
    fc.assert(
      fc.property(route, laying, fc.nat(), fc.integer({ min: 1, max: 60 }), (legs, method, which, moreFt) => {
        const at = which % legs.length;
        const longer = legs.map((leg, index) => (index === at ? { ...leg, lengthFt: leg.lengthFt + moreFt } : leg));
        const before = amounts(takeoffOf(planned(legs, method)));
        const after = amounts(takeoffOf(planned(longer, method)));
        for (const [what, amount] of before)
          expect([what, after.get(what) ?? 0]).toEqual([what, Math.max(amount, after.get(what) ?? 0)]);
      }),
    );
  });

  it('says the same of the same plan', () => {
    fc.assert(
      fc.property(route, laying, (legs, method) => {
        expect(takeoffOf(planned(legs, method))).toEqual(takeoffOf(planned(legs, method)));
      }),
    );
  });

  it('knows nothing of money', () => {
    const text = JSON.stringify(takeoffOf(planned([{ kind: 'joists', lengthFt: 20 }], 'cable')));
    expect(text).not.toMatch(/cents|price/i);
  });
});
