import { join } from 'node:path';
import { packageRoot } from '../db/package-root.ts';
import { readSeedPrices } from '../db/seed.ts';
import type { PriceItemInput } from './estimate/price-book.ts';
import { parsePriceCsv } from './estimate/price-csv.ts';

/** The starting price book, read from the project's own files. @throws where one of them cannot be read */
export function seedPrices(): PriceItemInput[] {
  return readSeedPrices(join(packageRoot, 'seed-prices'), parsePriceCsv);
}
