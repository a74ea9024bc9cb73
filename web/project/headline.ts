import { wholeDollars } from '../../server/drawing/wording.ts';
import type { Range, Totals } from '../../server/estimate/answer.ts';

/** The sum that an option is read by, in whole cents. */
export interface Headline {
  cents: number;
  /** The total of likely values, where what nobody knows yet makes it less than nine of ten cases. */
  ifNothingTurnsUpCents?: number;
}

/** The total; or the middle of the range where the likely values add up to less than the range begins with. */
export function headlineOf({ totalCents }: Pick<Totals, 'totalCents'>, range: Range | undefined): Headline {
  if (!range || range.likelyCents >= range.p10Cents) return { cents: totalCents };
  return { cents: range.p50Cents, ifNothingTurnsUpCents: totalCents };
}

/** Why total and range do not meet where the terms ask for a contingency; undefined where they do not. */
export function contingencyInWords({ contingencyCents }: Pick<Totals, 'contingencyCents'>): string | undefined {
  if (contingencyCents === 0) return undefined;
  return `the range is without the contingency of ${wholeDollars(contingencyCents)} that the total holds`;
}
