import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bendRadiusIn, checkBends, pullPointsNeeded } from '../../server/electrical/bends.ts';
import { boxFillIn3, isPullBox, nominalIn, pullBox, smallestMetalBox } from '../../server/electrical/boxes.ts';
import { checkExpansion, pvcLengthChangeIn } from '../../server/electrical/expansion.ts';
import { supportCount, supportRule } from '../../server/electrical/supports.ts';

describe('bends', () => {
  // NEC 352.24(B), 2020: 352.26: 360° between pull points.
  it('add up to 360 degrees between pull points', () => {
    expect(checkBends({ raceway: 'pvc', bendsDeg: 360, edition: '2020' })).toMatchObject({
      severity: 'ok',
      citation: { article: '352.26' },
    });
    expect(checkBends({ raceway: 'emt', bendsDeg: 450, leg: 3, edition: '2023' })).toMatchObject({
      severity: 'stop',
      leg: 3,
      numbers: { pullPoints: 1 },
      message: '450° of bends between pull points are too many: 360° are allowed. Add 1 pull point(s).',
    });
    expect([0, 360, 361, 720, 721].map(pullPointsNeeded)).toEqual([0, 0, 1, 1, 2]);
  });

  // Chapter 9 Table 2: trade size 1: 5.75 in, others 6.
  it('are no sharper than the table', () => {
    expect(bendRadiusIn({ tradeSize: '1', bender: 'one-shot' })).toBe(5.75);
    expect(bendRadiusIn({ tradeSize: '1', bender: 'other' })).toBe(6);
  });
});

describe('expansion of PVC', () => {
  // Table 352.44(A): 4.06 in for 100 ft and 100 °F, printed to 0.01.
  it('needs a fitting from a quarter of an inch on', () => {
    expect(Math.abs(pvcLengthChangeIn({ lengthFt: 100, swingF: 100 }) - 4.06)).toBeLessThan(0.0051);
    // 0.25 in / (12 in × 100 °F × 3.38e-5) = 6.16 ft
    expect(checkExpansion({ lengthFt: 6, swingF: 100, edition: '2023' })).toMatchObject({ fittingNeeded: false });
    expect(checkExpansion({ lengthFt: 6.2, swingF: 100, edition: '2023' })).toMatchObject({
      fittingNeeded: true,
      severity: 'note',
    });
  });
});

describe('supports', () => {
  // 334.30: 4.5 ft, 12 in at a box; Table 352.30: 3 ft for 1 in, 5 ft for 2 in; 358.30: 10 ft, 3 ft; Table 344.30: 16 ft for 2 in.
  it('are as far apart as the method allows', () => {
    expect(supportRule({ method: 'nm-b' })).toEqual({ everyFt: 4.5, firstWithinFt: 1, rule: 'support-nm-b' });
    expect(supportRule({ method: 'pvc', tradeSize: '1' }).everyFt).toBe(3);
    expect(supportRule({ method: 'pvc', tradeSize: '1-1/4' }).everyFt).toBe(5);
    expect(supportRule({ method: 'emt', tradeSize: '2' }).everyFt).toBe(10);
    expect(supportRule({ method: 'rmc', tradeSize: '2' }).everyFt).toBe(16);
  });

  // 35 ft of NM-B between two boxes: 1 + 33 + 1; 33 / 4.5 → 8 stretches, 9 staples.
  it('are counted from box to box', () => {
    expect(supportCount({ method: 'nm-b', lengthFt: 35, boxes: 2 })).toBe(9);
    expect(supportCount({ method: 'emt', tradeSize: '1', lengthFt: 10, boxes: 0 })).toBe(1);
    expect(supportCount({ method: 'emt', tradeSize: '1', lengthFt: 4, boxes: 2 })).toBe(1);
  });

  it('never leave a stretch longer than allowed', () => {
    const method = fc.constantFrom('nm-b' as const, 'pvc' as const, 'emt' as const, 'rmc' as const);
    fc.assert(
      fc.property(method, fc.double({ min: 0.5, max: 300, noNaN: true }), (one, lengthFt) => {
        const { everyFt, firstWithinFt } = supportRule({ method: one });
        const count = supportCount({ method: one, lengthFt, boxes: 2 });
        expect((count - 1) * everyFt + 2 * firstWithinFt).toBeGreaterThanOrEqual(lengthFt - 1e-6);
      }),
    );
  });
});

describe('boxes', () => {
  // 314.16(B), by hand: six 12 AWG 6 × 2.25 = 13.5; a yoke 2 × 2.25 = 4.5; clamps 2.25; three grounds 2.25: 22.5 in³.
  it('need the volume of what is in them', () => {
    const outlet = {
      conductors: [{ size: '12', count: 6 }],
      grounds: { size: '12', count: 3 },
      yokes: ['12'],
      internalClamps: true,
    } as const;
    expect(boxFillIn3(outlet)).toBe(22.5);
    expect(smallestMetalBox(22.5).volumeIn3).toBe(24);
    // Six grounds of 12 AWG: one and two quarters of 2.25 = 3.375.
    expect(boxFillIn3({ conductors: [], grounds: { size: '12', count: 6 } })).toBe(3.375);
  });

  it('are pull boxes from 4 AWG on', () => {
    expect([isPullBox('6'), isPullBox('4'), isPullBox('250')]).toEqual([false, true, true]);
    expect(() => boxFillIn3({ conductors: [{ size: '4', count: 2 }] })).toThrow(
      'size "4" is beyond NEC Table 314.16(B)(1): must be 14 to 6 AWG; larger conductors need a pull box',
    );
    expect(() => smallestMetalBox(43)).toThrow('neededIn3 43 is beyond NEC Table 314.16(A): must be at most 42 in³');
  });

  // 314.28(A), by hand: straight 8 × 2 = 16 in; angle 6 × 2 + 1-1/4 = 13.25 in, and 12 in between the entries of a conductor.
  it('are as long as their raceways ask for', () => {
    expect(pullBox({ pull: 'straight', entries: ['2', '1'] })).toEqual({ dimensionIn: 16, betweenEntriesIn: 0 });
    expect(pullBox({ pull: 'angle-or-splice', entries: ['1-1/4', '2'] })).toEqual({
      dimensionIn: 13.25,
      betweenEntriesIn: 12,
    });
    expect(nominalIn('3/4')).toBe(0.75);
  });
});
