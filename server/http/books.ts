import type { Data } from '../../db/open.ts';
import { InputError } from '../estimate/input-problems.ts';
import { type Book, bookOf, type PriceItem } from '../estimate/price-book.ts';

/** Gives the price book at a revision; without one, the newest. @throws {InputError} for a revision that never was */
export type Books = (revision?: number) => Book;

/** Reads books from the data, and keeps the newest one made up, for every keystroke on the page asks for it. */
export function booksOf({ prices }: Pick<Data, 'prices'>): Books {
  let newest: Book | undefined;
  return (revision) => {
    const current = prices.revision();
    if (revision !== undefined && (revision < 1 || revision > current)) {
      const message = `must be a revision that the book had, from 1 to ${current}, not ${revision}`;
      throw new InputError([{ path: 'bookRevision', message }]);
    }
    if (revision !== undefined && revision !== current) return madeUp(prices.snapshot(revision));
    const book = newest?.revision === current ? newest : madeUp(prices.snapshot());
    newest = book;
    return book;
  };
}

function madeUp({ items, revision }: { items: readonly PriceItem[]; revision: number }): Book {
  return bookOf(items, revision);
}
