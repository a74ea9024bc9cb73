import { expect, it } from 'vitest';
import { cheapestPackages } from '../../server/estimate/purchasing.ts';
import { CUTTING_JOBS, cuttingSolver } from './cutting-model.mjs';

/*
 * Source: HiGHS, an open solver of mixed-integer programs, from the registry. The same question is put to it as an
 * assignment model: x[p,k] piece p is cut of coil k, y[k] coil k is bought, z[p] piece p is cut by the foot; least cost.
 * Whole cents on both sides: no tolerance but the solver's own, half a cent.
 */
it('buys the least-cost packages, as a general solver does, on 500 random jobs', { timeout: 300_000 }, async () => {
  const leastCents = await cuttingSolver();
  for (const job of CUTTING_JOBS) {
    const ours = cheapestPackages(job);
    expect(ours?.proven).toBe(true);
    expect(Math.abs((ours?.costCents ?? 0) - leastCents(job)), JSON.stringify(job)).toBeLessThan(0.5);
  }
});
