import { openData } from '../../db/open.ts';
import { type Book, bookOf } from '../estimate/price-book.ts';
import type { Issuer } from '../report/sheet-head.ts';
import { seedPrices } from '../seed-prices.ts';

/** The starting book is the first revision of every data folder. */
const STARTING_REVISION = 1;

/** The starting price book, in memory: nothing is written. */
export function startingBook(): Book {
  const items = seedPrices().map((item) => ({ ...item, revision: STARTING_REVISION }));
  return bookOf(items, STARTING_REVISION);
}

/** Who hands papers over, by the settings of the data folder. Nothing is written. */
export function keptIssuer(dataDir: string): Issuer {
  const data = openData(dataDir, { readonly: true });
  try {
    return data.settings.read();
  } finally {
    data.close();
  }
}

/** The newest price book of a data folder, read beside whoever serves it. @throws {NotFoundError} where there is none */
export function keptBook(dataDir: string): Book {
  const data = openData(dataDir, { readonly: true });
  try {
    const { items, revision } = data.prices.snapshot();
    return bookOf(items, revision);
  } finally {
    data.close();
  }
}
