import type { PriceItemInput } from '../server/estimate/price-book.ts';
import type { Data } from './open.ts';
import type { JsonObject } from './projects.ts';
import { typed } from './typed-errors.ts';

/** What a fresh data folder is given. */
export interface Seed {
  /** Reads the starting prices; asked only where they are needed. */
  readSeed: () => readonly PriceItemInput[];
  demo: { title: string; description: JsonObject };
}

/**
 * Loads the starting prices and the demo project into a data folder that never had them, all or nothing. Prices that
 * are there already, because they were imported first, are not touched.
 * @returns the demo project's id; nothing once somebody removed it, for it does not come back
 */
export function seedOnce(data: Data, { readSeed, demo }: Seed): string | undefined {
  const { db, file, now, prices, projects } = data;
  const seeded = db.prepare<[], string>('SELECT demo_project_id FROM seeding').pluck();
  const isThere = db.prepare<[string]>('SELECT 1 FROM project WHERE id = ? AND deleted_at IS NULL');
  const remember = db.prepare('INSERT INTO seeding (id, seeded_at, demo_project_id) VALUES (1, ?, ?)');
  const inBook = db.prepare<[string]>('SELECT 1 FROM price_item WHERE key = ?');
  const load = db.transaction((items: readonly PriceItemInput[]): string => {
    const missing = items.filter(({ key }) => inBook.get(key) === undefined);
    prices.importItems(missing, { cause: 'seed' });
    const { id } = projects.create(demo);
    remember.run(now().toISOString(), id);
    return id;
  });
  const seededId = typed(file, () => seeded.get());
  if (seededId !== undefined) return typed(file, () => isThere.get(seededId)) === undefined ? undefined : seededId;
  const items = readSeed();
  return typed(file, () => load.immediate(items));
}
