import type { PriceBook, StatedChange } from '../db/price-book.ts';
import type { ImportOutcome } from '../db/price-import.ts';
import { type PriceItemInput, specText } from './estimate/price-book.ts';
import { seedPrices } from './seed-prices.ts';

type Book = Pick<PriceBook, 'snapshot' | 'neverHad'>;

let known: readonly PriceItemInput[] | undefined;

/** The starting price book of this program, read once. */
function startingPrices(): readonly PriceItemInput[] {
  known ??= seedPrices();
  return known;
}

/**
 * What the starting price book has and a book lacks: a data folder of an older program does not know what a newer one
 * asks for. Left out is what was in the book once, for somebody took it out, and what an item of another key answers:
 * its price would come beside one that somebody stated.
 */
export function lackingStartingPrices(prices: Book): PriceItemInput[] {
  const starting = startingPrices();
  const unknown = new Set(prices.neverHad(starting.map(({ key }) => key)));
  if (unknown.size === 0) return [];
  const answered = new Set(prices.snapshot().items.flatMap(({ spec }) => (spec ? [specText(spec)] : [])));
  return starting.filter(({ key, spec }) => unknown.has(key) && !(spec && answered.has(specText(spec))));
}

/** Adds them as one revision of the book, which can be undone; nothing that is there is changed or removed. */
export function addStartingPrices(
  prices: Book & Pick<PriceBook, 'importItems'>,
  stated: StatedChange & { dryRun?: boolean } = {},
): ImportOutcome {
  return prices.importItems(lackingStartingPrices(prices), { why: WHY, ...stated });
}

const WHY = 'starting prices that the book lacked';
