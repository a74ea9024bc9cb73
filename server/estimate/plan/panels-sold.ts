import type { PlannedOption } from '../plan-types.ts';
import type { Book } from '../price-book.ts';

type Panel = NonNullable<PlannedOption['panel']>;

/** By book: every planned option asks for its panels, and a book has hundreds of items. */
const soldBy = new WeakMap<Book, readonly Panel[]>();

/** The panels that a book has to sell, in the order of its items. */
export function panelsSold(book: Book): readonly Panel[] {
  const known = soldBy.get(book);
  if (known) return known;
  const sold = book.items.flatMap(({ spec, available }): Panel[] => {
    if (!available || spec?.is !== 'panel') return [];
    const { ratingA, spaces, enclosure, mainBreaker } = spec;
    return [{ ratingA, spaces, enclosure, mainBreaker }];
  });
  soldBy.set(book, sold);
  return sold;
}
