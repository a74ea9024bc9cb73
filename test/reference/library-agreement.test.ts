import fc from 'fast-check';
import { pmt } from 'financial';
import jstat from 'jstat';
import { describe, expect, it } from 'vitest';
import { payment, threePoint } from '../../server/estimate/money-calculations.ts';

/*
 * Sources: jStat and financial, two libraries from the registry that were written without this program. Inputs are
 * random, with a seed, so that a failure can be looked at again.
 */

/** What the quantiles must agree to, over the span from low to high. jStat's own search ends below 1e-8. */
const QUANTILE_TOLERANCE = 1e-6;

const points = fc
  .tuple(fc.double({ min: -1e6, max: 1e6, noNaN: true }), fc.double({ min: 1e-3, max: 1e6, noNaN: true }))
  .chain(([low, span]) =>
    fc.record({
      low: fc.constant(low),
      span: fc.constant(span),
      share: fc.double({ min: 0, max: 1, noNaN: true }),
      weight: fc.oneof(fc.constant(4), fc.double({ min: 0.1, max: 40, noNaN: true })),
    }),
  );

describe('three points', () => {
  it("agree with jStat's beta quantiles", () => {
    fc.assert(
      fc.property(points, ({ low, span, share, weight }) => {
        const high = low + span;
        const likely = Math.min(high, low + span * share);
        const { p10, p50, p90 } = threePoint({ low, likely, high, weight });
        // PERT: alpha = 1 + w (likely − low) / span, beta = 1 + w (high − likely) / span
        const alpha = 1 + (weight * (likely - low)) / (high - low);
        const beta = 1 + (weight * (high - likely)) / (high - low);
        for (const [chance, found] of [
          [0.1, p10],
          [0.5, p50],
          [0.9, p90],
        ] as const) {
          const expected = jstat.jStat.beta.inv(chance, alpha, beta);
          expect(Math.abs((found - low) / (high - low) - expected)).toBeLessThan(QUANTILE_TOLERANCE);
        }
      }),
      { numRuns: 500, seed: 20_260_302 },
    );
  });
});

const loan = fc.record({
  principalCents: fc.integer({ min: 0, max: 1_000_000_000 }),
  annualRateBp: fc.integer({ min: 0, max: 3000 }),
  years: fc.integer({ min: 1, max: 40 }),
});

/** Is this the nearest whole cent? Beside half a cent, either: the last binary digits of two formulas differ. */
const isNearestCent = (wholeCents: number, cents: number) => Math.abs(wholeCents - cents) <= 0.5 + 1e-4;

describe('a monthly payment', () => {
  it("is that of the library, to the cent, and so is all the years' interest", () => {
    fc.assert(
      fc.property(loan, ({ principalCents, annualRateBp, years }) => {
        const months = years * 12;
        const expected = -pmt(annualRateBp / 10_000 / 12, months, principalCents);
        const { monthlyCents, totalInterestCents } = payment({ principalCents, annualRateBp, years });
        expect(Number.isInteger(monthlyCents)).toBe(true);
        expect(isNearestCent(monthlyCents, expected)).toBe(true);
        expect(isNearestCent(totalInterestCents, expected * months - principalCents)).toBe(true);
      }),
      { numRuns: 1000, seed: 20_260_302 },
    );
  });
});
