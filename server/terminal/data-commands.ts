import { parseArgs } from 'node:util';
import { backup, restore } from '../../db/backup.ts';
import { CorruptDataError } from '../../db/errors.ts';
import { openData } from '../../db/open.ts';
import { readDataDir } from '../config.ts';
import { counted } from '../drawing/wording.ts';
import { lackingStartingPrices } from '../starting-prices.ts';
import { onlyFile } from './named-files.ts';
import { UsageError } from './usage-error.ts';

/** The words of a command that works on the data folder. */
function wordsOf(args: string[]) {
  const { values, positionals } = parseArgs({
    args,
    options: { data: { type: 'string' } },
    allowPositionals: true,
  });
  return { words: positionals, dataDir: readDataDir(process.env, { dataDir: values.data }) };
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
  let lacking = 0;
  try {
    const faults = data.check();
    if (faults.length > 0) throw new CorruptDataError({ file: data.file, found: faults.join('; ') });
    lacking = lackingStartingPrices(data.prices).length;
  } finally {
    data.close();
  }
  process.stdout.write('The data is sound.\n');
  if (lacking > 0) {
    const items = counted(lacking, 'item');
    process.stdout.write(`The starting prices have ${items} that the book lacks: feedrun prices add-starting\n`);
  }
}
