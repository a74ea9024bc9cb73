import { nearWord } from './near-words.ts';
import {
  BOUNDS,
  CONDUCTOR_SIZES,
  CROSSINGS,
  DIGS,
  FINISHES,
  HEADROOMS,
  isLegKind,
  LEG_KINDS,
  legDefaults,
  RACEWAY_PLACES,
  RACEWAY_TYPES,
  REINFORCEMENTS,
  REPLACES,
  SOILS,
  TRADE_SIZES,
  TRAFFICS,
  WALLS,
  WIRING_METHODS,
} from './vocabulary.ts';

/*
 * The route line is the one-line text form of a route:
 *
 *   line    = leg { "," leg }
 *   leg     = length kind { word }
 *   length  = FEET | LOW ".." LIKELY ".." HIGH
 *   word    = a value that only one field has: clay, hand, crawling, rebar, 1-1/4, gas
 *           | INCHES "in"                           thicknessIn
 *           | FIELD "=" VALUE                       VALUE in double quotes, with JSON's escapes, if it holds blanks or commas
 *
 * Several kinds of soil, and several lines that are crossed, stand as several words. Where a crossing counts more than
 * one line, all are written in one field, each with its count behind it: crossings="gas 2, water". What an existing
 * raceway holds: occupiedBy="thwn-2 6 3, bare 10 1", that is insulation, size, count. Nobody knows whether a slab is
 * reinforced: reinforcement=unknown. Defaults are not printed. Whole numbers and "emt" are values of several fields,
 * hence tradeSize=2, method=emt and type=emt.
 */

/** A leg as it would be stated in JSON, before the schema has seen it. */
export type StatedRouteLeg = Record<string, unknown>;

/** A route line that cannot be read; the message names the leg and the words that were not understood. */
export class RouteLineError extends Error {
  override name = 'RouteLineError';
}

/** Fields whose values are words, with the words. */
const WORD_FIELDS: Readonly<Record<string, readonly string[]>> = {
  method: ['auto', ...WIRING_METHODS],
  headroom: HEADROOMS,
  through: WALLS,
  soil: SOILS,
  dig: DIGS,
  replace: REPLACES,
  finish: FINISHES,
  reinforcement: REINFORCEMENTS,
  traffic: TRAFFICS,
  type: RACEWAY_TYPES,
  tradeSize: TRADE_SIZES,
  place: RACEWAY_PLACES,
  crossings: CROSSINGS,
};
const NUMBER_FIELDS = ['riseFt', 'coverIn', 'thicknessIn', 'widthIn', 'bendsDeg', 'ambientC'];
const FLAG_FIELDS = ['across', 'restore'];
/** Defaults of the fields that serve every kind. */
const ALWAYS: Readonly<Record<string, unknown>> = { riseFt: 0, method: 'auto' };
/** Every field that a leg's line may state, in the order in which they are printed. */
const PRINTED_FIELDS = [
  ...['method', 'thicknessIn', 'widthIn', 'reinforcement', 'finish', 'replace', 'soil', 'dig', 'traffic', 'headroom'],
  ...['type', 'tradeSize', 'occupiedBy', 'place', 'through', 'crossings', 'coverIn', 'riseFt', 'bendsDeg', 'ambientC'],
  ...['across', 'restore', 'note'],
];

const NUMBER = /^-?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i;
const INCHES = /^(-?[\d.]+(?:e[+-]?\d+)?)in$/i;
/** Blanks; a comma; a field with a quoted value; any other word. */
const TOKEN = /\s+|,|[a-z]+="(?:[^"\\]|\\.)*"|[^\s,]+/giy;

/** Which field has this value, when only one has: whole numbers are left out, for many fields may have them. */
const FIELD_OF_WORD: ReadonlyMap<string, readonly string[]> = wordsWithFields();

function wordsWithFields(): Map<string, string[]> {
  const fields = new Map<string, string[]>();
  for (const [field, words] of Object.entries(WORD_FIELDS)) {
    for (const word of words) if (!NUMBER.test(word)) fields.set(word, [...(fields.get(word) ?? []), field]);
  }
  return fields;
}

/** What a word says of its leg, or why it was not understood. */
type Reading = { field: string; value: unknown } | { problem: string };

/** How many problems of a line one message names. */
const MOST_NAMED = 20;

/**
 * Reads a route line into legs as they would be stated in JSON; defaults and bounds are the schema's. A blank line has
 * no legs.
 * @throws {RouteLineError} naming every word that was not understood, and what was probably meant
 */
export function parseRouteLine(line: string): StatedRouteLeg[] {
  const problems: string[] = [];
  const written = line.trim() === '' ? [] : legsOfWords(line);
  if (written.length > BOUNDS.legs) {
    throw new RouteLineError(`must hold at most ${BOUNDS.legs} legs, not ${written.length}`);
  }
  const legs = written.map((words, at) => parseLeg({ words, at, problems }));
  if (problems.length === 0) return legs;
  const named = problems.slice(0, MOST_NAMED);
  const more = problems.length - named.length;
  throw new RouteLineError([...named, ...(more > 0 ? [`and ${more} more like these`] : [])].join('; '));
}

/** The words of each leg. */
function legsOfWords(line: string): string[][] {
  const legs: string[][] = [[]];
  for (const [token] of line.matchAll(TOKEN)) {
    if (token === ',') legs.push([]);
    else if (token.trim() !== '') legs.at(-1)?.push(token);
  }
  return legs;
}

interface LegWords {
  words: string[];
  at: number;
  problems: string[];
}

function parseLeg({ words, at, problems }: LegWords): StatedRouteLeg {
  const [length, kind, ...others] = words;
  const refuse = (problem: string) => problems.push(`leg ${at + 1}: ${problem}`);
  if (length === undefined) {
    refuse('there is nothing between the commas; write a length and a kind, such as 41 lawn-trench');
    return {};
  }
  const lengthFt = readLength(length);
  if (lengthFt === undefined)
    refuse(`${quoted(length)} is not a length in feet, such as 41, 12.5 or the guess 24..27..32`);
  if (kind === undefined) refuse(`the kind is missing after ${quoted(length)}; it is one of ${LEG_KINDS.join(', ')}`);
  else if (!isLegKind(kind)) refuse(unknownWord(kind, LEG_KINDS, `is not a kind of leg; they are`));
  const leg: StatedRouteLeg = { kind, lengthFt };
  for (const word of others) {
    const reading = readWord(word);
    const problem = 'problem' in reading ? reading.problem : addTo(leg, reading);
    if (problem) refuse(problem);
  }
  return leg;
}

/** A length in feet, or its three points. */
function readLength(word: string): number | { low: number; likely: number; high: number } | undefined {
  if (NUMBER.test(word)) return Number(word);
  const points = word.split('..');
  const [low, likely, high] = points.map(Number);
  if (points.length !== 3 || !points.every((point) => NUMBER.test(point))) return undefined;
  if (low === undefined || likely === undefined || high === undefined) return undefined;
  return { low, likely, high };
}

/** Puts what a word says into the leg; soils and crossings gather. Says so when a field is stated twice. */
function addTo(leg: StatedRouteLeg, { field, value }: { field: string; value: unknown }): string | undefined {
  const before = leg[field];
  if (before === undefined) {
    leg[field] = value;
    return undefined;
  }
  if (Array.isArray(before) && Array.isArray(value) && field !== 'occupiedBy') {
    leg[field] = [...before, ...value];
    return undefined;
  }
  return `${field} is stated twice, as ${plain(before)} and as ${plain(value)}`;
}

const plain = (value: unknown) => (typeof value === 'string' ? value : JSON.stringify(value));

function readWord(word: string): Reading {
  const equals = word.indexOf('=');
  if (equals > 0) return readField(word.slice(0, equals), word.slice(equals + 1));
  const inches = INCHES.exec(word)?.[1];
  if (inches !== undefined && NUMBER.test(inches)) return { field: 'thicknessIn', value: Number(inches) };
  if ((TRADE_SIZES as readonly string[]).includes(word) && NUMBER.test(word)) {
    return { problem: `"${word}" may count many things; write tradeSize=${word}, or ${word}in for a thickness` };
  }
  const fields = FIELD_OF_WORD.get(word) ?? [];
  const [field, other] = fields;
  if (field === undefined) {
    return { problem: unknownWord(word, [...FIELD_OF_WORD.keys()], 'is not a word that is known here') };
  }
  if (other !== undefined) {
    return { problem: `"${word}" has two meanings; write ${fields.map((name) => `${name}=${word}`).join(' or ')}` };
  }
  return { field, value: gathered(field, word) };
}

/** A word as its field holds it: soils and crossings are lists. */
function gathered(field: string, word: string): unknown {
  if (field === 'soil') return [word];
  return field === 'crossings' ? [{ what: word }] : word;
}

/** Reads `field=value`. */
function readField(field: string, written: string): Reading {
  const text = unquoted(written);
  if (text === undefined)
    return { problem: `the quotes of ${field}=${written} are not closed or hold a broken escape` };
  if (field === 'note') return { field, value: text };
  if (NUMBER_FIELDS.includes(field)) {
    if (NUMBER.test(text)) return { field, value: Number(text) };
    return { problem: `${field} must be a number, not ${quoted(text)}` };
  }
  if (FLAG_FIELDS.includes(field)) {
    if (text === 'true' || text === 'false') return { field, value: text === 'true' };
    return { problem: `${field} must be true or false, not ${quoted(text)}` };
  }
  if (field === 'reinforcement' && text === 'unknown') return { field, value: null };
  if (field === 'crossings') return readList({ field, text, item: readCrossing, form: 'NAME COUNT, such as "gas 2"' });
  if (field === 'occupiedBy') {
    return readList({ field, text, item: readOccupant, form: 'INSULATION SIZE COUNT, such as "thwn-2 6 3"' });
  }
  const words = WORD_FIELDS[field];
  if (!words) return { problem: unknownWord(field, PRINTED_FIELDS, 'is not a field of a leg; they are') };
  if (words.includes(text)) return { field, value: gathered(field, text) };
  return { problem: unknownWord(text, words, `is no ${field}; it is one of`) };
}

interface ListForm {
  field: string;
  text: string;
  item: (words: string[]) => object | undefined;
  form: string;
}

/** Reads the items of a list that is written in one field, by ",". */
function readList({ field, text, item, form }: ListForm): Reading {
  const items = text.trim() === '' ? [] : text.split(',').map((part) => item(part.trim().split(/\s+/)));
  if (items.some((read) => read === undefined)) {
    return { problem: `${field} must be items of the form ${form}, between commas, not ${quoted(text)}` };
  }
  return { field, value: items };
}

function readCrossing([what, count, ...rest]: string[]): object | undefined {
  if (rest.length > 0 || !(CROSSINGS as readonly (string | undefined)[]).includes(what)) return undefined;
  if (count === undefined) return { what };
  return NUMBER.test(count) ? { what, count: Number(count) } : undefined;
}

function readOccupant([insulation, size, count, ...rest]: string[]): object | undefined {
  if (rest.length > 0 || count === undefined || !NUMBER.test(count)) return undefined;
  if (!(CONDUCTOR_SIZES as readonly (string | undefined)[]).includes(size)) return undefined;
  return { insulation, size, count: Number(count) };
}

/** The text within quotes, or as it stands; undefined where quotes are not closed. */
function unquoted(written: string): string | undefined {
  if (!written.startsWith('"')) return written;
  try {
    const text: unknown = JSON.parse(written);
    return typeof text === 'string' ? text : undefined;
  } catch {
    return undefined; // said by the caller, who knows the field
  }
}

const LONGEST_QUOTE = 40;
const quoted = (word: string) =>
  JSON.stringify(word.length > LONGEST_QUOTE ? `${word.slice(0, LONGEST_QUOTE - 1)}…` : word);

function unknownWord(word: string, words: readonly string[], what: string): string {
  const meant = nearWord(word, words);
  if (meant !== undefined) return `${quoted(word)} is not understood; did you mean "${meant}"?`;
  return `${quoted(word)} ${what.endsWith('here') ? what : `${what} ${words.join(', ')}`}`;
}

/**
 * Prints legs as a route line: what is a default for the leg's kind is left out. Takes legs as stated or as the schema
 * returns them; reading the line gives the same legs again.
 */
export function printRouteLine(legs: readonly Readonly<StatedRouteLeg>[]): string {
  return legs.map(printLeg).join(', ');
}

function printLeg(leg: Readonly<StatedRouteLeg>): string {
  const words = PRINTED_FIELDS.filter((field) => isWorthPrinting(leg, field)).map((field) =>
    printField(field, leg[field]),
  );
  return [printLength(leg.lengthFt), String(leg.kind), ...words].join(' ');
}

function isWorthPrinting(leg: Readonly<StatedRouteLeg>, field: string): boolean {
  const value = leg[field];
  if (value === undefined) return false;
  const known = typeof leg.kind === 'string' && isLegKind(leg.kind) ? legDefaults(leg.kind) : {};
  const standard = ALWAYS[field] ?? known[field];
  return standard === undefined || JSON.stringify(asList(field, value)) !== JSON.stringify(standard);
}

/** One kind of soil may be stated as a text. */
const asList = (field: string, value: unknown) => (field === 'soil' && typeof value === 'string' ? [value] : value);

function printLength(lengthFt: unknown): string {
  if (typeof lengthFt !== 'object' || lengthFt === null) return String(lengthFt);
  const { low, likely, high } = lengthFt as Record<string, unknown>;
  return `${low}..${likely}..${high}`;
}

function printField(field: string, value: unknown): string {
  if (field === 'thicknessIn') return `${value}in`;
  if (field === 'reinforcement' && value === null) return 'reinforcement=unknown';
  if (field === 'soil') return [asList(field, value)].flat().map(String).join(' ');
  if (field === 'crossings' && Array.isArray(value)) return printCrossings(value);
  if (field === 'occupiedBy' && Array.isArray(value)) {
    const occupants: { insulation: string; size: string; count: number }[] = value;
    return `occupiedBy="${occupants.map(({ insulation, size, count }) => `${insulation} ${size} ${count}`).join(', ')}"`;
  }
  const text = String(value);
  if (field !== 'note' && FIELD_OF_WORD.get(text)?.length === 1) return text;
  return `${field}=${/^$|[\s,"\\]/.test(text) ? JSON.stringify(text) : text}`;
}

function printCrossings(crossings: readonly { what: string; count?: number }[]): string {
  const single = crossings.every(({ count = 1 }) => count === 1);
  if (single && crossings.length > 0) return crossings.map(({ what }) => what).join(' ');
  return `crossings="${crossings.map(({ what, count = 1 }) => (count === 1 ? what : `${what} ${count}`)).join(', ')}"`;
}
