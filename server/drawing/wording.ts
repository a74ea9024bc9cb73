import type { Run } from '../estimate/answer.ts';
import type { LegKind } from '../estimate/vocabulary.ts';

/*
 * How numbers and kinds are written for people, on paper, on the page and in the terminal alike. Only signs that the
 * embedded fonts have.
 */

/** Half away from zero, as all money here. */
function roundedAway(value: number): number {
  return Math.sign(value) * Math.round(Math.abs(value)) + 0;
}

function grouped(digits: string): string {
  return digits.replace(/\B(?=(\d{3})+(?!\d))/g, ',');
}

/** Whole dollars, as ranges and comparisons show them: `$4,180`. */
export function wholeDollars(cents: number): string {
  const dollars = roundedAway(cents / 100);
  return `${dollars < 0 ? '−' : ''}$${grouped(String(Math.abs(dollars)))}`;
}

/** A sum of which prices may be missing: it is then `over $412`, and `no price` where nothing is known, never $0. */
export function knownMoney({ amountCents, complete }: { amountCents: number; complete: boolean }): string {
  if (complete) return wholeDollars(amountCents);
  return amountCents === 0 ? 'no price' : `over ${wholeDollars(amountCents)}`;
}

/** Dollars and cents without the sign, as columns show them that add up: `4,180.25`. Whole cents in. */
export function exactDollars(cents: number): string {
  const whole = Math.abs(roundedAway(cents));
  const dollars = grouped(String(Math.floor(whole / 100)));
  return `${cents < 0 && whole > 0 ? '−' : ''}${dollars}.${String(whole % 100).padStart(2, '0')}`;
}

/** A unit price, of which fractions of a cent count: `2.62`, `0.1875`. At most 4 decimals of a cent come in. */
export function unitPrice(cents: number): string {
  if (Number.isInteger(cents)) return exactDollars(cents);
  const [dollars = '0', fraction = ''] = (Math.abs(cents) / 100).toFixed(6).split('.');
  return `${cents < 0 ? '−' : ''}${grouped(dollars)}.${fraction.replace(/0{1,4}$/, '')}`;
}

/** A number with at most so many decimals, no zeros behind: `41`, `12.5`. */
export function number(value: number, decimals = 2): string {
  const [whole = '0', fraction = ''] = Math.abs(value).toFixed(decimals).split('.');
  const kept = fraction.replace(/0+$/, '');
  const sign = value < 0 && Number(`${whole}.${kept || 0}`) !== 0 ? '−' : '';
  return `${sign}${grouped(whole)}${kept ? `.${kept}` : ''}`;
}

/** A length in feet: `41 ft`, `12.5 ft`. */
export function feet(lengthFt: number): string {
  return `${number(lengthFt, 1)} ft`;
}

/** A length that is known or guessed: `41 ft`, `27 ft (24 to 32)`. */
export function guessedFeet(lengthFt: number | { low: number; likely: number; high: number }): string {
  if (typeof lengthFt === 'number') return feet(lengthFt);
  return `${feet(lengthFt.likely)} (${number(lengthFt.low, 1)} to ${number(lengthFt.high, 1)})`;
}

/** A conductor's size: `6 AWG`, `1/0 AWG`, `250 kcmil`. */
export function conductorSize(size: string): string {
  return !size.includes('/') && Number(size) >= 250 ? `${size} kcmil` : `${size} AWG`;
}

/** The conductors of a run in the order in which they carry: what it begins as where it changes, and what ends it. */
export function conductorsOf({ begins, conductor }: Pick<Run, 'begins' | 'conductor'>): Run['conductor'][] {
  return [...(begins ? [begins.conductor] : []), conductor];
}

/** The conductors of a run: `6 AWG copper`, or `1/0 AWG aluminum, then 2 AWG aluminum` where it changes at a splice. */
export function conductorsInWords(run: Pick<Run, 'begins' | 'conductor'>): string {
  return conductorsOf(run)
    .map(({ size, metal }) => `${conductorSize(size)} ${metal}`)
    .join(', then ');
}

/** A count and its word: `1 leg`, `2 legs`. */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${number(count)} ${count === 1 ? one : many}`;
}

const RACEWAYS: Record<string, string> = {
  'pvc-40': 'PVC',
  'pvc-80': 'PVC Sch. 80',
  emt: 'EMT',
  rmc: 'rigid steel',
};
const METHODS: Record<string, string> = {
  'nm-b': 'NM-B cable',
  ser: 'SER cable',
  'uf-b': 'UF-B cable',
  'direct-burial': 'direct burial',
  pvc: 'PVC',
  emt: 'EMT',
  rmc: 'rigid steel',
};

/** A wiring method in the trade's words, a raceway with its trade size: `NM-B cable`, `1-1/4 in PVC`. */
export function wiringMethod(leg: {
  method: string;
  conduit?: { type: string; tradeSize: string } | undefined;
}): string {
  const { method, conduit } = leg;
  if (!conduit) return METHODS[method] ?? method;
  return `${conduit.tradeSize} in ${RACEWAYS[conduit.type] ?? conduit.type}`;
}

/** What a leg goes through, in plain words. */
export const LEG_WORDS: Readonly<Record<LegKind, string>> = {
  joists: 'joists',
  'finished-ceiling': 'finished ceiling',
  'finished-wall': 'finished wall',
  crawlspace: 'crawlspace',
  attic: 'attic',
  'interior-surface': 'on the wall inside',
  'exterior-wall': 'outside wall',
  'under-deck': 'under the deck',
  'lawn-trench': 'lawn',
  'gravel-trench': 'gravel',
  'planting-bed': 'planting bed',
  'concrete-cut': 'concrete',
  'asphalt-cut': 'asphalt',
  'pavers-lift': 'pavers',
  bore: 'bore',
  'overhead-span': 'overhead',
  'existing-raceway': 'existing raceway',
};
