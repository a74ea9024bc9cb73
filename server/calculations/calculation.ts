import type { z } from 'zod';
import type { RuleKey } from '../electrical/citations.ts';

/** What a calculation answers: its result, the reasons in sentences, and the rules that it rests on. */
export interface Answer {
  result: Record<string, unknown>;
  because: string[];
  rules: readonly RuleKey[];
}

/** One electrical or estimating function that a user may call alone. */
export interface Calculation {
  name: string;
  /** What a person would call it. */
  title: string;
  /** What it decides, in one sentence. */
  decides: string;
  input: z.ZodType;
  result: z.ZodType;
  /** An invented input that is answered: where a form, or a reader of the API, may begin. */
  example: Record<string, unknown>;
  answer(input: never): Answer;
}

/** Ties the shapes of input and result to the function between them. */
export function calculation<Input extends z.ZodType, Result extends z.ZodType<Record<string, unknown>>>(parts: {
  name: string;
  title: string;
  decides: string;
  input: Input;
  result: Result;
  example: z.input<Input> & Record<string, unknown>;
  answer: (input: z.output<Input>) => Answer & { result: z.input<Result> };
}): Calculation {
  return parts;
}

/** A number as a sentence says it: at most two decimals. */
export function said(value: number): string {
  return String(Math.round(value * 100) / 100 + 0);
}
