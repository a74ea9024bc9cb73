import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { legCosts, shareCents } from '../../server/estimate/leg-costs.ts';

const line = (amountCents: number, legs: number[], priced = true) => ({ amountCents, legs, priced });

describe('an option laid out along its route', () => {
  // Ours, by hand: 1,000 cents over 30 and 10 ft are 750 and 250.
  it('shares a line of two legs by their lengths', () => {
    const costs = legCosts({ lines: [line(1000, [0, 1])] }, [{ lengthFt: 30 }, { lengthFt: 10 }]);
    expect(costs.legs.map(({ amountCents }) => amountCents)).toEqual([750, 250]);
    expect(costs.wholeJobCents).toBe(0);
  });

  // Ours, by hand: 100 cents over three equal feet are 33 each, and the cent that is left goes to the first.
  it('hands out what rounding leaves, cent by cent', () => {
    expect(shareCents(100, [1, 1, 1])).toEqual([34, 33, 33]);
    expect(shareCents(-100, [1, 1, 1])).toEqual([-34, -33, -33]);
  });

  it('takes the likely length of a leg that is guessed', () => {
    const route = [{ lengthFt: { low: 1, likely: 30, high: 90 } }, { lengthFt: 10 }];
    expect(legCosts({ lines: [line(1000, [0, 1])] }, route).legs[0]?.amountCents).toBe(750);
  });

  it('keeps lines of no leg for the whole job', () => {
    const costs = legCosts({ lines: [line(500, []), line(70, [9])] }, [{ lengthFt: 5 }]);
    expect(costs.wholeJobCents).toBe(570);
    expect(costs.legs[0]?.amountCents).toBe(0);
  });

  it('says where a price is missing, and only there', () => {
    const costs = legCosts({ lines: [line(500, [0]), line(0, [1], false)] }, [{ lengthFt: 5 }, { lengthFt: 5 }]);
    expect(costs.legs.map(({ complete }) => complete)).toEqual([true, false]);
    expect(costs.wholeJobComplete).toBe(true);
    expect(legCosts({ lines: [line(0, [], false)] }, [{ lengthFt: 5 }]).wholeJobComplete).toBe(false);
  });

  it('adds up to the cost, to the cent', () => {
    const lines = fc.array(
      fc.record({
        amountCents: fc.integer({ min: 0, max: 9_000_000 }),
        legs: fc.array(fc.nat({ max: 6 }), { maxLength: 8 }),
        priced: fc.boolean(),
      }),
    );
    const route = fc.array(fc.record({ lengthFt: fc.double({ min: 0.1, max: 3000, noNaN: true }) }), { maxLength: 6 });
    fc.assert(
      fc.property(lines, route, (lines, route) => {
        const { legs, wholeJobCents } = legCosts({ lines }, route);
        const cost = lines.reduce((sum, { amountCents }) => sum + amountCents, 0);
        expect(legs.reduce((sum, { amountCents }) => sum + amountCents, wholeJobCents)).toBe(cost);
      }),
    );
  });

  it('never gives a share that is a cent away from its exact one', () => {
    const weights = fc.array(fc.double({ min: 0.1, max: 3000, noNaN: true }), { minLength: 1, maxLength: 60 });
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 10_000_000_000 }), weights, (amountCents, weights) => {
        const sum = weights.reduce((total, weight) => total + weight, 0);
        shareCents(amountCents, weights).forEach((share, at) => {
          // A millionth of a cent for the division in binary fractions.
          expect(Math.abs(share - (amountCents * (weights[at] ?? 0)) / sum)).toBeLessThan(1 + 1e-6);
        });
      }),
    );
  });
});
