import type { Line } from './answer.ts';
import type { Leg } from './description/leg.ts';

/** What one leg of the route costs: its share of every line that names it, in whole cents. */
export interface LegCost {
  leg: number;
  lengthFt: number;
  amountCents: number;
  /** False where a line of this leg has no price: the amount is then less than it will cost. */
  complete: boolean;
}

/** An option's lines laid out along its route. The legs and the whole job add up to the cost, to the cent. */
export interface LegCosts {
  legs: LegCost[];
  /** Lines of no leg in particular: both ends, permit, travel, the charger. */
  wholeJobCents: number;
  wholeJobComplete: boolean;
}

/** The likeliest length of a leg, in feet. */
export function likelyFt({ lengthFt }: Pick<Leg, 'lengthFt'>): number {
  return typeof lengthFt === 'number' ? lengthFt : lengthFt.likely;
}

/**
 * Shares whole cents by weights. What is left over by rounding down goes, a cent each, to those who lost most of a
 * cent, the first of equals first; so the shares add up to the amount.
 * @param amountCents  a whole number, may be negative
 * @param weights      at least one, all more than 0
 */
export function shareCents(amountCents: number, weights: readonly number[]): number[] {
  const sum = weights.reduce((total, weight) => total + weight, 0);
  const exact = weights.map((weight) => (Math.abs(amountCents) * weight) / sum);
  const shares = exact.map(Math.floor);
  const left = Math.abs(amountCents) - shares.reduce((total, share) => total + share, 0);
  const byLoss = exact
    .map((value, at) => ({ at, lost: value - Math.floor(value) }))
    .sort((a, b) => b.lost - a.lost || a.at - b.at);
  for (const { at } of byLoss.slice(0, left)) shares[at] = (shares[at] ?? 0) + 1;
  return shares.map((share) => (amountCents < 0 && share > 0 ? -share : share));
}

/** Lays an option's lines out along its route: a line of several legs is shared by their likely lengths. */
export function legCosts(
  { lines }: { lines: readonly Pick<Line, 'amountCents' | 'legs' | 'priced'>[] },
  route: readonly Pick<Leg, 'lengthFt'>[],
): LegCosts {
  const legs: LegCost[] = route.map((leg, at) => ({
    leg: at,
    lengthFt: likelyFt(leg),
    amountCents: 0,
    complete: true,
  }));
  const whole = { cents: 0, complete: true };
  for (const line of lines) {
    const named = [...new Set(line.legs)].flatMap((at) => legs[at] ?? []);
    if (named.length === 0) {
      whole.cents += line.amountCents;
      whole.complete &&= line.priced;
      continue;
    }
    const shares = shareCents(
      line.amountCents,
      named.map(({ lengthFt }) => lengthFt),
    );
    named.forEach((cost, at) => {
      cost.amountCents += shares[at] ?? 0;
      cost.complete &&= line.priced;
    });
  }
  return { legs, wholeJobCents: whole.cents, wholeJobComplete: whole.complete };
}
