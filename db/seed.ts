import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { PriceItemInput } from '../server/estimate/price-book.ts';

type ParsePriceCsv = (text: string) => {
  items: PriceItemInput[];
  refused: { row: number; reason: string }[];
};

/**
 * Reads the starting price book: every price list of a folder, in the order of their names.
 * @param dir    the folder `seed-prices`
 * @param parse  `parsePriceCsv` of the estimate, handed in: the data side imports types only
 * @throws {Error} with file and row where a row cannot be read, or a key stands in two files: the book is ours, so a
 *   mistake in it is not skipped
 */
export function readSeedPrices(dir: URL | string, parse: ParsePriceCsv): PriceItemInput[] {
  const folder = dir instanceof URL ? fileURLToPath(dir) : dir;
  const fileOf = new Map<string, string>();
  return readdirSync(folder)
    .filter((name) => name.endsWith('.csv'))
    .sort()
    .flatMap((name) => {
      const { items, refused } = parse(readFileSync(join(folder, name), 'utf8'));
      const [first] = refused;
      if (first) throw new Error(`${name}, row ${first.row}: ${first.reason}`);
      for (const { key } of items) {
        const other = fileOf.get(key);
        if (other) throw new Error(`${name}: "${key}" stands in ${other} too`);
        fileOf.set(key, name);
      }
      return items;
    });
}
