import { dataExists, openData } from '../db/open.ts';
import { type Book, bookOf } from './estimate/price-book.ts';
import { seedPrices } from './seed-prices.ts';

/** The starting book is the first revision of every data folder. */
const SEED_REVISION = 1;

/** The newest price book of a data folder; without one the starting book, in memory. Writes nothing. */
export function readOnlyBook(dataDir: string): Book {
  if (!dataExists(dataDir)) {
    const items = seedPrices().map((item) => ({ ...item, revision: 1 }));
    return bookOf(items, SEED_REVISION);
  }
  const data = openData(dataDir, { readonly: true });
  try {
    const { items, revision } = data.prices.snapshot();
    return bookOf(items, revision);
  } finally {
    data.close();
  }
}
