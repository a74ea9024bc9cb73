import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readDescription } from '../../server/estimate/description.ts';
import { estimate } from '../../server/estimate/estimate.ts';
import { bookOf, type PriceItem } from '../../server/estimate/price-book.ts';
import { regionalBook } from '../../server/estimate/regional-book.ts';
import { seedPrices } from '../../server/seed-prices.ts';

const seeded = seedPrices().map((item): PriceItem => ({ ...item, revision: 1 }));
/** The starting book with one of its two regional factors at other points. */
function bookWith(key: string, [low, likely, high]: readonly [number, number, number]) {
  return bookOf(
    seeded.map((item) => (item.key === key ? { ...item, low, likely, high } : item)),
    1,
  );
}
const description = readDescription({
  title: 'Carport',
  asOf: '2026-03-02',
  site: { building: 'attached', service: { ratingA: 200, freeSpaces: 6 }, load: { method: 'unknown' } },
  route: '20 joists',
  options: [
    {
      ...{ id: 'a', label: 'a circuit', feed: 'dedicated-circuit' },
      chargers: [{ amps: 32, connection: 'hardwired', equipment: 'owned', mount: 'wall' }],
    },
  ],
  terms: {},
});
const core = (book: ReturnType<typeof bookWith>) => estimate(description, book, { parts: 'core' });

describe('the factors of a region', () => {
  it('change nothing, to the byte, where they are 1 or not in the book', () => {
    const without = bookOf(
      seeded.filter(({ key }) => !key.startsWith('region-')),
      1,
    );
    const atOne = bookOf(seeded, 1);
    expect(seeded.filter(({ key }) => key.startsWith('region-'))).toHaveLength(2);
    expect(regionalBook(atOne)).toBe(atOne);
    expect(JSON.stringify(core(atOne))).toBe(JSON.stringify(core(without)));
  });

  it('move the prices of material, say so on each line with their day, and leave hours, rentals and fees', () => {
    const before = core(bookOf(seeded, 1)).options[0];
    const after = core(bookWith('region-material', [2, 2, 2])).options[0];
    expect(after?.totals.materialCents).toBe(2 * (before?.totals.materialCents ?? 0)); // every price is whole cents
    expect(after?.totals.laborCents).toBe(before?.totals.laborCents);
    expect(after?.totals.feeCents).toBe(before?.totals.feeCents);
    const reason = '× 2: material prices of the region against those of the book, as of 2025-07-01';
    for (const { class: of, because } of after?.lines ?? []) expect(because.includes(reason)).toBe(of === 'material');
  });

  it('move the rates of labor and not its hours', () => {
    const before = core(bookOf(seeded, 1)).options[0];
    const after = core(bookWith('region-labor', [1, 1.5, 2])).options[0];
    expect(after?.labor.hours).toBe(before?.labor.hours);
    expect(after?.totals.materialCents).toBe(before?.totals.materialCents);
    const rate = (option: typeof before) => option?.lines.find(({ class: of }) => of === 'labor')?.unitPriceCents ?? 0;
    expect(rate(before)).toBeGreaterThan(0);
    expect(rate(after)).toBe(1.5 * rate(before));
  });

  it('keep three points rising, each package at its own', () => {
    const points = fc
      .tuple(fc.integer({ min: 1, max: 300 }), fc.integer({ min: 1, max: 300 }), fc.integer({ min: 1, max: 300 }))
      .map((three) => three.sort((a, b) => a - b).map((part) => part / 100) as [number, number, number]);
    fc.assert(
      fc.property(points, (factor) => {
        for (const { low, likely, high, offers } of regionalBook(bookWith('region-material', factor)).items) {
          expect(low <= likely && likely <= high).toBe(true);
          for (const one of offers)
            expect(one.lowCents <= one.likelyCents && one.likelyCents <= one.highCents).toBe(true);
        }
      }),
      { numRuns: 20 },
    );
  });
});
