import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { packageRoot } from '../../db/package-root.ts';

/** A process of our own that holds a data folder. */
export interface OtherProcess {
  process: ChildProcess;
  /** The lines that it said so far; a line counts once it is whole. */
  lines: () => string[];
  /** Waits until it has said so many lines. */
  said: (count: number) => Promise<void>;
  /** Ends it at once, as kill -9 does, and waits until it is gone. */
  kill: () => Promise<void>;
}

/** Starts other-process.mjs with its words. It runs what is built: `npm test` builds first. */
export function startOther(...words: string[]): OtherProcess {
  if (!existsSync(join(packageRoot, 'dist', 'db', 'open.js'))) {
    throw new Error('dist/db/open.js is not there: run "npm run build:server" before this test.');
  }
  const child = spawn(process.execPath, [join(packageRoot, 'test', 'db', 'other-process.mjs'), ...words], {
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let output = '';
  let complaints = '';
  const gone = new Promise<void>((resolve) => child.once('close', () => resolve()));
  const waiting: { count: number; resolve: () => void; reject: (error: Error) => void }[] = [];
  const lines = () => output.split('\n').slice(0, -1);
  child.stdout.on('data', (chunk) => {
    output += chunk;
    for (const { count, resolve } of waiting) if (lines().length >= count) resolve();
  });
  child.stderr.on('data', (chunk) => {
    complaints += chunk;
  });
  child.once('close', () => {
    for (const { reject } of waiting) reject(new Error(`The other process ended: ${complaints}`));
  });
  return {
    process: child,
    lines,
    said: (count) =>
      new Promise((resolve, reject) => {
        if (lines().length >= count) resolve();
        else waiting.push({ count, resolve, reject });
      }),
    kill: () => {
      child.kill('SIGKILL');
      return gone;
    },
  };
}
