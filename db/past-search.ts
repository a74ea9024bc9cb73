import type { PriceItem } from '../server/estimate/price-book.ts';
import { wordsOf } from './search-words.ts';

/** A text as the search index sees it: small letters without their marks. */
const folded = (text: string) => text.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase();

/**
 * Finds items of a book of the past, which no index holds: those with every word that was typed in key, description or
 * category. As in the index a word with letters matches from its start on, and a number whole.
 * @returns them in the order of category and key; nothing where signs alone were typed
 */
export function foundInPast(items: readonly PriceItem[], search: string, category?: string): PriceItem[] {
  const words = wordsOf(search).map(folded);
  if (words.length === 0 && search.trim() !== '') return [];
  const matches = (item: PriceItem) => {
    if (category !== undefined && item.category !== category) return false;
    if (words.length === 0) return true;
    const held = wordsOf(folded(`${item.key} ${item.description} ${item.category}`));
    return words.every((word) => {
      const isNumber = /^\p{N}+$/u.test(word);
      return held.some((one) => (isNumber ? one === word : one.startsWith(word)));
    });
  };
  return items.filter(matches).sort((a, b) => order(a.category, b.category) || order(a.key, b.key));
}

const order = (a: string, b: string) => (a < b ? -1 : Number(a > b));
