/*
 * Money is whole cents. A product of money is made of whole numbers and rounded once, half away from zero; nothing
 * here passes through binary fractions of a cent.
 */

/** Decimals that a quantity or a unit price may have. */
const DECIMALS = 4;
const SCALE = 10 ** DECIMALS;
const BP_OF_WHOLE = 10_000;

/**
 * Rounds numerator / denominator to a whole number, half away from zero. `denominator` is above 0. Two plain numbers
 * must be whole and safe; a product that may grow beyond 2^53 comes as bigint.
 */
export function roundHalfAway(numerator: number | bigint, denominator: number | bigint): number {
  if (typeof numerator === 'number' && typeof denominator === 'number') {
    const size = Math.abs(numerator);
    const rest = size % denominator;
    const rounded = (size - rest) / denominator + (2 * rest >= denominator ? 1 : 0);
    return numerator < 0 && rounded > 0 ? -rounded : rounded;
  }
  const whole = BigInt(numerator);
  const parts = BigInt(denominator);
  const size = whole < 0n ? -whole : whole;
  const rounded = Number((size * 2n + parts) / (parts * 2n));
  return whole < 0n && rounded > 0 ? -rounded : rounded;
}

/** A quantity, a unit price or another figure that is shown with at most four decimals: the nearest. */
export function toFourDecimals(value: number): number {
  return Math.round(value * SCALE) / SCALE;
}

/** A product of whole numbers, as bigint where it is too large to be exact otherwise. */
function product(a: number, b: number): number | bigint {
  const plain = a * b;
  return Number.isSafeInteger(plain) ? plain : BigInt(a) * BigInt(b);
}

/** Quantity × unit price in whole cents, rounded once. Both count with at most four decimals. */
export function amountCents({ quantity, unitPriceCents }: { quantity: number; unitPriceCents: number }): number {
  return roundHalfAway(product(Math.round(quantity * SCALE), Math.round(unitPriceCents * SCALE)), SCALE * SCALE);
}

/** A share in basis points of whole cents, rounded once. */
export function shareOfCents({ cents, bp }: { cents: number; bp: number }): number {
  return roundHalfAway(product(cents, bp), BP_OF_WHOLE);
}

/** Cents as a sentence has them, to the dollar: `$1,284`. */
export function wholeDollars(cents: number): string {
  return `$${Math.round(cents / 100).toLocaleString('en-US')}`;
}
