import { describe, expect, it } from 'vitest';
import { payment, priceFromCost } from '../../server/estimate/money-calculations.ts';

const near = (found: number, expected: number, tolerance: number) =>
  expect(Math.abs(found - expected)).toBeLessThanOrEqual(tolerance);

describe('a monthly payment', () => {
  /** Mortgage Formula, mathhelpforum.com: 2202.1722 a month, 328,521.3441 of interest from the unrounded payment. */
  it('agrees with 200,000 at 12 % over 20 years', () => {
    const loan = payment({ principalCents: 20_000_000, annualRateBp: 1200, years: 20 });
    expect(loan.monthlyCents).toBe(220_217);
    near(loan.totalInterestCents, 32_852_134, 1); // the cent that rounding may move
  });

  /** Mortgage payment formula, justaaa.com: 188,021 of interest in whole dollars; more than a dollar off is its rounding. */
  it('agrees with 364,500 at 2.99 % over 30 years', () => {
    near(payment({ principalCents: 36_450_000, annualRateBp: 299, years: 30 }).totalInterestCents, 18_802_100, 250);
  });

  /** algebra.com, question 1201607: 900 a month, 173,887.55 of interest; half a cent a month over 360 months. */
  it('agrees with 150,112.45 at 6 % over 30 years', () => {
    const loan = payment({ principalCents: 15_011_245, annualRateBp: 600, years: 30 });
    expect(loan.monthlyCents).toBe(90_000);
    near(loan.totalInterestCents, 17_388_755, 180);
  });

  /** The annuity formula, confirmed with `pmt` of the npm package financial; the payment before or after rounding. */
  it('agrees with 4,500 at 8.99 % over 5 years', () => {
    const loan = payment({ principalCents: 450_000, annualRateBp: 899, years: 5 });
    expect(loan.monthlyCents).toBe(9339);
    near(loan.totalInterestCents, 110_345, 30);
  });

  it('without interest is a twelfth of a year', () => {
    expect(payment({ principalCents: 120_000, annualRateBp: 0, years: 1 })).toEqual({
      monthlyCents: 10_000,
      totalInterestCents: 0,
    });
  });
});

describe('a price from its cost', () => {
  /** Margin and markup conversions, smallbusinesscalculators.com: 25 % markup is 20 % margin; 40 % margin is 66.67 %. */
  it('agrees with published conversions', () => {
    expect(priceFromCost({ costCents: 10_000, markupBp: 2500 })).toMatchObject({ priceCents: 12_500, marginBp: 2000 });
    expect(priceFromCost({ costCents: 10_000, marginBp: 4000 })).toEqual({
      priceCents: 16_667, // 10,000 / 0.6
      markupBp: 6667,
      marginBp: 4000,
    });
  });

  /** A table of margin and markup, calconce.com: 50 % markup is 33.3 % margin, 50 % margin is 100 % markup. */
  it('agrees with a published table', () => {
    expect(priceFromCost({ costCents: 10_000, markupBp: 5000 })).toMatchObject({ priceCents: 15_000, marginBp: 3333 });
    expect(priceFromCost({ costCents: 10_000, marginBp: 5000 })).toMatchObject({
      priceCents: 20_000,
      markupBp: 10_000,
    });
  });

  it('without a markup is the cost', () => {
    expect(priceFromCost({ costCents: 250_000, markupBp: 0 })).toMatchObject({ priceCents: 250_000, marginBp: 0 });
  });

  it('asks for one of the two, and for a margin below the whole price', () => {
    expect(() => priceFromCost({ costCents: 1 })).toThrow('marginBp must be given where markupBp is left out');
    expect(() => priceFromCost({ costCents: 1, markupBp: 1, marginBp: 1 })).toThrow('left out where markupBp is given');
    expect(() => priceFromCost({ costCents: 1, marginBp: 10_000 })).toThrow('marginBp must be below 10000, not 10000');
  });
});
