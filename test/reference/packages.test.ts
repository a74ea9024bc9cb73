import { describe, expect, it } from 'vitest';
import { cheapestPackages } from '../../server/estimate/purchasing.ts';

const SEARCHED = 'every partition of the pieces and every offer searched by a program of its own';

/** Least costs that were found without this program; a left-over is given where every cheapest plan has the same. */
const CASES = [
  {
    title: 'five shelves out of planks of 8, 10 and 12 ft: one of 8 and one of 12',
    source: 'Practical Cutting Stock Problem, theboohers.org, 2014-04-27; confirmed by exhaustive search',
    pieces: [3.59375, 4.0729166667, 3.7083333333, 3.7083333333, 3.7083333333],
    offers: [coil(8, 2057), coil(10, 2997), coil(12, 3727)],
    costCents: 5784,
  },
  {
    title: 'two coils of 50 ft before a coil of 125 ft or the foot',
    source: SEARCHED,
    pieces: [35, 12, 50],
    offers: [byFoot(210), coil(50, 9000), coil(125, 19900)],
    costCents: 18000,
    leftOverFt: 3,
  },
  {
    title: 'by the foot: 20 × 300 beats the coil at 7000',
    source: 'arithmetic',
    pieces: [20],
    offers: [byFoot(300), coil(25, 7000)],
    costCents: 6000,
    leftOverFt: 0,
  },
  {
    title: 'the coil: by the foot takes 25 whole feet, 7500',
    source: 'arithmetic',
    pieces: [24.2],
    offers: [byFoot(300), coil(25, 7400)],
    costCents: 7400,
    leftOverFt: 0.8,
  },
  {
    title: 'one coil of 20 ft and one of 10 ft; the one of 30 ft costs 1500',
    source: SEARCHED,
    pieces: [10, 10, 10],
    offers: [coil(10, 500), coil(20, 900), coil(30, 1500)],
    costCents: 1400,
    leftOverFt: 0,
  },
  {
    title: 'two sticks of 10 ft, since no piece is spliced',
    source: SEARCHED,
    pieces: [9.5, 9.5],
    offers: [coil(10, 480), coil(20, 1000)],
    costCents: 960,
    leftOverFt: 1,
  },
  {
    title: 'five lengths out of coils of 50 and 75 ft without a left-over',
    source: SEARCHED,
    pieces: [45, 35, 25, 15, 5],
    offers: [byFoot(110), coil(50, 4900), coil(75, 7000)],
    costCents: 11900,
    leftOverFt: 0,
  },
];

function coil(lengthFt: number, priceCents: number) {
  return { lengthFt, priceCents };
}
function byFoot(priceCents: number) {
  return { lengthFt: null, priceCents };
}

describe('the cheapest packages', () => {
  for (const { title, source, pieces, offers, costCents, leftOverFt } of CASES) {
    it(`are ${title} (${source})`, () => {
      const plan = cheapestPackages({ pieces, offers });
      expect(plan?.costCents).toBe(costCents);
      expect(plan?.proven).toBe(true);
      if (leftOverFt !== undefined) expect(plan?.leftOverFt).toBeCloseTo(leftOverFt, 4);
    });
  }
});
