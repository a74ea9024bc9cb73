import type { Estimate, EstimateOption } from '../estimate/answer.ts';
import type { Leg } from '../estimate/description/leg.ts';
import { likelyFt } from '../estimate/leg-costs.ts';
import { isDitch } from '../estimate/vocabulary.ts';
import { type CrossingWords, crossingWords } from './comparison-words.ts';
import type { CurvesInput } from './curves.ts';

/** What a drawing of curves needs but its width, and the unit of what grows. */
export interface PriceCurves extends Omit<CurvesInput, 'widthPt' | 'options' | 'crossings'> {
  unit: 'ft' | 'A';
  /** In order of where; nothing where the answer does not say. */
  crossings?: readonly CrossingWords[];
  /** The options that can be had at one of the points at least. */
  options: readonly Pick<EstimateOption, 'id' | 'label'>[];
}

/** The curves of an estimate, the same for page and paper: by distance, then by amperes; none where nothing was planned. */
export function priceCurves({ comparison, description: { route }, options }: Estimate): PriceCurves[] {
  const { byDistance = [], byAmps = [], crossings } = comparison;
  const grown = grownLeg(route);
  const both: Omit<PriceCurves, 'options'>[] = [
    {
      title: 'The price by distance',
      axisWords: `length of the longest ${grown && isDitch(grown.kind) ? 'trench' : 'leg'}, ft`,
      unit: 'ft',
      points: byDistance.map(({ lengthFt, totals }) => ({ at: lengthFt, totals })),
      ...(grown && { own: likelyFt(grown) }),
      ...(crossings && {
        crossings: crossingWords(
          crossings.byDistance.map(({ lengthFt, ...one }) => ({ at: lengthFt, ...one })),
          'ft',
          options,
        ),
      }),
    },
    {
      title: 'The price by amperes of charging',
      axisWords: 'all chargers set to, A',
      unit: 'A',
      points: byAmps.map(({ amps, totals }) => ({ at: amps, totals })),
      ...(crossings && {
        crossings: crossingWords(
          crossings.byAmps.map(({ amps, ...one }) => ({ at: amps, ...one })),
          'A',
          options,
        ),
      }),
    },
  ];
  return both
    .map((curves) => ({
      ...curves,
      options: options.filter(({ id }) => curves.points.some(({ totals }) => totals[id] !== undefined)),
    }))
    .filter((curves) => curves.options.length > 0);
}

/** The leg whose length is made to grow: the longest ditch, else the longest leg. */
function grownLeg(route: readonly Leg[]): Leg | undefined {
  const ditches = route.filter(({ kind }) => isDitch(kind));
  const among = ditches.length > 0 ? ditches : route;
  return [...among].sort((a, b) => likelyFt(b) - likelyFt(a))[0];
}
