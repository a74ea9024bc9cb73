import { isDeepStrictEqual } from 'node:util';
import type { Database } from 'better-sqlite3';
import type { PriceItem, PriceItemInput } from '../server/estimate/price-book.ts';
import { ConflictError, StaleRevisionError } from './errors.ts';
import type { PriceCause, PriceChange, PriceReader } from './price-book.ts';
import { offersText, rowOf, SHARED_ASSIGNMENTS, sharedColumns } from './price-rows.ts';

/** What an import did, or would do; `revision` is the book's after it. */
export interface ImportOutcome {
  added: number;
  changed: number;
  same: number;
  revision: number;
}

export interface ImportOptions {
  /** Says what would change, and changes nothing. */
  dryRun?: boolean;
  cause?: Extract<PriceCause, 'import' | 'seed'>;
}

export type PriceChanges = {
  /** Adds an item. A key that was removed goes on with its revisions. @throws {ConflictError} where the key is taken */
  create(item: PriceItemInput): PriceItem;
  /**
   * Replaces what was read at `revisionSeen`; where nothing differs, nothing happens.
   * @throws {NotFoundError | StaleRevisionError}
   * @throws {ConflictError} where the item has another key: a key is never renamed, histories hang on it
   */
  replace(key: string, revisionSeen: number, item: PriceItemInput): PriceItem;
  /** Takes an item out of the book; its history stays. @throws {NotFoundError | StaleRevisionError} */
  remove(key: string, revisionSeen: number): void;
  /** Adds and replaces many as one change of the book; items that are not named stay. @throws {ConflictError} */
  importItems(items: readonly PriceItemInput[], options?: ImportOptions): ImportOutcome;
};

interface ChangesParts {
  db: Database;
  now: () => Date;
  reader: PriceReader;
}

/** The changes of the price book: each is whole or not at all, and keeps what it replaces. */
export function priceChanges({ db, now, reader }: ChangesParts): PriceChanges {
  const nextBookRevision = db.prepare<[], number>('UPDATE book SET revision = revision + 1 RETURNING revision').pluck();
  const write = writer(db);
  const stated = { cause: 'edit' as const };
  /** Everything that a change of the book is remembered with. */
  const change = (cause: PriceCause) => ({ cause, at: now().toISOString(), bookRevision: nextBookRevision.get() ?? 0 });

  const create = db.transaction((item: PriceItemInput): PriceItem => {
    if (write.current(item.key)) throw new ConflictError(`The price book has an item "${item.key}" already.`);
    write.store(item, { ...change(stated.cause), change: 'added' });
    return reader.find(item.key);
  });
  const replace = db.transaction((key: string, revisionSeen: number, item: PriceItemInput): PriceItem => {
    const before = seen(reader.find(key), revisionSeen);
    if (item.key !== key)
      throw new ConflictError(`"${key}" cannot become "${item.key}": add that one, remove this one.`);
    if (isSame(before, item)) return before;
    write.store(item, { ...change(stated.cause), change: 'changed' });
    return reader.find(key);
  });
  const remove = db.transaction((key: string, revisionSeen: number): void => {
    write.remove(seen(reader.find(key), revisionSeen), change(stated.cause));
  });
  return {
    create: create.immediate,
    replace: replace.immediate,
    remove: remove.immediate,
    importItems: importer({ db, reader, write, change }),
  };
}

interface ImporterParts {
  db: Database;
  reader: PriceReader;
  write: Writer;
  change: (cause: PriceCause) => Moment;
}

function importer({ db, reader, write, change }: ImporterParts): PriceChanges['importItems'] {
  const run = db.transaction((items: readonly PriceItemInput[], options: ImportOptions): ImportOutcome => {
    const repeated = firstRepeated(items.map(({ key }) => key));
    if (repeated !== undefined) throw new ConflictError(`The item "${repeated}" stands twice in what is imported.`);
    const isThere = new Map(items.map((item) => [item.key, write.current(item.key) !== undefined]));
    const added = items.filter(({ key }) => !isThere.get(key));
    const changed = items.filter((item) => isThere.get(item.key) && !isSame(reader.find(item.key), item));
    const counts = { added: added.length, changed: changed.length, same: items.length - added.length - changed.length };
    if (options.dryRun || added.length + changed.length === 0) return { ...counts, revision: reader.revision() };
    const moment = change(options.cause ?? 'import');
    for (const item of added) write.store(item, { ...moment, change: 'added' });
    for (const item of changed) write.store(item, { ...moment, change: 'changed' });
    return { ...counts, revision: moment.bookRevision };
  });
  return (items, options = {}) => (options.dryRun ? run(items, options) : run.immediate(items, options));
}

function firstRepeated(keys: readonly string[]): string | undefined {
  const met = new Set<string>();
  return keys.find((key) => met.size === met.add(key).size);
}

/** @throws {StaleRevisionError} */
function seen(item: PriceItem, revisionSeen: number): PriceItem {
  const { key, revision } = item;
  if (revision === revisionSeen) return item;
  throw new StaleRevisionError(`"${key}" is at revision ${revision} by now, not ${revisionSeen}.`, { revision });
}

/** Do two items say the same, whatever their revisions? */
function isSame(before: PriceItemInput, after: PriceItemInput): boolean {
  return isDeepStrictEqual(rowOf(before), rowOf(after)) && offersText(before.offers) === offersText(after.offers);
}

interface Moment {
  cause: PriceCause;
  at: string;
  bookRevision: number;
}

interface Writer {
  /** The revision of an item that is in the book. */
  current(key: string): number | undefined;
  store(item: PriceItemInput, moment: Moment & { change: PriceChange }): void;
  remove(item: PriceItem, moment: Moment): void;
}

/** Writes items, their packages and their history together. Call it within a transaction. */
function writer(db: Database): Writer {
  const current = db.prepare<[string], number>('SELECT revision FROM price_item WHERE key = ?').pluck();
  const lastEver = db
    .prepare<[string], number | null>('SELECT max(revision) FROM price_history WHERE item_key = ?')
    .pluck();
  const upsert = db
    .prepare<[object], number>(
      `INSERT INTO price_item (key, ${sharedColumns()}, revision) VALUES (@key, ${sharedColumns('@')}, @revision)
     ON CONFLICT (key) DO UPDATE SET ${SHARED_ASSIGNMENTS}, revision = excluded.revision RETURNING id`,
    )
    .pluck();
  const dropOffers = db.prepare<[number]>('DELETE FROM price_offer WHERE item_id = ?');
  const addOffer = db.prepare<[object]>(
    `INSERT INTO price_offer (item_id, position, package, quantity, low_cents, likely_cents, high_cents, available)
     VALUES (@itemId, @position, @package, @quantity, @lowCents, @likelyCents, @highCents, @available)`,
  );
  const removeItem = db.prepare<[string]>('DELETE FROM price_item WHERE key = ?');
  const remember = db.prepare<[object]>(
    `INSERT INTO price_history (item_key, revision, book_revision, change, cause, changed_at, offers, ${sharedColumns()})
     VALUES (@key, @revision, @bookRevision, @change, @cause, @at, @offers, ${sharedColumns('@')})`,
  );
  const keep = (item: PriceItemInput, moment: Moment & { change: PriceChange }) => {
    const revision = (lastEver.get(item.key) ?? 0) + 1;
    remember.run({ ...rowOf(item), ...moment, offers: offersText(item.offers), revision });
    return revision;
  };
  return {
    current: (key) => current.get(key),
    store: (item, moment) => {
      const revision = keep(item, moment);
      const itemId = upsert.get({ ...rowOf(item), revision }) ?? 0; // RETURNING always gives the row
      dropOffers.run(itemId);
      item.offers.forEach((offer, position) => {
        addOffer.run({ ...offer, itemId, position, available: offer.available ? 1 : 0 });
      });
    },
    remove: (item, moment) => {
      keep(item, { ...moment, change: 'removed' });
      removeItem.run(item.key);
    },
  };
}
