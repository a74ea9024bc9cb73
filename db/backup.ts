import { closeSync, copyFileSync, existsSync, fsyncSync, mkdirSync, openSync, renameSync, rmSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import Database from 'better-sqlite3';
import { ConflictError, CorruptDataError, NotFoundError } from './errors.ts';
import { takeLock } from './lock.ts';
import { appliedMigrations, pendingMigrations, readMigrations } from './migrations.ts';
import { dataExists, dataFile } from './open.ts';
import { faultsOf, insistOnSoundness } from './soundness.ts';
import { typed, typedLater } from './typed-errors.ts';

/**
 * Copies the data of a folder into one file, by the database's own call: also beside a server that is writing. The
 * copy is checked before it gets its name.
 * @throws {NotFoundError} the folder holds no data
 * @throws {ConflictError} the file is there already: a backup never overwrites another
 * @throws {CorruptDataError | ReadOnlyError}
 */
export async function backup(dir: string, file: string): Promise<void> {
  const source = dataFile(dir);
  if (!dataExists(dir)) throw new NotFoundError(`The data folder ${dir} holds no data to back up.`);
  if (existsSync(file)) throw new ConflictError(`${file} is there already. Choose another name for the backup.`);
  const folder = dirname(resolve(file));
  if (!existsSync(folder)) throw new NotFoundError(`There is no folder ${folder} for the backup.`);
  const half = `${file}.part`;
  typed(file, () => rmSync(half, { force: true })); // of a backup that was cut off
  try {
    await copyDatabase({ from: source, to: half });
    typed(file, () => {
      closeAndCheck(half);
      renameSync(half, file);
    });
  } catch (error) {
    rmSync(half, { force: true });
    throw error;
  }
}

/** Makes one plain file of a copy, on the disk, and insists that it is sound. */
function closeAndCheck(file: string): void {
  const copy = new Database(file);
  try {
    copy.pragma('journal_mode = DELETE'); // one file, readable from where nothing can be written
    insistOnSoundness(copy, { file, quick: false });
  } finally {
    copy.close();
  }
  const handle = openSync(file, 'r+');
  fsyncSync(handle);
  closeSync(handle);
}

/** The database's online copy; into a database that is there it is one change, whole or not at all. */
async function copyDatabase({ from, to }: { from: string; to: string }): Promise<void> {
  const source = typed(from, () => new Database(from, { readonly: true, fileMustExist: true }));
  try {
    await typedLater(from, () => source.backup(to));
  } finally {
    source.close();
  }
}

/** What a restore did: the file that keeps what was there before, where something was. */
export interface RestoreOutcome {
  replaced?: string;
}

/**
 * Puts a backup in the place of a folder's data, and keeps beside it what it replaces, as `replaced-MOMENT.db`.
 * The next start takes it through the migrations that it lacks.
 * @throws {NotFoundError} there is no such file
 * @throws {CorruptDataError | NewerDataError | MigrationMismatchError} the backup cannot be used; nothing was changed
 * @throws {DataLockedError} a server holds the folder: stop it first
 */
export async function restore(
  dir: string,
  file: string,
  { now = () => new Date() }: { now?: () => Date } = {},
): Promise<RestoreOutcome> {
  insistOnBackup(file);
  typed(dir, () => mkdirSync(dir, { recursive: true, mode: 0o700 }));
  const lock = takeLock(dir);
  try {
    const target = dataFile(dir);
    const replaced = join(dir, `replaced-${now().toISOString().replaceAll(/[:.]/g, '-')}.db`);
    if (isSound(target)) {
      await backup(dir, replaced);
      await copyDatabase({ from: file, to: target });
      return { replaced };
    }
    return (await putInPlace({ file, dir, replaced })) ? { replaced } : {};
  } finally {
    lock.release();
  }
}

/** Insists that a file is a sound data file that this program can use. */
function insistOnBackup(file: string): void {
  if (!existsSync(file)) throw new NotFoundError(`There is no file ${file}.`);
  typed(file, () => {
    const db = new Database(file, { readonly: true });
    try {
      insistOnSoundness(db, { file, quick: false });
      const isOurs = appliedMigrations(db).length > 0;
      if (!isOurs) throw new CorruptDataError({ file, found: 'it is not a data file of Feedrun' });
      pendingMigrations({ db, migrations: readMigrations(), file });
    } finally {
      db.close();
    }
  });
}

/** Can the database itself copy this file? What it cannot read is only looked at, so that it stays as it is. */
function isSound(file: string): boolean {
  try {
    const db = new Database(file, { readonly: true, fileMustExist: true });
    try {
      return faultsOf(db, { quick: false }).length === 0 && appliedMigrations(db).length > 0;
    } finally {
      db.close();
    }
  } catch {
    return false; // whatever is wrong with it, it is kept as it is
  }
}

/**
 * Copies the backup beside its place, keeps what is there, and moves the copy into the place in one step, so that a
 * cut leaves the old or the new. Returns whether anything was there.
 */
async function putInPlace({ file, dir, replaced }: { file: string; dir: string; replaced: string }): Promise<boolean> {
  const half = join(dir, 'restoring.db');
  typed(dir, () => rmSync(half, { force: true }));
  await copyDatabase({ from: file, to: half });
  return typed(dir, () => {
    closeAndCheck(half);
    const wasThere = setAside({ target: dataFile(dir), replaced });
    renameSync(half, dataFile(dir));
    return wasThere;
  });
}

/**
 * Keeps a damaged file, which the database cannot copy, with its log: bytes as they are. A log has to go away from its
 * place even where it lies there alone, or it would be read as that of the file that comes.
 * @returns was there anything?
 */
function setAside({ target, replaced }: { target: string; replaced: string }): boolean {
  const parts = [target, `${target}-wal`].filter((part) => existsSync(part));
  if (existsSync(target)) copyFileSync(target, replaced); // it stays in its place until the other takes it
  if (existsSync(`${target}-wal`)) renameSync(`${target}-wal`, `${replaced}-wal`);
  rmSync(`${target}-shm`, { force: true });
  return parts.length > 0;
}
