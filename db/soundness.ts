import type { Database } from 'better-sqlite3';
import { CorruptDataError } from './errors.ts';

/** Names at most so many faults: the first ones tell what is wrong. */
const MOST_FAULTS = 5;

interface ForeignKeyFault {
  table: string;
  parent: string;
}

/**
 * Looks through the whole data file; `quick` passes over whether each index agrees with its table.
 * @returns the faults found, none where it is sound
 */
export function faultsOf(db: Database, { quick }: { quick: boolean }): string[] {
  const rows = db.pragma(`${quick ? 'quick_check' : 'integrity_check'}(${MOST_FAULTS})`) as Record<string, string>[];
  const faults = rows.flatMap((row) => Object.values(row)).filter((found) => found !== 'ok');
  const strays = db.pragma('foreign_key_check') as ForeignKeyFault[];
  return [...faults, ...strays.map(({ table, parent }) => `a row of ${table} misses its row of ${parent}`)].slice(
    0,
    MOST_FAULTS,
  );
}

/** @throws {CorruptDataError} with the faults, where the data file is not sound */
export function insistOnSoundness(db: Database, { file, quick }: { file: string; quick: boolean }): void {
  const faults = faultsOf(db, { quick });
  if (faults.length > 0) throw new CorruptDataError({ file, found: faults.join('; ') });
}
