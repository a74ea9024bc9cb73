import { RefusedInputError } from '../electrical/errors.ts';
import { betaQuantile, pertShape } from './beta.ts';
import { roundHalfAway } from './money.ts';

const MONTHS = 12;
const BP = 10_000n;

/**
 * The monthly payment of a loan that is paid back in equal parts. Annuity formula: P × r / (1 − (1 + r)^−n), r the
 * twelfth of the annual rate, n the months. The interest is that of the payment before rounding.
 * @param principalCents  whole cents, 0 or more
 * @param annualRateBp    basis points a year, 0 or more
 * @param years           more than 0; n is 12 × years, the nearest whole month, at least one
 * @returns               whole cents
 */
export function payment({
  principalCents,
  annualRateBp,
  years,
}: {
  principalCents: number;
  annualRateBp: number;
  years: number;
}): { monthlyCents: number; totalInterestCents: number } {
  const months = Math.max(1, Math.round(years * MONTHS));
  const rate = annualRateBp / 10_000 / MONTHS;
  const monthly =
    rate === 0 ? principalCents / months : (principalCents * rate) / -Math.expm1(-months * Math.log1p(rate));
  return {
    monthlyCents: Math.round(monthly),
    totalInterestCents: Math.round(monthly * months - principalCents),
  };
}

/**
 * A price from its cost by markup (a share of the cost) or margin (a share of the price), and the other of the two.
 * @param costCents  whole cents, 0 or more
 * @throws {RefusedInputError} unless exactly one of the two is given, and for a margin of 100 % or more
 */
export function priceFromCost({
  costCents,
  markupBp,
  marginBp,
}: {
  costCents: number;
  markupBp?: number | undefined;
  marginBp?: number | undefined;
}): { priceCents: number; markupBp: number; marginBp: number } {
  if (markupBp !== undefined && marginBp === undefined) return byMarkup(BigInt(costCents), BigInt(markupBp));
  if (marginBp !== undefined && markupBp === undefined) return byMargin(BigInt(costCents), BigInt(marginBp));
  const both = markupBp !== undefined;
  throw new RefusedInputError({
    field: 'marginBp',
    value: marginBp,
    allowed: both ? 'left out where markupBp is given' : 'given where markupBp is left out',
  });
}

function byMarkup(cost: bigint, markup: bigint) {
  const priceCents = roundHalfAway(cost * (BP + markup), BP);
  return { priceCents, markupBp: Number(markup), marginBp: roundHalfAway(markup * BP, BP + markup) };
}

function byMargin(cost: bigint, margin: bigint) {
  if (margin >= BP) {
    throw new RefusedInputError({ field: 'marginBp', value: Number(margin), allowed: 'below 10000' });
  }
  const priceCents = roundHalfAway(cost * BP, BP - margin);
  return { priceCents, markupBp: roundHalfAway(margin * BP, BP - margin), marginBp: Number(margin) };
}

/**
 * Mean, spread and percentiles of a low, a likely and a high value as a PERT beta: α = 1 + w (likely − low) / (high −
 * low), β = 1 + w (high − likely) / (high − low). `sd` is that distribution's, not a sixth of the span.
 * @param weight  how much more the likely value counts than an end; 4 by custom, 0 or more
 * @throws {RefusedInputError} where the three do not rise
 */
export function threePoint({
  low,
  likely,
  high,
  weight = 4,
}: {
  low: number;
  likely: number;
  high: number;
  weight?: number | undefined;
}): { mean: number; sd: number; p10: number; p50: number; p90: number } {
  if (!(low <= likely && likely <= high)) {
    throw new RefusedInputError({ field: 'likely', value: likely, allowed: `between low ${low} and high ${high}` });
  }
  if (low === high) return { mean: low, sd: 0, p10: low, p50: low, p90: low };
  const shape = pertShape({ low, likely, high, weight });
  const { alpha, beta } = shape;
  const all = alpha + beta;
  const span = high - low;
  const at = (chance: number) => low + span * betaQuantile(chance, shape);
  return {
    mean: low + (span * alpha) / all,
    sd: span * Math.sqrt((alpha * beta) / (all * all * (all + 1))),
    p10: at(0.1),
    p50: at(0.5),
    p90: at(0.9),
  };
}
