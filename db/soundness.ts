import Database from 'better-sqlite3';
import { CorruptDataError } from './errors.ts';

/** Names at most so many faults: the first ones tell what is wrong. */
const MOST_FAULTS = 5;

interface ForeignKeyFault {
  table: string;
  parent: string;
}

/**
 * Looks through the whole data file; `quick` passes over whether each index agrees with its table, and, where the file
 * was opened for reading only, over what the tables insist on: the database does not load their checks then.
 * @returns the faults found, none where it is sound
 */
export function faultsOf(db: Database.Database, { quick }: { quick: boolean }): string[] {
  const found = check(db, quick ? 'quick_check' : 'integrity_check');
  if (found.length > 0 || quick || !db.readonly) return found;
  const copy = writableCopy(db);
  try {
    return check(copy, 'integrity_check');
  } finally {
    copy.close();
  }
}

function check(db: Database.Database, pragma: 'quick_check' | 'integrity_check'): string[] {
  const rows = db.pragma(`${pragma}(${MOST_FAULTS})`) as Record<string, string>[];
  const faults = rows.flatMap((row) => Object.values(row)).filter((found) => found !== 'ok');
  const strays = db.pragma('foreign_key_check') as ForeignKeyFault[];
  const all = [...faults, ...strays.map(({ table, parent }) => `a row of ${table} misses its row of ${parent}`)];
  return [...new Set(all)].slice(0, MOST_FAULTS);
}

/** Bytes 18 and 19 of the header say how the file is written and read: 1 with a rollback journal, 2 with a log. */
const WRITE_VERSION_AT = 18;
const READ_VERSION_AT = 19;

/** The same database in memory, where there can be no log, so that its header must not ask for one. */
function writableCopy(db: Database.Database): Database.Database {
  const bytes = db.serialize();
  bytes[WRITE_VERSION_AT] = 1;
  bytes[READ_VERSION_AT] = 1;
  return new Database(bytes);
}

/** @throws {CorruptDataError} with the faults, where the data file is not sound */
export function insistOnSoundness(db: Database.Database, { file, quick }: { file: string; quick: boolean }): void {
  const faults = faultsOf(db, { quick });
  if (faults.length > 0) throw new CorruptDataError({ file, found: faults.join('; ') });
}
