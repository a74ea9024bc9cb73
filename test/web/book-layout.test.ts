import { describe, expect, it } from 'vitest';
import type { PriceItem } from '../../server/estimate/price-book.ts';
import { drawnPieces, heightOf, linesOf, pageAt, pagesWithin, pageTops } from '../../web/prices/book-layout.ts';

// Expected places are sums of the heights, written out.
const heights = { item: 20, offer: 10, detail: 300 };
const offer = { package: 'coil', quantity: 50, lowCents: 1, likelyCents: 2, highCents: 3, available: true };
const item = (key: string, offers = 0) =>
  ({ key, offers: Array.from({ length: offers }, () => offer) }) as unknown as PriceItem;

describe('a book that is drawn where it is looked at', () => {
  it('counts an item, its packages and what is open below it', () => {
    const lines = linesOf([item('a'), item('b', 2)], 'b');
    expect(lines.map(({ is }) => is)).toEqual(['item', 'item', 'offer', 'offer', 'detail']);
    expect(heightOf(lines, heights)).toBe(20 + 20 + 10 + 10 + 300);
  });

  it('knows where each page begins: measured ones as they are, the others as their items usually are', () => {
    const tops = pageTops({ pages: 3, total: 110, pageSize: 50 }, { measured: new Map([[1, 1500]]), itemHeight: 20 });
    expect([...tops]).toEqual([0, 1500, 1500 + 50 * 20, 2500 + 10 * 20]);
    expect([0, 1499, 1500, 2499, 2500, 9999].map((place) => pageAt(tops, place))).toEqual([1, 1, 2, 2, 3, 3]);
    expect(pagesWithin(tops, { from: 1400, to: 2600 })).toEqual([1, 2, 3]);
    expect(pagesWithin(tops, { from: 2600, to: 2650 })).toEqual([3]);
  });

  it('draws what is in sight and what somebody types in, and leaves room for the rest', () => {
    const items = Array.from({ length: 10 }, (_, at) => item(`i${at}`));
    const drawn = drawnPieces({
      tops: new Float64Array([0, 200, 400]),
      pages: new Map([[1, linesOf(items, undefined)]]),
      heights,
      stretch: { from: 100, to: 130 },
      kept: new Set(['i1']),
    });
    const told = drawn.map((piece) => ('gap' in piece ? piece.gap : piece.line.item.key));
    expect(told).toEqual([20, 'i1', 60, 'i5', 'i6', 60 + 200]);
    const taken = drawn.reduce((sum, piece) => sum + ('gap' in piece ? piece.gap : 20), 0);
    expect(taken).toBe(400);
  });
});
