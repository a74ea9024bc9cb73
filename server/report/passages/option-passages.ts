import type { Estimate, EstimateOption } from '../../estimate/answer.ts';
import { type DescriptionOption, routeOf } from '../../estimate/description.ts';
import { bids, curves, nowAgainstLater } from './compared.ts';
import { costByLeg } from './leg-costs.ts';
import { later, steps } from './near-by.ts';
import type { Passage } from './passage.ts';
import { planByLeg } from './plan-by-leg.ts';
import { devices, grounding, planProof, terminations } from './plan-proof.ts';
import { serviceCheck } from './service-check.ts';
import { uncertainty, unknowns } from './uncertainty.ts';
import { daysAndVisits, tasks } from './work.ts';

/** An option with the answer that it stands in, and what was stated of it. */
export interface Answered {
  estimate: Estimate;
  option: EstimateOption;
  stated: DescriptionOption;
}

/** What one decides by: what it may cost and why, what is near by, what was bid. */
export function decisionPassages({ estimate, option }: Answered, widthPt: number): Passage[] {
  const { description } = estimate;
  return [
    ...uncertainty(option, widthPt),
    ...unknowns(option, description),
    ...serviceCheck(option, description),
    ...steps(option),
    ...later(option),
    ...nowAgainstLater(estimate, option.id),
    ...curves(estimate, widthPt),
    ...bids(estimate),
  ];
}

/** What it is built of, and why so. */
export function planPassages({ estimate, option, stated }: Answered): Passage[] {
  const route = routeOf(estimate.description, stated);
  return [
    ...costByLeg(option, route),
    ...planByLeg(option, route),
    ...planProof(option),
    ...devices(option),
    ...terminations(option),
    ...grounding(option),
  ];
}

/** Who works how long, and when. */
export function workPassages({ option }: Answered): Passage[] {
  return [...tasks(option), ...daysAndVisits(option)];
}
