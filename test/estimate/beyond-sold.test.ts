import { describe, expect, it } from 'vitest';
import { beyondSoldFindings } from '../../server/estimate/beyond-sold.ts';
import type { MaterialDemand } from '../../server/estimate/plan-types.ts';
import { bookOf, PriceItem, type Spec } from '../../server/estimate/price-book.ts';

/** A shop of our own with four breakers, two panels and two sizes of tubing. */
const SOLD: Spec[] = [
  { is: 'breaker', ratingA: 15, poles: 2, gfci: true },
  { is: 'breaker', ratingA: 60, poles: 2, gfci: true },
  { is: 'breaker', ratingA: 15, poles: 1, gfci: false },
  { is: 'breaker', ratingA: 20, poles: 1, gfci: false },
  { is: 'panel', ratingA: 100, spaces: 24, enclosure: 'indoor', mainBreaker: true },
  { is: 'panel', ratingA: 200, spaces: 12, enclosure: 'indoor', mainBreaker: false },
  { is: 'raceway', type: 'emt', tradeSize: '1' },
  { is: 'raceway', type: 'emt', tradeSize: '2' },
  { is: 'fitting', type: 'emt', tradeSize: '1', piece: 'coupling' },
];
const book = bookOf(
  SOLD.map((spec, at) =>
    PriceItem.parse({
      ...{
        key: `item-${at}`,
        kind: 'price',
        description: 'of our own',
        class: 'material',
        scope: 'other',
        category: 'x',
      },
      ...{ unit: 'each', low: 1, likely: 2, high: 3, spec, date: '2025-07-01', region: 'US', source: 'invented' },
      revision: 1,
    }),
  ),
  1,
);

const demand = (spec: Spec, legs: number[] = []): MaterialDemand => ({
  ...{
    spec,
    description: 'something',
    class: 'material',
    scope: 'other',
    unit: 'each',
    quantity: 1,
    legs,
    because: [],
  },
});
const stopsOn = (spec: Spec) =>
  beyondSoldFindings([demand(spec)], book).map(({ rule, message }) => `${rule}: ${message}`);

describe('what is larger than anything sold of its kind', () => {
  it('is a stop that names what is sold and what would do', () => {
    expect(stopsOn({ is: 'breaker', ratingA: 70, poles: 2, gfci: true })).toEqual([
      'breaker-not-sold: The price book sells no breaker of 70 A with 2 poles and ground-fault protection: its kind goes ' +
        'from 15 to 60 A. Choose other amperes, or add it to the price book.',
    ]);
    expect(stopsOn({ is: 'raceway', type: 'emt', tradeSize: '3' })).toEqual([
      'conduit-not-sold: The price book sells no emt of 3 in: its kind ends at 2 in. Choose a smaller trade size or ' +
        'another method, or add it to the price book.',
    ]);
    expect(stopsOn({ is: 'panel', ratingA: 125, spaces: 24, enclosure: 'indoor', mainBreaker: true })).toEqual([
      'panel-not-sold: The price book sells no indoor panel of 125 A with 24 spaces and a main breaker: its kind has at ' +
        'most 100 A and 24 spaces. Choose a smaller panel, or add it to the price book.',
    ]);
  });

  it('is a stop below the smallest breaker too, and of a fitting by its own piece', () => {
    expect(stopsOn({ is: 'breaker', ratingA: 10, poles: 1, gfci: false })).toHaveLength(1);
    expect(stopsOn({ is: 'fitting', type: 'emt', tradeSize: '2', piece: 'coupling' })).toHaveLength(1);
  });

  it('is said once, at its leg', () => {
    const spec: Spec = { is: 'raceway', type: 'emt', tradeSize: '4' };
    expect(beyondSoldFindings([demand(spec, [2]), demand(spec, [3])], book)).toMatchObject([
      { severity: 'stop', leg: 2 },
    ]);
  });
});

describe('what is merely missing in the price book', () => {
  it('is no stop: a size in between, or a kind of which there is nothing at all', () => {
    expect(stopsOn({ is: 'breaker', ratingA: 40, poles: 2, gfci: true })).toEqual([]);
    expect(stopsOn({ is: 'breaker', ratingA: 40, poles: 2, gfci: false })).toEqual([]);
    expect(stopsOn({ is: 'panel', ratingA: 60, spaces: 6, enclosure: 'outdoor', mainBreaker: false })).toEqual([]);
    expect(stopsOn({ is: 'raceway', type: 'rmc', tradeSize: '4' })).toEqual([]);
    expect(stopsOn({ is: 'other', name: 'charger-200' })).toEqual([]);
  });

  it('is no stop where a larger panel of more spaces would do', () => {
    expect(stopsOn({ is: 'panel', ratingA: 125, spaces: 12, enclosure: 'indoor', mainBreaker: false })).toEqual([]);
  });
});
