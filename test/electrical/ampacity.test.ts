import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { adjustmentFactor, ambientFactor, usableAmpacity } from '../../server/electrical/ampacity.ts';
import { INSULATIONS, sizesOf } from '../../server/electrical/insulations.ts';

const AS_LAID = { terminalsC: 75, ambientC: 30, currentCarrying: 2 } as const;

describe('usable ampacity by the cable type', () => {
  // Table 310.16, 6 AWG copper: 55, 65, 75 A in the 60, 75 and 90 °C columns; 334.80, 340.80, 338.10(B)(4)(a), 110.14(C)(1).
  it.each([
    ['nm-b', 55, 75],
    ['uf-b', 55, 55],
    ['ser', 65, 75],
    ['thwn-2', 65, 75],
    ['use-2', 65, 75],
  ] as const)('ends 6 AWG copper %s at %d A, starting from %d', (insulation, ampacityA, tableA) => {
    expect(usableAmpacity({ ...AS_LAID, metal: 'copper', size: '6', insulation })).toMatchObject({ ampacityA, tableA });
  });

  // 338.10(B)(4)(a): SER of 10 AWG and smaller in thermal insulation is 60 °C: 30 A; of 8 AWG it is not: 50 A.
  it('keeps small SER in insulation at 60 °C', () => {
    const ser = { ...AS_LAID, metal: 'copper', insulation: 'ser', inThermalInsulation: true } as const;
    expect(usableAmpacity({ ...ser, size: '10' }).ampacityA).toBe(30);
    expect(usableAmpacity({ ...ser, size: '8' }).ampacityA).toBe(50);
  });

  // 75 A × 0.82 = 61.5 A in a 50 °C attic, more than the 55 A that the cable ends at anyway.
  it('corrects NM-B from 90 °C before its own column caps it', () => {
    const attic = usableAmpacity({ ...AS_LAID, metal: 'copper', size: '6', insulation: 'nm-b', ambientC: 50 });
    expect(attic.correctedA).toBeCloseTo(61.5, 9);
    expect(attic.ampacityA).toBe(55);
  });

  // 340.80 gives no leave to start from 90 °C: 55 A × 0.58 = 31.9 A.
  it('corrects UF-B from 60 °C', () => {
    const attic = usableAmpacity({ ...AS_LAID, metal: 'copper', size: '6', insulation: 'uf-b', ambientC: 50 });
    expect(attic.ampacityA).toBeCloseTo(31.9, 9);
  });

  it('refuses heat that the insulation may not be in, and a size that the table lacks', () => {
    expect(() => ambientFactor({ ambientC: 56, columnC: 60 })).toThrow(
      'ambientC 56 is beyond NEC Table 310.15(B)(1)(1): must be at most 55 °C around conductors of 60 °C insulation',
    );
    expect(() => usableAmpacity({ ...AS_LAID, metal: 'aluminum', size: '14', insulation: 'thwn-2' })).toThrow(
      'size "14" is beyond NEC Table 310.16: must be 12 AWG to 600 kcmil in aluminum',
    );
  });
});

describe('laws of ampacity', () => {
  it('never rises with heat or with company, whatever is laid', () => {
    const heat = fc.integer({ min: -10, max: 54 });
    const count = fc.integer({ min: 1, max: 60 });
    fc.assert(
      fc.property(fc.constantFrom(...INSULATIONS), heat, heat, count, count, (insulation, c1, c2, n1, n2) => {
        const of = (ambientC: number, currentCarrying: number) =>
          usableAmpacity({ metal: 'copper', size: '2', insulation, terminalsC: 75, ambientC, currentCarrying })
            .ampacityA;
        expect(of(Math.max(c1, c2), n1)).toBeLessThanOrEqual(of(Math.min(c1, c2), n1));
        expect(of(c1, Math.max(n1, n2))).toBeLessThanOrEqual(of(c1, Math.min(n1, n2)));
      }),
    );
  });

  it('never carries less in a larger size', () => {
    for (const insulation of INSULATIONS) {
      for (const metal of ['copper', 'aluminum'] as const) {
        const amps = sizesOf(insulation, metal).map(
          (size) => usableAmpacity({ ...AS_LAID, metal, size, insulation }).ampacityA,
        );
        expect(amps).toEqual(amps.toSorted((a, b) => a - b));
      }
    }
  });

  it('counts 41 conductors and more alike', () => {
    expect([3, 4, 9, 10, 41, 200].map(adjustmentFactor)).toEqual([1, 0.8, 0.7, 0.5, 0.35, 0.35]);
  });
});
