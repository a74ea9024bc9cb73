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
  answer(input: never): Answer;
}

/** Ties the shape of the input to the function that takes it. */
export function calculation<Schema extends z.ZodType>(parts: {
  name: string;
  title: string;
  decides: string;
  input: Schema;
  answer: (input: z.output<Schema>) => Answer;
}): Calculation {
  return parts;
}

/** A number as a sentence says it: at most two decimals. */
export function said(value: number): string {
  return String(Math.round(value * 100) / 100);
}
