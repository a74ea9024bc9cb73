import { parseArgs } from 'node:util';
import { calculate, calculationNamed, calculationSheets } from './calculations.ts';
import { readDataDir } from './config.ts';
import type { Estimate } from './estimate/answer.ts';
import { oneOf } from './estimate/description/fields.ts';
import { type Description, readDescription } from './estimate/description.ts';
import { estimate, withAsOf } from './estimate/estimate.ts';
import { closed, readInput } from './estimate/input-problems.ts';
import { jsonText, readJson } from './estimate/json-text.ts';
import { estimateText } from './estimate-text.ts';
import { dayOf } from './http/app.ts';
import { optionOf, PAGE_SIZES } from './http/estimates.ts';
import { readNamed, writeNamed } from './named-files.ts';
import { descriptionOfLine } from './one-line-form.ts';
import { readOnlyBook } from './read-only-book.ts';
import { linesCsv } from './report/csv.ts';
import { estimatePdf, PAPERS } from './report/pdf.ts';
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

const Printing = closed({
  '--paper': oneOf(PAPERS).default('estimate'),
  '--page-size': oneOf(PAGE_SIZES).default('letter'),
});

type Values = ReturnType<typeof wordsOf>['values'];

/** `feedrun estimate`: reads a description, estimates, and prints what was asked for. Needs no server, writes no data. */
export async function estimateCommand(args: string[]): Promise<void> {
  const { values, positionals } = wordsOf(args);
  const printing = readInput(Printing, {
    ...(values.paper !== undefined && { '--paper': values.paper }),
    ...(values['page-size'] !== undefined && { '--page-size': values['page-size'] }),
  });
  const description = withAsOf(descriptionOf(values, positionals), dayOf(new Date()));
  const book = readOnlyBook(readDataDir(process.env, { dataDir: values.data }));
  const answer = estimate(description, book);
  const option = optionOf(answer, values.option);
  if (values.pdf !== undefined) {
    const pdf = await estimatePdf({
      estimate: answer,
      optionId: option.id,
      paper: printing['--paper'],
      pageSize: printing['--page-size'],
    });
    writeNamed(values.pdf, pdf);
  }
  if (values.csv !== undefined) writeNamed(values.csv, linesCsv(option));
  printAnswer({ answer, option, values });
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
function printAnswer({
  answer,
  option,
  values,
}: {
  answer: Estimate;
  option: Estimate['options'][number];
  values: Values;
}) {
  if (values.json) process.stdout.write(`${jsonText(answer)}\n`);
  else if (values.pdf !== '-' && values.csv !== '-') process.stdout.write(estimateText(answer, option));
}

/** `feedrun calc NAME '{json}'`: one rule or formula alone. Without a name: the list of them. */
export async function calcCommand(args: string[]): Promise<void> {
  const [name, input, ...others] = args;
  const names = calculationSheets();
  if (name === undefined) {
    const width = Math.max(...names.map((sheet) => sheet.name.length));
    process.stdout.write(names.map((sheet) => `${sheet.name.padEnd(width)}  ${sheet.decides}\n`).join(''));
    return;
  }
  const calculation = calculationNamed(name);
  if (!calculation) {
    throw new UsageError(`"${name}" is no calculation; they are ${names.map((sheet) => sheet.name).join(', ')}.`);
  }
  if (others.length > 0) throw new UsageError(`The input is one JSON text; "${others.join(' ')}" is too much.`);
  process.stdout.write(`${jsonText(calculate(calculation, readJson(input ?? '{}')))}\n`);
}
