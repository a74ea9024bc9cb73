/*
 * The beta distribution on 0 to 1: what a low, a likely and a high value make of what lies between them. Formulas
 * from memory: the continued fraction of the incomplete beta function, and Lanczos' series of the gamma function.
 */

/** Shape of a beta distribution; both more than 0. */
export interface BetaShape {
  alpha: number;
  beta: number;
}

/** Lanczos' coefficients for g = 7 and nine terms; from memory, checked against exact factorials in the tests. */
const LANCZOS_G = 7;
const LANCZOS = [
  0.9999999999998099, 676.5203681218851, -1259.1392167224028, 771.3234287776531, -176.6150291621406, 12.507343278686905,
  -0.13857109526572012, 9.984369578019572e-6, 1.5056327351493116e-7,
];
/** Terms of the continued fraction, and steps of the search for a quantile; far more than shapes up to 1,000 take. */
const MOST_TERMS = 500;
const MOST_STEPS = 200;
const TINY = 1e-300;
const PRECISION = 1e-15;
const CLOSE = 1e-13;

/** ln Γ(x) for x > 0.5. */
export function lnGamma(x: number): number {
  const z = x - 1;
  const series = LANCZOS.reduce((sum, coefficient, at) => (at === 0 ? coefficient : sum + coefficient / (z + at)), 0);
  const t = z + LANCZOS_G + 0.5;
  return 0.5 * Math.log(2 * Math.PI) + (z + 0.5) * Math.log(t) - t + Math.log(series);
}

const lnBeta = ({ alpha, beta }: BetaShape) => lnGamma(alpha) + lnGamma(beta) - lnGamma(alpha + beta);

/** The chance of a value up to x: the regularised incomplete beta function. Shapes from 1 up. */
export function betaChance(x: number, shape: BetaShape): number {
  return chanceUpTo(x, shape, lnBeta(shape));
}

/** The same with ln B known, which a search for a quantile needs many times. */
function chanceUpTo(x: number, { alpha, beta }: BetaShape, ln: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  const front = Math.exp(alpha * Math.log(x) + beta * Math.log1p(-x) - ln);
  // The fraction converges fast below the mean; above it the other tail is reckoned.
  if (x < (alpha + 1) / (alpha + beta + 2)) return (front * fraction(x, { alpha, beta })) / alpha;
  return 1 - (front * fraction(1 - x, { alpha: beta, beta: alpha })) / beta;
}

/** The continued fraction of the incomplete beta function, term by term from the front. */
function fraction(x: number, { alpha, beta }: BetaShape): number {
  let c = 1;
  let d = 1 / away(1 - ((alpha + beta) * x) / (alpha + 1));
  let value = d;
  for (let m = 1; m <= MOST_TERMS; m++) {
    const even = (m * (beta - m) * x) / ((alpha + 2 * m - 1) * (alpha + 2 * m));
    const odd = (-(alpha + m) * (alpha + beta + m) * x) / ((alpha + 2 * m) * (alpha + 2 * m + 1));
    for (const term of [even, odd]) {
      d = 1 / away(1 + term * d);
      c = away(1 + term / c);
      value *= c * d;
    }
    if (Math.abs(c * d - 1) < PRECISION) break;
  }
  return value;
}

/** Never so near to 0 that it cannot be divided by. */
const away = (value: number) => (Math.abs(value) < TINY ? TINY : value);

/** The value that is not passed with this chance, 0 to 1: the inverse of `betaChance`, to 1e-12. Shapes from 1 up. */
export function betaQuantile(chance: number, shape: BetaShape): number {
  return quantileFrom({ start: shape.alpha / (shape.alpha + shape.beta), chance, shape, ln: lnBeta(shape) });
}

/** The quantiles of rising chances, each sought from the one before. */
export function betaQuantiles(chances: readonly number[], shape: BetaShape): number[] {
  const ln = lnBeta(shape);
  let start = shape.alpha / (shape.alpha + shape.beta);
  return chances.map((chance) => {
    const found = quantileFrom({ start, chance, shape, ln });
    if (found > 0 && found < 1) start = found;
    return found;
  });
}

interface Search {
  start: number;
  chance: number;
  shape: BetaShape;
  ln: number;
}

/** Newton's steps, kept between what is known to lie below and above. */
function quantileFrom({ start, chance, shape, ln }: Search): number {
  if (chance <= 0) return 0;
  if (chance >= 1) return 1;
  const { alpha, beta } = shape;
  let low = 0;
  let high = 1;
  let x = start;
  for (let step = 0; step < MOST_STEPS; step++) {
    const miss = chanceUpTo(x, shape, ln) - chance;
    if (miss > 0) high = x;
    else low = x;
    const density = Math.exp((alpha - 1) * Math.log(x) + (beta - 1) * Math.log1p(-x) - ln);
    const newton = x - miss / density;
    // Where the tangent leads out of what is known to hold the answer, it is halved instead.
    const next = newton > low && newton < high ? newton : (low + high) / 2;
    if (Math.abs(next - x) <= CLOSE || high - low <= CLOSE) return next;
    x = next;
  }
  return x;
}

/** The shape of a PERT beta: its mean weighs the likely value `weight` times as much as each end. Points must rise. */
export function pertShape({
  low,
  likely,
  high,
  weight = 4,
}: {
  low: number;
  likely: number;
  high: number;
  weight?: number;
}): BetaShape {
  const span = high - low;
  return { alpha: 1 + (weight * (likely - low)) / span, beta: 1 + (weight * (high - likely)) / span };
}
