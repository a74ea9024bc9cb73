import type { Database } from 'better-sqlite3';
import type { Offer, PriceItem } from '../server/estimate/price-book.ts';
import { allItems, ITEM, OFFER } from './all-items.ts';
import { type RevisionReader, revisionReader } from './book-revisions.ts';
import { CorruptDataError, NotFoundError } from './errors.ts';
import { PAGE_SIZE, type Page } from './page.ts';
import { foundInPast } from './past-search.ts';
import { type PriceChanges, priceChanges } from './price-changes.ts';
import { type ItemRow, itemOf, type OfferRow, offerOf, sharedColumns } from './price-rows.ts';
import { searchQuery } from './search-words.ts';
import { withTypedErrors } from './typed-errors.ts';

/** What happened to an item, and by what it happened. */
export type PriceChange = 'added' | 'changed' | 'removed';
export type PriceCause = 'edit' | 'import' | 'seed' | 'several' | 'index' | 'undo' | 'restore' | 'supplier-list';

/** Who makes a change, and why; both as they were told, and both may be left out. */
export interface StatedChange {
  by?: string;
  why?: string;
}

/** One state that an item had, from `bookRevision` on; where it was removed, the state it had last. */
export interface PriceHistoryEntry {
  revision: number;
  bookRevision: number;
  change: PriceChange;
  cause: PriceCause;
  /** The moment, as an ISO 8601 text in UTC. */
  at: string;
  by?: string;
  why?: string;
  item: PriceItem;
}

/** All items as they were at one revision of the book, in the order of their keys. */
export interface BookSnapshot {
  items: readonly PriceItem[];
  revision: number;
}

/** Which items: those with all the words of `search`, of one category, of the book as it was; `page` counts from 1. */
export interface PriceQuery {
  revision?: number;
  search?: string;
  category?: string;
  page?: number;
}

/** A page of items, and the categories of the whole book in order, whatever was asked for. */
export interface PricePage extends Page<PriceItem> {
  categories: string[];
}

// Types, not interfaces: only a type can be walked through by name, which is how errors are made typed.
export type PriceReader = RevisionReader & {
  /** The revision of the book: one more for every accepted change or import, 0 where nothing was ever in it. */
  revision(): number;
  /** @throws {NotFoundError} */
  find(key: string): PriceItem;
  /**
   * The best matches first; without a search, and in a book of the past, by category and key.
   * @throws {NotFoundError} for a revision that never was
   */
  list(query?: PriceQuery): PricePage;
  /** Every state that an item ever had, the newest first, also of one that was removed. @throws {NotFoundError} */
  history(key: string): PriceHistoryEntry[];
  /** Which of these keys never was in the book, and is not in it. */
  neverHad(keys: readonly string[]): string[];
  /** The book as it is, or as it was at a revision. @throws {NotFoundError} for a revision that never was */
  snapshot(revision?: number): BookSnapshot;
};

/** The items of the price book. What is thrown is typed; a change that is refused changes nothing. */
export type PriceBook = PriceReader & PriceChanges;

export interface PriceBookParts {
  db: Database;
  file: string;
  now: () => Date;
  readItem: ((stored: unknown) => PriceItem) | undefined;
}

/** The repository of the price book. */
export function priceBook({ db, file, now, readItem }: PriceBookParts): PriceBook {
  const checked = (item: PriceItem) => checkedItem(item, { file, readItem });
  const reader = priceReader({ db, checked });
  return withTypedErrors(file, { ...reader, ...priceChanges({ db, now, reader }) });
}

/** Checks an item by the schema that was handed in: what lies in the file may be older than the schema. */
function checkedItem(item: PriceItem, { file, readItem }: Pick<PriceBookParts, 'file' | 'readItem'>): PriceItem {
  if (!readItem) return item;
  try {
    return readItem(item);
  } catch (error) {
    const found = `the price of "${item.key}" is not one: ${error instanceof Error ? error.message : String(error)}`;
    throw new CorruptDataError({ file, found, cause: error });
  }
}

interface ReaderParts {
  db: Database;
  checked: (item: PriceItem) => PriceItem;
}

const ALL = 'FROM price_item i WHERE (@category IS NULL OR i.category = @category)';
const FOUND = 'FROM price_item_search WHERE price_item_search MATCH @words AND @category IS NULL';
const FOUND_IN_CATEGORY = `FROM price_item_search JOIN price_item i ON i.id = price_item_search.rowid
  WHERE price_item_search MATCH @words AND i.category = @category`;
/** A word in the key counts most, then one in the description; alike ones in the order that they came into the book. */
const BEST_FIRST = 'bm25(price_item_search, 4, 2, 1), price_item_search.rowid';
/** Each category once, in order, jumping from one to the next by the index. */
const CATEGORIES = `WITH RECURSIVE one (category) AS (
    SELECT min(category) FROM price_item
    UNION ALL SELECT (SELECT min(category) FROM price_item WHERE category > one.category) FROM one
    WHERE one.category IS NOT NULL)
  SELECT category FROM one WHERE category IS NOT NULL`;

function priceReader({ db, checked }: ReaderParts): PriceReader {
  const bookRevision = db.prepare<[], number>('SELECT revision FROM book').pluck();
  const everHad = db.prepare<[string]>('SELECT 1 FROM price_history WHERE item_key = ? LIMIT 1');
  const find = finder({ db, checked });
  const revision = () => bookRevision.get() ?? 0;
  const snapshot = snapshots({ db, checked, revision });
  const list = lister({ db, checked });
  return {
    ...revisionReader(db),
    revision,
    find,
    list: (query = {}) =>
      query.revision === undefined || query.revision === revision() ? list(query) : pastPage(snapshot, query),
    neverHad: (keys) => keys.filter((key) => everHad.get(key) === undefined),
    history: historian({ db, checked }),
    snapshot,
  };
}

/** A page of the book as it was. */
function pastPage(snapshot: PriceReader['snapshot'], { search = '', category, page = 1, revision }: PriceQuery) {
  const { items } = snapshot(revision);
  const found = foundInPast(items, search, category);
  const start = (page - 1) * PAGE_SIZE;
  return {
    items: found.slice(start, start + PAGE_SIZE),
    page,
    pageSize: PAGE_SIZE,
    total: found.length,
    categories: [...new Set(items.map((item) => item.category))].sort(),
  };
}

function finder({ db, checked }: ReaderParts): PriceReader['find'] {
  const one = db.prepare<[string], ItemRow>(`SELECT ${ITEM} FROM price_item i WHERE key = ?`);
  const offers = db.prepare<[string], OfferRow>(
    `SELECT ${OFFER} FROM price_offer o JOIN price_item i ON i.id = o.item_id WHERE i.key = ? ORDER BY o.position`,
  );
  return (key) => {
    const row = one.get(key);
    if (row) return checked(itemOf(row, offers.all(key).map(offerOf)));
    throw new NotFoundError(`The price book has no item "${key}".`);
  };
}

type ListBinding = { category: string | null; words?: string; offset: number };

function lister({ db, checked }: ReaderParts): PriceReader['list'] {
  const offers = db.prepare<[number], OfferRow>(
    `SELECT ${OFFER} FROM price_offer o WHERE o.item_id = ? ORDER BY o.position`,
  );
  const listing = (id: string, from: string, order: string) => {
    const page = `SELECT ${id} AS id ${from} ORDER BY ${order} LIMIT ${PAGE_SIZE} OFFSET @offset`;
    const items = db.prepare<[ListBinding], ItemRow & { id: number }>(
      `SELECT i.id, ${ITEM} FROM (${page}) best CROSS JOIN price_item i ON i.id = best.id`,
    );
    return { items, total: db.prepare<[ListBinding], number>(`SELECT count(*) ${from}`).pluck() };
  };
  const all = listing('i.id', ALL, 'i.category, i.key');
  const found = listing('price_item_search.rowid', FOUND, BEST_FIRST);
  const foundInCategory = listing('i.id', FOUND_IN_CATEGORY, BEST_FIRST);
  const allCategories = db.prepare<[], string>(CATEGORIES).pluck();
  return db.transaction(({ search = '', category, page = 1 }: PriceQuery = {}): PricePage => {
    const categories = allCategories.all();
    const words = searchQuery(search);
    const binding = { category: category ?? null, offset: (page - 1) * PAGE_SIZE };
    const nothing = words === undefined && search.trim() !== ''; // signs alone name no item
    if (nothing) return { items: [], page, pageSize: PAGE_SIZE, total: 0, categories };
    const byWords = category === undefined ? found : foundInCategory;
    const { items, total } = words === undefined ? all : byWords;
    const bound = words === undefined ? binding : { ...binding, words };
    const rows = items.all(bound);
    const isAll = page === 1 && rows.length < PAGE_SIZE; // then there is nothing more to count
    return {
      items: rows.map((row) => checked(itemOf(row, offers.all(row.id).map(offerOf)))),
      ...{ page, pageSize: PAGE_SIZE, total: isAll ? rows.length : (total.get(bound) ?? 0), categories },
    };
  });
}

interface HistoryRow extends ItemRow {
  offers: string;
  book_revision: number;
  change: PriceChange;
  cause: PriceCause;
  changed_at: string;
  changed_by: string | null;
  why: string | null;
}

const HISTORY = `h.item_key AS key, ${sharedColumns('h.')}, h.revision, h.offers, h.book_revision, h.change,
  coalesce(r.cause, h.cause) AS cause, h.changed_at, r.changed_by, r.why`;
const WITH_REVISION = 'LEFT JOIN book_revision r ON r.revision = h.book_revision';

function pastItem(row: HistoryRow): PriceItem {
  return itemOf(row, JSON.parse(row.offers) as Offer[]);
}

function historian({ db, checked }: ReaderParts): PriceReader['history'] {
  const states = db.prepare<[string], HistoryRow>(
    `SELECT ${HISTORY} FROM price_history h ${WITH_REVISION} WHERE h.item_key = ? ORDER BY h.revision DESC`,
  );
  return (key) => {
    const rows = states.all(key);
    if (rows.length === 0) throw new NotFoundError(`The price book never had an item "${key}".`);
    return rows.map((row) => ({
      revision: row.revision,
      bookRevision: row.book_revision,
      change: row.change,
      cause: row.cause,
      at: row.changed_at,
      ...(row.changed_by !== null && { by: row.changed_by }),
      ...(row.why !== null && { why: row.why }),
      item: checked(pastItem(row)),
    }));
  };
}

interface SnapshotParts extends ReaderParts {
  revision: () => number;
}

function snapshots({ db, checked, revision }: SnapshotParts): PriceReader['snapshot'] {
  const currentItems = allItems(db);
  const past = db.prepare<[number], HistoryRow>(
    `SELECT ${HISTORY} FROM price_history h ${WITH_REVISION}
     JOIN (SELECT item_key, max(revision) AS revision FROM price_history WHERE book_revision <= ? GROUP BY item_key) last
       ON last.item_key = h.item_key AND last.revision = h.revision
     WHERE h.change <> 'removed' ORDER BY h.item_key`,
  );
  let newest: BookSnapshot | undefined;
  let latestPast: BookSnapshot | undefined; // what once was stays as it was
  const read = db.transaction((wanted: number | undefined): BookSnapshot => {
    const current = revision();
    if (wanted !== undefined && (wanted < 1 || wanted > current || !Number.isInteger(wanted))) {
      throw new NotFoundError(`The price book never had a revision ${wanted}; it is at ${current}.`);
    }
    if (wanted !== undefined && wanted !== current) {
      if (latestPast?.revision === wanted) return latestPast;
      return { items: past.all(wanted).map((row) => checked(pastItem(row))), revision: wanted };
    }
    if (newest?.revision === current) return newest;
    return { items: currentItems().map(checked), revision: current };
  });
  return (wanted) => {
    const snapshot = read(wanted);
    // Within a transaction the revision may still be rolled back, and then stand for other prices.
    const lasts = !db.inTransaction && snapshot.revision === revision();
    if (lasts) newest = snapshot;
    else if (!db.inTransaction) latestPast = snapshot;
    return snapshot;
  };
}
