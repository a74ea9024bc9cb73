/*
 * The normal distribution, for draws that share a cause.
 */

/** Abramowitz and Stegun, Handbook of Mathematical Functions, 7.1.26; from memory. Off by at most 1.5e-7. */
const ERF = [0.254829592, -0.284496736, 1.421413741, -1.453152027, 1.061405429] as const;
const ERF_P = 0.3275911;

/** The chance of a value up to z. */
export function normalChance(z: number): number {
  const x = Math.abs(z) / Math.SQRT2;
  const t = 1 / (1 + ERF_P * x);
  const series = t * (ERF[0] + t * (ERF[1] + t * (ERF[2] + t * (ERF[3] + t * ERF[4]))));
  const erf = 1 - series * Math.exp(-x * x);
  return z >= 0 ? (1 + erf) / 2 : (1 - erf) / 2;
}

/** The value that is not passed with this chance, which lies between 0 and 1: halved to 1e-9. */
export function normalQuantile(chance: number): number {
  let low = -9;
  let high = 9;
  while (high - low > 1e-9) {
    const middle = (low + high) / 2;
    if (normalChance(middle) < chance) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
