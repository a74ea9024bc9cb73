import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { minimumCharge } from '../../server/estimate/minimum-charge.ts';
import { LINE_CLASSES, SCOPES } from '../../server/estimate/vocabulary.ts';
import { line, rangeOfLines, widthOf } from './range-lines.ts';
import { described } from './takeoff/plans.ts';

const unsure = { lowCents: 100_000, amountCents: 200_000, highCents: 600_000 };

describe('the range of one unsure line', () => {
  /**
   * Low 10, likely 20, high 60: 14.495107, 23.833613, 37.266703 at 10, 50 and 90 %, computed with scipy 1.17.1. The
   * table that is read between its entries may miss by a half percent of the value.
   */
  it('is the PERT beta of its three points', () => {
    const { p10Cents, p50Cents, p90Cents } = rangeOfLines([line(unsure)]);
    expect(Math.abs(p10Cents - 144_951)).toBeLessThan(725);
    expect(Math.abs(p50Cents - 238_336)).toBeLessThan(1192);
    expect(Math.abs(p90Cents - 372_667)).toBeLessThan(1864);
  });

  it('moves with what is certain, and passes through markup, overhead, profit and tax', () => {
    const certain = line({ lowCents: 50_000, amountCents: 50_000, highCents: 50_000, class: 'fee' });
    const alone = rangeOfLines([line(unsure)]);
    expect(rangeOfLines([line(unsure), certain]).p50Cents).toBe(alone.p50Cents + 50_000);
    // 20 % markup, 10 % overhead and 10 % profit: (1 + 0.2 + 0.1) × 1.1 of the cost, and 5 % tax of the cost: 1.48.
    const terms = { markup: { materialBp: 2000 }, overheadBp: 1000, profitBp: 1000, taxBp: 500 };
    expect(Math.abs(rangeOfLines([line(unsure)], terms).p90Cents - alone.p90Cents * 1.48)).toBeLessThanOrEqual(1.5); // two roundings
  });

  it('holds no contingency', () => {
    expect(rangeOfLines([line(unsure)], { contingencyBp: 1000 })).toEqual(rangeOfLines([line(unsure)]));
  });

  it('never falls below the minimum of the terms', () => {
    const small = line({ lowCents: 1000, amountCents: 2000, highCents: 90_000 });
    const terms = { minimumCents: 20_000 };
    const lines = [small, ...minimumCharge([small], described({ route: [{ kind: 'joists', lengthFt: 10 }], terms }))];
    expect(rangeOfLines(lines, terms).p10Cents).toBe(20_000);
    expect(rangeOfLines(lines, terms).p90Cents).toBeGreaterThan(20_000);
  });
});

describe('the range of several lines', () => {
  const four = [1, 2, 3, 4];
  const things = four.map((at) => line({ ...unsure, class: 'fee', description: `fee ${at}` }));
  const goods = four.map((at) => line({ ...unsure, description: `thing ${at}` }));
  const copper = four.map((at) => line({ ...unsure, scope: 'wire', key: `thwn-2-${at}-cu` }));

  /** The sum of four independent lines spreads by √4, of four that move together by 4. */
  it('is wider where they share a cause', () => {
    const one = widthOf(rangeOfLines([line(unsure)]));
    expect(Math.abs(widthOf(rangeOfLines(things)) / one - 2)).toBeLessThan(0.1); // the sum is nearer to normal than each line
    expect(widthOf(rangeOfLines(copper)) / one).toBeGreaterThan(3.7); // √(4 + 12 × 0.9) = 3.85
    expect(widthOf(rangeOfLines(copper)) / one).toBeLessThan(4);
  });

  /** All of them ask what the market asks: √(4 + 12 × 0.10) = 2.28. */
  it('ties goods of one market loosely', () => {
    expect(Math.abs(widthOf(rangeOfLines(goods)) / widthOf(rangeOfLines([line(unsure)])) - 2.28)).toBeLessThan(0.1);
  });

  it('ties aluminum wire to copper wire, and neither to fees', () => {
    const aluminum = line({ ...unsure, scope: 'wire', key: 'ser-2-3-al' });
    const fee = line({ ...unsure, class: 'fee', scope: 'permit' });
    const [cu = line(unsure)] = copper;
    const together = widthOf(rangeOfLines([cu, aluminum]));
    const apart = widthOf(rangeOfLines([cu, fee]));
    expect(together).toBeGreaterThan(apart * 1.25); // √(2 + 2 × 0.8) / √2 = 1.34
  });

  it('names what drives it, the widest first, lines of one cause as one', () => {
    const dig = line({ ...unsure, class: 'labor', scope: 'trench', highCents: 900_000, description: 'dig' });
    const { drivers } = rangeOfLines([...copper, dig, line({ ...unsure, lowCents: 190_000, highCents: 210_000 })]);
    expect(drivers.map(({ name }) => name)).toEqual(['copper wire', 'labor of digging and surfaces', 'a thing']);
    for (const { lowCents, highCents } of drivers) expect(highCents).toBeGreaterThan(lowCents);
  });

  it('leaves out what has no price', () => {
    const missing = line({ lowCents: 0, amountCents: 0, highCents: 0, priced: false });
    expect(rangeOfLines([...things, missing])).toEqual(rangeOfLines(things));
  });

  it('is the total where nothing is unsure', () => {
    const sure = line({ lowCents: 100, amountCents: 100, highCents: 100 });
    const { because, shape, ...drawn } = rangeOfLines([sure]);
    expect(drawn).toEqual({
      p10Cents: 100,
      p50Cents: 100,
      p90Cents: 100,
      likelyCents: 100,
      drivers: [],
      chances: [],
    });
    expect(because).toEqual(['Likely prices, hours and lengths add up to $1, and half of all cases lie below $1.']);
    expect(shape).toEqual({ fromCents: 100, stepCents: 1, shares: [1] });
  });

  it('rises from p10 to p90, lies within the ends of the lines, and is the same each time', () => {
    const points = fc
      .tuple(fc.nat(100_000), fc.nat(100_000), fc.nat(100_000))
      .map((three) => three.sort((a, b) => a - b))
      .map(([lowCents = 0, amountCents = 0, highCents = 0]) => ({ lowCents, amountCents, highCents }));
    const anyLine = fc
      .record({ points, class: fc.constantFrom(...LINE_CLASSES), scope: fc.constantFrom(...SCOPES) })
      .map(({ points, ...kind }) => line({ ...points, ...kind }));
    fc.assert(
      fc.property(fc.array(anyLine, { minLength: 1, maxLength: 12 }), (lines) => {
        const drawn = rangeOfLines(lines);
        expect(drawn.p10Cents).toBeLessThanOrEqual(drawn.p50Cents);
        expect(drawn.p50Cents).toBeLessThanOrEqual(drawn.p90Cents);
        expect(drawn.p10Cents).toBeGreaterThanOrEqual(lines.reduce((sum, { lowCents }) => sum + lowCents, 0) - 1);
        expect(drawn.p90Cents).toBeLessThanOrEqual(lines.reduce((sum, { highCents }) => sum + highCents, 0) + 1);
        expect(rangeOfLines(lines)).toEqual(drawn);
      }),
      { numRuns: 40 },
    );
  });
});
