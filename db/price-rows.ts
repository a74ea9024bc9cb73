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
  date: string | null;
}

/** The fields of a spec as text, always in one order, so that equal specs are equal texts. */
function specOf(spec: Spec | undefined): string | null {
  return spec === undefined ? null : JSON.stringify(Object.fromEntries(Object.entries(spec).sort()));
}

/** The values of the columns that price_item and price_history share, in the order of `sharedColumns`. */
export function sharedValues(item: PriceItemInput): (string | number | null)[] {
  return [
    item.kind,
    item.description,
    item.class,
    item.scope,
    item.category,
    item.unit,
    item.low,
    item.likely,
    item.high,
    specOf(item.spec),
    item.trade ?? null,
    item.date,
    item.region,
    item.source,
    item.supplier ?? null,
    item.available ? 1 : 0,
  ];
}
/** A place for each of those values. */
export const SHARED_PLACES = SHARED_COLUMNS.map(() => '?').join(', ');

/** The packages of an item as the history keeps them. */
export function offersText(offers: readonly Offer[]): string {
  return JSON.stringify(
    offers.map(({ package: name, quantity, lowCents, likelyCents, highCents, available, date }) => {
      return { package: name, quantity, lowCents, likelyCents, highCents, available, date }; // no day is not written
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
    ...(row.date !== null && { date: row.date }),
  };
}

/** An item as everybody else knows it. */
export function itemOf(row: ItemRow, offers: Offer[]): PriceItem {
  const item: PriceItem = {
    key: row.key,
    kind: row.kind,
    description: row.description,
    class: row.class,
    scope: row.scope,
    category: row.category,
    unit: row.unit,
    low: row.low,
    likely: row.likely,
    high: row.high,
    offers,
    date: row.date,
    region: row.region,
    source: row.source,
    available: row.available === 1,
    revision: row.revision,
  };
  if (row.spec !== null) item.spec = JSON.parse(row.spec) as Spec;
  if (row.trade !== null) item.trade = row.trade;
  if (row.supplier !== null) item.supplier = row.supplier;
  return item;
}

/** Do two items say the same, whatever their revisions? */
export function isSame(before: PriceItemInput, after: PriceItemInput): boolean {
  if (before.key !== after.key) return false;
  const one = sharedValues(before);
  const other = sharedValues(after);
  return one.every((value, at) => value === other[at]) && hasSameOffers(before.offers, after.offers);
}

function hasSameOffers(before: readonly Offer[], after: readonly Offer[]): boolean {
  if (before.length !== after.length) return false;
  return before.every((one, at) => {
    const other = after[at];
    return (
      one.package === other?.package &&
      one.quantity === other.quantity &&
      one.lowCents === other.lowCents &&
      one.likelyCents === other.likelyCents &&
      one.highCents === other.highCents &&
      one.available === other.available &&
      one.date === other.date
    );
  });
}
