/** What the data layer refuses or cannot do. Each has a class of its own, and its message says what to do. */
export class DataError extends Error {
  override name = 'DataError';
}

/** There is nothing of that name, or it was removed. */
export class NotFoundError extends DataError {
  override name = 'NotFoundError';
}

/** Somebody saved since it was read: nothing was changed. `revision` is the current one. */
export class StaleRevisionError extends DataError {
  override name = 'StaleRevisionError';
  readonly revision: number;
  constructor(message: string, { revision }: { revision: number }) {
    super(message);
    this.revision = revision;
  }
}

/** One item of several that is not any more as it was read. */
export interface StaleItem {
  /** Its place among those that were sent, from 0. */
  at: number;
  key: string;
  revisionSeen: number;
  /** Its revision now; null where it is not in the book. */
  revision: number | null;
}

/** Several items were to be changed at once, and somebody changed some of them since: nothing was changed. */
export class StaleItemsError extends DataError {
  override name = 'StaleItemsError';
  readonly items: readonly StaleItem[];
  constructor(items: readonly StaleItem[]) {
    const named = items.slice(0, MOST_NAMED).map(({ key }) => `"${key}"`);
    const more = items.length > MOST_NAMED ? ` and ${items.length - MOST_NAMED} more` : '';
    super(`Somebody changed ${named.join(', ')}${more} since. Nothing was changed.`);
    this.items = items;
  }
}

/** A change cannot be taken back, for its items were changed since: nothing was changed. */
export class ChangedSinceError extends StaleItemsError {
  override name = 'ChangedSinceError';
}
/** So many items are named in a message; all of them stand in the error. */
const MOST_NAMED = 5;

/** What is asked for contradicts what is there: a key that is taken, a file that would be overwritten. */
export class ConflictError extends DataError {
  override name = 'ConflictError';
}

/** Another process holds the data folder. `address` is that of its server, where it told one. */
export class DataLockedError extends DataError {
  override name = 'DataLockedError';
  readonly address?: string;
  constructor(message: string, { address }: { address?: string | undefined } = {}) {
    super(message);
    if (address !== undefined) this.address = address;
  }
}

/** A data file is damaged, or is none of ours. `file` is its path. Nothing was changed. */
export class CorruptDataError extends DataError {
  override name = 'CorruptDataError';
  readonly file: string;
  constructor({ file, found, cause }: { file: string; found: string; cause?: unknown }) {
    super(
      `The data file ${file} cannot be used: ${found}. Nothing was changed. ` +
        'Restore a backup with "feedrun restore FILE": what it replaces is kept beside it.',
      { cause },
    );
    this.file = file;
  }
}

/** A newer program wrote the data file; this one could lose what it does not know. */
export class NewerDataError extends DataError {
  override name = 'NewerDataError';
}

/** The data file is of an older program, and must not be changed here: it was opened for reading only. */
export class OlderDataError extends DataError {
  override name = 'OlderDataError';
}

/** The data file went through other steps than this program knows: it comes from a different line of the program. */
export class MigrationMismatchError extends DataError {
  override name = 'MigrationMismatchError';
}

/** Why nothing can be written, or a file not be opened. */
export type ReadOnlyReason = 'read-only' | 'disk-full' | 'disk-error' | 'no-access';

/** The data cannot be written (or not even opened), for a reason outside of the program; what was saved stays. */
export class ReadOnlyError extends DataError {
  override name = 'ReadOnlyError';
  readonly reason: ReadOnlyReason;
  constructor(message: string, { reason, cause }: { reason: ReadOnlyReason; cause?: unknown }) {
    super(message, { cause });
    this.reason = reason;
  }
}
