import { InputError } from './input-problems.ts';
import { toFourDecimals } from './money.ts';
import type { Offer, PriceItemInput } from './price-book.ts';

type Points = Pick<PriceItemInput, 'low' | 'likely' | 'high'>;
type Priced = Points & { offers: readonly Offer[] };

const POINTS = ['low', 'likely', 'high'] as const;

/**
 * What one unit costs where it is sold alone, by the foot or by the piece, else in the package that is cheapest by the
 * unit: cents with up to 4 decimals. None where there are no packages.
 */
function unitPrices(offers: readonly Offer[]): Points | undefined {
  const sold = offers.filter(({ available }) => available);
  const byUnitPrice = [...(sold.length > 0 ? sold : offers)].sort(
    (a, b) => a.likelyCents / a.quantity - b.likelyCents / b.quantity,
  );
  const shown = byUnitPrice.find(({ quantity }) => quantity === 1) ?? byUnitPrice[0];
  if (!shown) return undefined;
  const { quantity, lowCents, likelyCents, highCents } = shown;
  return {
    low: toFourDecimals(lowCents / quantity),
    likely: toFourDecimals(likelyCents / quantity),
    high: toFourDecimals(highCents / quantity),
  };
}

/**
 * Keeps one truth of a price that is changed: where an item is sold in packages they decide, and its price by the unit
 * follows from them. `before` is the item as it was.
 * @throws {InputError} at `low`, `likely` or `high` where it says another price by the unit than its packages do: an
 * estimate would not hear of it
 */
export function withPricesOfPackages<Item extends Priced>(item: Item, before: Priced): Item {
  const follows = unitPrices(item.offers);
  if (!follows) return item;
  const isAsBefore = (point: keyof Points) => item[point] === before[point];
  const errors = POINTS.filter((point) => !isAsBefore(point) && item[point] !== follows[point]).map((point) => ({
    path: point,
    message: `must stay ${before[point]} or be ${follows[point]}, not ${item[point]}: the packages decide, so change the price of one at offers`,
  }));
  if (errors.length > 0) throw new InputError(errors);
  const sameOffers = JSON.stringify(item.offers) === JSON.stringify(before.offers);
  return sameOffers ? item : { ...item, ...follows };
}
