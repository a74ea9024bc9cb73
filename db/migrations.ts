import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Database } from 'better-sqlite3';
import { MigrationMismatchError, NewerDataError } from './errors.ts';
import { packageRoot } from './package-root.ts';

/** One step that a data file goes through. `name` is the file's, such as `0001-price-book`. */
export interface Migration {
  name: string;
  sql: string;
}

const FOLDER = join(packageRoot, 'db', 'migrations');

/**
 * The steps in their order, from db/migrations/NNNN-name.sql.
 * @throws {Error} where the numbers do not count up from 0001 one by one: two steps of one number have no order
 */
export function readMigrations(folder: string = FOLDER): Migration[] {
  const files = readdirSync(folder)
    .filter((file) => file.endsWith('.sql'))
    .sort();
  return files.map((file, at) => {
    const number = String(at + 1).padStart(4, '0');
    if (!file.startsWith(`${number}-`)) throw new Error(`The migration ${file} should have the number ${number}.`);
    return { name: file.slice(0, -'.sql'.length), sql: readFileSync(join(folder, file), 'utf8') };
  });
}

/** Tells one text of a step from another; line ends do not count, for a checkout may change them. */
function checksumOf({ sql }: Migration): string {
  return createHash('sha256').update(sql.replaceAll('\r\n', '\n')).digest('hex');
}

interface Applied {
  name: string;
  checksum: string;
}

/** The steps that a data file went through; none where it is new or not one of ours. */
export function appliedMigrations(db: Database): Applied[] {
  const table = db.prepare("SELECT 1 FROM sqlite_schema WHERE type = 'table' AND name = 'schema_migration'").get();
  if (table === undefined) return [];
  return db.prepare<[], Applied>('SELECT name, checksum FROM schema_migration ORDER BY name').all();
}

/**
 * The steps that are still to be done: what was applied must be the first of those known.
 * @param file  the data file's path, for the messages
 * @throws {NewerDataError} when a newer program applied more steps
 * @throws {MigrationMismatchError} when an applied step is not the one of that place here
 */
export function pendingMigrations({ db, migrations, file }: MigrationInput): Migration[] {
  const applied = appliedMigrations(db);
  applied.forEach(({ name, checksum }, at) => {
    const known = migrations[at];
    if (!known) {
      throw new NewerDataError(
        `The data file ${file} was written by a newer program (its step ${name} is not known here). ` +
          'Nothing was changed. Use the newer program, or another data folder.',
      );
    }
    if (known.name === name && checksumOf(known) === checksum) return;
    throw new MigrationMismatchError(
      `The data file ${file} went through a step ${name} that is not the step ${known.name} of this program. ` +
        'Nothing was changed. Use the program that wrote it, or restore a backup.',
    );
  });
  return migrations.slice(applied.length);
}

interface MigrationInput {
  db: Database;
  migrations: readonly Migration[];
  file: string;
}

/** Takes a data file through the steps that it lacks, each whole or not at all. Throws as `pendingMigrations` does. */
export function migrate({ db, migrations, file, now }: MigrationInput & { now: () => Date }): void {
  const pending = pendingMigrations({ db, migrations, file });
  if (pending.length === 0) return;
  db.exec(`CREATE TABLE IF NOT EXISTS schema_migration (
    name       TEXT NOT NULL PRIMARY KEY,
    checksum   TEXT NOT NULL,
    applied_at TEXT NOT NULL
  ) STRICT`);
  const remember = db.prepare('INSERT INTO schema_migration (name, checksum, applied_at) VALUES (?, ?, ?)');
  const apply = db.transaction((migration: Migration) => {
    db.exec(migration.sql);
    remember.run(migration.name, checksumOf(migration), now().toISOString());
  });
  for (const migration of pending) apply.immediate(migration);
}
