import { describe, expect, it } from 'vitest';
import { firstRun, type Parts, planBy, plansFor, wired } from './shop.ts';

const yard = (route: unknown, more: Parts = {}): Parts => ({ site: { building: 'outdoor' }, route, ...more });

/** All figures: NEC Table 300.5(A). Column 1 cable, 2 rigid metal, 3 PVC, 4 a 120 V circuit with ground-fault protection. */
describe('cover', () => {
  it.each([
    ['a lawn', [{ kind: 'lawn-trench', lengthFt: 20, method: 'uf-b' }], 24],
    ['a lawn', [{ kind: 'lawn-trench', lengthFt: 20, method: 'pvc' }], 18],
    ['a lawn', [{ kind: 'lawn-trench', lengthFt: 20, method: 'rmc' }], 6],
    ['a slab of 4 in', [{ kind: 'concrete-cut', lengthFt: 20, thicknessIn: 4, method: 'pvc' }], 4],
    ['a slab of 4 in', [{ kind: 'concrete-cut', lengthFt: 20, thicknessIn: 4, method: 'uf-b' }], 18],
    ['3 in of concrete', [{ kind: 'concrete-cut', lengthFt: 20, thicknessIn: 3, method: 'pvc' }], 12],
    ['a slab that is not put back', [{ kind: 'concrete-cut', lengthFt: 20, restore: false, method: 'pvc' }], 18],
    ['a drive of concrete', [{ kind: 'concrete-cut', lengthFt: 20, traffic: 'vehicle', method: 'pvc' }], 18],
    ['a drive of gravel', [{ kind: 'gravel-trench', lengthFt: 20, traffic: 'vehicle', method: 'rmc' }], 18],
    ['a drive of asphalt', [{ kind: 'asphalt-cut', lengthFt: 20, traffic: 'vehicle', method: 'uf-b' }], 24],
    [
      'a lawn where the description asks for more',
      [{ kind: 'lawn-trench', lengthFt: 20, coverIn: 30, method: 'pvc' }],
      30,
    ],
    [
      'a lawn where the description asks for less',
      [{ kind: 'lawn-trench', lengthFt: 20, coverIn: 6, method: 'pvc' }],
      18,
    ],
  ])('under %s', (_, route, coverIn) => {
    const [plan] = plansFor(yard(route));
    expect(plan && firstRun(plan).legs[0]?.coverIn).toBe(coverIn);
  });

  it('is raised by a local minimum, never lowered', () => {
    const at = (minimumCoverIn: number) =>
      firstRun(planBy(yard('20 lawn-trench', { site: { building: 'outdoor', code: { minimumCoverIn } } }), 'pvc'))
        .legs[0];
    expect(at(30)?.coverIn).toBe(30);
    expect(at(12)?.coverIn).toBe(18);
  });

  it('is 24 in under a street, where the right of way is crossed', () => {
    const site = { building: 'outdoor', permit: { rightOfWay: true } };
    expect(firstRun(planBy(yard('20 asphalt-cut', { site }), 'pvc')).legs[0]?.coverIn).toBe(24);
    const driven = [{ kind: 'gravel-trench', lengthFt: 20, traffic: 'vehicle' }];
    expect(firstRun(planBy(yard(driven, { site }), 'pvc')).legs[0]?.coverIn).toBe(24);
    expect(firstRun(planBy(yard(driven), 'pvc')).legs[0]?.coverIn).toBe(18); // a driveway on the lot
  });

  it('may be 12 in over a 120 V circuit on a ground-fault breaker', () => {
    const option = wired(16, { connection: 'receptacle-5-20' });
    expect(firstRun(planBy(yard('20 lawn-trench', { option }), 'uf-b')).legs[0]?.coverIn).toBe(12);
  });
});

describe('a leg that cars may drive over', () => {
  const doubts = (leg: Record<string, unknown>) => {
    const plans = plansFor({
      route: [
        { kind: 'joists', lengthFt: 20 },
        { lengthFt: 14, method: 'rmc', ...leg },
      ],
      option: wired(48),
    });
    return (plans[0]?.findings ?? [])
      .filter(({ rule }) => rule === 'cover-of-a-drive')
      .map(({ severity, numbers }) => [severity, numbers.neededIn]);
  };

  // NEC Table 300.5(A): driveways of dwellings, 18 in for rigid conduit, too; elsewhere 6 in.
  it('is taken as walked on unless it is said, and that is told; of asphalt with a caution', () => {
    expect(doubts({ kind: 'asphalt-cut' })).toEqual([['caution', 18]]);
    expect(doubts({ kind: 'gravel-trench' })).toEqual([['note', 18]]);
    expect(doubts({ kind: 'asphalt-cut', traffic: 'vehicle' })).toEqual([]);
    expect(doubts({ kind: 'lawn-trench' })).toEqual([]);
  });
});

describe('ditches', () => {
  it('keep the deepest cover of all their legs; a bore between two continues one', () => {
    const plan = planBy(
      yard('20 joists, 10 lawn-trench, 8 bore, 12 gravel-trench, 5 exterior-wall, 6 planting-bed'),
      ...['nm-b' as const, 'uf-b' as const, 'uf-b' as const, 'uf-b' as const, 'uf-b' as const, 'uf-b' as const],
    );
    expect(plan.ditches.map(({ legs }) => legs)).toEqual([[1, 2, 3], [5]]);
    // 24 in of cover and an inch of cable
    expect(plan.ditches.map(({ coverIn, depthIn }) => [coverIn, depthIn])).toEqual([
      [24, 25],
      [24, 25],
    ]);
  });

  it('carry on at 18 in under a slab where the lawn before it needs them', () => {
    const plan = planBy(yard('20 lawn-trench, 9 concrete-cut 4in'), 'pvc', 'pvc');
    expect(firstRun(plan).legs.map(({ coverIn }) => coverIn)).toEqual([18, 18]);
  });
});
