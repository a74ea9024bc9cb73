import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { backup, restore } from '../../db/backup.ts';
import { ConflictError, CorruptDataError, DataLockedError, NewerDataError, NotFoundError } from '../../db/errors.ts';
import { readMigrations } from '../../db/migrations.ts';
import { dataFile } from '../../db/open.ts';
import { cable, opens, scratchPath, task, thrownLaterBy } from './scratch.ts';

const now = () => new Date('2026-03-02T08:00:00.123Z');
const REPLACED = 'replaced-2026-03-02T08-00-00-123Z.db';

/** What a data folder holds, as somebody who opens it sees it. */
function contentsOf(dir: string) {
  const data = opens(dir);
  try {
    return { ...data.prices.snapshot(), projects: data.projects.list().items, faults: data.check() };
  } finally {
    data.close();
  }
}

/** A closed folder with the two invented items, and a backup of it. */
async function backedUp() {
  const dir = scratchPath();
  const file = scratchPath('kept.db');
  const data = opens(dir);
  data.prices.importItems([cable(), task()]);
  data.projects.create({ title: 'Carport', description: { title: 'Carport' } });
  data.close();
  await backup(dir, file);
  return { dir, file };
}

describe('a backup', () => {
  it('is one sound file that opens as a data folder with everything in it', async () => {
    const { dir, file } = await backedUp();
    const elsewhere = scratchPath();
    expect(await restore(elsewhere, file)).toEqual({});
    expect(contentsOf(elsewhere)).toEqual(contentsOf(dir));
    expect(readdirSync(join(file, '..'))).toEqual(['kept.db']);
    const copy = new Database(file, { readonly: true });
    expect(copy.pragma('journal_mode', { simple: true })).toBe('delete');
    copy.close();
  });

  it('is taken beside a server that goes on writing', async () => {
    const dir = scratchPath();
    const server = opens(dir);
    server.prices.importItems(Array.from({ length: 2000 }, (_, at) => cable({ key: `item-${at}`, spec: undefined })));
    const file = scratchPath('kept.db');
    const taken = backup(dir, file);
    server.prices.create(task());
    await taken;
    server.prices.replace('pull-wire', 1, task({ likely: 0.02 }));
    const elsewhere = scratchPath();
    await restore(elsewhere, file);
    const { items, faults } = contentsOf(elsewhere);
    expect(items.length).toBeGreaterThanOrEqual(2000);
    expect(faults).toEqual([]);
  });

  it('never overwrites a file, not even the data itself', async () => {
    const { dir, file } = await backedUp();
    for (const taken of [file, dataFile(dir)]) {
      const before = readFileSync(taken);
      const refused = await thrownLaterBy(() => backup(dir, taken));
      expect(refused).toBeInstanceOf(ConflictError);
      expect(refused.message).toBe(`${taken} is there already. Choose another name for the backup.`);
      expect(readFileSync(taken).equals(before)).toBe(true);
    }
  });

  it('is refused where there is nothing, and of what is damaged', async () => {
    const dir = scratchPath();
    const file = scratchPath('kept.db');
    expect(await thrownLaterBy(() => backup(dir, file))).toBeInstanceOf(NotFoundError);
    mkdirSync(dir);
    writeFileSync(dataFile(dir), 'garbage'.repeat(1000));
    expect(await thrownLaterBy(() => backup(dir, file))).toBeInstanceOf(CorruptDataError);
    expect(existsSync(file)).toBe(false);
  });

  it('says so where its folder is not there', async () => {
    const { dir } = await backedUp();
    const file = join(scratchPath(), 'nowhere', 'kept.db');
    const refused = await thrownLaterBy(() => backup(dir, file));
    expect(refused).toBeInstanceOf(NotFoundError);
    expect(refused.message).toBe(`There is no folder ${join(file, '..')} for the backup.`);
  });
});

describe('a restore', () => {
  it('brings back what was backed up, and keeps what it replaces', async () => {
    const { dir, file } = await backedUp();
    const asBackedUp = contentsOf(dir);
    const data = opens(dir);
    data.prices.replace('pull-wire', 1, task({ likely: 0.02 }));
    data.prices.importItems(Array.from({ length: 300 }, (_, at) => cable({ key: `item-${at}`, spec: undefined })));
    data.close();
    const asItWas = contentsOf(dir);
    const { replaced = '' } = await restore(dir, file, { now });
    expect(replaced).toBe(join(dir, REPLACED));
    expect(contentsOf(dir)).toEqual(asBackedUp);
    const elsewhere = scratchPath();
    await restore(elsewhere, replaced);
    expect(contentsOf(elsewhere)).toEqual(asItWas);
  });

  it('also replaces a damaged file, which is kept byte by byte with its log', async () => {
    const { dir, file } = await backedUp();
    const asBackedUp = contentsOf(dir);
    const damaged = Buffer.from('damaged'.repeat(3000));
    writeFileSync(dataFile(dir), damaged);
    writeFileSync(`${dataFile(dir)}-wal`, 'a log of something');
    const { replaced = '' } = await restore(dir, file, { now });
    expect(readFileSync(replaced).equals(damaged)).toBe(true);
    expect(readFileSync(`${replaced}-wal`, 'utf8')).toBe('a log of something');
    expect(contentsOf(dir)).toEqual(asBackedUp);
    expect(readdirSync(dir).sort()).toEqual(['feedrun.db', 'lock.db', REPLACED, `${REPLACED}-wal`]);
  });

  it('also replaces a file whose rows break what its tables insist on', async () => {
    const { dir, file } = await backedUp();
    const asBackedUp = contentsOf(dir);
    const data = opens(dir);
    data.db.pragma('ignore_check_constraints = ON');
    data.db.exec('UPDATE price_item SET likely = -1');
    data.close();
    expect(await thrownLaterBy(() => backup(dir, scratchPath('broken.db')))).toBeInstanceOf(CorruptDataError);
    const { replaced } = await restore(dir, file, { now });
    expect(replaced).toBe(join(dir, REPLACED));
    expect(existsSync(join(dir, REPLACED))).toBe(true);
    expect(contentsOf(dir)).toEqual(asBackedUp);
  });

  it('does not read a log that lies there alone as that of the backup', async () => {
    const { dir, file } = await backedUp();
    const elsewhere = scratchPath();
    const server = opens(elsewhere);
    server.prices.create(cable({ key: 'of-another-file', spec: undefined }));
    const log = readFileSync(`${dataFile(elsewhere)}-wal`);
    server.close();
    rmSync(dataFile(elsewhere));
    writeFileSync(`${dataFile(elsewhere)}-wal`, log);
    const { replaced = '' } = await restore(elsewhere, file, { now });
    expect(readFileSync(`${replaced}-wal`).equals(log)).toBe(true);
    expect(contentsOf(elsewhere)).toEqual(contentsOf(dir));
  });

  it('is refused while a server holds the folder', async () => {
    const { dir, file } = await backedUp();
    const server = opens(dir);
    server.announce('http://127.0.0.1:4870');
    const refused = await thrownLaterBy(() => restore(dir, file));
    expect(refused).toBeInstanceOf(DataLockedError);
    expect(refused).toMatchObject({ address: 'http://127.0.0.1:4870' });
    expect(server.prices.list().total).toBe(2);
  });

  it('goes on beside somebody who is reading', async () => {
    const { dir, file } = await backedUp();
    const data = opens(dir);
    data.prices.create(cable({ key: 'later', spec: undefined }));
    data.close();
    const reader = opens(dir, { readonly: true });
    expect(reader.prices.snapshot().items).toHaveLength(3);
    await restore(dir, file, { now });
    expect(reader.prices.list().total).toBe(2);
    reader.close();
    expect(contentsOf(dir).items).toHaveLength(2);
  });

  it.each([
    ['is not there', () => {}, NotFoundError],
    ['is garbage', (file: string) => writeFileSync(file, 'garbage'.repeat(1000)), CorruptDataError],
    ['is empty', (file: string) => writeFileSync(file, ''), CorruptDataError],
    [
      'is the database of something else',
      (file: string) => new Database(file).exec('CREATE TABLE recipe (x TEXT)').close(),
      CorruptDataError,
    ],
    [
      'holds what its tables forbid',
      (file: string) => {
        const dir = scratchPath();
        const data = opens(dir);
        data.prices.create(cable());
        data.db.pragma('ignore_check_constraints = ON');
        data.db.exec('UPDATE price_item SET likely = -1');
        data.close();
        writeFileSync(file, readFileSync(dataFile(dir)));
      },
      CorruptDataError,
    ],
    [
      'was written by a newer program',
      (file: string) => {
        const newer = [...readMigrations(), { name: '0099-newer', sql: 'CREATE TABLE newer (x TEXT) STRICT' }];
        const dir = scratchPath();
        opens(dir, { migrations: newer }).close();
        writeFileSync(file, readFileSync(dataFile(dir)));
      },
      NewerDataError,
    ],
  ])('is refused of a file that %s, and changes nothing', async (_what, make, kind) => {
    const { dir } = await backedUp();
    const before = readFileSync(dataFile(dir));
    const file = scratchPath('offered.db');
    make(file);
    const refused = await thrownLaterBy(() => restore(dir, file));
    expect(refused).toBeInstanceOf(kind);
    expect(refused.message).toContain(file);
    expect(readFileSync(dataFile(dir)).equals(before)).toBe(true);
    const others = readdirSync(dir).filter((name) => !name.startsWith('feedrun.db')); // readers leave an empty log
    expect(others).toEqual(['lock.db']);
  });
});
