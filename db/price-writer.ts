import type { Database } from 'better-sqlite3';
import type { PriceItemInput } from '../server/estimate/price-book.ts';
import type { PriceCause, PriceChange, StatedChange } from './price-book.ts';
import { offersText, SHARED_ASSIGNMENTS, SHARED_PLACES, sharedColumns, sharedValues } from './price-rows.ts';

/** What a revision of the book is remembered with, besides its number and its moment. */
export interface RevisionStated extends StatedChange {
  cause: PriceCause;
  /** Of a change by an index. */
  index?: { category: string; factor: number; on: string };
  /** The revision that this one takes back. */
  undoes?: number;
}

/** One revision in the making: rows of the history carry its number and its moment. */
export interface Moment {
  /** How the history of one item knows it: what came later than its table is told by the revision. */
  cause: Extract<PriceCause, 'edit' | 'import' | 'seed'>;
  at: string;
  bookRevision: number;
}

/** Writes items, their packages and their history together. Call it within a transaction. */
export interface PriceWriter {
  /** Begins one more revision of the book. */
  begin(stated: RevisionStated): Moment;
  /** The revision of an item that is in the book. */
  current(key: string): number | undefined;
  store(item: PriceItemInput, moment: Moment & { change: PriceChange }): void;
  remove(item: PriceItemInput, moment: Moment): void;
  /** Runs what stores or removes so many items; where they are many, the search index is made anew once, after them. */
  inBulk(count: number, run: () => void): void;
}

/** From so many items on, making the search index anew is quicker than keeping it in step row by row. */
const MANY = 1000;

/** The writer of the price book; its statements are prepared once. */
export function priceWriter(db: Database, now: () => Date): PriceWriter {
  const current = db.prepare<[string], number>('SELECT revision FROM price_item WHERE key = ?').pluck();
  const removeItem = db.prepare<[string]>('DELETE FROM price_item WHERE key = ?');
  const keep = historyKeeper(db);
  const store = itemStorer(db);
  return {
    begin: beginner(db, now),
    current: (key) => current.get(key),
    store: (item, moment) => {
      const values = sharedValues(item);
      store({ item, values, revision: keep({ item, values, moment }), isNew: moment.change === 'added' });
    },
    remove: (item, moment) => {
      keep({ item, values: sharedValues(item), moment: { ...moment, change: 'removed' } });
      removeItem.run(item.key);
    },
    inBulk: (count, run) => (count < MANY ? run() : withSearchMadeAnew(db, run)),
  };
}

interface Kept {
  item: PriceItemInput;
  values: Values;
  moment: Moment & { change: PriceChange };
}
type Values = ReturnType<typeof sharedValues>;

/** Remembers a state of an item, and says which revision of the item that is. */
function historyKeeper(db: Database): (kept: Kept) => number {
  const lastEver = db
    .prepare<[string], number | null>('SELECT max(revision) FROM price_history WHERE item_key = ?')
    .pluck();
  const remember = db.prepare<(string | number | null)[]>(
    `INSERT INTO price_history (item_key, revision, book_revision, change, cause, changed_at, offers, ${sharedColumns()})
     VALUES (?, ?, ?, ?, ?, ?, ?, ${SHARED_PLACES})`,
  );
  return ({ item: { key, offers }, values, moment: { bookRevision, change, cause, at } }) => {
    const revision = (lastEver.get(key) ?? 0) + 1;
    remember.run(key, revision, bookRevision, change, cause, at, offersText(offers), ...values);
    return revision;
  };
}

/**
 * Lets the search index rest while `run` writes, and makes it anew after: row by row it is written to the disk with
 * every statement. Within a transaction, so that a sudden end leaves index and items as they were.
 */
function withSearchMadeAnew(db: Database, run: () => void): void {
  const triggers = db
    .prepare<[], { name: string; sql: string }>(
      "SELECT name, sql FROM sqlite_schema WHERE type = 'trigger' AND name GLOB 'price_item_search_*'",
    )
    .all();
  for (const { name } of triggers) db.exec(`DROP TRIGGER ${name}`);
  run();
  db.exec("INSERT INTO price_item_search (price_item_search) VALUES ('rebuild')");
  for (const { sql } of triggers) db.exec(sql);
}

function beginner(db: Database, now: () => Date): PriceWriter['begin'] {
  const next = db.prepare<[], number>('UPDATE book SET revision = revision + 1 RETURNING revision').pluck();
  const begin = db.prepare<[object]>(
    `INSERT INTO book_revision (revision, cause, changed_at, changed_by, why, category, index_factor, index_on, undoes)
     VALUES (@revision, @cause, @at, @by, @why, @category, @factor, @on, @undoes)`,
  );
  return ({ cause, by, why, index, undoes }) => {
    const moment = { at: now().toISOString(), bookRevision: next.get() ?? 0 }; // there always is the one book
    begin.run({
      ...{ revision: moment.bookRevision, at: moment.at, cause, by: by ?? null, why: why ?? null },
      ...{ category: index?.category ?? null, factor: index?.factor ?? null, on: index?.on ?? null },
      undoes: undoes ?? null,
    });
    return { ...moment, cause: cause === 'seed' || cause === 'import' ? cause : 'edit' };
  };
}

interface Stored {
  item: PriceItemInput;
  values: Values;
  revision: number;
  isNew: boolean;
}

/** Puts an item and its packages into their tables. A new one is not looked for first: an import is many of them. */
function itemStorer(db: Database): (stored: Stored) => void {
  const columns = `(key, revision, ${sharedColumns()}) VALUES (?, ?, ${SHARED_PLACES})`;
  const insert = db.prepare<(string | number | null)[]>(`INSERT INTO price_item ${columns}`);
  const update = db
    .prepare<(string | number | null)[], number>(
      `INSERT INTO price_item ${columns}
       ON CONFLICT (key) DO UPDATE SET ${SHARED_ASSIGNMENTS}, revision = excluded.revision RETURNING id`,
    )
    .pluck();
  const dropOffers = db.prepare<[number]>('DELETE FROM price_offer WHERE item_id = ?');
  const addOffer = db.prepare<[number, number, string, number, number, number, number, number]>(
    `INSERT INTO price_offer (item_id, position, package, quantity, low_cents, likely_cents, high_cents, available)
     VALUES (?, ?, ?, ?, ?, ?, ?, ?)`,
  );
  const changed = (row: (string | number | null)[]) => {
    const id = update.get(...row) ?? 0; // RETURNING always gives the row
    dropOffers.run(id);
    return id;
  };
  return ({ item, values, revision, isNew }) => {
    const row = [item.key, revision, ...values];
    const itemId = isNew ? Number(insert.run(...row).lastInsertRowid) : changed(row);
    item.offers.forEach(({ package: name, quantity, lowCents, likelyCents, highCents, available }, position) => {
      addOffer.run(itemId, position, name, quantity, lowCents, likelyCents, highCents, available ? 1 : 0);
    });
  };
}
