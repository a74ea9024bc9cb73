import { useQueryClient } from '@tanstack/react-query';
import { useCallback } from 'react';
import type { PriceItem } from '../../server/estimate/price-book.ts';
import type { PricePage } from '../api.ts';

/** The key under which pages of the book are kept. */
export const ITEMS_KEY = ['items'];
/** The key under which the list of the book's revisions is kept. */
export const REVISIONS_KEY = ['revisions'];

/** The lists that show the book. */
export function useBookLists() {
  const queries = useQueryClient();
  /** Reads anew all that the book is in. */
  const bookChanged = useCallback(async () => {
    const keys = [ITEMS_KEY, REVISIONS_KEY, ['estimate'], ['history']];
    await Promise.all(keys.map((queryKey) => queries.invalidateQueries({ queryKey })));
  }, [queries]);
  /** Shows the new state of an item at once, so that the next change starts from it. */
  const showInLists = useCallback(
    (item: PriceItem) => {
      queries.setQueriesData<PricePage>({ queryKey: [...ITEMS_KEY, 'now'] }, (page) =>
        page ? { ...page, items: page.items.map((each) => (each.key === item.key ? item : each)) } : page,
      );
    },
    [queries],
  );
  return { bookChanged, showInLists };
}
