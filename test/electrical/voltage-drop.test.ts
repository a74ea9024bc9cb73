import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CONDUCTOR_SIZES } from '../../server/electrical/sizes.ts';
import {
  DROP_METHODS,
  type DropQuestion,
  dropOrSize,
  smallestSizeForDrop,
  voltageDrop,
} from '../../server/electrical/voltage-drop.ts';

const CHARGER: DropQuestion = { voltageV: 240, currentA: 48, lengthFt: 100, metal: 'copper', method: 'dc-resistance' };
const questions = fc.record({
  currentA: fc.double({ min: 1, max: 100, noNaN: true }),
  lengthFt: fc.double({ min: 1, max: 400, noNaN: true }),
  metal: fc.constantFrom('copper' as const, 'aluminum' as const),
  method: fc.constantFrom(...DROP_METHODS),
});

describe('voltage drop', () => {
  it('is linear in length and in current, by every method', () => {
    fc.assert(
      fc.property(questions, fc.constantFrom(...CONDUCTOR_SIZES.slice(1, 18)), (question, size) => {
        const once = voltageDrop({ voltageV: 240, ...question, size }).dropV;
        const longer = voltageDrop({ voltageV: 240, ...question, lengthFt: question.lengthFt * 3, size }).dropV;
        const stronger = voltageDrop({ voltageV: 240, ...question, currentA: question.currentA * 2, size }).dropV;
        expect(longer / once).toBeCloseTo(3, 9);
        expect(stronger / once).toBeCloseTo(2, 9);
      }),
    );
  });

  it('takes the smallest size that keeps the limit', () => {
    fc.assert(
      fc.property(questions, fc.double({ min: 2, max: 8, noNaN: true }), (question, maxPercent) => {
        const sizes = CONDUCTOR_SIZES.slice(question.metal === 'copper' ? 0 : 1, 18);
        const { size, percent } = smallestSizeForDrop({ voltageV: 240, ...question, maxPercent });
        const smaller = sizes[sizes.indexOf(size) - 1];
        expect(percent).toBeLessThanOrEqual(maxPercent * (1 + 1e-9));
        if (smaller)
          expect(voltageDrop({ voltageV: 240, ...question, size: smaller }).percent).toBeGreaterThan(maxPercent);
      }),
    );
  });

  it('agrees between the methods to the rounding of K and of Table 9', () => {
    const by = (method: DropQuestion['method']) => voltageDrop({ ...CHARGER, method, powerFactor: 1, size: '6' }).dropV;
    expect(Math.abs(by('k-factor') / by('dc-resistance') - 1)).toBeLessThan(0.005);
    expect(Math.abs(by('impedance') / by('dc-resistance') - 1)).toBeLessThan(0.02);
  });

  it('asks for a size or a limit, and says when no size keeps it', () => {
    expect(() => dropOrSize(CHARGER)).toThrow('size must be given, or else maxPercent, not undefined');
    expect(() => smallestSizeForDrop({ ...CHARGER, lengthFt: 3000, maxPercent: 0.5 })).toThrow(
      'maxPercent 0.5 is beyond NEC Chapter 9 Table 8: must be at least 3.1 percent, which 500 kcmil copper keeps here; or use more in parallel',
    );
    expect(() => voltageDrop({ ...CHARGER, size: '600' })).toThrow(
      'size "600" is beyond NEC Chapter 9 Table 8: must be 14 AWG to 500 kcmil',
    );
  });
});
