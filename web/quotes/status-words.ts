import { dayOf } from '../parts/dates.ts';
import type { ListedQuote } from './quote-api.ts';

/** Where a quote stands, in words: an open one says how long it holds. */
export function statusWords({ status, validUntil }: Pick<ListedQuote, 'status' | 'validUntil'>): string {
  if (status === 'issued') return `open until ${dayOf(validUntil)}`;
  return status === 'lapsed' ? `lapsed, held until ${dayOf(validUntil)}` : status;
}
