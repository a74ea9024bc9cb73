import { z } from 'zod';
import { shown } from '../input-problems.ts';
import { BOUNDS } from '../vocabulary.ts';

interface NumberBounds {
  /** What the number counts, said in messages: `feet`, `amperes`. */
  unit: string;
  more?: number;
  least?: number;
  most?: number;
  whole?: boolean;
}

function allowed({ unit, more, least, most, whole }: NumberBounds): string {
  const ends = [
    ...(more === undefined ? [] : [`more than ${more}`]),
    ...(least === undefined ? [] : [`at least ${least}`]),
    ...(most === undefined ? [] : [`at most ${most}`]),
  ];
  return `${whole ? 'a whole number' : 'a number'} of ${unit}${ends.length > 0 ? `, ${ends.join(' and ')}` : ''}`;
}

/** A number with its unit and bounds; the message names the value and all that is allowed. */
export function quantity(bounds: NumberBounds): z.ZodNumber {
  const error = ({ input }: { input?: unknown }) => `must be ${allowed(bounds)}, not ${shown(input)}`;
  let schema = z.number({ error });
  if (bounds.whole) schema = schema.int({ error });
  if (bounds.more !== undefined) schema = schema.gt(bounds.more, { error });
  if (bounds.least !== undefined) schema = schema.gte(bounds.least, { error });
  if (bounds.most !== undefined) schema = schema.lte(bounds.most, { error });
  return schema;
}

/** Whole cents, from 0 to the bound on sums. */
export const cents = () => quantity({ unit: 'cents', whole: true, least: 0, most: BOUNDS.maxCents });
/** Hundredths of a percent, 0 to 10,000. */
export const basisPoints = () =>
  quantity({ unit: 'basis points (100 are one percent)', whole: true, least: 0, most: BOUNDS.maxBp });
/** A count of things, from `least`. */
export const count = (unit: string, least: number, most: number) => quantity({ unit, whole: true, least, most });

/** Words of a person, of at most 500 characters and not blank. */
export const text = () =>
  z
    .string({ error: ({ input }) => `must be a text, not ${shown(input)}` })
    .max(BOUNDS.textLength, {
      error: ({ input }) =>
        `must have at most ${BOUNDS.textLength} characters, not ${typeof input === 'string' ? input.length : 0}`,
    })
    .regex(/\S/, { error: 'must not be empty' });

/** One of some words; the message lists them all. */
export function oneOf<const Words extends readonly [string, ...string[]]>(words: Words) {
  return z.enum(words, { error: ({ input }) => `must be one of ${words.join(', ')}, not ${shown(input)}` });
}

/** One of some numbers; the message lists them all. */
export function oneOfNumbers<const Numbers extends readonly [number, ...number[]]>(numbers: Numbers, unit: string) {
  const listed = `${numbers.slice(0, -1).join(', ')} or ${numbers.at(-1)}`;
  return z.literal(numbers, { error: ({ input }) => `must be ${listed} ${unit}, not ${shown(input)}` });
}

/** Yes or no. */
export const flag = () => z.boolean({ error: ({ input }) => `must be true or false, not ${shown(input)}` });

/** A day as YYYY-MM-DD that exists. */
export const day = () =>
  z.iso.date({ error: ({ input }) => `must be a day that exists, such as 2026-03-02, not ${shown(input)}` });

/** A list with its bounds said. */
export function listOf<Item extends z.ZodType>(item: Item, most: number, what: string) {
  return z.array(item, { error: ({ input }) => `must be a list of ${what}, not ${shown(input)}` }).max(most, {
    error: ({ input }) => `must hold at most ${most} ${what}, not ${Array.isArray(input) ? input.length : 0}`,
  });
}

/**
 * A list that may be written as a text shows only its list form in a JSON Schema: adds the text, where the schema's
 * metadata names it as `textForm`.
 */
export function addTextForm(jsonSchema: Record<string, unknown>): void {
  const { textForm, ...list } = jsonSchema;
  if (textForm === undefined) return;
  for (const key of Object.keys(jsonSchema)) delete jsonSchema[key];
  jsonSchema.anyOf = [list, { type: 'string', description: textForm }];
}
