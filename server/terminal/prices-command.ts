import { parseArgs } from 'node:util';
import { openData } from '../../db/open.ts';
import { revisionAsOf } from '../book-as-of.ts';
import { readDataDir } from '../config.ts';
import { day, text } from '../estimate/description/fields.ts';
import { closed, InputError, readInput } from '../estimate/input-problems.ts';
import { PriceItem } from '../estimate/price-book.ts';
import { parsePriceCsv, writePriceCsv } from '../estimate/price-csv.ts';
import { queryNumber } from '../http/queries.ts';
import { addStartingPrices } from '../starting-prices.ts';
import { onlyFile, readNamed, writeNamed } from './named-files.ts';
import { UsageError } from './usage-error.ts';

/** The options of `feedrun prices`, as they are read: the same words as over HTTP. */
const PricesOptions = closed({
  revision: queryNumber({ least: 1, most: Number.MAX_SAFE_INTEGER }).optional(),
  on: day().optional(),
  by: text().optional(),
  why: text().optional(),
});

interface PricesWords {
  file: string;
  dataDir: string;
  options: ReturnType<typeof readOptions>;
  dryRun: boolean;
  removeMissing: boolean;
}

const readOptions = (stated: unknown) => readInput(PricesOptions, stated);

/**
 * `feedrun prices export FILE [--revision N | --on DAY]`, `feedrun prices import FILE [--dry-run] [--remove-missing]
 * [--by NAME] [--why TEXT]`, and `feedrun prices add-starting [--dry-run] [--by NAME] [--why TEXT]`, which adds what the
 * starting prices have and the book lacks.
 */
export async function pricesCommand(args: string[]): Promise<void> {
  const { values, positionals } = parseArgs({
    args,
    options: {
      data: { type: 'string' },
      'dry-run': { type: 'boolean', default: false },
      'remove-missing': { type: 'boolean', default: false },
      ...{ revision: { type: 'string' }, on: { type: 'string' }, by: { type: 'string' }, why: { type: 'string' } },
    },
    allowPositionals: true,
  });
  const [what, ...files] = positionals;
  if (what !== 'export' && what !== 'import' && what !== 'add-starting') {
    throw new UsageError(`Say "prices export FILE" or "prices import FILE", not "prices ${what ?? ''}".`);
  }
  const { revision, on, by, why } = values;
  const words = {
    file: what === 'add-starting' ? noFile(files) : onlyFile(files, `prices ${what}`),
    dataDir: readDataDir(process.env, { dataDir: values.data }),
    options: readOptions(JSON.parse(JSON.stringify({ revision, on, by, why }))), // what was not said is not there
    dryRun: values['dry-run'],
    removeMissing: values['remove-missing'],
  };
  if (what === 'export') exportPrices(words);
  else if (what === 'add-starting') addStarting(words);
  else importPrices(words);
}

function noFile(files: readonly string[]): string {
  if (files.length > 0) throw new UsageError(`"${files.join(' ')}" is too much: prices add-starting takes no file.`);
  return '';
}

function addStarting({ dataDir, options: { by, why }, dryRun }: PricesWords): void {
  const data = openData(dataDir, { readItem: (stored) => PriceItem.parse(stored) });
  try {
    const stated = { ...(by !== undefined && { by }), ...(why !== undefined && { why }) };
    const { added } = addStartingPrices(data.prices, { ...stated, dryRun });
    process.stdout.write(`${added} ${dryRun ? 'would be ' : ''}added, none changed or removed.\n`);
  } finally {
    data.close();
  }
}

function exportPrices({ file, dataDir, options }: PricesWords): void {
  const data = openData(dataDir, { readonly: true });
  try {
    const revision = revisionAsOf(options, { prices: data.prices, now: data.now() });
    writeNamed(file, writePriceCsv(data.prices.snapshot(revision).items));
  } finally {
    data.close();
  }
}

function importPrices({ file, dataDir, options: { by, why }, dryRun, removeMissing }: PricesWords): void {
  const { items, refused } = parsePriceCsv(readNamed(file));
  if (refused.length > 0) {
    throw new InputError(refused.map(({ row, reason }) => ({ path: `row ${row}`, message: reason })));
  }
  const data = openData(dataDir, { readItem: (stored) => PriceItem.parse(stored) });
  try {
    const stated = { ...(by !== undefined && { by }), ...(why !== undefined && { why }) };
    const { added, changed, same, removed } = data.prices.importItems(items, { ...stated, dryRun, removeMissing });
    const would = dryRun ? 'would be ' : '';
    const gone = removeMissing ? `, ${removed} ${would}removed` : '';
    process.stdout.write(`${added} ${would}added, ${changed} ${would}changed${gone}, ${same} the same.\n`);
  } finally {
    data.close();
  }
}
