import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, describe, expect, it } from 'vitest';
import {
  CorruptDataError,
  DataLockedError,
  MigrationMismatchError,
  NewerDataError,
  NotFoundError,
  OlderDataError,
  ReadOnlyError,
} from '../../db/errors.ts';
import { readMigrations } from '../../db/migrations.ts';
import { dataExists, dataFile } from '../../db/open.ts';
import { type OtherProcess, startOther } from './other-process.ts';
import { cable, opens, scratchPath, task, thrownBy } from './scratch.ts';

const others: OtherProcess[] = [];
afterEach(async () => {
  for (const other of others.splice(0)) await other.kill();
});

function starts(...words: string[]): OtherProcess {
  const other = startOther(...words);
  others.push(other);
  return other;
}

/** A data folder with some prices in it, closed. */
function filledFolder(): string {
  const dir = scratchPath();
  const data = opens(dir);
  data.prices.importItems([cable(), task()]);
  data.projects.create({ title: 'Carport', description: null });
  data.close();
  return dir;
}

describe('opening a data folder', () => {
  it('creates it, also deep down, for its owner alone', () => {
    const dir = join(scratchPath(), 'deep', 'down');
    expect(dataExists(dir)).toBe(false);
    opens(dir);
    expect(dataExists(dir)).toBe(true);
    if (process.platform !== 'win32') expect(statSync(dir).mode & 0o077).toBe(0);
  });

  it('keeps what was acknowledged through a power cut, and refuses a row that points nowhere', () => {
    const { db } = opens(scratchPath());
    expect(db.pragma('journal_mode', { simple: true })).toBe('wal');
    expect(db.pragma('synchronous', { simple: true })).toBe(2); // FULL, https://sqlite.org/pragma.html#pragma_synchronous
    expect(db.pragma('busy_timeout', { simple: true })).toBe(5000);
    expect(() => db.exec("INSERT INTO price_offer VALUES (99, 0, 'each', 1, 1, 1, 1, 1, NULL)")).toThrow('FOREIGN KEY');
  });

  it('leaves one plain file and the empty lock when closed', () => {
    const dir = filledFolder();
    expect(readdirSync(dir).sort()).toEqual(['feedrun.db', 'lock.db']);
  });

  it('is refused to a second one in this process, and free again once closed', () => {
    const dir = scratchPath();
    const first = opens(dir);
    const refused = thrownBy(() => opens(dir));
    expect(refused).toBeInstanceOf(DataLockedError);
    expect(refused.message).toBe(
      `The data folder ${dir} is in use by another Feedrun process. Stop it first, or use another folder.`,
    );
    first.close();
    first.close();
    expect(() => opens(dir)).not.toThrow();
  });

  it('is refused beside the server of another process, whose address is told', async () => {
    const dir = filledFolder();
    const server = starts('hold', dir, 'http://127.0.0.1:4870');
    await server.said(1);
    const refused = thrownBy(() => opens(dir));
    expect(refused).toBeInstanceOf(DataLockedError);
    expect(refused).toMatchObject({ name: 'DataLockedError', address: 'http://127.0.0.1:4870' });
    expect(refused.message).toBe(
      `The data folder ${dir} is in use by the server at http://127.0.0.1:4870 (process ${server.process.pid}). ` +
        'Stop it first, or use another folder.',
    );
  });

  it('is possible at once after the server was killed, and forgets its address', async () => {
    const dir = filledFolder();
    const server = starts('hold', dir, 'http://127.0.0.1:4870');
    await server.said(1);
    await server.kill();
    expect(existsSync(join(dir, 'server.json'))).toBe(true);
    expect(opens(dir).prices.list().total).toBe(2);
    expect(existsSync(join(dir, 'server.json'))).toBe(false);
  });

  it('tells its own address while it is open, and takes the notice away after', () => {
    const dir = scratchPath();
    const data = opens(dir);
    data.announce('http://127.0.0.1:5000');
    expect(JSON.parse(readFileSync(join(dir, 'server.json'), 'utf8'))).toEqual({
      address: 'http://127.0.0.1:5000',
      pid: process.pid,
    });
    data.close();
    expect(existsSync(join(dir, 'server.json'))).toBe(false);
  });
});

describe('reading beside the server', () => {
  it('sees what is saved, and cannot change it', async () => {
    const dir = filledFolder();
    const server = starts('hold', dir, 'http://127.0.0.1:4870');
    await server.said(1);
    const reader = opens(dir, { readonly: true });
    expect(reader.prices.list().total).toBe(2);
    expect(reader.projects.list().total).toBe(1);
    const refused = thrownBy(() => reader.prices.create(cable({ key: 'new' })));
    expect(refused).toBeInstanceOf(ReadOnlyError);
    expect(refused).toMatchObject({ reason: 'read-only' });
    expect(refused.message).toBe(`${dataFile(dir)}: it may only be read here (SQLITE_READONLY). Nothing was changed.`);
    expect(thrownBy(() => reader.announce('http://127.0.0.1:1'))).toBeInstanceOf(ReadOnlyError);
  });

  it('is refused where there is nothing to read, and creates nothing', () => {
    const dir = scratchPath();
    const refused = thrownBy(() => opens(dir, { readonly: true }));
    expect(refused).toBeInstanceOf(NotFoundError);
    expect(refused.message).toBe(`The data folder ${dir} holds no data yet: "feedrun serve" creates it.`);
    expect(existsSync(dir)).toBe(false);
  });

  it('is refused for the file of an older program, which it must not change', () => {
    const dir = scratchPath();
    opens(dir).close();
    const migrations = [...readMigrations(), { name: '0099-later', sql: 'CREATE TABLE later (x TEXT) STRICT' }];
    const refused = thrownBy(() => opens(dir, { readonly: true, migrations }));
    expect(refused).toBeInstanceOf(OlderDataError);
    expect(refused.message).toBe(
      `The data file ${dataFile(dir)} is of an older program: run "feedrun serve" once to bring it up.`,
    );
    opens(dir, { migrations }).close();
    expect(() => opens(dir, { readonly: true, migrations })).not.toThrow();
  });
});

describe('a data file that cannot be used is refused, and left as it is', () => {
  const refusal = (dir: string) => {
    const before = readFileSync(dataFile(dir));
    const errors = [thrownBy(() => opens(dir)), thrownBy(() => opens(dir, { readonly: true }))];
    expect(readFileSync(dataFile(dir)).equals(before)).toBe(true);
    return errors;
  };

  it('when it is garbage', () => {
    const dir = scratchPath();
    mkdirSync(dir);
    writeFileSync(dataFile(dir), 'no database at all, '.repeat(500));
    for (const error of refusal(dir)) {
      expect(error).toBeInstanceOf(CorruptDataError);
      expect(error).toMatchObject({ name: 'CorruptDataError', file: dataFile(dir) });
      expect(error.message).toBe(
        `The data file ${dataFile(dir)} cannot be used: file is not a database. Nothing was changed. ` +
          'Restore a backup with "feedrun restore FILE": what it replaces is kept beside it.',
      );
    }
  });

  it('when it lacks its end', () => {
    const dir = filledFolder();
    truncateSync(dataFile(dir), 4096 * 3);
    for (const error of refusal(dir)) expect(error).toBeInstanceOf(CorruptDataError);
  });

  it('when pages in its middle are overwritten', () => {
    const dir = filledFolder();
    const bytes = readFileSync(dataFile(dir));
    bytes.fill(0xa5, 4096 * 2, 4096 * 5);
    writeFileSync(dataFile(dir), bytes);
    for (const error of refusal(dir)) expect(error).toBeInstanceOf(CorruptDataError);
  });

  it('when a row breaks what its table insists on', () => {
    const dir = filledFolder();
    const db = new Database(dataFile(dir));
    db.pragma('ignore_check_constraints = ON');
    db.exec('UPDATE price_item SET likely = -1');
    db.close();
    expect(opens(dir, { readonly: true }).check()).toEqual(['CHECK constraint failed in price_item']);
    const refused = thrownBy(() => opens(dir));
    expect(refused).toBeInstanceOf(CorruptDataError);
    expect(refused.message).toContain('cannot be used: CHECK constraint failed in price_item. Nothing was changed.');
  });

  it('when a newer program wrote it', () => {
    const dir = filledFolder();
    const newer = [...readMigrations(), { name: '0099-newer', sql: 'CREATE TABLE newer (x TEXT) STRICT' }];
    opens(dir, { migrations: newer }).close();
    for (const error of refusal(dir)) {
      expect(error).toBeInstanceOf(NewerDataError);
      expect(error.message).toBe(
        `The data file ${dataFile(dir)} was written by a newer program (its step 0099-newer is not known here). ` +
          'Nothing was changed. Use the newer program, or another data folder.',
      );
    }
  });

  it('when it went through another step of the same number', () => {
    const dir = scratchPath();
    const [first = { name: '', sql: '' }, ...rest] = readMigrations();
    opens(dir, { migrations: [{ ...first, sql: `${first.sql} -- changed later` }, ...rest] }).close();
    for (const error of refusal(dir)) {
      expect(error).toBeInstanceOf(MigrationMismatchError);
      expect(error.message).toBe(
        `The data file ${dataFile(dir)} went through a step 0001-price-book that is not the step 0001-price-book of ` +
          'this program. Nothing was changed. Use the program that wrote it, or restore a backup.',
      );
    }
  });

  it('and another folder still opens in the same process', () => {
    const dir = scratchPath();
    mkdirSync(dir);
    writeFileSync(dataFile(dir), 'garbage'.repeat(1000));
    expect(thrownBy(() => opens(dir))).toBeInstanceOf(CorruptDataError);
    expect(thrownBy(() => opens(dir))).toBeInstanceOf(CorruptDataError); // refused for the same reason, not as locked
    expect(opens(scratchPath()).check()).toEqual([]);
  });
});

describe('a disk that does not do as it should', () => {
  it('is told as such when the folder is a file', () => {
    const path = scratchPath();
    writeFileSync(path, '');
    const refused = thrownBy(() => opens(path));
    expect(refused).toBeInstanceOf(ReadOnlyError);
    expect(refused).toMatchObject({ reason: 'no-access' });
    expect(refused.message).toBe(
      `${path}: it cannot be opened. Look at its path and permissions (EEXIST). Nothing was changed.`,
    );
  });

  it('is told as such when it is full; nothing is half written, and reading goes on', () => {
    const data = opens(scratchPath());
    data.prices.create(cable());
    const pages = data.db.pragma('page_count', { simple: true });
    data.db.pragma(`max_page_count = ${pages}`); // as a full disk: the file cannot grow
    const many = Array.from({ length: 500 }, (_, at) => cable({ key: `item-${at}`, spec: undefined }));
    const full = thrownBy(() => data.prices.importItems(many));
    expect(full).toBeInstanceOf(ReadOnlyError);
    expect(full).toMatchObject({ reason: 'disk-full' });
    expect(full.message).toBe(
      `${data.file}: the disk is full. Make room, then try again (SQLITE_FULL). Nothing was changed.`,
    );
    expect(data.prices.list().total).toBe(1);
    expect(data.prices.revision()).toBe(1);
    data.db.pragma('max_page_count = 1000000');
    expect(data.prices.importItems(many).added).toBe(500);
    expect(data.check()).toEqual([]);
  });
});

describe('a process that is killed while it writes', () => {
  it('loses nothing that it had acknowledged, and leaves a sound file', async () => {
    const dir = filledFolder();
    for (const acknowledged of [1, 25, 60, 140]) {
      const writer = starts('write', dir);
      await writer.said(acknowledged);
      await writer.kill();
      const last = Number(writer.lines().at(-1));
      const data = opens(dir);
      const item = data.prices.list().items[0];
      const [project] = data.projects.list().items;
      const draft = data.projects.find(project?.id ?? '').draft as { number: number };
      expect(item?.likely).toBeGreaterThanOrEqual(last);
      expect(draft.number).toBeGreaterThanOrEqual(last);
      expect(item?.likely).toBeLessThanOrEqual(last + 1); // at most the one that was on its way
      expect(data.prices.history(item?.key ?? '')).toHaveLength(item?.revision ?? 0);
      expect(data.check()).toEqual([]);
      data.close();
    }
  });
});
