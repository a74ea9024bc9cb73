/*
 * Money is whole cents. A product of money is made of whole numbers and rounded once, half away from zero; nothing
 * here passes through binary fractions of a cent.
 */

/** Decimals that a quantity or a unit price may have. */
const DECIMALS = 4;
const SCALE = 10 ** DECIMALS;
const SCALE_BIG = BigInt(SCALE);
const BP_OF_WHOLE = 10_000n;

/** Rounds numerator / denominator to a whole number, half away from zero. `denominator` is above 0. */
export function roundHalfAway(numerator: bigint, denominator: bigint): number {
  const size = numerator < 0n ? -numerator : numerator;
  const rounded = (size * 2n + denominator) / (denominator * 2n);
  return Number(numerator < 0n ? -rounded : rounded);
}

/** A quantity or unit price with at most four decimals, the nearest. */
export function toFourDecimals(value: number): number {
  return Math.round(value * SCALE) / SCALE;
}

/** Whole ten-thousandths of a value, the nearest. */
function tenThousandths(value: number): bigint {
  return BigInt(Math.round(value * SCALE));
}

/** Quantity × unit price in whole cents, rounded once. Both count with at most four decimals. */
export function amountCents({ quantity, unitPriceCents }: { quantity: number; unitPriceCents: number }): number {
  return roundHalfAway(tenThousandths(quantity) * tenThousandths(unitPriceCents), SCALE_BIG * SCALE_BIG);
}

/** A share in basis points of whole cents, rounded once. */
export function shareOfCents({ cents, bp }: { cents: number; bp: number }): number {
  return roundHalfAway(BigInt(cents) * BigInt(bp), BP_OF_WHOLE);
}
