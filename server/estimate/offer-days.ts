import type { Offer, PriceItem } from './price-book.ts';

type Dated = Pick<PriceItem, 'date' | 'kind' | 'spec'>;

/** The day, YYYY-MM-DD, that the price of a package is of: its own, else its item's. */
export function dayOfOffer(offer: Pick<Offer, 'date'>, item: Pick<PriceItem, 'date'>): string {
  return offer.date ?? item.date;
}

/** An item as old as one of its packages; the item itself where no package is meant, or it has no day of its own. */
export function asOldAs(item: Dated, offer: Pick<Offer, 'date'> | undefined): Dated {
  if (offer?.date === undefined || offer.date === item.date) return item;
  return { ...item, date: offer.date };
}

/**
 * Gives an item the oldest day of its packages, and a day of its own to each package that is younger: where a day is
 * asked of the whole item, it never looks fresher than what it sells.
 */
export function withOldestDay<Item extends { date: string; offers: readonly Offer[] }>(item: Item): Item {
  if (item.offers.every(({ date }) => date === undefined)) return item;
  const [date = item.date] = item.offers.map((offer) => dayOfOffer(offer, item)).sort(); // the oldest of them
  const offers = item.offers.map((offer) => {
    const { date: _own, ...undated } = offer;
    const day = dayOfOffer(offer, item);
    return day === date ? undated : { ...undated, date: day };
  });
  return { ...item, date, offers };
}
