import { z } from 'zod';
import { EDITIONS } from '../electrical/citations.ts';
import { SEVERITIES } from '../electrical/findings.ts';
import { INSULATIONS } from '../electrical/insulations.ts';
import { CONDUCTOR_SIZES, METALS, TRADE_SIZES } from '../electrical/sizes.ts';
import { listOf, oneOf, oneOfNumbers, quantity } from '../estimate/description/fields.ts';
import { shown } from '../estimate/input-problems.ts';

/** One of some words that have an order of their own, which the schema keeps; the message lists them all. */
function oneOfInOrder<const Words extends readonly [string, ...string[]]>(words: Words) {
  return z.literal(words, { error: ({ input }) => `must be one of ${words.join(', ')}, not ${shown(input)}` });
}

/* Fields that several calculations share: one bound and one message for each. Bounds are ours where no rule is named;
 * what may not be 0 keeps some distance from it, so that no answer leaves the numbers that JSON can write. */
export const metal = () => oneOf(METALS);
export const size = () => oneOfInOrder(CONDUCTOR_SIZES);
export const tradeSize = () => oneOfInOrder(TRADE_SIZES);
export const insulation = () => oneOf(INSULATIONS);
export const edition = () => oneOf(EDITIONS).default('2023');
export const amperes = () => quantity({ unit: 'amperes', least: 0.001, most: 5000 });
export const feet = () => quantity({ unit: 'feet', least: 0.001, most: 100_000 });
export const inches = () => quantity({ unit: 'inches', least: 0.001, most: 10_000 });
export const percent = (most: number) => quantity({ unit: 'percent', least: 0, most });
export const voltAmperes = () => quantity({ unit: 'volt-amperes', least: 0, most: 10_000_000 });
export const volts = () => quantity({ unit: 'volts', least: 1, most: 1000 });
export const ambientC = () => quantity({ unit: 'degrees Celsius', least: -40, most: 85 }).default(30);
/** Conductors in one raceway or cable that carry current; Table 310.15(C)(1) goes on above 41, and so do we. */
export const currentCarrying = (standard: number) =>
  quantity({ unit: 'conductors', whole: true, least: 1, most: 200 }).default(standard);
/** One of the temperature ratings of terminals or insulation, in degrees Celsius. */
export const ratingC = () => oneOfNumbers([60, 75, 90], 'degrees Celsius');
/** A list that holds something; the message says of what. */
export function listOfSome<Item extends z.ZodType>(item: Item, most: number, what: string) {
  return listOf(item, most, what).min(1, { error: `must be a list of at least one of ${what}, not []` });
}

/* What results are made of. They are checked in tests, not on the way out: hence no messages. */
/** A finite number in the unit that its field's name ends in. */
export const measure = z.number();
/** Pieces, bags, days, whole cents. */
export const whole = z.int();
export const sizeFound = z.literal(CONDUCTOR_SIZES);
export const Findings = z.array(
  z.strictObject({
    rule: z.string(),
    severity: z.enum(SEVERITIES),
    message: z.string(),
    citation: z.strictObject({ code: z.string(), edition: z.enum(EDITIONS), article: z.string() }).optional(),
    numbers: z.record(z.string(), z.union([z.number(), z.string(), z.boolean()])),
    leg: z.int().optional(),
    run: z.string().optional(),
  }),
);
