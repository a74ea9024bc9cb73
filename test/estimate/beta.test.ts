import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { betaChance, betaQuantile, betaQuantiles, lnGamma } from '../../server/estimate/beta.ts';
import { normalChance, normalQuantile } from '../../server/estimate/range/normal.ts';

const shape = fc.record({
  alpha: fc.double({ min: 1, max: 20, noNaN: true }),
  beta: fc.double({ min: 1, max: 20, noNaN: true }),
});
const chance = fc.double({ min: 0.001, max: 0.999, noNaN: true });

describe('the gamma function', () => {
  it('agrees with factorials, which are exact', () => {
    let factorial = 1;
    for (let n = 1; n <= 20; n++) {
      expect(Math.abs(lnGamma(n) - Math.log(factorial))).toBeLessThan(1e-11);
      factorial *= n;
    }
  });
});

describe('the beta distribution', () => {
  /** Closed forms: I(x; 1, b) = 1 − (1 − x)^b, I(x; a, 1) = x^a, I(x; 2, 2) = 3x² − 2x³. */
  it.each([0.01, 0.2, 0.5, 0.77, 0.999])('agrees with its closed forms at %d', (x) => {
    expect(betaChance(x, { alpha: 1, beta: 5 })).toBeCloseTo(1 - (1 - x) ** 5, 12);
    expect(betaChance(x, { alpha: 3.5, beta: 1 })).toBeCloseTo(x ** 3.5, 12);
    expect(betaChance(x, { alpha: 2, beta: 2 })).toBeCloseTo(3 * x * x - 2 * x ** 3, 12);
  });

  it('comes back from its quantile to a billionth', () => {
    fc.assert(
      fc.property(chance, shape, (chance, shape) => {
        expect(Math.abs(betaChance(betaQuantile(chance, shape), shape) - chance)).toBeLessThan(1e-9);
      }),
    );
  });

  it('finds the same quantiles one by one and in a row', () => {
    const chances = [0, 0.001, 0.1, 0.5, 0.9, 0.999, 1];
    fc.assert(
      fc.property(shape, (shape) => {
        const row = betaQuantiles(chances, shape);
        row.forEach((x, at) => {
          expect(x).toBeCloseTo(betaQuantile(chances[at] ?? 0, shape), 9);
        });
      }),
    );
  });

  it('ends at its ends', () => {
    const even = { alpha: 2, beta: 3 };
    expect([betaChance(-1, even), betaChance(0, even), betaChance(1, even), betaChance(2, even)]).toEqual([0, 0, 1, 1]);
    expect([betaQuantile(0, even), betaQuantile(1, even)]).toEqual([0, 1]);
  });
});

describe('the normal distribution', () => {
  /** Printed in every table of it: 1.2816 and 1.9600 leave 10 % and 2.5 % above; the formula is good to 1.5e-7. */
  it('agrees with printed values', () => {
    expect(normalChance(0)).toBeCloseTo(0.5, 6);
    expect(normalChance(1.96)).toBeCloseTo(0.975, 4);
    expect(normalChance(-1.2816)).toBeCloseTo(0.1, 4);
    expect(normalQuantile(0.9)).toBeCloseTo(1.2816, 4);
    expect(normalQuantile(0.025)).toBeCloseTo(-1.96, 4);
  });
});
