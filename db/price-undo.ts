import type { Database } from 'better-sqlite3';
import type { PriceItem } from '../server/estimate/price-book.ts';
import { ChangedSinceError, ConflictError, NotFoundError, StaleRevisionError } from './errors.ts';
import type { PriceHistoryEntry, PriceReader, StatedChange } from './price-book.ts';
import type { ItemChange, SeveralOutcome } from './price-changes.ts';
import { isSame } from './price-rows.ts';
import type { Moment, PriceWriter } from './price-writer.ts';

export type RestoringChanges = {
  /**
   * Puts back what one revision of the book changed, as a new revision: what it added goes, what it removed comes
   * back, what it changed is as it was. An undo can be undone too.
   * @throws {NotFoundError} for a revision that never was
   * @throws {ChangedSinceError} naming each item that was changed since; then nothing is changed
   * @throws {ConflictError} for the starting prices: without them there is no book
   */
  undo(revision: number, stated?: StatedChange): SeveralOutcome;
  /**
   * Puts an item back as it was at one of its own revisions; one that was removed comes back.
   * @param revisionSeen  the item's current revision, as it was read; none where it is not in the book
   * @throws {NotFoundError | StaleRevisionError}
   */
  restore(key: string, revision: number, seen: StatedChange & { revisionSeen?: number }): PriceItem;
};

interface RestorerParts {
  db: Database;
  reader: PriceReader;
  write: PriceWriter;
}

/** What takes changes back. Nothing of the history is lost: each is a revision of its own. */
export function restorer({ db, reader, write }: RestorerParts): RestoringChanges {
  const undo = db.transaction((revision: number, stated: StatedChange = {}): SeveralOutcome => {
    if (reader.revisionInfo(revision).cause === 'seed') {
      throw new ConflictError('The starting prices are not taken back: without them no estimate has a price.');
    }
    const steps = reader.changedKeys(revision).map((key) => undoStep(reader.history(key), revision));
    const stale = steps.flatMap(({ key, made, lastEver }, at) =>
      made === lastEver ? [] : [{ at, key, revisionSeen: made, revision: write.current(key) ?? null }],
    );
    if (stale.length > 0) throw new ChangedSinceError(stale);
    const moment = write.begin({ ...stated, cause: 'undo', undoes: revision });
    const changed: ItemChange[] = [];
    write.inBulk(steps.length, () => {
      for (const step of steps) changed.push(putBack(step, { moment, reader, write }));
    });
    return { bookRevision: moment.bookRevision, changed };
  });
  const restore = db.transaction(
    (key: string, revision: number, { revisionSeen, ...stated }: StatedChange & { revisionSeen?: number }) => {
      const entry = reader.history(key).find((one) => one.revision === revision);
      if (!entry) throw new NotFoundError(`"${key}" never had a revision ${revision}.`);
      const current = write.current(key);
      if (current !== revisionSeen) {
        const by = current === undefined ? 'is not in the book any more' : `is at revision ${current} by now`;
        const message = `"${key}" ${by}, not at ${revisionSeen ?? 'none'}.`;
        throw new StaleRevisionError(message, { revision: current ?? 0 });
      }
      if (current !== undefined && isSame(reader.find(key), entry.item)) return reader.find(key);
      const moment = write.begin({ ...stated, cause: 'restore' });
      write.store(entry.item, { ...moment, change: current === undefined ? 'added' : 'changed' });
      return reader.find(key);
    },
  );
  return { undo: undo.immediate, restore: restore.immediate };
}

interface UndoStep {
  key: string;
  /** The revision of the item that the book's revision made, and the last that it ever had. */
  made: number;
  lastEver: number;
  /** The state to put back; nothing where the item was not in the book before. */
  earlier: PriceItem | undefined;
}

/** What puts one item back, from its history, the newest state first. */
function undoStep(history: readonly PriceHistoryEntry[], bookRevision: number): UndoStep {
  const at = history.findIndex((entry) => entry.bookRevision === bookRevision);
  const made = history[at];
  const [newest] = history;
  if (!made || !newest) throw new NotFoundError(`Revision ${bookRevision} did not change this item.`);
  const before = history[at + 1];
  const wasThere = before !== undefined && before.change !== 'removed';
  return {
    key: made.item.key,
    made: made.revision,
    lastEver: newest.revision,
    earlier: wasThere ? before.item : undefined,
  };
}

interface PutBackParts {
  moment: Moment;
  reader: PriceReader;
  write: PriceWriter;
}

function putBack({ key, earlier }: UndoStep, { moment, reader, write }: PutBackParts): ItemChange {
  const before = write.current(key) === undefined ? null : reader.find(key);
  if (earlier) {
    write.store(earlier, { ...moment, change: before ? 'changed' : 'added' });
    return { key, before, after: reader.find(key) };
  }
  if (before) write.remove(before, moment);
  return { key, before, after: null };
}
