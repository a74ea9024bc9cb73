import { stringify } from 'csv-stringify/sync';
import { type CsvRow, type RefusedRow, readCsvTable, withoutFormula } from './csv-table.ts';
import { groupsOf } from './groups.ts';
import { InputError, readInput, shown } from './input-problems.ts';
import { PriceItemInput } from './price-book.ts';
import { readSpec, writeSpec } from './spec-text.ts';

/** The columns of a price list, in the order they are written. A row an offer, the item's columns repeated. */
export const PRICE_COLUMNS = [
  'key',
  'kind',
  'description',
  'class',
  'scope',
  'category',
  'unit',
  'low',
  'likely',
  'high',
  'spec',
  'package',
  'quantity',
  'lowCents',
  'likelyCents',
  'highCents',
  'packageAvailable',
  'trade',
  'date',
  'region',
  'source',
  'supplier',
  'available',
] as const;
type Column = (typeof PRICE_COLUMNS)[number];
type Cells = Record<Column, string>;

const OFFER_COLUMNS: readonly Column[] = [
  'package',
  'quantity',
  'lowCents',
  'likelyCents',
  'highCents',
  'packageAvailable',
];
const ITEM_COLUMNS = PRICE_COLUMNS.filter((column) => !OFFER_COLUMNS.includes(column));
/** Columns without which no row says anything; the others may be left out of the file. */
const NEEDED: readonly Column[] = [
  'key',
  'kind',
  'description',
  'class',
  'scope',
  'category',
  'unit',
  'low',
  'likely',
  'high',
  'date',
  'region',
  'source',
];

const NUMBERS: readonly Column[] = ['low', 'likely', 'high', 'quantity', 'lowCents', 'likelyCents', 'highCents'];
const SHAPE = { columns: PRICE_COLUMNS, needed: NEEDED, numbers: NUMBERS, what: 'price list' };

export type { RefusedRow } from './csv-table.ts';

type Row = CsvRow<Column>;

/** A price list that was read: its items, the rows that were not taken, and the keys that stand in those. */
export interface PriceList {
  items: PriceItemInput[];
  refused: RefusedRow[];
  refusedKeys: string[];
}

/**
 * Reads a price list. Rows of one key are one item with several offers; an item of which one row is refused is left
 * out whole, so that no item comes in with half its packages.
 * @param text  CSV with a heading row, as `writePriceCsv` writes it; columns in any order
 * @returns     the items as the price book's schema reads them, and the rows that were not taken
 */
export function parsePriceCsv(text: string): PriceList {
  const table = readCsvTable(text, SHAPE);
  const refused: RefusedRow[] = table.refused.map(({ row, reason }) => ({ row, reason }));
  const refusedKeys = new Set(table.refused.flatMap(({ cells }) => cells?.key || []));
  const items: PriceItemInput[] = [];
  for (const group of groupsOf(table.rows, ({ cells }) => cells.key)) {
    const { key } = group[0].cells;
    const read = refusedKeys.has(key) ? [] : readGroup(group);
    if (!Array.isArray(read)) items.push(read);
    else {
      refused.push(...read);
      refusedKeys.add(key);
    }
  }
  return { items, refused: refused.sort((a, b) => a.row - b.row), refusedKeys: [...refusedKeys] };
}

/** The item of the rows of one key, or why they make none. */
function readGroup(group: readonly [Row, ...Row[]]): PriceItemInput | RefusedRow[] {
  const problems = disagreements(group);
  if (problems.length > 0) return problems;
  try {
    return readInput(PriceItemInput, itemOf(group));
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return refusalsOf(error, group);
  }
}

/** Prints items as a price list that `parsePriceCsv` reads back to the same items. */
export function writePriceCsv(items: readonly PriceItemInput[]): string {
  const rows = items.flatMap((item) => {
    const cells = itemCells(item);
    if (item.offers.length === 0) return [cells];
    return item.offers.map((offer) => ({ ...cells, ...offerCells(offer) }));
  });
  const harmless = rows.map((cells) => PRICE_COLUMNS.map((column) => withoutFormula(cells[column] ?? '')));
  return stringify([[...PRICE_COLUMNS], ...harmless], { record_delimiter: '\n' });
}

function itemCells(item: PriceItemInput): Partial<Cells> {
  const { key, kind, description, scope, category, unit, date, region, source } = item;
  return {
    ...{ key, kind, description, scope, category, unit, date, region, source },
    class: item.class,
    low: String(item.low),
    likely: String(item.likely),
    high: String(item.high),
    spec: item.spec ? writeSpec(item.spec) : '',
    trade: item.trade ?? '',
    supplier: item.supplier ?? '',
    available: item.available ? 'yes' : 'no',
  };
}

function offerCells(offer: PriceItemInput['offers'][number]): Partial<Cells> {
  return {
    package: offer.package,
    quantity: String(offer.quantity),
    lowCents: String(offer.lowCents),
    likelyCents: String(offer.likelyCents),
    highCents: String(offer.highCents),
    packageAvailable: offer.available ? 'yes' : 'no',
  };
}

/** Rows of one key that say different things of the item, or say the same package twice. */
function disagreements([first, ...more]: readonly Row[]): RefusedRow[] {
  if (!first) return [];
  const packages = new Set([first.cells.package]);
  return more.flatMap(({ row, cells }) => {
    const column = ITEM_COLUMNS.find((name) => cells[name] !== first.cells[name]);
    if (column) {
      const reason = `says ${column} ${shown(cells[column])} of "${cells.key}", row ${first.row} says ${shown(first.cells[column])}`;
      return [{ row, reason }];
    }
    if (packages.has(cells.package))
      return [{ row, reason: `names the package ${shown(cells.package)} of "${cells.key}" again` }];
    packages.add(cells.package);
    return [];
  });
}

/** An item as its schema expects it. An empty cell is nothing stated; a word where a number belongs stays a word. */
function itemOf(group: readonly Row[]): Record<string, unknown> {
  const cells = group[0]?.cells;
  if (!cells) return {};
  const { key, kind, description, scope, category, unit, date, region, source } = cells;
  return {
    ...{ key, kind, description, scope, category, unit, date, region, source },
    class: cells.class,
    low: numberIn(cells.low),
    likely: numberIn(cells.likely),
    high: numberIn(cells.high),
    ...(cells.spec && { spec: readSpec(cells.spec) }),
    ...(cells.trade && { trade: cells.trade }),
    ...(cells.supplier && { supplier: cells.supplier }),
    ...(cells.available && { available: yesOrNo(cells.available) }),
    offers: group.filter(hasOffer).map(offerOf),
  };
}

const hasOffer = ({ cells }: Row) => OFFER_COLUMNS.some((column) => cells[column] !== '');

function offerOf({ cells }: Row): Record<string, unknown> {
  return {
    package: cells.package,
    quantity: numberIn(cells.quantity),
    lowCents: numberIn(cells.lowCents),
    likelyCents: numberIn(cells.likelyCents),
    highCents: numberIn(cells.highCents),
    ...(cells.packageAvailable && { available: yesOrNo(cells.packageAvailable) }),
  };
}

function numberIn(cell: string): unknown {
  if (cell === '') return undefined;
  return /^\s*-?\d+(?:\.\d+)?\s*$/.test(cell) ? Number(cell) : cell;
}

function yesOrNo(cell: string): unknown {
  const word = cell.trim().toLowerCase();
  if (word === 'yes' || word === 'true') return true;
  return word === 'no' || word === 'false' ? false : cell;
}

/** Each problem at the row it stands in, with the name of its column. */
function refusalsOf(error: InputError, group: readonly Row[]): RefusedRow[] {
  const offers = group.filter(hasOffer);
  return error.problems.map(({ path, message }) => {
    const inOffer = /^offers\.(\d+)\.?(.*)$/.exec(path);
    const place = inOffer ? offers[Number(inOffer[1])] : group[0];
    const column = inOffer ? columnOfOffer(inOffer[2] ?? '') : path;
    return { row: place?.row ?? 1, reason: `${column} ${message}` };
  });
}

const columnOfOffer = (field: string) => (field === 'available' ? 'packageAvailable' : field || 'package');
