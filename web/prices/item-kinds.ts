import type { PriceItem } from '../../server/estimate/price-book.ts';

/** Plain words for the kinds of an item. */
export const ITEM_KIND_WORDS: Record<PriceItem['kind'], string> = {
  price: 'price',
  'labor-unit': 'labor unit, in hours',
  rate: 'rate by the hour',
  factor: 'factor',
};
