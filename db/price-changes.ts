import type { Database } from 'better-sqlite3';
import type { PriceItem, PriceItemInput } from '../server/estimate/price-book.ts';
import { ConflictError, StaleItemsError, StaleRevisionError } from './errors.ts';
import type { PriceReader, StatedChange } from './price-book.ts';
import { type ImportChanges, importer } from './price-import.ts';
import { isSame } from './price-rows.ts';
import { type RestoringChanges, restorer } from './price-undo.ts';
import { type PriceWriter, priceWriter, type RevisionStated } from './price-writer.ts';

/** One of several items that are changed at once: what it becomes, and the revision that it was read at. */
export interface ItemStep {
  revisionSeen: number;
  item: PriceItemInput;
}

/** An item before and after a change of the book; null where it was not there. */
export interface ItemChange {
  key: string;
  before: PriceItem | null;
  after: PriceItemInput | null;
}

/** What a change of several items did, or would do; `bookRevision` is the book's after it. */
export interface SeveralOutcome {
  bookRevision: number;
  changed: ItemChange[];
}

export type PriceChanges = ImportChanges &
  RestoringChanges & {
    /** Adds an item. A key that was removed goes on with its revisions. @throws {ConflictError} where it is taken */
    create(item: PriceItemInput, stated?: StatedChange): PriceItem;
    /**
     * Replaces what was read at `revisionSeen`; where nothing differs, nothing happens.
     * @throws {NotFoundError | StaleRevisionError}
     * @throws {ConflictError} where the item has another key: a key is never renamed, histories hang on it
     */
    replace(key: string, revisionSeen: number, item: PriceItemInput, stated?: StatedChange): PriceItem;
    /** Takes an item out of the book; its history stays. @throws {NotFoundError | StaleRevisionError} */
    remove(key: string, revisionSeen: number, stated?: StatedChange): void;
    /**
     * Replaces several items as one revision of the book; items of which nothing differs stay as they are.
     * @throws {StaleItemsError} naming each that somebody changed or removed meanwhile; then nothing is changed
     */
    replaceSeveral(steps: readonly ItemStep[], stated: RevisionStated & { dryRun?: boolean }): SeveralOutcome;
  };

interface ChangesParts {
  db: Database;
  now: () => Date;
  reader: PriceReader;
}

/** The changes of the price book: each is whole or not at all, and keeps what it replaces. */
export function priceChanges({ db, now, reader }: ChangesParts): PriceChanges {
  const write = priceWriter(db, now);
  const create = db.transaction((item: PriceItemInput, stated: StatedChange = {}): PriceItem => {
    if (write.current(item.key)) throw new ConflictError(`The price book has an item "${item.key}" already.`);
    write.store(item, { ...write.begin({ ...stated, cause: 'edit' }), change: 'added' });
    return reader.find(item.key);
  });
  const replace = db.transaction(
    (key: string, revisionSeen: number, item: PriceItemInput, stated: StatedChange = {}): PriceItem => {
      const before = seen(reader.find(key), revisionSeen);
      if (item.key !== key)
        throw new ConflictError(`"${key}" cannot become "${item.key}": add that one, remove this one.`);
      if (isSame(before, item)) return before;
      write.store(item, { ...write.begin({ ...stated, cause: 'edit' }), change: 'changed' });
      return reader.find(key);
    },
  );
  const remove = db.transaction((key: string, revisionSeen: number, stated: StatedChange = {}): void => {
    const before = seen(reader.find(key), revisionSeen);
    write.remove(before, write.begin({ ...stated, cause: 'edit' }));
  });
  return {
    create: create.immediate,
    replace: replace.immediate,
    remove: remove.immediate,
    replaceSeveral: severalReplacer({ db, reader, write }),
    ...importer({ db, reader, write }),
    ...restorer({ db, reader, write }),
  };
}

/** @throws {StaleRevisionError} */
function seen(item: PriceItem, revisionSeen: number): PriceItem {
  const { key, revision } = item;
  if (revision === revisionSeen) return item;
  throw new StaleRevisionError(`"${key}" is at revision ${revision} by now, not ${revisionSeen}.`, { revision });
}

interface SeveralParts {
  db: Database;
  reader: PriceReader;
  write: PriceWriter;
}

function severalReplacer({ db, reader, write }: SeveralParts): PriceChanges['replaceSeveral'] {
  const run = db.transaction(
    (steps: readonly ItemStep[], { dryRun, ...stated }: RevisionStated & { dryRun?: boolean }): SeveralOutcome => {
      const stale = steps.flatMap(({ item: { key }, revisionSeen }, at) => {
        const revision = write.current(key);
        return revision === revisionSeen ? [] : [{ at, key, revisionSeen, revision: revision ?? null }];
      });
      if (stale.length > 0) throw new StaleItemsError(stale);
      const differing = steps
        .map(({ item }) => ({ item, before: reader.find(item.key) }))
        .filter(({ item, before }) => !isSame(before, item));
      const changed = differing.map(({ item, before }) => ({ key: item.key, before, after: item }));
      if (dryRun || changed.length === 0) return { bookRevision: reader.revision(), changed };
      const moment = write.begin(stated);
      write.inBulk(differing.length, () => {
        for (const { item } of differing) write.store(item, { ...moment, change: 'changed' });
      });
      return {
        bookRevision: moment.bookRevision,
        changed: changed.map((one) => ({ ...one, after: reader.find(one.key) })),
      };
    },
  );
  return (steps, stated) => (stated.dryRun ? run(steps, stated) : run.immediate(steps, stated));
}
