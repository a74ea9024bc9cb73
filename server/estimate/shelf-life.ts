import type { PriceItem } from './price-book.ts';

/**
 * How many days a figure may be old before it is marked stale. Ours: wire follows a metal market that moves by a
 * tenth within months; hours of labor hardly change. Common practice, no source.
 */
const SHELF_LIFE_DAYS = { wire: 90, labor: 730, other: 365 } as const;

const DAY_MS = 86_400_000;

/**
 * How much farther the ends of a stale figure lie for each year beyond its shelf life, as a share of its likely value.
 * Wire: price lists of power wire moved by 11 to 20 % within a year in 2016 to 2018; the rest common practice, no source.
 */
const WIDER_A_YEAR = { wire: 0.15, labor: 0.03, other: 0.05 } as const;
/** Beyond this nobody knows anything, and a wider range would say no more; ours. */
const WIDEST = 0.5;
const DAYS_A_YEAR = 365.25;

/** Three points of a price, in any unit. */
export interface PricePoints {
  low: number;
  likely: number;
  high: number;
}

/**
 * A price as wide as its age makes it: the likely value stays, low and high lie farther apart by a share for each year
 * beyond the shelf life. A fresh price comes back as it is; a low end never falls below 0.
 * @param asOf  YYYY-MM-DD; without it nothing is judged
 */
export function widenedPrice(
  { low, likely, high }: PricePoints,
  item: Pick<PriceItem, 'date' | 'kind' | 'spec'>,
  asOf: string | undefined,
): PricePoints {
  if (asOf === undefined) return { low, likely, high };
  const beyondDays = ageInDays(item, asOf) - SHELF_LIFE_DAYS[sortOf(item)];
  if (beyondDays <= 0) return { low, likely, high };
  const widerBy = likely * Math.min(WIDEST, (WIDER_A_YEAR[sortOf(item)] * beyondDays) / DAYS_A_YEAR);
  return { low: Math.max(0, low - widerBy), likely, high: high + widerBy };
}

/**
 * Is an item's figure older than its shelf life? Judged on the estimate's own day.
 * @param asOf  YYYY-MM-DD; without it nothing is judged
 */
export function isStale(item: Pick<PriceItem, 'date' | 'kind' | 'spec'>, asOf: string | undefined): boolean {
  if (asOf === undefined) return false;
  return ageInDays(item, asOf) > SHELF_LIFE_DAYS[sortOf(item)];
}

/** How many days a figure of this sort keeps. */
export function shelfLifeDays(item: Pick<PriceItem, 'kind' | 'spec'>): number {
  return SHELF_LIFE_DAYS[sortOf(item)];
}

/** Days as milliseconds: an item's own, read once, and the day that was asked about last. */
const dayOfItem = new WeakMap<Pick<PriceItem, 'date'>, number>();
let asked = { asOf: '', ms: Number.NaN };

function ageInDays(item: Pick<PriceItem, 'date'>, asOf: string): number {
  let ms = dayOfItem.get(item);
  if (ms === undefined) {
    ms = Date.parse(item.date);
    dayOfItem.set(item, ms);
  }
  if (asked.asOf !== asOf) asked = { asOf, ms: Date.parse(asOf) };
  return (asked.ms - ms) / DAY_MS;
}

function sortOf({ kind, spec }: Pick<PriceItem, 'kind' | 'spec'>): keyof typeof SHELF_LIFE_DAYS {
  if (kind !== 'price') return 'labor';
  return spec?.is === 'cable' || spec?.is === 'conductor' ? 'wire' : 'other';
}
