import type { Offer, PriceItem } from '../../server/estimate/price-book.ts';
import { today } from '../parts/dates.ts';

/** A price that somebody changes is of today and their own, until they say whose. */
export function asOwnPrice(item: PriceItem): PriceItem {
  return { ...item, date: today(), source: 'own price' };
}

/** A longer source than the book takes stays as it was: the history tells who changed which package. */
const LONGEST_SOURCE = 500;

/**
 * The price of one package, changed or new: that package alone is of today, and the item's source says so. The others
 * stay as old as they are.
 * @param offers  the item's packages with the change in them
 */
export function withOwnPackage(item: PriceItem, offers: readonly Offer[], changed: Offer): PriceItem {
  if (offers.length === 1) {
    const { date: _own, ...undated } = changed;
    return asOwnPrice({ ...item, offers: [undated] });
  }
  const note = `own price of ${changed.package}`;
  const source = item.source.includes(note) ? item.source : `${item.source}; ${note}`;
  return {
    ...item,
    offers: offers.map((offer) => (offer === changed ? { ...offer, date: today() } : offer)),
    source: source.length > LONGEST_SOURCE ? item.source : source,
  };
}
