import { curvesDrawing } from '../../drawing/curves.ts';
import type { Estimate, EstimateOption } from '../../estimate/answer.ts';
import type { Leg } from '../../estimate/description/leg.ts';
import { likelyFt } from '../../estimate/leg-costs.ts';
import { isDitch } from '../../estimate/vocabulary.ts';
import { findingInWords } from '../finding-words.ts';
import type { Column } from '../table.ts';
import { number, SCOPE_WORDS, wholeDollars } from '../wording.ts';
import type { Passage } from './passage.ts';

/** How the totals grow with the distance and with the amperes, each option planned anew at each step. */
export function curves(estimate: Estimate, widthPt: number): Passage[] {
  const { byDistance = [], byAmps = [] } = estimate.comparison;
  const ownFt = grownFt(estimate.description.route);
  return [
    ...curve(estimate, {
      title: 'The price by distance',
      axisWords: grownWords(estimate.description.route),
      unit: 'ft',
      points: byDistance.map(({ lengthFt, totals }) => ({ at: lengthFt, totals })),
      widthPt,
      ...(ownFt !== undefined && { own: ownFt }),
    }),
    ...curve(estimate, {
      title: 'The price by amperes of charging',
      axisWords: 'all chargers set to, A',
      unit: 'A',
      points: byAmps.map(({ amps, totals }) => ({ at: amps, totals })),
      widthPt,
    }),
  ];
}

/** The leg whose length is made to grow: the longest ditch, else the longest leg. */
function grownLeg(route: readonly Leg[]): Leg | undefined {
  const ditches = route.filter(({ kind }) => isDitch(kind));
  const among = ditches.length > 0 ? ditches : route;
  return [...among].sort((a, b) => likelyFt(b) - likelyFt(a))[0];
}

function grownFt(route: readonly Leg[]): number | undefined {
  const leg = grownLeg(route);
  return leg && likelyFt(leg);
}

function grownWords(route: readonly Leg[]): string {
  return route.some(({ kind }) => isDitch(kind)) ? 'length of the longest trench, ft' : 'length of the longest leg, ft';
}

interface CurveChoice {
  title: string;
  axisWords: string;
  unit: string;
  points: readonly { at: number; totals: Readonly<Record<string, number>> }[];
  widthPt: number;
  own?: number;
}

function curve({ options }: Estimate, { title, axisWords, unit, points, widthPt, own }: CurveChoice): Passage[] {
  const shown = options.filter(({ id }) => points.some(({ totals }) => totals[id] !== undefined));
  if (points.length === 0 || shown.length === 0) return [];
  const left = options.length - shown.length;
  return [
    {
      title,
      sentences:
        left > 0
          ? [
              `${left} of the options cannot be built or priced at any of these, and ${left === 1 ? 'is' : 'are'} left out.`,
            ]
          : [],
      drawings: [
        curvesDrawing({ title, axisWords, points, options: shown, widthPt, ...(own !== undefined && { own }) }),
      ],
      columns: [
        { head: axisWords.replace(/, (?:ft|A)$/, ''), share: 1 },
        ...points.map(({ at }): Column => ({ head: `${number(at, 1)} ${unit}`, widthPt: 48, align: 'right' })),
      ],
      rows: shown.map(({ id, label }) => ({
        cells: [label, ...points.map(({ totals }) => moneyOr(totals[id]))],
      })),
    },
  ];
}

function moneyOr(cents: number | undefined): string {
  return cents === undefined ? '–' : wholeDollars(cents);
}

/** Bids made comparable with the option that each is for, what they leave out, and what to ask about them. */
export function bids(estimate: Estimate): Passage[] {
  return estimate.bids.flatMap((bid) => bidPassage(bid, estimate));
}

const PLACES = { below: 'below the range', within: 'within the range', above: 'above the range' } as const;

function bidPassage(
  { from, optionId, totalCents, levelledCents, place, missing, findings, questions }: Estimate['bids'][number],
  estimate: Estimate,
): Passage {
  const option: EstimateOption | undefined = estimate.options.find(({ id }) => id === optionId);
  const range = option?.range;
  const against =
    place && range
      ? `, ${PLACES[place]} of ${wholeDollars(range.p10Cents)} to ${wholeDollars(range.p90Cents)} for "${option.label}"`
      : '';
  return {
    title: `The bid of ${from}`,
    sentences: [
      `It asks ${wholeDollars(totalCents)}; with its tax, and with what it leaves out at the estimate's own terms, ${wholeDollars(levelledCents)}${against}.`,
      missing.length > 0
        ? `It does not say that it covers: ${missing.map((scope) => SCOPE_WORDS[scope].toLowerCase()).join(', ')}.`
        : 'It covers all that the estimate counts.',
    ],
    list: [
      ...findings.filter(({ severity }) => severity !== 'ok').map(findingInWords),
      ...questions.map((question) => `To ask: ${question}`),
    ],
  };
}
