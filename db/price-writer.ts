import type { Database } from 'better-sqlite3';
import type { PriceItemInput } from '../server/estimate/price-book.ts';
import type { PriceCause, PriceChange, StatedChange } from './price-book.ts';
import { offersText, rowOf, SHARED_ASSIGNMENTS, sharedColumns } from './price-rows.ts';

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
  /** The last revision that an item ever had, one that was removed too; 0 where there never was one. */
  lastEver(key: string): number;
  store(item: PriceItemInput, moment: Moment & { change: PriceChange }): void;
  remove(item: PriceItemInput, moment: Moment): void;
}

/** The writer of the price book; its statements are prepared once. */
export function priceWriter(db: Database, now: () => Date): PriceWriter {
  const current = db.prepare<[string], number>('SELECT revision FROM price_item WHERE key = ?').pluck();
  const lastEver = db
    .prepare<[string], number | null>('SELECT max(revision) FROM price_history WHERE item_key = ?')
    .pluck();
  const removeItem = db.prepare<[string]>('DELETE FROM price_item WHERE key = ?');
  const remember = db.prepare<[object]>(
    `INSERT INTO price_history (item_key, revision, book_revision, change, cause, changed_at, offers, ${sharedColumns()})
     VALUES (@key, @revision, @bookRevision, @change, @cause, @at, @offers, ${sharedColumns('@')})`,
  );
  const storeRow = itemStorer(db);
  const keep = (item: PriceItemInput, { change, cause, at, bookRevision }: Moment & { change: PriceChange }) => {
    const revision = (lastEver.get(item.key) ?? 0) + 1;
    const row = { ...rowOf(item), revision };
    remember.run({ ...row, bookRevision, change, cause, at, offers: offersText(item.offers) });
    return row;
  };
  return {
    begin: beginner(db, now),
    current: (key) => current.get(key),
    lastEver: (key) => lastEver.get(key) ?? 0,
    store: (item, moment) => storeRow({ row: keep(item, moment), item, isNew: moment.change === 'added' }),
    remove: (item, moment) => {
      keep(item, { ...moment, change: 'removed' });
      removeItem.run(item.key);
    },
  };
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
  row: ReturnType<typeof rowOf> & { revision: number };
  item: PriceItemInput;
  isNew: boolean;
}

/** Puts an item and its packages into their tables. A new one is not looked for first: an import is many of them. */
function itemStorer(db: Database): (stored: Stored) => void {
  const columns = `(key, ${sharedColumns()}, revision) VALUES (@key, ${sharedColumns('@')}, @revision)`;
  const insert = db.prepare<[object]>(`INSERT INTO price_item ${columns}`);
  const update = db
    .prepare<[object], number>(
      `INSERT INTO price_item ${columns}
       ON CONFLICT (key) DO UPDATE SET ${SHARED_ASSIGNMENTS}, revision = excluded.revision RETURNING id`,
    )
    .pluck();
  const dropOffers = db.prepare<[number]>('DELETE FROM price_offer WHERE item_id = ?');
  const addOffer = db.prepare<[number, number, string, number, number, number, number, number]>(
    `INSERT INTO price_offer (item_id, position, package, quantity, low_cents, likely_cents, high_cents, available)
     VALUES (?, ?, ?, ?, ?, ?, ?, ?)`,
  );
  const changed = (row: object) => {
    const id = update.get(row) ?? 0; // RETURNING always gives the row
    dropOffers.run(id);
    return id;
  };
  return ({ row, item, isNew }) => {
    const itemId = isNew ? Number(insert.run(row).lastInsertRowid) : changed(row);
    item.offers.forEach(({ package: name, quantity, lowCents, likelyCents, highCents, available }, position) => {
      addOffer.run(itemId, position, name, quantity, lowCents, likelyCents, highCents, available ? 1 : 0);
    });
  };
}
