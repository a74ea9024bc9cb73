import type { PriceReader } from '../db/price-book.ts';
import { InputError } from './estimate/input-problems.ts';

/** Which book is asked for: that of a revision, or as it stood at the end of a day; without either the newest. */
export interface BookAsOf {
  revision?: number | undefined;
  /** YYYY-MM-DD, by the calendar of this machine. */
  on?: string | undefined;
}

/**
 * The revision of the book that is asked for; nothing where the newest is.
 * @throws {InputError} where both are stated
 * @throws {NotFoundError} where the book held nothing yet
 */
export function revisionAsOf(
  { revision, on }: BookAsOf,
  { prices, now }: { prices: Pick<PriceReader, 'revisionBefore'>; now: Date },
): number | undefined {
  if (revision !== undefined && on !== undefined) {
    throw new InputError([{ path: 'on', message: 'must not be stated beside revision: one of them says which book' }]);
  }
  if (on === undefined) return revision;
  const nextMidnight = new Date(`${on}T24:00:00`);
  return nextMidnight > now ? undefined : prices.revisionBefore(nextMidnight.toISOString());
}
