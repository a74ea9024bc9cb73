import { existsSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { vi } from 'vitest';
import { packageRoot } from '../../db/package-root.ts';
import { serve, workFolder } from '../cli/run.ts';
import { startBrowser } from './browser.ts';

/** A page and what the browser complained of while it was open. */
export interface OpenPage {
  page: Page;
  complaints: string[];
  close: () => Promise<void>;
}

/** The built server on a data folder of its own, and a browser that looks at it. */
export interface Bench {
  /** The path of the project that a fresh data folder opens with. */
  demoPath: string;
  /** Asks the API. @throws where the answer is not ok */
  ask: <Answer>(path: string, init?: RequestInit) => Promise<Answer>;
  /** Opens an address of the page, on a laptop's window unless another is stated. */
  open: (path: string, options?: BrowserContextOptions) => Promise<OpenPage>;
  /** Stops the server and starts it anew on the same data. Pages that were open stay at the former address. */
  restart: () => Promise<void>;
  /** Stops both, and takes the data away. */
  clear: () => Promise<void>;
}

/** Starts server and browser. @throws where the page was not built, or no browser starts */
export async function setBench(): Promise<Bench> {
  const built = join(packageRoot, 'dist', 'web', 'index.html');
  if (!existsSync(built)) throw new Error(`${built} is missing: run "npm run build" before these tests.`);
  const { folder, remove } = workFolder();
  const startServer = () => serve(['--data', 'data'], { cwd: folder });
  const browser = await startBrowser();
  let server = await startServer();
  const demoPath = /(\/projects\/[\w-]+)\)/.exec(server.line)?.[1];
  if (demoPath === undefined) throw new Error(`The server names no demo project: ${server.line}`);
  return {
    demoPath,
    ask: async <Answer>(path: string, init?: RequestInit) => {
      const answer = await fetch(server.address + path, init);
      if (!answer.ok) throw new Error(`${path}: ${answer.status} ${await answer.text()}`);
      return (await answer.json()) as Answer;
    },
    open: (path, options) => openPage(browser, server.address + path, options),
    restart: async () => {
      await server.stop();
      server = await startServer();
    },
    clear: async () => {
      await browser.close();
      await server.stop();
      remove();
    },
  };
}

/**
 * Steps wait for what they need to see, not for time. These only end a test that waits for what never comes, on a machine
 * that does much else; the failure names the step.
 */
const STEP_MS = 40_000;
const TEST_MS = 240_000;
vi.setConfig({ testTimeout: TEST_MS, hookTimeout: TEST_MS });

async function openPage(browser: Browser, address: string, options: BrowserContextOptions = {}): Promise<OpenPage> {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, ...options });
  context.setDefaultTimeout(STEP_MS);
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on('pageerror', (error) => complaints.push(`error: ${error.message}`));
  page.on('console', (said) => {
    if (said.type() === 'error' || said.type() === 'warning') complaints.push(`${said.type()}: ${said.text()}`);
  });
  await page.goto(address);
  return { page, complaints, close: () => context.close() };
}
