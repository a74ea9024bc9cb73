import { cellReader, type RefusedRow, readCsvTable } from './csv-table.ts';
import { day } from './description/fields.ts';
import { groupsOf } from './groups.ts';
import { shown } from './input-problems.ts';
import { toFourDecimals } from './money.ts';
import type { Offer, PriceItemInput } from './price-book.ts';
import { withPricesOfPackages } from './unit-prices.ts';
import { BOUNDS } from './vocabulary.ts';

const COLUMNS = ['part', 'price', 'package', 'date'] as const;
const SHAPE = {
  columns: COLUMNS,
  needed: ['part', 'price'] as const,
  numbers: ['price'] as const,
  what: "supplier's list",
};

const cellOf = cellReader(COLUMNS);
type Cells = Record<(typeof COLUMNS)[number], string>;

/** One price of a supplier's list: cents, of a package, as of a day. Four decimals of a cent, for a foot costs little. */
export interface SupplierPrice {
  row: number;
  part: string;
  cents: number;
  package?: string;
  date?: string;
}

/**
 * Reads a supplier's list: CSV with the columns part and price, and package and date where the supplier states them.
 * Prices are dollars, such as 12.50, with or without a $.
 */
export function parseSupplierCsv(text: string): { prices: SupplierPrice[]; refused: RefusedRow[] } {
  const table = readCsvTable(text, SHAPE);
  const refused: RefusedRow[] = table.refused.map(({ row, reason }) => ({ row, reason }));
  const prices: SupplierPrice[] = [];
  const rowOf = new Map<string, number>();
  for (const line of table.rows) {
    const { row } = line;
    const cells = Object.fromEntries(COLUMNS.map((column) => [column, cellOf(line, column)])) as Cells;
    const read = readPrice(row, cells);
    const named = `${cells.part}\n${cells.package}`;
    const before = rowOf.get(named);
    if (typeof read === 'string') refused.push({ row, reason: read });
    else if (before === undefined) prices.push(read);
    else refused.push({ row, reason: `names the part ${shown(cells.part)} again, after row ${before}` });
    rowOf.set(named, row);
  }
  return { prices, refused: refused.sort((a, b) => a.row - b.row) };
}

function readPrice(
  row: number,
  { part, price, package: name, date }: Record<(typeof COLUMNS)[number], string>,
): SupplierPrice | string {
  if (part.trim() === '') return 'names no part';
  const dollars = /^\s*\$?\s*(\d+(?:\.\d{1,6})?)\s*$/.exec(price)?.[1];
  if (dollars === undefined) return `price must be dollars, such as 12.50, not ${shown(price)}`;
  const cents = toFourDecimals(Number(dollars) * 100);
  if (cents > BOUNDS.maxCents) return `price must be at most ${BOUNDS.maxCents / 100} dollars, not ${shown(price)}`;
  if (date !== '' && !day().safeParse(date).success) {
    return `date must be a day that exists, such as 2026-03-02, not ${shown(date)}`;
  }
  return { row, part: part.trim(), cents, ...(name !== '' && { package: name }), ...(date !== '' && { date }) };
}

/** Where the prices of a list go. */
export interface SupplierInput {
  supplier: string;
  prices: readonly SupplierPrice[];
  mapping: readonly { part: string; key: string; package?: string }[];
  /** The item of a key, as it is in the book; nothing where the book has none. */
  itemOf: (key: string) => PriceItemInput | undefined;
  /** YYYY-MM-DD: the day of prices that state none. */
  today: string;
}

/** Items with the supplier's prices, and the rows for which no item was found. */
export interface SupplierOutcome {
  matched: number;
  unmatched: (RefusedRow & { part: string })[];
  items: PriceItemInput[];
}

/**
 * Puts a supplier's prices into items. The price is the likely one; low and high keep their distance from it as shares,
 * for one list does not tell what other shops and other months ask. An item of which several packages are priced takes
 * the oldest of their days.
 */
export function withSupplierPrices({ supplier, prices, mapping, itemOf, today }: SupplierInput): SupplierOutcome {
  const byPart = new Map(mapping.map((one) => [one.part, one]));
  const unmatched: SupplierOutcome['unmatched'] = [];
  const placed: { item: PriceItemInput; price: SupplierPrice; offer: number | undefined }[] = [];
  for (const price of prices) {
    const { row, part } = price;
    const mapped = byPart.get(part);
    const item = mapped && itemOf(mapped.key);
    const reason = !mapped
      ? 'is not mapped to an item yet'
      : !item
        ? `is mapped to ${shown(mapped.key)}, which the book does not have`
        : undefined;
    if (!item || reason !== undefined) {
      unmatched.push({ row, part, reason: reason ?? 'has no item' });
      continue;
    }
    const offer = offerFor(item, price.package ?? mapped?.package);
    if (typeof offer === 'string') unmatched.push({ row, part, reason: offer });
    else placed.push({ item, price, offer });
  }
  const items = groupsOf(placed, ({ item }) => item.key).map((group) => priced(group, { supplier, today }));
  return { matched: placed.length, unmatched, items };
}

/** The place of the package that a price is of; nothing where the item has none, and why not where it is not clear. */
function offerFor({ key, offers }: PriceItemInput, wanted: string | undefined): number | undefined | string {
  const names = offers.map(({ package: name }) => shown(name)).join(', ');
  if (offers.length === 0) {
    return wanted === undefined ? undefined : `says the package ${shown(wanted)}, and "${key}" is sold by the unit`;
  }
  if (wanted === undefined) return offers.length === 1 ? 0 : `says no package, and "${key}" has ${names}`;
  const at = offers.findIndex(({ package: name }) => name === wanted);
  return at >= 0 ? at : `says the package ${shown(wanted)}, and "${key}" has ${names}`;
}

type Placed = { item: PriceItemInput; price: SupplierPrice; offer: number | undefined };

function priced(group: readonly [Placed, ...Placed[]], { supplier, today }: { supplier: string; today: string }) {
  const { item } = group[0];
  const dates = group.map(({ price }) => price.date ?? today).sort();
  const date = dates[0] ?? today;
  const stated = { date, supplier, source: sourceOf(supplier, date) };
  const ofUnit = group.find(({ offer }) => offer === undefined);
  if (ofUnit) return { ...item, ...stated, ...aroundUnit(item, ofUnit.price.cents) };
  const offers = item.offers.map((offer, at) => {
    const found = group.find((one) => one.offer === at);
    return found ? aroundPackage(offer, Math.round(found.price.cents)) : offer;
  });
  return { ...withPricesOfPackages({ ...item, offers }, item), ...stated };
}

function sourceOf(supplier: string, date: string): string {
  const source = `price list of ${supplier}, ${date}`;
  return source.length > BOUNDS.textLength ? `price list, ${date}` : source;
}

/** Points of a unit around a new likely price, their shares of it kept. */
function aroundUnit({ low, likely, high }: PriceItemInput, cents: number) {
  if (likely === 0) return { low: cents, likely: cents, high: cents };
  return { low: toFourDecimals((low / likely) * cents), likely: cents, high: toFourDecimals((high / likely) * cents) };
}

/** The same of a package, in whole cents. */
function aroundPackage(offer: Offer, cents: number): Offer {
  const { lowCents: low, likelyCents: likely, highCents: high } = offer;
  if (likely === 0) return { ...offer, lowCents: cents, likelyCents: cents, highCents: cents };
  const lowCents = Math.round(toFourDecimals((low / likely) * cents));
  const highCents = Math.round(toFourDecimals((high / likely) * cents));
  return { ...offer, lowCents, likelyCents: cents, highCents };
}
