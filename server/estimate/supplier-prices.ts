import type { RefusedRow } from './csv-table.ts';
import { groupsOf } from './groups.ts';
import { shown } from './input-problems.ts';
import { toFourDecimals } from './money.ts';
import { withOldestDay } from './offer-days.ts';
import type { Offer, PriceItemInput } from './price-book.ts';
import type { SupplierPrice } from './supplier-list.ts';
import { pricedBy } from './supplier-units.ts';
import { withPricesOfPackages } from './unit-prices.ts';
import { BOUNDS } from './vocabulary.ts';

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
  unmatched: (RefusedRow & { part: string; description?: string })[];
  items: PriceItemInput[];
}

/**
 * Puts a supplier's prices into items. The price is the likely one; low and high keep their distance from it as shares,
 * for one list does not tell what other shops and other months ask. Each package keeps the day of its own price.
 */
export function withSupplierPrices({ supplier, prices, mapping, itemOf, today }: SupplierInput): SupplierOutcome {
  const byPart = new Map(mapping.map((one) => [one.part, one]));
  const unmatched: SupplierOutcome['unmatched'] = [];
  const found: Placed[] = [];
  for (const price of prices) {
    const { row, part, description } = price;
    const mapped = byPart.get(part);
    const item = mapped && itemOf(mapped.key);
    const at = !mapped
      ? 'is not mapped to an item yet'
      : item
        ? placed(price, item, mapped.package)
        : `is mapped to ${shown(mapped.key)}, which the book does not have`;
    if (typeof at !== 'string') found.push(at);
    else unmatched.push({ row, part, reason: at, ...(description !== undefined && { description }) });
  }
  const items = groupsOf(found, ({ item }) => item.key).map((group) => priced(group, { supplier, today }));
  return { matched: found.length, unmatched, items };
}

/** The place of the package that a price is of; nothing where the item has none, and why not where it is not clear. */
function offerFor(item: PriceItemInput, price: SupplierPrice, mapped: string | undefined): number | undefined | string {
  const { key, offers } = item;
  const wanted = price.package ?? mapped;
  const names = offers.map(({ package: name }) => shown(name)).join(', ');
  if (offers.length === 0) {
    return wanted === undefined ? undefined : `says the package ${shown(wanted)}, and "${key}" is sold by the unit`;
  }
  const { quantity } = price;
  if (wanted === undefined) {
    const alike = offers.filter((offer) => quantity === undefined || offer.quantity === quantity);
    const [only] = alike;
    if (only && alike.length === 1) return offers.indexOf(only);
    const said = quantity === undefined ? 'no package' : `a package of ${quantity}`;
    return `says ${said}, and "${key}" has ${names}`;
  }
  const at = offers.findIndex(({ package: name }) => name === wanted);
  if (at < 0) return `says the package ${shown(wanted)}, and "${key}" has ${names}`;
  const holds = offers[at]?.quantity;
  if (quantity === undefined || quantity === holds) return at;
  return `says a package of ${quantity}, and ${shown(wanted)} of "${key}" holds ${holds}`;
}

/** A price that found its place: in cents of a unit where the item has no packages, else of the package. */
interface Placed {
  item: PriceItemInput;
  price: SupplierPrice;
  offer: number | undefined;
  cents: number;
}

/** Where a price goes, and what it comes to there; or why it goes nowhere. */
function placed(price: SupplierPrice, item: PriceItemInput, mapped: string | undefined): Placed | string {
  if (price.cents === 0) return 'costs 0, which is no price: the book keeps the one it has';
  const by = pricedBy(price.unit, item);
  if (typeof by === 'object' && 'misfit' in by) return by.misfit;
  const offer = offerFor(item, price, mapped);
  if (typeof offer === 'string') return offer;
  const holds = offer === undefined ? price.quantity : item.offers[offer]?.quantity;
  const ofUnit = by === 'package' ? price.cents / (holds ?? 1) : price.cents / by.units;
  if (offer === undefined) return worthSomething({ item, price, offer, cents: toFourDecimals(ofUnit) });
  const ofPackage = by === 'package' ? price.cents : ofUnit * (holds ?? 1);
  return worthSomething({ item, price, offer, cents: Math.round(toFourDecimals(ofPackage)) });
}

const worthSomething = (found: Placed): Placed | string =>
  found.cents > 0 ? found : 'comes to less than can be counted: look at its unit';

function priced(group: readonly [Placed, ...Placed[]], { supplier, today }: { supplier: string; today: string }) {
  const { item } = group[0];
  const dayOf = ({ price }: Placed) => price.date ?? today;
  const [date = today] = group.map(dayOf).sort(); // the oldest of them
  const stated = { supplier, source: sourceOf(supplier, date) };
  const ofUnit = group.find(({ offer }) => offer === undefined);
  if (ofUnit) return { ...item, ...stated, date, ...aroundUnit(item, ofUnit.cents) };
  const offers = item.offers.map((offer, at) => {
    const found = group.find((one) => one.offer === at);
    return found ? { ...aroundPackage(offer, found.cents), date: dayOf(found) } : offer;
  });
  return { ...withOldestDay(withPricesOfPackages({ ...item, offers }, item)), ...stated };
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
