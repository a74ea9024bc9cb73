import { parseArgs } from 'node:util';
import { dataExists } from '../../db/open.ts';
import { dayOf } from '../calendar-day.ts';
import { readDataDir } from '../config.ts';
import type { Estimate } from '../estimate/answer.ts';
import { chosenOption } from '../estimate/chosen-option.ts';
import { oneOf } from '../estimate/description/fields.ts';
import { type Description, readDescription } from '../estimate/description.ts';
import { estimate, withAsOf } from '../estimate/estimate.ts';
import { closed, readInput } from '../estimate/input-problems.ts';
import { jsonText, readJson } from '../estimate/json-text.ts';
import type { Book } from '../estimate/price-book.ts';
import { linesCsv } from '../report/csv.ts';
import { keptBook, keptIssuer, startingBook } from './books-at-hand.ts';
import { estimateText } from './estimate-text.ts';
import { readNamed, writeNamed } from './named-files.ts';
import { descriptionOfLine } from './one-line-form.ts';
import { UsageError } from './usage-error.ts';

const OPTIONS = {
  option: { type: 'string' },
  json: { type: 'boolean' },
  pdf: { type: 'string' },
  paper: { type: 'string' },
  'page-size': { type: 'string' },
  csv: { type: 'string' },
  data: { type: 'string' },
  route: { type: 'string' },
  feed: { type: 'string' },
  charger: { type: 'string' },
  building: { type: 'string' },
  service: { type: 'string' },
} as const;

type Values = ReturnType<typeof wordsOf>['values'];

/** `feedrun estimate`: reads a description, estimates, and prints what was asked for. Needs no server, writes no data. */
export async function estimateCommand(args: string[]): Promise<void> {
  const { values, positionals } = wordsOf(args);
  const alone = (['paper', 'page-size'] as const).find((word) => values[word] !== undefined);
  if (alone && values.pdf === undefined) throw new UsageError(`--${alone} goes with --pdf FILE.`);
  const description = withAsOf(descriptionOf(values, positionals), dayOf(new Date()));
  const answer = estimate(description, bookOf(values));
  const option = chosenOption(answer, values.option);
  if (values.pdf !== undefined) await printPaper({ answer, option, values });
  if (values.csv !== undefined) writeNamed(values.csv, linesCsv(option));
  printAnswer({ answer, option, values });
}

/** The book of the data folder. One that is named must be there; else the starting book will do. */
function bookOf(values: Values): Book {
  const dataDir = dataDirOf(values);
  return dataDir === undefined ? startingBook() : keptBook(dataDir);
}

/** The data folder that was named, or the usual one where it is there. */
function dataDirOf({ data }: Values): string | undefined {
  const dataDir = readDataDir(process.env, { dataDir: data });
  return data !== undefined || dataExists(dataDir) ? dataDir : undefined;
}

interface Printed {
  answer: Estimate;
  option: Estimate['options'][number];
  values: Values;
}

/** Writes the paper that was asked for. */
async function printPaper({ answer, option, values }: Printed): Promise<void> {
  const { estimatePdf, PAPERS } = await import('../report/pdf.ts'); // much to load, and seldom asked for
  const printing = closed({ '--paper': oneOf(PAPERS), '--page-size': oneOf(['letter', 'a4']) });
  const read = readInput(printing, {
    '--paper': values.paper ?? 'estimate',
    '--page-size': values['page-size'] ?? 'letter',
  });
  const dataDir = dataDirOf(values);
  const pdf = await estimatePdf({
    estimate: answer,
    optionId: option.id,
    paper: read['--paper'],
    pageSize: read['--page-size'],
    ...(dataDir !== undefined && { issuer: keptIssuer(dataDir) }),
  });
  writeNamed(values.pdf ?? '-', pdf);
}

function wordsOf(args: string[]) {
  return parseArgs({ args, options: OPTIONS, allowPositionals: true });
}

/** The description of a file, or of the one-line form. */
function descriptionOf({ route, feed, charger, building, service }: Values, files: readonly string[]): Description {
  const [file, ...others] = files;
  if (others.length > 0) throw new UsageError(`One file at a time: "${others.join(' ')}" is too much.`);
  if (route !== undefined && file !== undefined) throw new UsageError(`Name --route or a file, not both ("${file}").`);
  if (route !== undefined) return descriptionOfLine({ route, feed, charger, building, service });
  const alone = Object.entries({ feed, charger, building, service }).find(([, value]) => value !== undefined);
  if (alone) throw new UsageError(`--${alone[0]} goes with --route; a file says it itself.`);
  if (file === undefined) throw new UsageError('Name a file with a description, - for standard input, or --route.');
  return readDescription(readJson(readNamed(file)));
}

/** JSON where it was asked for, and nothing else; the text unless a file takes standard output. */
function printAnswer({ answer, option, values }: Printed): void {
  if (values.json) process.stdout.write(`${jsonText(answer)}\n`);
  else if (values.pdf !== '-' && values.csv !== '-') process.stdout.write(estimateText(answer, option));
}
