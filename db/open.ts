import { existsSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import type { PriceItem } from '../server/estimate/price-book.ts';
import { NotFoundError, OlderDataError, ReadOnlyError } from './errors.ts';
import { type Learned, learnedOf } from './learned.ts';
import { type DataLock, takeLock } from './lock.ts';
import { type Migration, migrate, pendingMigrations, readMigrations } from './migrations.ts';
import { type PriceBook, priceBook } from './price-book.ts';
import { type Projects, projectsOf } from './projects.ts';
import { type Quotes, quotesOf } from './quotes.ts';
import { type SettingsStore, settingsOf } from './settings.ts';
import { faultsOf, insistOnSoundness } from './soundness.ts';
import { type Suppliers, suppliersOf } from './suppliers.ts';
import { typed } from './typed-errors.ts';

/** An open data folder. */
export interface Data {
  db: Database.Database;
  /** The folder, and the data file in it. */
  dir: string;
  file: string;
  now: () => Date;
  prices: PriceBook;
  projects: Projects;
  quotes: Quotes;
  learned: Learned;
  settings: SettingsStore;
  suppliers: Suppliers;
  /** Tells other processes where the server of this folder listens. @throws {ReadOnlyError} without the lock */
  announce(address: string): void;
  /** Looks through everything, indexes too: the faults found, none where the data is sound. */
  check(): string[];
  /** Writes what is pending into the file and frees the folder. Once is enough; again does nothing. */
  close(): void;
}

export interface OpenOptions {
  /** Reads beside a running server; takes no lock, changes nothing, and wants a folder that is there. */
  readonly?: boolean;
  /** The clock: of history, projects and migrations. */
  now?: () => Date;
  /**
   * Checks an item on its way out by the schema of price items, which this side must not know. Without it an item
   * is what the tables' own checks let in.
   */
  readItem?: (stored: unknown) => PriceItem;
  /** The steps that a data file goes through; those of db/migrations unless stated. */
  migrations?: readonly Migration[];
}

/** Another program's write, such as that of a copying tool, may hold ours up for so long. */
const BUSY_TIMEOUT_MS = 5000;

/** Memory for pages of the file, taken as it is needed: an import of 100,000 items fits, which writes 71 MB. */
const CACHE_KIB = 128 * 1024;

/** The data file of a data folder. */
export function dataFile(dir: string): string {
  return join(dir, 'feedrun.db');
}

/** Was there ever a server with this data folder? */
export function dataExists(dir: string): boolean {
  return existsSync(dataFile(dir));
}

/**
 * Opens a data folder: creates it, holds it for this process alone, checks the file and takes it through its
 * migrations. With `readonly` it reads beside whoever holds it.
 * @throws {DataLockedError} another process holds it
 * @throws {CorruptDataError} the file is damaged, or no data file
 * @throws {NewerDataError | MigrationMismatchError} another program wrote it
 * @throws {ReadOnlyError} it cannot be created, opened or written
 * @throws {NotFoundError | OlderDataError} with `readonly`: there is none, or it lacks migrations
 */
export function openData(dir: string, options: OpenOptions = {}): Data {
  const file = dataFile(dir);
  const { now = () => new Date(), migrations = readMigrations(), readItem } = options;
  if (options.readonly) {
    const db = openForReading(dir, migrations);
    return dataOf({ db, dir, now, readItem });
  }
  typed(dir, () => mkdirSync(dir, { recursive: true, mode: 0o700 })); // customers' addresses: for the owner's eyes
  const lock = takeLock(dir);
  try {
    const db = openForWriting({ file, migrations, now });
    const data = dataOf({ db, dir, now, readItem, lock });
    data.projects.purge();
    return data;
  } catch (error) {
    lock.release();
    throw error;
  }
}

function openForWriting({
  file,
  migrations,
  now,
}: {
  file: string;
  migrations: readonly Migration[];
  now: () => Date;
}) {
  const db = typed(file, () => new Database(file, { timeout: BUSY_TIMEOUT_MS }));
  return closedOnError({ db, file }, () => {
    db.pragma('journal_mode = WAL');
    db.pragma('synchronous = FULL'); // NORMAL may lose what was acknowledged when the power fails
    db.pragma('foreign_keys = ON');
    db.pragma(`cache_size = -${CACHE_KIB}`);
    insistOnSoundness(db, { file, quick: true });
    migrate({ db, migrations, file, now });
  });
}

function openForReading(dir: string, migrations: readonly Migration[]): Database.Database {
  const file = dataFile(dir);
  if (!dataExists(dir))
    throw new NotFoundError(`The data folder ${dir} holds no data yet: "feedrun serve" creates it.`);
  const db = typed(file, () => new Database(file, { readonly: true, timeout: BUSY_TIMEOUT_MS }));
  return closedOnError({ db, file }, () => {
    insistOnSoundness(db, { file, quick: true });
    if (pendingMigrations({ db, migrations, file }).length === 0) return;
    throw new OlderDataError(`The data file ${file} is of an older program: run "feedrun serve" once to bring it up.`);
  });
}

function closedOnError({ db, file }: { db: Database.Database; file: string }, run: () => void): Database.Database {
  try {
    typed(file, run);
    return db;
  } catch (error) {
    db.close();
    throw error;
  }
}

interface DataParts {
  db: Database.Database;
  dir: string;
  now: () => Date;
  readItem: OpenOptions['readItem'];
  lock?: DataLock;
}

function dataOf({ db, dir, now, readItem, lock }: DataParts): Data {
  const file = dataFile(dir);
  const prices = priceBook({ db, file, now, readItem });
  return {
    db,
    dir,
    file,
    now,
    prices,
    projects: projectsOf({ db, file, now }),
    quotes: quotesOf({ db, file, now }),
    learned: learnedOf({ db, file, prices }),
    settings: settingsOf({ db, file }),
    suppliers: suppliersOf({ db, file }),
    announce: (address) => {
      if (!lock) throw new ReadOnlyError(`${dir} was opened for reading only.`, { reason: 'read-only' });
      typed(dir, () => lock.announce(address));
    },
    check: () => typed(file, () => faultsOf(db, { quick: false })),
    close: () => {
      db.close();
      lock?.release();
    },
  };
}
