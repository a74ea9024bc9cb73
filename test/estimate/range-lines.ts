import type { Line } from '../../server/estimate/answer.ts';
import type { UncertainJob } from '../../server/estimate/range/mixture.ts';
import { pricedDraws, rangeOf } from '../../server/estimate/range.ts';
import { described } from './takeoff/plans.ts';

/** A priced line of one thing; what is not said. */
export function line(parts: Partial<Line> & Pick<Line, 'lowCents' | 'amountCents' | 'highCents'>): Line {
  return {
    key: 'thing',
    description: 'a thing',
    class: 'material',
    scope: 'other',
    quantity: 1,
    unit: 'each',
    unitPriceCents: parts.amountCents,
    taken: 1,
    takenUnit: 'each',
    leftOver: 0,
    legs: [],
    priced: true,
    stale: false,
    because: [],
    ...parts,
  };
}

/** Terms with their defaults. */
export function termsOf(terms: Record<string, unknown> = {}) {
  return described({ route: [{ kind: 'joists', lengthFt: 10 }], terms }).terms;
}

/** A job of lines, with what is not known of it. */
export function jobOf(lines: readonly Line[], more: Partial<UncertainJob> = {}): UncertainJob {
  return { lines, atLengths: [], scenarios: [], ...more };
}

/** The range of lines at some terms. */
export function rangeOfLines(lines: readonly Line[], terms: Record<string, unknown> = {}) {
  return rangeOf(pricedDraws(jobOf(lines), termsOf(terms)));
}

/** From p10 to p90, in cents. */
export const widthOf = ({ p10Cents, p90Cents }: { p10Cents: number; p90Cents: number }) => p90Cents - p10Cents;
