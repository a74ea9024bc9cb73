import { stringify } from 'csv-stringify/sync';
import { type CsvRow, cellReader, type RefusedRow, readCsvTable, withoutFormula } from './csv-table.ts';
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
  'packageDate',
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
  'packageDate',
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

type Row = CsvRow;
/** The cell of a row in one of the columns. */
const cellOf = cellReader(PRICE_COLUMNS);

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
  const refusedKeys = new Set(table.refused.flatMap(({ cells }) => (cells && cellOf({ cells }, 'key')) || []));
  const items: PriceItemInput[] = [];
  for (const group of groupsOf(table.rows, (row) => cellOf(row, 'key'))) {
    const key = cellOf(group[0], 'key');
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
    packageDate: offer.date ?? '',
  };
}

/** Rows of one key that say different things of the item, or say the same package twice. */
function disagreements([first, ...more]: readonly [Row, ...Row[]]): RefusedRow[] {
  if (more.length === 0) return [];
  const key = cellOf(first, 'key');
  const packages = new Set([cellOf(first, 'package')]);
  return more.flatMap((other) => {
    const { row } = other;
    const column = ITEM_COLUMNS.find((name) => cellOf(other, name) !== cellOf(first, name));
    if (column) {
      const reason = `says ${column} ${shown(cellOf(other, column))} of "${key}", row ${first.row} says ${shown(cellOf(first, column))}`;
      return [{ row, reason }];
    }
    const name = cellOf(other, 'package');
    if (packages.has(name)) return [{ row, reason: `names the package ${shown(name)} of "${key}" again` }];
    packages.add(name);
    return [];
  });
}

/**
 * An item as its schema expects it. An empty cell is nothing stated; a word where a number belongs stays a word. Plain
 * fields, none spread into another object: a list has many rows.
 */
function itemOf(group: readonly [Row, ...Row[]]): Record<string, unknown> {
  const [row] = group;
  const item: Record<string, unknown> = {
    key: cellOf(row, 'key'),
    kind: cellOf(row, 'kind'),
    description: cellOf(row, 'description'),
    class: cellOf(row, 'class'),
    scope: cellOf(row, 'scope'),
    category: cellOf(row, 'category'),
    unit: cellOf(row, 'unit'),
    low: numberIn(cellOf(row, 'low')),
    likely: numberIn(cellOf(row, 'likely')),
    high: numberIn(cellOf(row, 'high')),
    date: cellOf(row, 'date'),
    region: cellOf(row, 'region'),
    source: cellOf(row, 'source'),
    offers: offersOf(group),
  };
  const spec = cellOf(row, 'spec');
  if (spec !== '') item.spec = readSpec(spec);
  const trade = cellOf(row, 'trade');
  if (trade !== '') item.trade = trade;
  const supplier = cellOf(row, 'supplier');
  if (supplier !== '') item.supplier = supplier;
  const available = cellOf(row, 'available');
  if (available !== '') item.available = yesOrNo(available);
  return item;
}

function offersOf(group: readonly Row[]): Record<string, unknown>[] {
  const offers: Record<string, unknown>[] = [];
  for (const row of group) if (hasOffer(row)) offers.push(offerOf(row));
  return offers;
}

const hasOffer = (row: Row) => OFFER_COLUMNS.some((column) => cellOf(row, column) !== '');

function offerOf(row: Row): Record<string, unknown> {
  const offer: Record<string, unknown> = {
    package: cellOf(row, 'package'),
    quantity: numberIn(cellOf(row, 'quantity')),
    lowCents: numberIn(cellOf(row, 'lowCents')),
    likelyCents: numberIn(cellOf(row, 'likelyCents')),
    highCents: numberIn(cellOf(row, 'highCents')),
  };
  const packageAvailable = cellOf(row, 'packageAvailable');
  if (packageAvailable !== '') offer.available = yesOrNo(packageAvailable);
  const date = cellOf(row, 'packageDate');
  if (date !== '') offer.date = date;
  return offer;
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

/** Fields of a package whose names an item has, too. */
const COLUMN_OF_OFFER: Readonly<Record<string, Column>> = { available: 'packageAvailable', date: 'packageDate' };
const columnOfOffer = (field: string) => COLUMN_OF_OFFER[field] ?? (field || 'package');
