import { readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { DataLockedError } from './errors.ts';
import { typed } from './typed-errors.ts';

/** The data folder, held by this process alone until it is released or the process ends, however it ends. */
export interface DataLock {
  /** Tells others where this server listens, such as `http://127.0.0.1:4870`, for the message of their refusal. */
  announce(address: string): void;
  release(): void;
}

/**
 * Takes the data folder. The lock is one of the operating system on `lock.db`, so that a process that was killed
 * leaves nothing locked.
 * @throws {DataLockedError} when another process holds it, with the address of its server where it told one
 */
export function takeLock(dir: string): DataLock {
  const file = join(dir, 'lock.db');
  const announcement = join(dir, 'server.json');
  const held = typed(file, () => holdExclusively(file, () => lockedError(dir, announcement)));
  rmSync(announcement, { force: true }); // of a server that was killed
  return {
    announce: (address) => {
      const half = `${announcement}.part`;
      writeFileSync(half, `${JSON.stringify({ address, pid: process.pid })}\n`);
      renameSync(half, announcement); // whole or not at all
    },
    release: () => {
      if (!held.open) return;
      rmSync(announcement, { force: true });
      held.close();
    },
  };
}

function holdExclusively(file: string, refused: () => DataLockedError): Database.Database {
  const lock = new Database(file, { timeout: 0 });
  try {
    lock.exec('BEGIN EXCLUSIVE');
    return lock;
  } catch (error) {
    lock.close();
    const busy = error instanceof Database.SqliteError && error.code.startsWith('SQLITE_BUSY');
    throw busy ? refused() : error;
  }
}

function lockedError(dir: string, announcement: string): DataLockedError {
  const { address, pid } = readAnnouncement(announcement);
  const holder = address === undefined ? 'another Feedrun process' : `the server at ${address} (process ${pid})`;
  return new DataLockedError(`The data folder ${dir} is in use by ${holder}. Stop it first, or use another folder.`, {
    address,
  });
}

/** What the holder told of itself: nothing yet, where it is only starting or is no server. */
function readAnnouncement(file: string): { address?: string; pid?: number } {
  try {
    const told: unknown = JSON.parse(readFileSync(file, 'utf8'));
    if (typeof told !== 'object' || told === null) return {};
    const { address, pid } = told as { address?: unknown; pid?: unknown };
    return { ...(typeof address === 'string' && { address }), ...(typeof pid === 'number' && { pid }) };
  } catch {
    return {};
  }
}
