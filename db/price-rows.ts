import type { Offer, PriceItem, PriceItemInput, Spec } from '../server/estimate/price-book.ts';

/** The columns that price_item and price_history share, in the order of the tables; `offers` and revisions apart. */
const SHARED_COLUMNS = [
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
  'trade',
  'date',
  'region',
  'source',
  'supplier',
  'available',
] as const;

/** `kind, description, …` for a statement, each with what stands before it. */
export function sharedColumns(before = ''): string {
  return SHARED_COLUMNS.map((column) => `${before}${column}`).join(', ');
}

/** `kind = excluded.kind, …`: takes over what an insert brings for a key that is there. */
export const SHARED_ASSIGNMENTS = SHARED_COLUMNS.map((column) => `${column} = excluded.${column}`).join(', ');

/** An item as it lies in a table; JSON as text, yes and no as 1 and 0. */
export interface ItemRow
  extends Pick<
    PriceItem,
    | 'key'
    | 'kind'
    | 'description'
    | 'class'
    | 'scope'
    | 'category'
    | 'unit'
    | 'low'
    | 'likely'
    | 'high'
    | 'date'
    | 'region'
    | 'source'
    | 'revision'
  > {
  spec: string | null;
  trade: PriceItem['trade'] | null;
  supplier: string | null;
  available: number;
}

/** One package as it lies in the table. */
export interface OfferRow {
  package: string;
  quantity: number;
  low_cents: number;
  likely_cents: number;
  high_cents: number;
  available: number;
}

/** What the tables hold of an item; the fields of a spec always in one order, so that equal specs are equal texts. */
export function rowOf(item: PriceItemInput): Omit<ItemRow, 'revision'> {
  const { key, kind, description, scope, category, unit, low, likely, high, spec, date, region, source } = item;
  return {
    ...{ key, kind, description, class: item.class, scope, category, unit, low, likely, high, date, region, source },
    spec: spec === undefined ? null : JSON.stringify(Object.fromEntries(Object.entries(spec).sort())),
    trade: item.trade ?? null,
    supplier: item.supplier ?? null,
    available: item.available ? 1 : 0,
  };
}

/** The values of the columns that price_item and price_history share, in the order of `sharedColumns`. */
export function sharedValues(item: PriceItemInput): (string | number | null)[] {
  const row = rowOf(item);
  return SHARED_COLUMNS.map((column) => row[column] ?? null);
}
/** A place for each of those values. */
export const SHARED_PLACES = SHARED_COLUMNS.map(() => '?').join(', ');

/** The packages of an item as the history keeps them. */
export function offersText(offers: readonly Offer[]): string {
  return JSON.stringify(
    offers.map(({ package: name, quantity, lowCents, likelyCents, highCents, available }) => {
      return { package: name, quantity, lowCents, likelyCents, highCents, available };
    }),
  );
}

/** A package of the table of packages. */
export function offerOf(row: OfferRow): Offer {
  return {
    package: row.package,
    quantity: row.quantity,
    lowCents: row.low_cents,
    likelyCents: row.likely_cents,
    highCents: row.high_cents,
    available: row.available === 1,
  };
}

/** An item as everybody else knows it. */
export function itemOf(row: ItemRow, offers: Offer[]): PriceItem {
  const { key, kind, description, scope, category, unit, low, likely, high, date, region, source, revision } = row;
  return {
    ...{ key, kind, description, class: row.class, scope, category, unit, low, likely, high },
    ...(row.spec !== null && { spec: JSON.parse(row.spec) as Spec }),
    offers,
    ...(row.trade !== null && { trade: row.trade }),
    ...{ date, region, source },
    ...(row.supplier !== null && { supplier: row.supplier }),
    available: row.available === 1,
    revision,
  };
}

/** Do two items say the same, whatever their revisions? */
export function isSame(before: PriceItemInput, after: PriceItemInput): boolean {
  const one = rowOf(before);
  const other = rowOf(after);
  const isAlike = (Object.keys(one) as (keyof typeof one)[]).every((column) => one[column] === other[column]);
  return isAlike && offersText(before.offers) === offersText(after.offers);
}
