import { refusedFile } from './meter-file.ts';
import { clockOf, dayAndClockOf, dayOf, dayWithClockOf } from './times.ts';

/** Units that a meter's file may state; average power becomes energy by the length of an interval. */
export const METER_UNITS = { kWh: 1, Wh: 0.001, MWh: 1000, kW: 1, W: 0.001 } as const;
export type MeterUnit = keyof typeof METER_UNITS;

/** Does a unit count average power, not energy? */
export const isPower = (unit: MeterUnit): boolean => unit === 'kW' || unit === 'W';

/** What the columns of a meter's file are, by place. */
export interface MeterColumns {
  names: readonly string[];
  /** A start in one cell, or a day and a time of day in two. */
  start: { whole: number } | { day: number; clock: number };
  amount: number;
  /** What the heading says; else a column says it row by row. */
  unit: MeterUnit | { column: number };
  /** What is sent back, where the file tells it apart. */
  sentBack: number | undefined;
}

/** A heading as it is compared: lower case, words apart. */
const wordsOf = (name: string) =>
  name
    .toLowerCase()
    .replace(/[^a-z0-9/]+/g, ' ')
    .trim();

const IS_START =
  /^(?:(?:interval|period|reading|usage|read) )?(?:start|begin|from)\b|^date ?\/? ?time\b|\bdatetime\b|time ?stamp/;
const IS_DAY = /\b(?:date|day)\b/;
const IS_CLOCK = /\b(?:time|hour)\b/;
const IS_END = /\b(?:end|ending|stop|to|through|bill|billing|due)\b/;
const IS_SENT_BACK =
  /\b(?:export(?:ed|s)?|sent|received|returned|generation|generated|produced|production|solar|surplus)\b/;
const IS_AMOUNT =
  /\b(?:kwh|wh|mwh|kw|usage|used|consumption|consumed|energy|delivered|imported?|amount|value|demand)\b/;
const IS_NO_AMOUNT =
  /\b(?:cost|price|charge|rate|tariff|temp(?:erature)?|units?|uom|type|quality|estimated|flag|notes?|\$)\b/;
const IS_UNIT = /^(?:units?|uom|unit of measure)$/;

/**
 * Finds what each column is by the common words of headings; a row below the heading tells whether a start has its day
 * with it.
 * @returns nothing where it is no heading: files often begin with lines about the account
 */
export function columnsOf(names: readonly string[], first: readonly string[]): MeterColumns | undefined {
  const words = names.map(wordsOf);
  const start = startOf(words, first);
  if (start === undefined) return undefined;
  const amount = amountOf(words, names);
  if (amount === undefined) return undefined;
  const unitColumn = words.findIndex((name) => IS_UNIT.test(name));
  const unit = unitInHeading(names[amount] ?? '') ?? (unitColumn >= 0 ? { column: unitColumn } : undefined);
  if (unit === undefined) return undefined;
  const sentBack = words.findIndex((name, at) => at !== amount && IS_SENT_BACK.test(name) && !IS_NO_AMOUNT.test(name));
  return { names, start, amount, unit, sentBack: sentBack >= 0 ? sentBack : undefined };
}

function startOf(words: readonly string[], first: readonly string[]): MeterColumns['start'] | undefined {
  const isMeant = (at: number, kind: RegExp) => kind.test(words[at] ?? '') && !IS_END.test(words[at] ?? '');
  const places = words.map((_, at) => at);
  const cell = (at: number) => first[at] ?? '';
  const whole = [
    ...places.filter((at) => isMeant(at, IS_START)),
    ...places.filter((at) => isMeant(at, IS_DAY)),
    ...places.filter((at) => isMeant(at, IS_CLOCK)),
  ].find((at) => dayAndClockOf(cell(at)) !== undefined);
  if (whole !== undefined) return { whole };
  const day = places.find((at) => isMeant(at, IS_DAY) && dayOf(cell(at)) !== undefined);
  const clock = places.find(
    (at) => (isMeant(at, IS_START) || isMeant(at, IS_CLOCK)) && clockOf(cell(at)) !== undefined,
  );
  return day === undefined || clock === undefined ? undefined : { day, clock };
}

/**
 * The column of what was drawn: one that names a unit before one that only says usage.
 * @throws {InputError} where several would do and none alone is the total: a part of the load would be taken for all of it;
 * and where what was sent back is taken off already
 */
function amountOf(words: readonly string[], names: readonly string[]): number | undefined {
  const candidates = words
    .map((name, at) => ({ name, at }))
    .filter(({ name }) => IS_AMOUNT.test(name) && !IS_NO_AMOUNT.test(name) && !IS_SENT_BACK.test(name));
  const ranked = [
    candidates.filter(({ name }) => /\bm?wh|kwh\b/.test(name)),
    candidates.filter(({ name }) => /\bkw\b/.test(name)),
    candidates,
  ];
  const alike = ranked.find((some) => some.length > 0) ?? [];
  const totals = alike.filter(({ name }) => /\btotal\b/.test(name));
  const [best, another] = totals.length === 1 ? totals : alike;
  if (another) {
    const said = alike.map(({ at }) => `"${names[at]}"`).join(', ');
    throw refusedFile(`has several columns of what was used, ${said}: keep the one that holds all of it`);
  }
  if (best && /\bnet\b/.test(best.name))
    throw refusedFile(
      `has net amounts in "${names[best.at]}": what was sent back hides what was drawn. Save what was delivered`,
    );
  return best?.at;
}

/** A unit that stands in a heading: `Usage (kWh)`, `kW`. */
function unitInHeading(name: string): MeterUnit | undefined {
  return wordsOf(name)
    .split(' ')
    .map(unitOf)
    .find((unit) => unit !== undefined);
}

/** A unit by its name, however it is capitalized. */
export function unitOf(written: string): MeterUnit | undefined {
  const text = written.trim().toLowerCase();
  return (Object.keys(METER_UNITS) as MeterUnit[]).find((unit) => unit.toLowerCase() === text);
}

/** The start that a row states, as ISO 8601 writes it. */
export function startAt({ start }: MeterColumns, cells: readonly string[]): string | undefined {
  if ('whole' in start) return dayAndClockOf(cells[start.whole] ?? '');
  return dayWithClockOf(cells[start.day] ?? '', cells[start.clock] ?? '');
}

/** The heading of the start's column, or of both, and what a row has there. */
export function startWords({ start, names }: MeterColumns, cells: readonly string[] = []) {
  const places = 'whole' in start ? [start.whole] : [start.day, start.clock];
  return {
    column: places.map((at) => names[at]).join(' and '),
    written: places.map((at) => cells[at] ?? '').join(' '),
  };
}
