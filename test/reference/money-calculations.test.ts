import { describe, expect, it } from 'vitest';
import { priceFromCost } from '../../server/estimate/money-calculations.ts';

/* Published payments and prices are among cases/; here is what they leave open. */

describe('a price from its cost', () => {
  /** Arithmetic: margin = markup / (1 + markup) = 0.5 / 1.5; markup = margin / (1 − margin) = 0.4 / 0.6. */
  it('rounds the other of markup and margin to the nearest basis point', () => {
    expect(priceFromCost({ costCents: 10_000, markupBp: 5000 }).marginBp).toBe(3333);
    expect(priceFromCost({ costCents: 10_000, marginBp: 4000 }).markupBp).toBe(6667);
  });

  it('asks for one of the two, and for a margin below the whole price', () => {
    expect(() => priceFromCost({ costCents: 1 })).toThrow('marginBp must be given where markupBp is left out');
    expect(() => priceFromCost({ costCents: 1, markupBp: 1, marginBp: 1 })).toThrow('left out where markupBp is given');
    expect(() => priceFromCost({ costCents: 1, marginBp: 10_000 })).toThrow('marginBp must be below 10000, not 10000');
  });
});
