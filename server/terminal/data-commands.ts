import { parseArgs } from 'node:util';
import { backup, restore } from '../../db/backup.ts';
import { CorruptDataError } from '../../db/errors.ts';
import { openData } from '../../db/open.ts';
import { readDataDir } from '../config.ts';
import { InputError } from '../estimate/input-problems.ts';
import { parsePriceCsv, writePriceCsv } from '../estimate/price-csv.ts';
import { readNamed, writeNamed } from './named-files.ts';
import { UsageError } from './usage-error.ts';

/** The words of a command that works on the data folder. */
function wordsOf(args: string[]) {
  const { values, positionals } = parseArgs({
    args,
    options: { data: { type: 'string' }, 'dry-run': { type: 'boolean', default: false } },
    allowPositionals: true,
  });
  return { words: positionals, dryRun: values['dry-run'], dataDir: readDataDir(process.env, { dataDir: values.data }) };
}

function onlyFile(words: readonly string[], command: string): string {
  const [file, ...others] = words;
  if (file === undefined || others.length > 0) throw new UsageError(`Name one file: feedrun ${command} FILE.`);
  return file;
}

/** `feedrun prices export|import FILE [--dry-run]`. */
export async function pricesCommand(args: string[]): Promise<void> {
  const { words, dryRun, dataDir } = wordsOf(args);
  const [what, ...files] = words;
  if (what === 'export') exportPrices(onlyFile(files, 'prices export'), dataDir);
  else if (what === 'import') importPrices({ file: onlyFile(files, 'prices import'), dataDir, dryRun });
  else throw new UsageError(`Say "prices export FILE" or "prices import FILE", not "prices ${what ?? ''}".`);
}

function exportPrices(file: string, dataDir: string): void {
  const data = openData(dataDir, { readonly: true });
  try {
    writeNamed(file, writePriceCsv(data.prices.snapshot().items));
  } finally {
    data.close();
  }
}

function importPrices({ file, dataDir, dryRun }: { file: string; dataDir: string; dryRun: boolean }): void {
  const { items, refused } = parsePriceCsv(readNamed(file));
  if (refused.length > 0) {
    throw new InputError(refused.map(({ row, reason }) => ({ path: `row ${row}`, message: reason })));
  }
  const data = openData(dataDir);
  try {
    const { added, changed, same } = data.prices.importItems(items, { dryRun });
    const would = dryRun ? 'would be ' : '';
    process.stdout.write(`${added} ${would}added, ${changed} ${would}changed, ${same} the same.\n`);
  } finally {
    data.close();
  }
}

/** `feedrun backup FILE`: the database's own copy, also beside a server that runs. */
export async function backupCommand(args: string[]): Promise<void> {
  const { words, dataDir } = wordsOf(args);
  const file = onlyFile(words, 'backup');
  await backup(dataDir, file);
  process.stdout.write(`Kept in ${file}.\n`);
}

/** `feedrun restore FILE`: what it replaces is kept beside it. */
export async function restoreCommand(args: string[]): Promise<void> {
  const { words, dataDir } = wordsOf(args);
  const { replaced } = await restore(dataDir, onlyFile(words, 'restore'));
  process.stdout.write(
    replaced === undefined ? 'Restored.\n' : `Restored. What was there before is kept in ${replaced}.\n`,
  );
}

/** `feedrun check`: is the data sound? */
export async function checkCommand(args: string[]): Promise<void> {
  const { words, dataDir } = wordsOf(args);
  if (words.length > 0) throw new UsageError(`"${words.join(' ')}" is too much: feedrun check takes no words.`);
  const data = openData(dataDir, { readonly: true });
  try {
    const faults = data.check();
    if (faults.length > 0) throw new CorruptDataError({ file: data.file, found: faults.join('; ') });
  } finally {
    data.close();
  }
  process.stdout.write('The data is sound.\n');
}
