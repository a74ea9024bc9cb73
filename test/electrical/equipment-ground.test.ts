import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ENLARGED_AREA_TOLERANCE, equipmentGroundSize } from '../../server/electrical/equipment-ground.ts';
import { feederNeutralSize } from '../../server/electrical/feeder-neutral.ts';
import { CONDUCTOR_SIZES, circularMils, compareSizes } from '../../server/electrical/sizes.ts';

describe('the equipment ground', () => {
  // 250.122(B): 60 A, 6 to 4 AWG: 10,380 × 41,740 / 26,240 = 16,511 circular mils; 8 AWG is 16,510, 0.006 % less.
  it('takes the size that rounding alone keeps it from', () => {
    expect(equipmentGroundSize({ ocpdA: 60, metal: 'copper', enlarged: { fromSize: '6', toSize: '4' } })).toBe('8');
  });

  it('stays as the table has it where nothing was enlarged', () => {
    expect(equipmentGroundSize({ ocpdA: 60, metal: 'copper', enlarged: { fromSize: '6', toSize: '6' } })).toBe('10');
    expect(equipmentGroundSize({ ocpdA: 60, metal: 'copper', enlarged: { fromSize: '4', toSize: '6' } })).toBe('10');
  });

  it('says what lies beyond the table', () => {
    expect(() => equipmentGroundSize({ ocpdA: 1300, metal: 'copper' })).toThrow(
      'ocpdA 1300 is beyond NEC Table 250.122: must be at most 1200 A',
    );
    expect(() =>
      equipmentGroundSize({ ocpdA: 1200, metal: 'copper', enlarged: { fromSize: '1/0', toSize: '600' } }),
    ).toThrow(
      'enlarged.toSize "600" is beyond NEC Chapter 9 Table 8: must be a size whose ground is at most 600 kcmil',
    );
  });

  it('grows in proportion, to the smallest size that does', () => {
    const size = fc.constantFrom(...CONDUCTOR_SIZES.slice(2, 12));
    fc.assert(
      fc.property(fc.integer({ min: 15, max: 200 }), size, size, (ocpdA, a, b) => {
        const [fromSize, toSize] = compareSizes(a, b) <= 0 ? [a, b] : [b, a];
        const base = equipmentGroundSize({ ocpdA, metal: 'copper' });
        const grown = equipmentGroundSize({ ocpdA, metal: 'copper', enlarged: { fromSize, toSize } });
        const needed = (circularMils(base) * circularMils(toSize)) / circularMils(fromSize);
        const smaller = CONDUCTOR_SIZES[CONDUCTOR_SIZES.indexOf(grown) - 1];
        expect(circularMils(grown) * (1 + ENLARGED_AREA_TOLERANCE)).toBeGreaterThanOrEqual(needed);
        if (smaller && grown !== base)
          expect(circularMils(smaller) * (1 + ENLARGED_AREA_TOLERANCE)).toBeLessThan(needed);
      }),
    );
  });
});

describe("a feeder's neutral", () => {
  const feeder = {
    ocpdA: 100,
    metal: 'copper',
    insulation: 'thwn-2',
    terminalsC: 75,
    ambientC: 30,
    currentCarrying: 2,
  } as const;

  // 250.122 behind 100 A: 8 AWG copper; 20 A of unbalance would do with 12 AWG, but 215.2(B) keeps 8.
  it('is not smaller than the ground', () => {
    expect(feederNeutralSize({ ...feeder, unbalancedA: 20 })).toBe('8');
  });

  // 70 A of unbalance: 4 AWG copper, 85 A at 75 °C, since 6 AWG is 65 A.
  it('carries the unbalanced load', () => {
    expect(feederNeutralSize({ ...feeder, unbalancedA: 70 })).toBe('4');
  });
});
