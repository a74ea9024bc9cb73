import { type ChildProcessWithoutNullStreams, spawn } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { packageRoot } from '../../db/package-root.ts';

const LAUNCHER = join(packageRoot, 'server', 'feedrun.mjs');
const BUILT = join(packageRoot, 'dist', 'server', 'cli.js');

/** What a command printed, and how it ended. */
export interface Outcome {
  code: number | null;
  out: string;
  err: string;
}

/** A folder for one test file, in which commands run: nothing of the checkout is touched. */
export function workFolder(): { folder: string; remove: () => void } {
  const folder = mkdtempSync(join(tmpdir(), 'feedrun-cli-'));
  return { folder, remove: () => rmSync(folder, { recursive: true }) };
}

/** Starts the compiled program; the environment names no data folder unless it is stated. */
export function start(args: readonly string[], { cwd, env = {} }: { cwd: string; env?: NodeJS.ProcessEnv }) {
  if (!existsSync(BUILT)) throw new Error(`${BUILT} is missing: run "npm run build:server" before these tests.`);
  const { FEEDRUN_DATA: _data, PORT: _port, HOST: _host, ...inherited } = process.env;
  return spawn(process.execPath, [LAUNCHER, ...args], { cwd, env: { ...inherited, ...env } });
}

/** Runs the compiled program to its end. */
export async function feedrun(
  args: readonly string[],
  { cwd, input = '', env = {} }: { cwd: string; input?: string; env?: NodeJS.ProcessEnv },
): Promise<Outcome> {
  const child = start(args, { cwd, env });
  const ended = outcomeOf(child);
  child.stdin.end(input);
  return ended;
}

/** What a process prints until it ends. */
export function outcomeOf(child: ChildProcessWithoutNullStreams): Promise<Outcome> {
  const out: Buffer[] = [];
  const err: Buffer[] = [];
  child.stdout.on('data', (chunk: Buffer) => out.push(chunk));
  child.stderr.on('data', (chunk: Buffer) => err.push(chunk));
  child.stdin.on('error', () => {}); // it may end before it has read all
  return new Promise((resolve) => {
    child.on('close', (code) =>
      resolve({ code, out: Buffer.concat(out).toString(), err: Buffer.concat(err).toString() }),
    );
  });
}

/** A server that runs; `stop` tells it to, and gives what it printed. */
export async function serve(args: readonly string[], { cwd }: { cwd: string }) {
  const child = start(['serve', '--port', '0', ...args], { cwd });
  const ended = outcomeOf(child);
  const line = await new Promise<string>((resolve, reject) => {
    let printed = '';
    child.stdout.on('data', (chunk: Buffer) => {
      printed += chunk.toString();
      if (printed.includes('\n')) resolve(printed);
    });
    ended.then(({ err }) => reject(new Error(`The server ended before it was ready: ${err}`)));
  });
  const stop = (signal: NodeJS.Signals = 'SIGTERM') => {
    child.kill(signal);
    return ended;
  };
  return { line, address: /http:\/\/[^\s)]+/.exec(line)?.[0] ?? '', stop };
}
