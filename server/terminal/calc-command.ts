import { calculate, calculationNamed, calculationSheets } from '../calculations.ts';
import { jsonText, readJson } from '../estimate/json-text.ts';
import { readNamed } from './named-files.ts';
import { UsageError } from './usage-error.ts';

/** `feedrun calc NAME '{json}'`, or `-` for standard input: one rule or formula alone. Without a name: the list of them. */
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
  const text = input === '-' ? readNamed(input) : (input ?? '{}');
  process.stdout.write(`${jsonText(calculate(calculation, readJson(text)))}\n`);
}
