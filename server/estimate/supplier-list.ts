import { cellReader, type RefusedRow, readCsvTable } from './csv-table.ts';
import { day } from './description/fields.ts';
import { shown } from './input-problems.ts';
import { toFourDecimals } from './money.ts';
import { BOUNDS } from './vocabulary.ts';

/**
 * What is read of a supplier's list. `unit` says what the price is by (ft, each, C for a hundred), `quantity` how many
 * units a package holds; without them a price is of the package.
 */
export const SUPPLIER_COLUMNS = ['part', 'price', 'package', 'date', 'description', 'unit', 'quantity'] as const;
export type SupplierColumn = (typeof SUPPLIER_COLUMNS)[number];
/** What a supplier calls the columns, where it is not our name for them. */
export type SupplierHeadings = Partial<Record<SupplierColumn, string>>;

const NEEDED: readonly SupplierColumn[] = ['part', 'price'];
const SHAPE = {
  columns: SUPPLIER_COLUMNS,
  needed: NEEDED,
  numbers: ['price', 'quantity'] as const,
  what: "supplier's list",
};

/** One price of a supplier's list: cents as of a day. Four decimals of a cent, for a foot costs little. */
export interface SupplierPrice {
  row: number;
  part: string;
  cents: number;
  package?: string;
  date?: string;
  description?: string;
  unit?: string;
  quantity?: number;
}

/** A supplier's list that was read: its prices, its headings, and the columns that were not found among them. */
export interface SupplierList {
  prices: SupplierPrice[];
  refused: RefusedRow[];
  headings: string[];
  missing: SupplierColumn[];
}

/**
 * Reads a supplier's list: CSV with part and price, the other columns where the supplier states them; what else stands
 * in it is left out. Prices are dollars, such as 12.50, with or without a $.
 * @param theirs  what the supplier calls the columns; without it they are called as ours
 */
export function parseSupplierCsv(text: string, theirs: SupplierHeadings = {}): SupplierList {
  const table = readCsvTable(text, { ...SHAPE, theirs: { headings: theirs } });
  const refused: RefusedRow[] = table.refused.map(({ row, reason }) => ({ row, reason }));
  const prices: SupplierPrice[] = [];
  const rowOf = new Map<string, number>();
  for (const line of table.rows) {
    const { row } = line;
    const cells = Object.fromEntries(SUPPLIER_COLUMNS.map((column) => [column, cellOf(line, column).trim()])) as Cells;
    const read = readPrice(row, cells);
    const named = `${cells.part}\n${cells.package}\n${cells.quantity}`;
    const before = rowOf.get(named);
    if (typeof read === 'string') refused.push({ row, reason: read });
    else if (before === undefined) prices.push(read);
    else refused.push({ row, reason: `names the part ${shown(cells.part)} again, after row ${before}` });
    rowOf.set(named, row);
  }
  const { headings, missing } = table;
  return { prices, refused: refused.sort((a, b) => a.row - b.row), headings, missing: missing as SupplierColumn[] };
}

const cellOf = cellReader(SUPPLIER_COLUMNS);
type Cells = Record<SupplierColumn, string>;

function readPrice(row: number, cells: Cells): SupplierPrice | string {
  const { part, price, package: name, date, description, unit, quantity } = cells;
  if (part === '') return 'names no part';
  const dollars = /^\$?\s*(\d+(?:\.\d{1,6})?)$/.exec(price)?.[1];
  if (dollars === undefined) return `price must be dollars, such as 12.50, not ${shown(price)}`;
  const cents = toFourDecimals(Number(dollars) * 100);
  if (cents > BOUNDS.maxCents) return `price must be at most ${BOUNDS.maxCents / 100} dollars, not ${shown(price)}`;
  if (date !== '' && !day().safeParse(date).success) {
    return `date must be a day that exists, such as 2026-03-02, not ${shown(date)}`;
  }
  const isCount = /^\d+(?:\.\d+)?$/.test(quantity) && Number(quantity) > 0;
  if (quantity !== '' && !isCount) return `quantity must be a number of units above 0, not ${shown(quantity)}`;
  return {
    row,
    part,
    cents,
    ...(name !== '' && { package: name }),
    ...(date !== '' && { date }),
    ...(description !== '' && { description }),
    ...(unit !== '' && { unit }),
    ...(isCount && { quantity: Number(quantity) }),
  };
}

/** Headings that lists often have, in small letters without signs. A list price is not what one pays: never proposed. */
const USUAL: Readonly<Record<SupplierColumn, readonly string[]>> = {
  part: ['part number', 'part no', 'part', 'item number', 'item no', 'item', 'catalog number', 'catalog no', 'sku'],
  price: ['net price', 'your price', 'net', 'unit price', 'price', 'cost'],
  package: ['package', 'packaging', 'pack size'],
  date: ['effective date', 'price date', 'valid from', 'date'],
  description: ['item description', 'description', 'name'],
  unit: ['price unit', 'unit of measure', 'uom', 'unit', 'per'],
  quantity: ['quantity per package', 'package quantity', 'pack qty', 'std pkg', 'quantity', 'qty'],
};

/** Which heading is probably which column: a proposal for somebody to look at, never taken without being said. */
export function proposedHeadings(headings: readonly string[]): SupplierHeadings {
  const plain = headings.map((heading) =>
    heading
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, ' ')
      .trim(),
  );
  const proposed: SupplierHeadings = {};
  for (const column of SUPPLIER_COLUMNS) {
    const usual = USUAL[column].find((words) => plain.includes(words));
    const heading = usual === undefined ? undefined : headings[plain.indexOf(usual)];
    if (heading !== undefined) proposed[column] = heading;
  }
  return proposed;
}
