import type { EstimateOption, Line } from '../estimate/answer.ts';
import { LINE_CLASSES, type Scope } from '../estimate/vocabulary.ts';
import type { Column, Row } from './table.ts';
import {
  capital,
  counted,
  exactDollars,
  legNumbers,
  number,
  quantityInWords,
  SCOPE_WORDS,
  unitPrice,
} from './wording.ts';

/** Scopes as one walks from the panel to the car, then what belongs to the whole job. */
const WALK: readonly Scope[] = [
  'service-upgrade',
  'load-management',
  'breaker',
  'wire',
  'boxes',
  'conduit',
  'trench',
  'hard-surface',
  'restoration',
  'panel',
  'grounding',
  'outlet',
  'charger',
  'permit',
  'travel',
  'other',
];

export const ITEM_COLUMNS: readonly Column[] = [
  { head: 'Item', share: 1 },
  { head: 'Legs', widthPt: 30 },
  { head: 'Quantity', widthPt: 36, align: 'right' },
  { head: '', widthPt: 40, set: 'small' },
  { head: 'Package', widthPt: 66 },
  { head: 'Unit price', widthPt: 46, align: 'right' },
  { head: 'Amount, $', widthPt: 54, align: 'right' },
];

/** Lines in one scope, with their sum in cents. */
export interface ScopeGroup {
  scope: Scope;
  lines: Line[];
  amountCents: number;
  complete: boolean;
}

/** The lines of an option by scope in walking order; material before labor, near legs before far ones. */
export function scopeGroups({ lines }: EstimateOption): ScopeGroup[] {
  return WALK.flatMap((scope): ScopeGroup[] => {
    const here = lines.filter((line) => line.scope === scope).sort(inGroup);
    if (here.length === 0) return [];
    const amountCents = here.reduce((sum, line) => sum + line.amountCents, 0);
    return [{ scope, lines: here, amountCents, complete: here.every(({ priced }) => priced) }];
  });
}

function inGroup(a: Line, b: Line): number {
  const byClass = LINE_CLASSES.indexOf(a.class) - LINE_CLASSES.indexOf(b.class);
  return byClass || (a.legs[0] ?? -1) - (b.legs[0] ?? -1);
}

/** Every line as a row, below the heading of its scope, which carries the scope's sum. */
export function itemRows(option: EstimateOption): Row[] {
  return scopeGroups(option).flatMap(({ scope, lines, amountCents, complete }): Row[] => [
    {
      kind: 'group',
      cells: [SCOPE_WORDS[scope], knownSum({ amountCents, complete })],
    },
    ...lines.map((line): Row => ({ cells: lineCells(line) })),
  ]);
}

/** A column's sum of which prices may be missing: never 0.00 where nothing is known. */
function knownSum({ amountCents, complete }: { amountCents: number; complete: boolean }): string {
  if (complete) return exactDollars(amountCents);
  return amountCents === 0 ? 'no price' : `over ${exactDollars(amountCents)}`;
}

function lineCells(line: Line): string[] {
  const { description, legs, unit, unitPriceCents, amountCents, priced, stale } = line;
  return [
    `${capital(description)}${stale ? ' *' : ''}`,
    legNumbers(legs),
    priced ? quantityInWords(line) : number(line.quantity),
    unit,
    packageInWords(line),
    priced ? unitPrice(unitPriceCents) : 'no price',
    priced ? exactDollars(amountCents) : 'no price',
  ];
}

/** The package that is sold, where its unit does not name it already, and what of all of it is left over. */
export function packageInWords({ package: pack, unit, leftOver, takenUnit }: Line): string {
  const words = (amount: number, of: string) => (of === 'each' ? number(amount, 1) : `${number(amount, 1)} ${of}`);
  const named = !pack || unit.split(' ').includes(String(pack.size)) || (pack.size === 1 && pack.unit === unit);
  const size = named ? [] : [pack.size === 1 && pack.unit === 'ft' ? 'by the foot' : words(pack.size, pack.unit)];
  return [...size, ...(pack && leftOver > 0.05 ? [`${words(leftOver, takenUnit)} left`] : [])].join('; ');
}

export const TOTAL_COLUMNS: readonly Column[] = [
  { head: 'Step', share: 1 },
  { head: 'Amount, $', widthPt: 80, align: 'right' },
];

/** The way from the lines to the net, step by step; steps that are zero are left out but for the classes. */
export function totalRows({ totals, labor, complete }: EstimateOption): Row[] {
  const hours = labor.hours > 0 ? `, ${number(labor.hours, 1)} h` : '';
  const row = (kind: Row['kind'], words: string, cents: number): Row => ({
    kind: kind ?? 'body',
    cells: [words, exactDollars(cents)],
  });
  const added = (words: string, cents: number): Row[] => (cents === 0 ? [] : [row('body', words, cents)]);
  return [
    row('body', 'Material', totals.materialCents),
    row('body', `Labor${hours}`, totals.laborCents),
    row('body', 'Equipment', totals.equipmentCents),
    row('body', 'Fees', totals.feeCents),
    row('sum', complete ? 'Cost of the work' : 'Cost of the work, without what has no price', totals.costCents),
    ...added('Markup', totals.markupCents),
    ...added('Overhead', totals.overheadCents),
    ...added('Contingency', totals.contingencyCents),
    ...added('Profit', totals.profitCents),
    ...added('Discount', -totals.discountCents),
    ...added('Tax', totals.taxCents),
    row('total', complete ? 'Total' : 'Total, incomplete: prices are missing', totals.totalCents),
    ...added('Incentives', -totals.incentiveCents),
    ...(totals.incentiveCents === 0 ? [] : [row('total', 'Net after incentives', totals.netCents)]),
  ];
}

export const SELLING_COLUMNS: readonly Column[] = [
  { head: 'Item', share: 1 },
  { head: 'Quantity', widthPt: 40, align: 'right' },
  { head: '', widthPt: 84, set: 'small' },
  { head: 'Amount, $', widthPt: 60, align: 'right' },
];

/**
 * What is bought, rented and paid at its selling price below the heading of its scope, with the labor of the scope as
 * one row, then what is taken off and put on: no hours, no unit costs, and nothing of how the price was made.
 */
export function sellingRows(option: EstimateOption): Row[] {
  const { discountCents, taxCents, totalCents } = option.totals;
  const together = exactDollars(totalCents - taxCents + discountCents);
  const priceOf = sellingPrices(option);
  const soldFor = (lines: readonly Line[]) => lines.reduce((sum, line) => sum + (priceOf.get(line) ?? 0), 0);
  const row = (words: string, cents: number): Row => ({ cells: [words, '', '', exactDollars(cents)] });
  const step = (words: string, cents: number): Row[] => (cents === 0 ? [] : [row(words, cents)]);
  const scopes = scopeGroups(option).flatMap(({ scope, lines }): Row[] => {
    const labor = lines.filter((line) => line.class === 'labor');
    return [
      { kind: 'group', cells: [SCOPE_WORDS[scope], exactDollars(soldFor(lines))] },
      ...lines
        .filter((line) => line.class !== 'labor')
        .map((line): Row => ({ cells: sellingCells(line, priceOf.get(line) ?? 0) })),
      ...(labor.length > 0 ? [row('Labor', soldFor(labor))] : []),
    ];
  });
  return [
    ...scopes,
    { kind: 'sum', cells: ['All items', '', '', together] },
    ...step('Discount', -discountCents),
    ...step('Tax', taxCents),
  ];
}

function sellingCells(line: Line, cents: number): string[] {
  const { description, unit } = line;
  return [capital(description), number(line.quantity), unit === 'each' ? '' : unit, exactDollars(cents)];
}

/** The price before discount and tax, in whole cents, spread over the lines by their cost, by largest remainders. */
function sellingPrices({ lines, totals }: EstimateOption): Map<Line, number> {
  const priceCents = BigInt(totals.totalCents - totals.taxCents + totals.discountCents);
  const costCents = lines.reduce((sum, { amountCents }) => sum + BigInt(amountCents), 0n);
  const shares = lines.map((line) => {
    const part = priceCents * BigInt(line.amountCents);
    return costCents === 0n ? { line, cents: 0n, rest: 0n } : { line, cents: part / costCents, rest: part % costCents };
  });
  const left = costCents === 0n ? 0n : priceCents - shares.reduce((sum, { cents }) => sum + cents, 0n);
  const roundedUp = new Set([...shares].sort((a, b) => Number(b.rest - a.rest)).slice(0, Number(left)));
  return new Map(shares.map((share) => [share.line, Number(share.cents) + (roundedUp.has(share) ? 1 : 0)]));
}

/** What the sums lack, in sentences: prices that are missing, and prices that are old. */
export function whatIsMissing({ lines }: EstimateOption): string[] {
  const unpriced = lines.filter(({ priced }) => !priced).length;
  const stale = lines.filter((line) => line.stale).length;
  return [
    ...(unpriced > 0
      ? [`${counted(unpriced, 'item has', 'items have')} no price: the sums are less than the work will cost.`]
      : []),
    ...(stale > 0
      ? [
          `${counted(stale, 'price', 'prices')} marked * ${stale === 1 ? 'is' : 'are'} older than the book's shelf life.`,
        ]
      : []),
    'Quantity × unit price is the amount; every step is rounded once, to the cent.',
  ];
}
