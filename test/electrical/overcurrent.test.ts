import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { BeyondTableError } from '../../server/electrical/errors.ts';
import {
  largestOcpdForConductor,
  nextStandardOcpdA,
  standardOcpdA,
  standardRatingsA,
} from '../../server/electrical/overcurrent.ts';

describe('the smallest standard device for a load', () => {
  // 125 % of 16, 32, 40, 48 and 80 A: 20, 40, 50, 60, 100. NEC 210.20(A), Table 240.6(A).
  it.each([
    [16, 20],
    [32, 40],
    [40, 50],
    [48, 60],
    [80, 100],
  ])('puts %d A of charging behind %d A', (loadA, ocpdA) => {
    expect(standardOcpdA({ loadA, continuous: true })).toBe(ocpdA);
  });

  it('is large enough, and the next smaller device is not', () => {
    const load = fc.double({ min: 15.1, max: 4800, noNaN: true });
    fc.assert(
      fc.property(load, fc.boolean(), (loadA, continuous) => {
        const neededA = loadA * (continuous ? 1.25 : 1);
        const ratingA = standardOcpdA({ loadA, continuous });
        const smallerA = standardRatingsA().findLast((standardA) => standardA < ratingA) ?? 0;
        expect(ratingA).toBeGreaterThanOrEqual(neededA * (1 - 1e-9));
        expect(smallerA).toBeLessThan(neededA);
      }),
    );
  });

  // Ours: 10 A circuits of 2023 feed no charger, so the smallest planned device is 15 A.
  it('never plans less than 15 A', () => {
    expect(standardOcpdA({ loadA: 6, continuous: true })).toBe(15);
    expect(nextStandardOcpdA(1)).toBe(15);
  });

  it('says what lies beyond the table', () => {
    expect(() => standardOcpdA({ loadA: 7000, continuous: false })).toThrow(
      new BeyondTableError({
        table: '240.6(A)',
        field: 'loadA',
        value: 7000,
        allowed: 'at most 6000 A, 125 % included',
      }),
    );
    expect(() => nextStandardOcpdA(6001)).toThrow(
      'loadA 6001 is beyond NEC Table 240.6(A): must be at most 6000 A, 125 % included',
    );
  });

  it('lists 10 A since 2023 only', () => {
    expect(standardRatingsA('2020')[0]).toBe(15);
    expect(standardRatingsA('2023')[0]).toBe(10);
  });
});

describe('the largest device over a conductor', () => {
  // NEC 240.4(B), worked beside: 85 A is no standard rating, the next is 90; 90 A is one itself; 65 A steps to 70.
  it.each([
    ['copper', '4', 85, 90],
    ['aluminum', '2', 90, 90],
    ['copper', '6', 65, 70],
    ['copper', '6', 55, 60],
    ['aluminum', '1', 100, 100],
  ] as const)('lets %s %s of %d A lie behind %d A', (metal, size, ampacityA, ocpdA) => {
    expect(largestOcpdForConductor({ metal, size, ampacityA })).toBe(ocpdA);
  });

  // NEC 240.4(D): 15 A over 14 AWG copper and 12 AWG aluminum, 20 over 12 copper, 25 over 10 aluminum, 30 over 10 copper.
  it.each([
    ['copper', '14', 20, 15],
    ['copper', '12', 25, 20],
    ['copper', '10', 35, 30],
    ['aluminum', '12', 20, 15],
    ['aluminum', '10', 30, 25],
  ] as const)('keeps %s %s, good for %d A, at %d A', (metal, size, ampacityA, ocpdA) => {
    expect(largestOcpdForConductor({ metal, size, ampacityA })).toBe(ocpdA);
  });

  // NEC 240.4(B): only up to 800 A, and not where several receptacles take portable loads: 785 → 800; 855 → 800; 85 → 80.
  it('steps up to 800 A and not above, nor before several receptacles', () => {
    const of = { metal: 'copper', size: '500' } as const;
    expect(largestOcpdForConductor({ ...of, ampacityA: 785 })).toBe(800);
    expect(largestOcpdForConductor({ ...of, ampacityA: 855 })).toBe(800);
    expect(largestOcpdForConductor({ metal: 'copper', size: '4', ampacityA: 85, severalReceptacles: true })).toBe(80);
  });

  it('never falls when the ampacity rises', () => {
    const ampacity = fc.double({ min: 15, max: 700, noNaN: true });
    fc.assert(
      fc.property(ampacity, ampacity, (a, b) => {
        const of = (ampacityA: number) => largestOcpdForConductor({ metal: 'copper', size: '4', ampacityA });
        expect(of(Math.min(a, b))).toBeLessThanOrEqual(of(Math.max(a, b)));
      }),
    );
  });
});
