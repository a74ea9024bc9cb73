import { type Book, bookOf, PriceItem } from '../../server/estimate/price-book.ts';
import { seedPrices } from '../../server/seed-prices.ts';

export { readDescription } from '../../server/estimate/description.ts';
export { withAsOf } from '../../server/estimate/estimate.ts';

/** The book that a fresh data folder starts with. */
export function seededBook(): Book {
  return bookOf(
    seedPrices().map((item) => PriceItem.parse({ ...item, revision: 1 })),
    1,
  );
}
