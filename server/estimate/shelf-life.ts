import type { PriceItem } from './price-book.ts';

/**
 * How many days a figure may be old before it is marked stale. Ours: wire follows a metal market that moves by a
 * tenth within months; hours of labor hardly change. Common practice, no source.
 */
const SHELF_LIFE_DAYS = { wire: 90, labor: 730, other: 365 } as const;

const DAY_MS = 86_400_000;

/**
 * Is an item's figure older than its shelf life? Judged on the estimate's own day.
 * @param asOf  YYYY-MM-DD; without it nothing is judged
 */
export function isStale(item: Pick<PriceItem, 'date' | 'kind' | 'spec'>, asOf: string | undefined): boolean {
  if (asOf === undefined) return false;
  const ageDays = (Date.parse(asOf) - Date.parse(item.date)) / DAY_MS;
  return ageDays > shelfLifeDays(item);
}

function shelfLifeDays({ kind, spec }: Pick<PriceItem, 'kind' | 'spec'>): number {
  if (kind !== 'price') return SHELF_LIFE_DAYS.labor;
  return spec?.is === 'cable' || spec?.is === 'conductor' ? SHELF_LIFE_DAYS.wire : SHELF_LIFE_DAYS.other;
}
