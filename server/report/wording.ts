import { conductorsInWords, counted, knownMoney, number, wholeDollars } from '../drawing/wording.ts';
import type { Citation, EstimateOption, Finding, Line, Run } from '../estimate/answer.ts';
import type { Scope } from '../estimate/vocabulary.ts';

export {
  conductorSize,
  conductorsInWords,
  conductorsOf,
  counted,
  exactDollars,
  feet,
  guessedFeet,
  knownMoney,
  LEG_WORDS,
  number,
  unitPrice,
  wholeDollars,
  wiringMethod,
} from '../drawing/wording.ts';

const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
] as const;

/** A day as YYYY-MM-DD in words: `April 14, 2026`. */
export function dayInWords(day: string): string {
  const [year = '', month = '', date = ''] = day.split('-');
  return `${MONTHS[Number(month) - 1] ?? month} ${Number(date)}, ${year}`;
}

/**
 * A line's quantity with as many decimals, 2 to 4, as give its amount again when a reader multiplies what is printed;
 * all 4 where a least charge decides.
 */
export function quantityInWords({
  quantity,
  unitPriceCents,
  amountCents,
}: Pick<Line, 'quantity' | 'unitPriceCents' | 'amountCents'>): string {
  const multiplies = (decimals: number) =>
    Math.round(Number((Number(quantity.toFixed(decimals)) * unitPriceCents).toFixed(6))) === amountCents;
  return number(quantity, [2, 3].find(multiplies) ?? 4);
}

/** Units that are counted, and take an s; measures such as ft do not. */
const COUNTED_UNITS =
  /^(?:job|panel|run|termination|inspection|day|trip|load|hole|place|pair|opening|service|mile|unit)$/;

/** Powers of lengths as they are set: `ft2` is `ft²`. */
export function withPowers(words: string): string {
  return words.replace(/\b(ft|yd)2\b/g, '$1²').replace(/\b(ft|yd)3\b/g, '$1³');
}

/** A quantity of work with its unit: `12`, `5 ft²`, `3 runs`, `2.6 × 10-ft stick`. At most so many decimals. */
export function amountInWords({ quantity, unit }: { quantity: number; unit: string }, decimals = 1): string {
  const amount = number(quantity, decimals);
  if (unit === 'each') return amount;
  if (/^\d/.test(unit)) return `${amount} × ${unit}`;
  const isPlural = COUNTED_UNITS.test(unit) && amount !== '1';
  return `${amount} ${withPowers(unit)}${isPlural ? 's' : ''}`;
}

/** So much of a task as lies there: what is dug or cut, not what its hours are reckoned for. */
export function taskInPlace({
  quantity,
  inPlace,
  unit,
}: {
  quantity: number;
  inPlace?: number | undefined;
  unit: string;
}) {
  return amountInWords({ quantity: inPlace ?? quantity, unit });
}

/** With a capital letter first. */
export function capital(words: string): string {
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}`;
}

/** With a capital letter first and a stop behind. */
export function sentence(words: string): string {
  return /[.!?:]$/.test(words) ? capital(words) : `${capital(words)}.`;
}

/** A difference in money: `$214 more`, `$38 less`, `the same`. Whole cents in. */
export function moreOrLess(cents: number): string {
  const dollars = wholeDollars(Math.abs(cents));
  if (dollars === '$0') return 'about the same';
  return `${dollars} ${cents < 0 ? 'less' : 'more'}`;
}

/** Where a rule stands: `NEC 2023, 300.5(A)`. */
export function citationInWords({ code, edition, article }: Citation): string {
  return `${code} ${edition}, ${article}`;
}

/** Legs as they are numbered on the drawing, from 1: `3`, `1–3`, `2, 4–6`. Indices from 0 come in. */
export function legNumbers(legs: readonly number[]): string {
  const sorted = [...new Set(legs)].sort((a, b) => a - b);
  const spans: [number, number][] = [];
  for (const leg of sorted) {
    const last = spans.at(-1);
    if (last && last[1] === leg - 1) last[1] = leg;
    else spans.push([leg, leg]);
  }
  return spans.map(([from, to]) => (from === to ? `${from + 1}` : `${from + 1}–${to + 1}`)).join(', ');
}

/** What a scope of work is called as a heading. */
export const SCOPE_WORDS: Readonly<Record<Scope, string>> = {
  wire: 'Wire and cable',
  conduit: 'Conduit',
  boxes: 'Boxes and passages',
  panel: 'Panel',
  breaker: 'Breakers',
  outlet: 'Outlet',
  charger: 'Charger',
  trench: 'Trench',
  'hard-surface': 'Hard surfaces',
  restoration: 'Restoration',
  grounding: 'Grounding',
  permit: 'Permit and inspections',
  'service-upgrade': 'Service upgrade',
  'load-management': 'Load management',
  travel: 'Travel',
  other: 'Other',
};

/** A run's device and conductor: `60 A, 6 AWG copper`. */
export function breakerAndWire(run: Run): string {
  return `${run.ocpdA} A, ${conductorsInWords(run)}`;
}

/**
 * The money of an option as one sentence: its range where it was computed, and a missing price said, never hidden.
 * @returns `$4,180 to $6,900, half of the time below $5,240`
 */
export function rangeInWords({ range, complete, totals }: EstimateOption): string {
  if (!complete) return `${knownMoney({ amountCents: totals.totalCents, complete })}: prices are missing`;
  if (!range) return `${wholeDollars(totals.totalCents)} at likely prices; its range was not computed`;
  return `${wholeDollars(range.p10Cents)} to ${wholeDollars(range.p90Cents)}, half of the time below ${wholeDollars(range.p50Cents)}`;
}

/** Hours of work and days of crew: `58.2 h, 8 working days`. */
export function workInWords({ labor }: EstimateOption): string {
  const owner = labor.ownerHours > 0 ? `, ${number(labor.ownerHours, 1)} h of it by the owner` : '';
  return `${number(labor.hours, 1)} h, ${counted(labor.workingDays, 'working day')}${owner}`;
}

const SEVERITY_ORDER = ['stop', 'caution', 'note', 'ok'] as const;

/** Findings in order of weight: stop, caution, note, ok; as found within each. */
export function byWeight(findings: readonly Finding[]): Finding[] {
  return SEVERITY_ORDER.flatMap((severity) => findings.filter((finding) => finding.severity === severity));
}

/** A rule's name in words: `cover depth`, `PVC expansion`. */
export function ruleInWords(rule: string): string {
  return rule.replaceAll('-', ' ').replace(/\b(?:pvc|gfci|emt|rmc|nm|uf)\b/g, (letters) => letters.toUpperCase());
}

/** A voltage drop: `1.9 %`, `< 0.1 %`. */
export function dropInWords(percent: number): string {
  return percent > 0 && percent < 0.05 ? '< 0.1 %' : `${number(percent, 1)} %`;
}
