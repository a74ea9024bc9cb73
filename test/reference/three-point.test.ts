import { describe, expect, it } from 'vitest';
import { threePoint } from '../../server/estimate/money-calculations.ts';

/*
 * Computed with scipy 1.17.1 (scipy.stats.beta), quantiles confirmed with the npm package
 * @stdlib/stats-base-dists-beta-quantile; six decimals are given, hence the tolerance of half the last one.
 */
const CASES = [
  { in: [10, 20, 60], out: [25, 8.660254, 14.495107, 23.833613, 37.266703] },
  { in: [2, 4, 12], out: [5, 1.732051, 2.899021, 4.766723, 7.453341] },
  { in: [100, 100, 200], out: [116.666667, 14.085904, 102.085164, 112.944944, 136.904266] },
  { in: [0, 5, 10], out: [5, 1.889822, 2.466365, 5, 7.533635] },
  { in: [1, 2, 3, 10], out: [2, 0.27735, 1.635438, 2, 2.364562] },
  { in: [7, 7, 7], out: [7, 0, 7, 7, 7] }, // a known value has no spread
] as const;
const HALF_THE_LAST_DECIMAL = 0.5000001e-6;

describe('three points', () => {
  for (const { in: points, out } of CASES) {
    const [low, likely, high, weight] = points;
    it(`of ${points.join(', ')} agree with scipy`, () => {
      const result = threePoint({ low, likely, high, weight });
      const found = [result.mean, result.sd, result.p10, result.p50, result.p90];
      found.forEach((value, at) => {
        expect(Math.abs(value - (out[at] ?? Number.NaN))).toBeLessThanOrEqual(HALF_THE_LAST_DECIMAL);
      });
    });
  }

  it('must rise', () => {
    expect(() => threePoint({ low: 3, likely: 2, high: 9 })).toThrow('likely must be between low 3 and high 9, not 2');
  });
});
