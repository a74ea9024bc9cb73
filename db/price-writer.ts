import type { Database } from 'better-sqlite3';
import type { Offer, PriceItemInput } from '../server/estimate/price-book.ts';
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
  /** Adds items of which none is in the book, in the order of their keys, as all that the moment adds. */
  addAll(items: readonly PriceItemInput[], moment: Moment): void;
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
    addAll: newItemsAdder(db, keep),
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
  /** The last revision that the item ever had, where that is known. */
  lastRevision?: number;
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
  return ({ item: { key, offers }, values, moment: { bookRevision, change, cause, at }, lastRevision }) => {
    const revision = (lastRevision ?? lastEver.get(key) ?? 0) + 1;
    remember.run(key, revision, bookRevision, change, cause, at, offersText(offers), ...values);
    return revision;
  };
}

/**
 * Adds what is new by the hundred thousand: the history first, and the items out of it by one statement, so that what
 * an item says is handed over once. A key that was in the book before goes on with its revisions.
 */
function newItemsAdder(db: Database, keep: (kept: Kept) => number): PriceWriter['addAll'] {
  const hasHistory = db.prepare<[], number>('SELECT EXISTS (SELECT 1 FROM price_history)').pluck();
  const take = db.prepare<[number]>(
    `INSERT INTO price_item (key, revision, ${sharedColumns()})
     SELECT item_key, revision, ${sharedColumns()} FROM price_history
     WHERE book_revision = ? AND change = 'added' ORDER BY item_key`,
  );
  const addOffer = db.prepare<[...OfferValues, string]>(
    `INSERT INTO price_offer (position, ${OFFER_COLUMNS}, item_id)
     SELECT ?, ?, ?, ?, ?, ?, ?, ?, id FROM price_item WHERE key = ?`,
  );
  return (items, moment) => {
    const known = hasHistory.get() === 0 ? { lastRevision: 0 } : {};
    for (const item of items) {
      keep({ item, values: sharedValues(item), moment: { ...moment, change: 'added' }, ...known });
    }
    take.run(moment.bookRevision);
    for (const { key, offers } of items) {
      for (let position = 0; position < offers.length; position += 1) {
        const offer = offers[position];
        if (offer) addOffer.run(...offerValues(offer, position), key);
      }
    }
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

/** Puts an item and its packages into their tables. */
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
  const addOffer = db.prepare<[...OfferValues, number]>(
    `INSERT INTO price_offer (position, ${OFFER_COLUMNS}, item_id) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)`,
  );
  const changed = (row: (string | number | null)[]) => {
    const id = update.get(...row) ?? 0; // RETURNING always gives the row
    dropOffers.run(id);
    return id;
  };
  return ({ item, values, revision, isNew }) => {
    const row = [item.key, revision, ...values];
    const itemId = isNew ? Number(insert.run(...row).lastInsertRowid) : changed(row);
    item.offers.forEach((offer, position) => {
      addOffer.run(...offerValues(offer, position), itemId);
    });
  };
}

const OFFER_COLUMNS = 'package, quantity, low_cents, likely_cents, high_cents, available, date';
type OfferValues = [number, string, number, number, number, number, number, string | null];

/** A package as its table takes it, its place first. */
function offerValues(offer: Offer, position: number): OfferValues {
  const { package: name, quantity, lowCents, likelyCents, highCents, available, date } = offer;
  return [position, name, quantity, lowCents, likelyCents, highCents, available ? 1 : 0, date ?? null];
}
