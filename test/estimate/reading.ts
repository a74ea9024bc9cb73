import { readSeedPrices } from '../../db/seed.ts';
import { type Book, bookOf, PriceItem } from '../../server/estimate/price-book.ts';

export { readDescription } from '../../server/estimate/description.ts';
export { withAsOf } from '../../server/estimate/estimate.ts';

/** The book that a fresh data folder starts with. */
export function seededBook(): Book {
  const folder = new URL('../../seed-prices/', import.meta.url);
  return bookOf(
    readSeedPrices(folder).map((item) => PriceItem.parse({ ...item, revision: 1 })),
    1,
  );
}
