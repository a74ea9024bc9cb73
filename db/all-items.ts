import type { Database } from 'better-sqlite3';
import type { Offer, PriceItem } from '../server/estimate/price-book.ts';
import { type ItemRow, itemOf, type OfferRow, offerOf, sharedColumns } from './price-rows.ts';

/** The columns of an item in `price_item i`, and of a package in `price_offer o`, as they are read. */
export const ITEM = `i.key, ${sharedColumns('i.')}, i.revision`;
export const OFFER = 'o.package, o.quantity, o.low_cents, o.likely_cents, o.high_cents, o.available, o.date';

/** Reads all items with their packages, in the order of their keys, as they lie in the tables. */
export function allItems(db: Database): () => PriceItem[] {
  const items = db.prepare<[], ItemRow & { id: number }>(`SELECT i.id, ${ITEM} FROM price_item i ORDER BY i.key`);
  const offers = db.prepare<[], OfferRow & { item_id: number }>(
    `SELECT o.item_id, ${OFFER} FROM price_offer o ORDER BY o.item_id, o.position`,
  );
  return () => {
    const offersOf = new Map<number, Offer[]>();
    for (const row of offers.iterate()) {
      const sold = offersOf.get(row.item_id);
      if (sold) sold.push(offerOf(row));
      else offersOf.set(row.item_id, [offerOf(row)]);
    }
    const all: PriceItem[] = [];
    for (const row of items.iterate()) all.push(itemOf(row, offersOf.get(row.id) ?? []));
    return all;
  };
}
