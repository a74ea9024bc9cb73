import { CsvError, parse } from 'csv-parse/sync';
import { stringify } from 'csv-stringify/sync';
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

/** A row that was not taken, by its place in the file: the heading is row 1, a quoted line break starts no row. */
export interface RefusedRow {
  row: number;
  reason: string;
}
interface Row {
  row: number;
  cells: Cells;
}

/**
 * Reads a price list. Rows of one key are one item with several offers; an item of which one row is refused is left
 * out whole, so that no item comes in with half its packages.
 * @param text  CSV with a heading row, as `writePriceCsv` writes it; columns in any order
 * @returns     the items as the price book's schema reads them, and the rows that were not taken
 */
export function parsePriceCsv(text: string): { items: PriceItemInput[]; refused: RefusedRow[] } {
  const { rows, refused } = readRows(text);
  const items: PriceItemInput[] = [];
  for (const group of groupsOf(rows, ({ cells }) => cells.key)) {
    const problems = disagreements(group);
    if (problems.length > 0) {
      refused.push(...problems);
      continue;
    }
    try {
      items.push(readInput(PriceItemInput, itemOf(group)));
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      refused.push(...refusalsOf(error, group));
    }
  }
  return { items, refused: refused.sort((a, b) => a.row - b.row) };
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

/** What a spreadsheet would take for a formula is written with an apostrophe before it; one more where there is one. */
function withoutFormula(text: string): string {
  return /^'*[=+\-@\t\r]/.test(text) ? `'${text}` : text;
}

/** Takes the apostrophe off again that `withoutFormula` wrote. */
function asWritten(text: string): string {
  return /^'+[=+\-@\t\r]/.test(text) ? text.slice(1) : text;
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

/** The rows below the heading as cells by column; what cannot be read as such is refused. */
function readRows(text: string): { rows: Row[]; refused: RefusedRow[] } {
  const records = readRecords(text);
  if (records instanceof CsvError) return { rows: [], refused: [unreadable(records)] };
  const [heading = [], ...below] = records;
  const columns = heading.map((name) => name.trim());
  const wrong = headingProblem(columns);
  if (wrong) return { rows: [], refused: [{ row: 1, reason: wrong }] };
  const rows: Row[] = [];
  const refused: RefusedRow[] = [];
  below.forEach((record, at) => {
    const row = at + 2;
    if (record.every((cell) => cell.trim() === '')) return;
    if (record.length !== columns.length) {
      refused.push({ row, reason: `has ${record.length} cells where the heading has ${columns.length}` });
      return;
    }
    const cells = Object.fromEntries(PRICE_COLUMNS.map((column) => [column, ''])) as Cells;
    columns.forEach((column, place) => {
      cells[column as Column] = asWritten(record[place] ?? '');
    });
    rows.push({ row, cells });
  });
  return { rows, refused };
}

function readRecords(text: string): string[][] | CsvError {
  try {
    return parse(text, { bom: true, relax_column_count: true });
  } catch (error) {
    if (error instanceof CsvError) return error;
    throw error;
  }
}

function unreadable(error: CsvError): RefusedRow {
  const row = typeof error.lines === 'number' ? error.lines : 1;
  return { row, reason: `cannot be read as CSV: ${error.message}` };
}

function headingProblem(columns: readonly string[]): string | undefined {
  const unknown = columns.filter((column) => !(PRICE_COLUMNS as readonly string[]).includes(column));
  if (unknown.length > 0) {
    return `has columns that a price list does not have: ${unknown.map(shown).join(', ')}; it has ${PRICE_COLUMNS.join(', ')}`;
  }
  const missing = NEEDED.filter((column) => !columns.includes(column));
  if (missing.length > 0) return `has no column ${missing.join(', ')}`;
  const twice = columns.filter((column, at) => columns.indexOf(column) !== at);
  return twice.length > 0 ? `has the column ${twice[0]} twice` : undefined;
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
