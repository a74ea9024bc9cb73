import { describe, expect, it } from 'vitest';
import { threePoint } from '../../server/estimate/money-calculations.ts';

/*
 * Mean and spread to six decimals, where cases/ go to the four that are printed; quantiles are held against a library
 * in library-agreement. Computed with scipy 1.17.1 (scipy.stats.beta), hence a tolerance of half the last decimal.
 */
const CASES = [
  { low: 10, likely: 20, high: 60, mean: 25, sd: 8.660254 },
  { low: 100, likely: 100, high: 200, mean: 116.666667, sd: 14.085904 },
  { low: 1, likely: 2, high: 3, weight: 10, mean: 2, sd: 0.27735 },
];
const HALF_THE_LAST_DECIMAL = 0.5000001e-6;

describe('three points', () => {
  it.each(CASES)('$low, $likely and $high have the mean and spread that scipy finds', ({ mean, sd, ...points }) => {
    const found = threePoint(points);
    expect(Math.abs(found.mean - mean)).toBeLessThanOrEqual(HALF_THE_LAST_DECIMAL);
    expect(Math.abs(found.sd - sd)).toBeLessThanOrEqual(HALF_THE_LAST_DECIMAL);
  });

  it('must rise', () => {
    expect(() => threePoint({ low: 3, likely: 2, high: 9 })).toThrow('likely must be between low 3 and high 9, not 2');
  });
});
