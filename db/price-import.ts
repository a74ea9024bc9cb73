import type { Database } from 'better-sqlite3';
import type { PriceItem, PriceItemInput } from '../server/estimate/price-book.ts';
import { allItems } from './all-items.ts';
import { ConflictError } from './errors.ts';
import type { PriceCause, PriceReader, StatedChange } from './price-book.ts';
import type { ItemChange } from './price-changes.ts';
import { isSame } from './price-rows.ts';
import type { PriceWriter } from './price-writer.ts';

/** What an import did, or would do, in items; `revision` is the book's after it. */
export interface ImportOutcome {
  added: number;
  changed: number;
  same: number;
  removed: number;
  revision: number;
  /** What comes, changes and goes, item by item: the first of them, for a list may be long. */
  changes: ItemChange[];
}

export interface ImportOptions extends StatedChange {
  /** Says what would change, and changes nothing. */
  dryRun?: boolean;
  /** Takes out of the book what is not imported. A list that names nothing removes nothing: it was the wrong file. */
  removeMissing?: boolean;
  /** Keys that stay although they are missing, such as those of rows that could not be read. */
  kept?: readonly string[];
  cause?: Extract<PriceCause, 'import' | 'seed'>;
}

export type ImportChanges = {
  /**
   * Adds and replaces many as one change of the book; items that are not named stay, unless `removeMissing` says
   * otherwise. @throws {ConflictError} where a key stands twice
   */
  importItems(items: readonly PriceItemInput[], options?: ImportOptions): ImportOutcome;
};

/** So many changes of an import are told one by one; ours. */
export const MOST_CHANGES_TOLD = 200;

interface ImporterParts {
  db: Database;
  reader: PriceReader;
  write: PriceWriter;
}

/** The import: all of it is one revision of the book, or nothing is. */
export function importer({ db, reader, write }: ImporterParts): ImportChanges {
  const all = allItems(db);
  /** What each key is in the book: looked up where few are asked for, else the whole book is read once. */
  const itemsBefore = (inBook: readonly string[], asked: number): ItemBefore => {
    if (asked * FEW < inBook.length) {
      const keys = new Set(inBook);
      return (key) => (keys.has(key) ? reader.find(key) : undefined);
    }
    const items = new Map(all().map((item) => [item.key, item]));
    return (key) => items.get(key);
  };
  const allKeys = db.prepare<[], string>('SELECT key FROM price_item ORDER BY key').pluck();
  const run = db.transaction((stated: readonly PriceItemInput[], options: ImportOptions): ImportOutcome => {
    const items = [...stated].sort(byKey); // rows in the order of the tables: each lands beside the one before it
    const repeated = items.find(({ key }, at) => key === items[at + 1]?.key);
    if (repeated) throw new ConflictError(`The item "${repeated.key}" stands twice in what is imported.`);
    const inBook = allKeys.all();
    const { added, changed } = sorted(items, { before: itemsBefore(inBook, items.length), find: reader.find });
    const removed = options.removeMissing && items.length > 0 ? missing(inBook, items, options.kept ?? []) : [];
    const counts = {
      ...{ added: added.length, changed: changed.length },
      ...{ same: items.length - added.length - changed.length, removed: removed.length },
    };
    const changes = firstChanges({ added, changed, removed: removed.slice(0, MOST_CHANGES_TOLD).map(reader.find) });
    if (options.dryRun || added.length + changed.length + removed.length === 0) {
      return { ...counts, revision: reader.revision(), changes };
    }
    const { cause = 'import', by, why } = options;
    const moment = write.begin({ cause, ...(by !== undefined && { by }), ...(why !== undefined && { why }) });
    write.inBulk(added.length + changed.length + removed.length, () => {
      write.addAll(added, moment);
      for (const { item } of changed) write.store(item, { ...moment, change: 'changed' });
      for (const key of removed) write.remove(reader.find(key), moment);
    });
    return { ...counts, revision: moment.bookRevision, changes };
  });
  return {
    importItems: (items, options = {}) => (options.dryRun ? run(items, options) : run.immediate(items, options)),
  };
}

interface Changed {
  item: PriceItemInput;
  before: PriceItem;
}

type ItemBefore = (key: string) => PriceItem | undefined;
/** A list that is shorter than one part in so many of the book is looked up item by item; ours. */
const FEW = 20;

/** Parts what is new from what differs; the rest is as it is in the book. What is told of it is checked on its way out. */
function sorted(
  items: readonly PriceItemInput[],
  { before, find }: { before: ItemBefore; find: PriceReader['find'] },
): { added: PriceItemInput[]; changed: Changed[] } {
  const added: PriceItemInput[] = [];
  const changed: Changed[] = [];
  for (const item of items) {
    const there = before(item.key);
    if (!there) added.push(item);
    else if (!isSame(there, item)) {
      changed.push({ item, before: changed.length < MOST_CHANGES_TOLD ? find(item.key) : there });
    }
  }
  return { added, changed };
}

function missing(inBook: readonly string[], items: readonly PriceItemInput[], kept: readonly string[]): string[] {
  const stays = new Set([...kept, ...items.map(({ key }) => key)]);
  return inBook.filter((key) => !stays.has(key));
}

function firstChanges({
  added,
  changed,
  removed,
}: {
  added: readonly PriceItemInput[];
  changed: readonly Changed[];
  removed: readonly PriceItem[];
}): ItemChange[] {
  const most = MOST_CHANGES_TOLD;
  return [
    ...removed.map((before) => ({ key: before.key, before, after: null })),
    ...changed.slice(0, most).map(({ item, before }) => ({ key: item.key, before, after: item })),
    ...added.slice(0, most).map((after) => ({ key: after.key, before: null, after })),
  ].slice(0, most);
}

const byKey = (a: PriceItemInput, b: PriceItemInput) => (a.key < b.key ? -1 : Number(a.key > b.key));
