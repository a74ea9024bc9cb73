import { betaQuantiles, pertShape } from '../beta.ts';
import type { PlacedLeg, PlannedOption } from '../plan-types.ts';

/** At how many lengths a job is taken off anew: the middles of so many equal chances. */
export const LENGTHS = 17;
const CHANCES = Array.from({ length: LENGTHS }, (_, at) => (at + 0.5) / LENGTHS);

/** Is the length of a leg a guess? */
export const isGuessed = ({ feet }: PlacedLeg) => feet.low < feet.high;

/**
 * The plan at quantiles of its guessed lengths, the shortest first; none where all are measured. All guesses share one
 * cause: who paces long paces every leg long. The plan stays, so that only take-off and purchases follow the length.
 */
export function plansAtLengths(plan: PlannedOption): PlannedOption[] {
  if (!plan.route.some(isGuessed)) return [];
  const byLeg = plan.route.map((leg) => (isGuessed(leg) ? quantilesOf(leg) : []));
  return CHANCES.map((_, at) => ({
    ...plan,
    route: plan.route.map((leg, order) => ({
      ...leg,
      feet: { ...leg.feet, likely: byLeg[order]?.[at] ?? leg.feet.likely },
    })),
  }));
}

function quantilesOf({ feet }: PlacedLeg): number[] {
  return betaQuantiles(CHANCES, pertShape(feet)).map((share) => feet.low + share * (feet.high - feet.low));
}
