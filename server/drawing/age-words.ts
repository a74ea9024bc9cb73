import type { PriceItem } from '../estimate/price-book.ts';
import { isStale, shelfLifeDays } from '../estimate/shelf-life.ts';
import { counted } from './wording.ts';

const DAY_MS = 86_400_000;
/** Up to here days are counted: "91 days old" tells more beside "keeps for 90 days" than months do. */
const DAYS_COUNTED = 120;
const DAYS_A_MONTH = 30.44;
const DAYS_A_YEAR = 365.25;

/** How old a figure of the book is, in words, and why it counts as stale where it does. */
export interface AgeWords {
  age: string;
  /** Set where the figure is beyond its shelf life. */
  stale?: string;
}

/**
 * Says how old a figure is: `today`, `3 months old`, and what its shelf life says to it.
 * @param asOf  the day that it is judged on, YYYY-MM-DD
 */
export function ageWords(item: Pick<PriceItem, 'date' | 'kind' | 'spec'>, asOf: string): AgeWords {
  const days = Math.round((Date.parse(asOf) - Date.parse(item.date)) / DAY_MS);
  const age = old(days);
  if (!isStale(item, asOf)) return { age };
  const lasts = spanOf(shelfLifeDays(item));
  return { age, stale: `stale: ${age}, and such a figure keeps for ${lasts}; its range is widened` };
}

function old(days: number): string {
  if (days < 0) return 'of a day to come';
  return days === 0 ? 'of today' : `${spanOf(days)} old`;
}

function spanOf(days: number): string {
  if (days <= DAYS_COUNTED) return counted(days, 'day');
  if (days < 2 * DAYS_A_YEAR - 2) return counted(Math.round(days / DAYS_A_MONTH), 'month');
  return counted(Math.round(days / DAYS_A_YEAR), 'year');
}
