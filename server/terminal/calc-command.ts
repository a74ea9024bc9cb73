import { calculate, calculationNamed, calculationSheets } from '../calculations.ts';
import { flag, oneOf, quantity } from '../estimate/description/fields.ts';
import { closed, readInput } from '../estimate/input-problems.ts';
import { jsonText, readJson } from '../estimate/json-text.ts';
import { meterAnswer } from '../estimate/meter/meter-answer.ts';
import { EDITIONS } from '../estimate/vocabulary.ts';
import { readNamed } from './named-files.ts';
import { UsageError } from './usage-error.ts';

const OF_A_FILE = 'measured-demand';

/**
 * `feedrun calc NAME '{json}'`, or `-` for standard input: one rule or formula alone. Without a name: the list of them.
 * `feedrun calc measured-demand --readings FILE` reads a utility's interval file.
 */
export async function calcCommand(args: string[]): Promise<void> {
  const [name, ...words] = args;
  if (name === undefined) return printList();
  const calculation = calculationNamed(name);
  if (!calculation) {
    const names = calculationSheets().map((sheet) => sheet.name);
    throw new UsageError(`"${name}" is no calculation; they are ${names.join(', ')}.`);
  }
  const { file, input, others } = readingsIn(words);
  if (others.length > 0) throw new UsageError(`The input is one JSON text; "${others.join(' ')}" is too much.`);
  if (file !== undefined && name !== OF_A_FILE)
    throw new UsageError(`--readings goes with ${OF_A_FILE}, not with ${name}.`);
  const stated = readJson(input === '-' ? readNamed(input) : (input ?? '{}'));
  const answer = file === undefined ? calculate(calculation, stated) : ofFile(file, stated);
  process.stdout.write(`${jsonText(answer)}\n`);
}

function printList(): void {
  const names = calculationSheets();
  const width = Math.max(...names.map((sheet) => sheet.name.length));
  process.stdout.write(names.map((sheet) => `${sheet.name.padEnd(width)}  ${sheet.decides}\n`).join(''));
}

/** The file behind --readings, and the words that are left. */
function readingsIn(words: readonly string[]): { file?: string; input: string | undefined; others: string[] } {
  const at = words.indexOf('--readings');
  const [input, ...others] = words.filter((_, nth) => at < 0 || (nth !== at && nth !== at + 1));
  if (at < 0) return { input, others };
  const file = words[at + 1];
  if (file === undefined) throw new UsageError('Name the file: --readings FILE.');
  return { file, input, others };
}

/** What a file does not say of its house. */
const BesideAFile = closed({
  voltageV: quantity({ unit: 'volts', least: 100, most: 600 }).default(240),
  solar: flag().default(false),
  edition: oneOf(EDITIONS).default('2023'),
});

function ofFile(file: string, stated: unknown) {
  const input = readInput(BesideAFile, stated);
  return { name: OF_A_FILE, input, ...meterAnswer({ text: readNamed(file), ...input }) };
}
