import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { optionOf, takenOf, unitsOf } from '../fields/priced.ts';

/** Straps of a circuit in tubing of 1/2 in along some stretches of wall, and then so far to the charger. */
function straps(feet: readonly number[], distanceFt: number): number {
  const route = feet.map((lengthFt) => ({ kind: 'interior-surface', lengthFt, method: 'emt' }));
  const chargers = [{ amps: 32, connection: 'hardwired', equipment: 'owned', distanceFt }];
  return takenOf(optionOf({ route, option: { chargers } }), 'emt-strap-1_2') ?? 0;
}

describe('straps of tubing', () => {
  /** NEC 358.30(A): within 3 ft of both ends and every 10 ft: 17 ft at 3, 13 and 14 ft or closer; two would be 11 ft apart. */
  it('holds a way as a whole, not leg by leg', () => {
    expect(straps([12], 5)).toBe(3);
    expect(straps([6, 6], 5)).toBe(3);
    expect(straps([7], 9)).toBe(2); // at 3 and 13 ft of 16
  });

  it('takes as many however a way is cut into legs', () => {
    // Four turns are 360°: with more a box would stand in the way, and ask for straps of its own.
    const legs = fc.array(fc.integer({ min: 1, max: 30 }), { minLength: 1, maxLength: 4 });
    fc.assert(
      fc.property(legs, fc.integer({ min: 1, max: 20 }), (feet, distanceFt) => {
        const lengthFt = feet.reduce((sum, ft) => sum + ft, distanceFt);
        const apart = lengthFt <= 6 ? 1 : Math.ceil((lengthFt - 6) / 10) + 1;
        expect(straps(feet, distanceFt)).toBe(apart);
      }),
      { numRuns: 40 },
    );
  });
});

describe('a receptacle that is replaced', () => {
  it('is tested like any run', () => {
    const receptacle = { circuitA: 20, sharedWith: [], gfci: false, grounded: true, outdoors: true };
    const chargers = [{ amps: 16, connection: 'receptacle-5-20', equipment: 'owned', outdoors: true }];
    const asked = (replace: boolean) =>
      optionOf({ option: { feed: 'existing-receptacle', chargers, receptacle: { ...receptacle, replace } } });
    expect(unitsOf(asked(true), 'test-energize')).toBe(1);
    expect(unitsOf(asked(false), 'test-energize')).toBeUndefined();
  });
});
