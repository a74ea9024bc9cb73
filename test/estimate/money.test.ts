import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { amountCents, roundHalfAway, shareOfCents, toFourDecimals } from '../../server/estimate/money.ts';

describe('whole cents', () => {
  it.each([
    [5, 2, 3],
    [-5, 2, -3],
    [4, 3, 1],
    [-4, 3, -1],
    [1, 2, 1],
    [0, 7, 0],
    [-1, 3, 0],
  ])('round %i / %i half away from zero to %i, however large the numbers are held', (numerator, denominator, whole) => {
    expect(roundHalfAway(numerator, denominator)).toBe(whole);
    expect(roundHalfAway(BigInt(numerator), BigInt(denominator))).toBe(whole);
  });

  /** 1.005 × 100 is 100.49999999999999 in binary fractions; in whole ten-thousandths it is 100.5. */
  it('do not pass through binary fractions', () => {
    expect(amountCents({ quantity: 1.005, unitPriceCents: 100 })).toBe(101);
    expect(amountCents({ quantity: 53.55, unitPriceCents: 262 })).toBe(14_030); // 14,030.1
    expect(amountCents({ quantity: 0.0617, unitPriceCents: 5500 })).toBe(339); // 339.35
  });

  it('are the same by plain and by large numbers', () => {
    const whole = fc.integer({ min: -9_000_000, max: 9_000_000 });
    fc.assert(
      fc.property(whole, fc.integer({ min: 1, max: 1_000_000 }), (numerator, denominator) => {
        expect(roundHalfAway(numerator, denominator)).toBe(roundHalfAway(BigInt(numerator), BigInt(denominator)));
      }),
    );
  });

  it('stay exact where a product outgrows plain numbers', () => {
    // 900,000.0001 × 9,999,999.9999 = 9,000,000,000,909.9999… by long multiplication: 900000.0001 × 10^7 − 90.00000001
    expect(amountCents({ quantity: 900_000.0001, unitPriceCents: 9_999_999.9999 })).toBe(9_000_000_000_910);
  });

  it('take a share in basis points, and keep four decimals of a quantity', () => {
    expect(shareOfCents({ cents: 12_345, bp: 825 })).toBe(1018); // 1,018.4625
    expect(toFourDecimals(1.23456)).toBe(1.2346);
  });
});
