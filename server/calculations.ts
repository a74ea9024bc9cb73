import { z } from 'zod';
import type { Calculation } from './calculations/calculation.ts';
import { EXISTING_CALCULATIONS } from './calculations/existing.ts';
import { withFieldWords } from './calculations/field-words.ts';
import { GROUND_CALCULATIONS } from './calculations/ground.ts';
import { JOB_CALCULATIONS } from './calculations/job.ts';
import { LOAD_CALCULATIONS } from './calculations/load.ts';
import { WIRE_CALCULATIONS } from './calculations/wire.ts';
import type { Citation, Edition } from './electrical/citations.ts';
import { cite } from './electrical/citations.ts';
import { RefusedInputError } from './electrical/errors.ts';
import { InputError, readInput } from './estimate/input-problems.ts';
import { toFourDecimals } from './estimate/money.ts';

/** Every function that a user may call alone: over HTTP, in the terminal and on the page. */
export const CALCULATIONS: readonly Calculation[] = [
  ...WIRE_CALCULATIONS,
  ...GROUND_CALCULATIONS,
  ...LOAD_CALCULATIONS,
  ...EXISTING_CALCULATIONS,
  ...JOB_CALCULATIONS,
];

/** A calculation's answer, with the input as it was read and where its rules stand. */
export interface CalculationAnswer {
  name: string;
  input: unknown;
  result: Record<string, unknown>;
  because: string[];
  citations: Citation[];
}

/** A calculation as a list names it, with JSON Schemas whose fields carry their words and units. */
export interface CalculationSheet {
  name: string;
  title: string;
  decides: string;
  input: Record<string, unknown>;
  /** The shape of the result, with the words of its fields. */
  result: Record<string, unknown>;
  example: Record<string, unknown>;
}

/** What there is to calculate, with schemas that a form can be made from. */
export function calculationSheets(): CalculationSheet[] {
  return CALCULATIONS.map(({ name, title, decides, input, result, example }) => ({
    name,
    title,
    decides,
    input: schemaOf(input),
    result: schemaOf(result),
    example,
  }));
}

function schemaOf(shape: z.ZodType): Record<string, unknown> {
  return withFieldWords(z.toJSONSchema(shape, { io: 'input' }) as Record<string, unknown>);
}

/** The calculation of a name, or none. */
export function calculationNamed(name: string): Calculation | undefined {
  return CALCULATIONS.find((one) => one.name === name);
}

/**
 * Reads the input, calculates, and rounds the results to four decimals, as the last thing.
 * @throws {InputError} for an input that the schema or a rule refuses, with the path of the field
 */
export function calculate(calculation: Calculation, stated: unknown): CalculationAnswer {
  const input = readInput(calculation.input, stated);
  const { result, because, rules } = answered(calculation, input);
  const edition = (input as { edition?: Edition }).edition ?? '2023';
  return {
    name: calculation.name,
    input,
    result: rounded(result) as Record<string, unknown>,
    because,
    citations: [...new Set(rules)].map((rule) => cite(rule, edition)),
  };
}

function answered(calculation: Calculation, input: unknown) {
  try {
    return calculation.answer(input as never);
  } catch (error) {
    if (!(error instanceof RefusedInputError)) throw error;
    throw new InputError([{ path: error.field, message: error.message.replace(`${error.field} `, '') }]);
  }
}

/** Numbers to four decimals, however deep they lie. */
function rounded(value: unknown): unknown {
  if (typeof value === 'number') return toFourDecimals(value);
  if (Array.isArray(value)) return value.map(rounded);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([field, part]) => [field, rounded(part)]));
}
