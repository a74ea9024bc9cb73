import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cheapestCover } from '../../server/estimate/covering.ts';
import { seedPrices } from '../../server/seed-prices.ts';

/*
 * Sand and gravel come in bags of 50 lb, which are half a cubic foot, or by the yard in a truck that is paid for whatever
 * it brings: a yard at least, and half yards above. Prices: common practice, no source.
 */

const items = seedPrices();

function buy(key: string, quantity: number) {
  const offers = items.find((item) => item.key === key)?.offers ?? [];
  const plan = cheapestCover({
    quantity,
    offers: offers.map(({ quantity: size, likelyCents: priceCents }) => ({ quantity: size, priceCents })),
  });
  const bought = plan?.buy.map(({ offer, count }) => [count, offers[offer]?.package]);
  return { bought, costCents: plan?.costCents ?? Number.NaN };
}

describe.each(['sand', 'gravel'])('%s', (key) => {
  it('comes in bags up to about half a yard, then in a truck', () => {
    // 9 ft³ are 18 bags at 6.00; a yard with its delivery is 55.00 + 85.00.
    expect(buy(key, 9)).toEqual({ bought: [[18, 'bag 50 lb']], costCents: 10_800 });
    // 13.5 ft³ would be 27 bags, 162.00.
    expect(buy(key, 13.5)).toEqual({ bought: [[1, '1 yd3 delivered']], costCents: 14_000 });
    // 27.7778 ft³: a yard and two bags, 152.00, rather than a yard and a half at 82.50 + 85.00.
    expect(buy(key, 27.7778)).toEqual({
      bought: [
        [2, 'bag 50 lb'],
        [1, '1 yd3 delivered'],
      ],
      costCents: 15_200,
    });
    expect(buy(key, 40)).toEqual({ bought: [[1, '1.5 yd3 delivered']], costCents: 16_750 });
  });

  it('never costs less for more of it', () => {
    const cubicFeet = fc.integer({ min: 1, max: 6000 }).map((tenths) => tenths / 10);
    fc.assert(
      fc.property(cubicFeet, cubicFeet, (a, b) => {
        expect(buy(key, Math.max(a, b)).costCents).toBeGreaterThanOrEqual(buy(key, Math.min(a, b)).costCents);
      }),
    );
  });
});
