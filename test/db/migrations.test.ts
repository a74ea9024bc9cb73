import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, describe, expect, it } from 'vitest';
import { type Migration, migrate, readMigrations } from '../../db/migrations.ts';
import { packageRoot } from '../../db/package-root.ts';
import { contentOf, lossesOf, schemaOf } from './schema-differences.ts';
import { scratchPath } from './scratch.ts';

const now = () => new Date('2026-03-02T08:00:00Z');
const databases: Database.Database[] = [];
afterEach(() => {
  for (const db of databases.splice(0)) db.close();
});

function inMemory(): Database.Database {
  const db = new Database(':memory:');
  databases.push(db);
  return db;
}

function migrated(migrations: readonly Migration[]): Database.Database {
  const db = inMemory();
  migrate({ db, migrations, file: 'memory', now });
  return db;
}

/**
 * Rows as a user of each step would have them, entered before the next step: every table gets at least one. A new
 * table needs its rows here, or the test that looks for empty tables says so.
 */
const ROWS: Record<string, string> = {
  '0001-price-book': `
    INSERT INTO price_item VALUES (1, 'wire', 'price', 'Wire', 'material', 'wire', 'wire', 'ft', 1, 2, 3.5, NULL, NULL,
      '2026-01-01', 'US', 'a test', NULL, 1, 1);
    INSERT INTO price_offer VALUES (1, 0, 'coil', 125, 100, 200, 300, 1);
    INSERT INTO price_history VALUES ('wire', 1, 1, 'added', 'edit', '2026-01-01T00:00:00.000Z', 'price', 'Wire',
      'material', 'wire', 'wire', 'ft', 1, 2, 3.5, NULL, '[]', NULL, '2026-01-01', 'US', 'a test', NULL, 1);
    UPDATE book SET revision = 1;`,
  '0002-projects': `
    INSERT INTO project VALUES (1, 'a', 1, 'Carport', '{}', NULL, 0, '2026-01-01T00:00:00.000Z',
      '2026-01-01T00:00:00.000Z', NULL);`,
  '0003-settings': `
    UPDATE settings SET content = '{"businessName":"Invented"}';
    INSERT INTO seeding VALUES (1, '2026-01-01T00:00:00.000Z', 'a');`,
  '0004-book-revisions': `
    INSERT INTO book_revision VALUES (2, 'index', '2026-01-01T00:00:00.000Z', 'Ada', 'copper rose', 'wire', 1.12,
      '2026-01-01', NULL);
    UPDATE book SET revision = 2;`,
  '0005-supplier-parts': `
    INSERT INTO supplier_mapping VALUES ('a supplier', 1);
    INSERT INTO supplier_part VALUES ('a supplier', 'W-63', 'wire', NULL);`,
  '0006-quotes': `
    INSERT INTO quote VALUES (1, 'q', 2026, 1, 1, 'a', NULL, 'issued', '2026-01-01', '2026-01-16', 2, 'Carport', 'One',
      'Invented', 200, 100, '{}', '{}', '{}', '[]', NULL, '2026-01-01T00:00:00.000Z', '2026-01-01T00:00:00.000Z');
    INSERT INTO quote_state VALUES ('q', 1, 'issued', NULL, '2026-01-01T00:00:00.000Z');
    INSERT INTO learned_state VALUES ('wire', 1, 1);`,
  '0007-offer-days-and-supplier-headings': `
    UPDATE price_offer SET date = '2026-01-01';
    INSERT INTO supplier_heading VALUES ('a supplier', 'price', 'Net');`,
};

/** Takes a database with rows through the steps one by one, and names what each took away. */
function lossesOfAll(migrations: readonly Migration[]): string[] {
  const db = inMemory();
  return migrations.flatMap((migration, at) => {
    const before = contentOf(db);
    delete before.schema_migration; // gains a row with every step
    migrate({ db, migrations: migrations.slice(0, at + 1), file: 'memory', now });
    const losses = lossesOf(before, contentOf(db, before)).map((loss) => `${migration.name}: ${loss}`);
    db.exec(ROWS[migration.name] ?? '');
    return losses;
  });
}

describe('the migrations', () => {
  it('only add: every row and column that was there stays as it was', () => {
    expect(lossesOfAll(readMigrations())).toEqual([]);
  });

  it('tell the revisions of an older data file from the history of its items', () => {
    const db = inMemory();
    const [prices, projects, settings, ...later] = readMigrations();
    const older = [prices, projects, settings].filter((step) => step !== undefined);
    migrate({ db, migrations: older, file: 'memory', now });
    db.exec(ROWS['0001-price-book'] ?? '');
    migrate({ db, migrations: [...older, ...later], file: 'memory', now });
    expect(db.prepare('SELECT revision, cause, changed_at, changed_by, why FROM book_revision').all()).toEqual([
      { revision: 1, cause: 'edit', changed_at: '2026-01-01T00:00:00.000Z', changed_by: null, why: null },
    ]);
  });

  it('are tried with rows in every table', () => {
    const db = inMemory();
    for (const [at, { name }] of readMigrations().entries()) {
      migrate({ db, migrations: readMigrations().slice(0, at + 1), file: 'memory', now });
      db.exec(ROWS[name] ?? '');
    }
    const empty = Object.entries(contentOf(db)).filter(([, { rows }]) => rows.length === 0);
    expect(empty.map(([table]) => table)).toEqual([]);
  });

  it('make the tables that the program expects, all of them strict', () => {
    const db = migrated(readMigrations());
    const item = [
      ...['kind TEXT', 'description TEXT', 'class TEXT', 'scope TEXT', 'category TEXT', 'unit TEXT'],
      ...['low REAL', 'likely REAL', 'high REAL'],
    ].map((column) => `${column} not null`);
    const origin = ['date TEXT not null', 'region TEXT not null', 'source TEXT not null', 'supplier TEXT'];
    expect(schemaOf(db)).toEqual({
      book: ['id INTEGER not null', 'revision INTEGER not null'],
      book_revision: [
        ...['revision INTEGER not null', 'cause TEXT not null', 'changed_at TEXT not null', 'changed_by TEXT'],
        ...['why TEXT', 'category TEXT', 'index_factor REAL', 'index_on TEXT', 'undoes INTEGER'],
      ],
      learned_state: ['item_key TEXT not null', 'item_revision INTEGER not null', 'jobs INTEGER not null'],
      price_history: [
        ...['item_key TEXT not null', 'revision INTEGER not null', 'book_revision INTEGER not null'],
        ...['change TEXT not null', 'cause TEXT not null', 'changed_at TEXT not null'],
        ...[...item, 'spec TEXT', 'offers TEXT not null', 'trade TEXT', ...origin, 'available INTEGER not null'],
      ],
      price_item: [
        ...['id INTEGER not null', 'key TEXT not null', ...item, 'spec TEXT', 'trade TEXT', ...origin],
        ...['available INTEGER not null', 'revision INTEGER not null'],
      ],
      price_offer: [
        ...['item_id INTEGER not null', 'position INTEGER not null', 'package TEXT not null'],
        ...['quantity REAL not null', 'low_cents INTEGER not null', 'likely_cents INTEGER not null'],
        ...['high_cents INTEGER not null', 'available INTEGER not null'],
        'date TEXT',
      ],
      project: [
        ...['number INTEGER not null', 'id TEXT not null', 'revision INTEGER not null', 'title TEXT not null'],
        ...['description TEXT', 'draft TEXT', 'archived INTEGER not null', 'created_at TEXT not null'],
        ...['updated_at TEXT not null', 'deleted_at TEXT'],
      ],
      quote: [
        ...[
          'sequence INTEGER not null',
          'id TEXT not null',
          'year INTEGER not null',
          'number_in_year INTEGER not null',
        ],
        ...['revision INTEGER not null', 'project_id TEXT not null', 'revision_of TEXT', 'status TEXT not null'],
        ...['issued_on TEXT not null', 'valid_until TEXT not null', 'book_revision INTEGER not null'],
        ...['title TEXT not null', 'option_label TEXT not null', 'customer_name TEXT not null'],
        ...['total_cents INTEGER not null', 'cost_cents INTEGER not null', 'stated TEXT not null'],
        ...['issuer TEXT not null', 'estimate TEXT not null', 'quoted_tasks TEXT not null', 'actuals TEXT'],
        ...['issued_at TEXT not null', 'updated_at TEXT not null'],
      ],
      quote_state: [
        ...['quote_id TEXT not null', 'revision INTEGER not null', 'status TEXT not null', 'actuals TEXT'],
        'at TEXT not null',
      ],
      schema_migration: ['name TEXT not null', 'checksum TEXT not null', 'applied_at TEXT not null'],
      seeding: ['id INTEGER not null', 'seeded_at TEXT not null', 'demo_project_id TEXT not null'],
      settings: ['id INTEGER not null', 'revision INTEGER not null', 'content TEXT not null'],
      supplier_heading: ['supplier TEXT not null', 'column_name TEXT not null', 'heading TEXT not null'],
      supplier_mapping: ['supplier TEXT not null', 'revision INTEGER not null'],
      supplier_part: ['supplier TEXT not null', 'part TEXT not null', 'item_key TEXT not null', 'package TEXT'],
    });
    const loose = `SELECT name FROM pragma_table_list WHERE schema = 'main' AND type = 'table' AND strict = 0
      AND name NOT LIKE 'sqlite_%'`;
    expect(db.prepare(loose).pluck().all()).toEqual([]);
  });

  it('are remembered by name and by the checksum of their text, whatever its line ends', () => {
    const db = migrated(readMigrations());
    const first = db.prepare('SELECT * FROM schema_migration ORDER BY name').get();
    const text = readFileSync(join(packageRoot, 'db/migrations/0001-price-book.sql'), 'utf8');
    const checksum = createHash('sha256').update(text).digest('hex');
    expect(first).toEqual({ name: '0001-price-book', checksum, applied_at: '2026-03-02T08:00:00.000Z' });
    const elsewhere = readMigrations().map(({ name, sql }) => ({ name, sql: sql.replaceAll('\n', '\r\n') }));
    expect(() => migrate({ db, migrations: elsewhere, file: 'memory', now })).not.toThrow();
  });

  it('are whole or not at all, and go on where they stopped', () => {
    const db = inMemory();
    const good = { name: '0001-a', sql: 'CREATE TABLE a (x TEXT) STRICT' };
    const bad = { name: '0002-b', sql: 'CREATE TABLE b (x TEXT) STRICT; INSERT INTO nowhere VALUES (1)' };
    expect(() => migrate({ db, migrations: [good, bad], file: 'memory', now })).toThrow('no such table: nowhere');
    expect(Object.keys(schemaOf(db))).toEqual(['a', 'schema_migration']);
    const mended = { name: '0002-b', sql: 'CREATE TABLE b (x TEXT) STRICT' };
    migrate({ db, migrations: [good, mended], file: 'memory', now });
    expect(Object.keys(schemaOf(db))).toEqual(['a', 'b', 'schema_migration']);
  });

  it('are numbered one by one', () => {
    const folder = scratchPath('migrations');
    mkdirSync(folder);
    for (const name of ['0001-a.sql', '0003-c.sql', 'README.md']) writeFileSync(join(folder, name), 'SELECT 1');
    expect(() => readMigrations(folder)).toThrow('The migration 0003-c.sql should have the number 0002.');
    writeFileSync(join(folder, '0002-b.sql'), 'SELECT 2');
    expect(readMigrations(folder).map(({ name }) => name)).toEqual(['0001-a', '0002-b', '0003-c']);
    writeFileSync(join(folder, '0002-bb.sql'), 'SELECT 2');
    expect(() => readMigrations(folder)).toThrow('The migration 0002-bb.sql should have the number 0003.');
  });
});

describe('the guard of the migrations', () => {
  const withOneMore = (sql: string) => lossesOfAll([...readMigrations(), { name: '0099-tried', sql }]);

  it.each([
    ['a table that goes', 'DROP TABLE settings', 'the table settings is gone'],
    ['a table that gets another name', 'ALTER TABLE seeding RENAME TO seeded', 'the table seeding is gone'],
    ['a column that goes', 'ALTER TABLE project DROP COLUMN draft', 'the column project.draft is gone'],
    [
      'a column with another name',
      'ALTER TABLE project RENAME COLUMN title TO name',
      'the column project.title is gone',
    ],
    ['rows that go', 'DELETE FROM price_offer', 'rows of price_offer were changed or removed'],
    ['values that change', "UPDATE project SET title = 'x'", 'rows of project were changed or removed'],
    [
      'a column of another type',
      `CREATE TABLE s (id INTEGER, revision TEXT, content TEXT) STRICT; INSERT INTO s SELECT * FROM settings;
       DROP TABLE settings; ALTER TABLE s RENAME TO settings`,
      'the column settings.revision has changed',
    ],
    [
      'a column that must be there now',
      `CREATE TABLE s AS SELECT * FROM seeding; DROP TABLE seeding;
       CREATE TABLE seeding (id INTEGER NOT NULL PRIMARY KEY, seeded_at TEXT NOT NULL, demo_project_id TEXT NOT NULL,
         by TEXT NOT NULL) STRICT; INSERT INTO seeding SELECT *, '' FROM s`,
      'the new column seeding.by is not null and has no default',
    ],
  ])('catches %s', (_what, sql, loss) => {
    expect(withOneMore(sql)).toContain(`0099-tried: ${loss}`);
  });

  it.each([
    ['a new table', 'CREATE TABLE reminder (id TEXT NOT NULL PRIMARY KEY) STRICT'],
    ['a new column that may be empty', 'ALTER TABLE project ADD COLUMN picture BLOB'],
    ['a new column with a default', "ALTER TABLE project ADD COLUMN kind TEXT NOT NULL DEFAULT 'estimate'"],
    ['a new index', 'CREATE INDEX project_by_title ON project (title)'],
    ['new rows', "INSERT INTO price_offer VALUES (1, 1, 'each', 1, 1, 1, 1, 1, NULL)"],
    [
      'a table that is made anew with all that was in it',
      `CREATE TABLE s (id INTEGER NOT NULL PRIMARY KEY, revision INTEGER NOT NULL, content TEXT NOT NULL, by TEXT) STRICT;
       INSERT INTO s SELECT *, NULL FROM settings; DROP TABLE settings; ALTER TABLE s RENAME TO settings`,
    ],
  ])('lets pass %s', (_what, sql) => {
    expect(withOneMore(sql)).toEqual([]);
  });
});
