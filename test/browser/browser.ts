import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { brotliDecompressSync } from 'node:zlib';
import { type Browser, chromium } from 'playwright-core';

/** Where browsers that were installed are commonly found. */
const INSTALLED = [
  '/usr/bin/google-chrome-stable',
  '/usr/bin/google-chrome',
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
];

/** Our own switches: a sandbox needs rights that containers lack, and nothing of web security is switched off. */
const SWITCHES = ['--no-sandbox', '--disable-gpu', '--disable-dev-shm-usage', '--font-render-hinting=none'];

/**
 * Starts a browser without a window: CHROME_PATH where it is set, else an installed one, else the packaged one.
 * @throws where none starts: the message names every one that was tried, and what would help
 */
export async function startBrowser(): Promise<Browser> {
  const tried: string[] = [];
  for (const find of [chosen, installed, packaged]) {
    const found = await find().catch((error: unknown) => ({ path: find.name, env: {}, failed: String(error) }));
    if (!found) continue;
    try {
      if ('failed' in found) throw new Error(found.failed);
      return await chromium.launch({
        executablePath: found.path,
        args: SWITCHES,
        env: { ...ownEnvironment(), ...found.env },
      });
    } catch (error) {
      tried.push(`${found.path}: ${String(error).split('\n')[0]}`);
    }
    if (find === chosen) break; // who names a browser wants this one, and none that is found in its stead
  }
  throw new Error(`No browser starts. Set CHROME_PATH to a Chrome or Chromium. Tried:\n${tried.join('\n')}`);
}

interface Found {
  path: string;
  env: Record<string, string>;
}

function ownEnvironment(): Record<string, string> {
  return Object.fromEntries(
    Object.entries(process.env).filter((entry): entry is [string, string] => entry[1] !== undefined),
  );
}

async function chosen(): Promise<Found | undefined> {
  const path = process.env.CHROME_PATH;
  return path ? { path, env: {} } : undefined;
}

async function installed(): Promise<Found | undefined> {
  const path = INSTALLED.find((each) => existsSync(each));
  return path === undefined ? undefined : { path, env: {} };
}

/** The browser that comes as a package. Where the system lacks its libraries, those that came with it are unpacked. */
async function packaged(): Promise<Found> {
  const { default: packagedChromium } = await import('@sparticuz/chromium');
  const path = await packagedChromium.executablePath();
  if (process.platform !== 'linux' || hasLibrary('libnss3.so')) return { path, env: {} };
  return { path, env: { LD_LIBRARY_PATH: librariesOfPackage() } };
}

function hasLibrary(name: string): boolean {
  try {
    return execFileSync('ldconfig', ['-p'], { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] }).includes(name);
  } catch {
    return false; // no list of libraries: the packaged ones do no harm
  }
}

/** Unpacks the libraries of the package into a folder of their own, and answers it. */
function librariesOfPackage(): string {
  const folder = mkdtempSync(join(tmpdir(), 'feedrun-libraries-'));
  const entry = createRequire(import.meta.url).resolve('@sparticuz/chromium');
  const archive = join(packageFolder(entry), 'bin', 'al2023.tar.br');
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, 'libraries.tar'), brotliDecompressSync(readFileSync(archive)));
  execFileSync('tar', ['-xf', 'libraries.tar'], { cwd: folder });
  const inner = readdirSync(folder, { withFileTypes: true }).filter((each) => each.isDirectory());
  return [folder, ...inner.flatMap(({ name }) => [join(folder, name), join(folder, name, 'lib')])].join(':');
}

function packageFolder(path: string): string {
  const folder = dirname(path);
  return existsSync(join(folder, 'package.json')) && existsSync(join(folder, 'bin')) ? folder : packageFolder(folder);
}
