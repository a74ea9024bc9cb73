import type { Comparison, Crossings, EstimateOption } from './answer.ts';
import { toFourDecimals, wholeDollars } from './money.ts';

/** One point of a curve: totals in whole cents by option; an option that cannot be had there is left out. */
interface CurvePoint {
  at: number;
  totals: Readonly<Record<string, number>>;
}

type Crossing = Omit<Crossings['byAmps'][number], 'amps' | 'because'> & {
  at: number;
  from: CurvePoint;
  to: CurvePoint;
};
type Named = Pick<EstimateOption, 'id' | 'label'>;

/** Where the curves of an estimate cross: feet and amperes with four decimals, in their order. */
export function crossingsOf(
  { byDistance = [], byAmps = [] }: Pick<Comparison, 'byDistance' | 'byAmps'>,
  options: readonly Named[],
): Crossings {
  const ids = options.map(({ id }) => id);
  const onDistance = curveCrossings(
    byDistance.map(({ lengthFt, totals }) => ({ at: lengthFt, totals })),
    ids,
  );
  const onAmps = curveCrossings(
    byAmps.map(({ amps, totals }) => ({ at: amps, totals })),
    ids,
  );
  return {
    byDistance: onDistance.map(({ at, from, to, ...crossing }) => ({
      lengthFt: at,
      ...crossing,
      because: reasonOf({ from, to, ...crossing }, options, 'ft'),
    })),
    byAmps: onAmps.map(({ at, from, to, ...crossing }) => ({
      amps: at,
      ...crossing,
      because: reasonOf({ from, to, ...crossing }, options, 'A'),
    })),
  };
}

/**
 * Where straight lines between the points of two curves cross, for every two of them. Curves that only touch, or that
 * run together to their end, do not cross; where they part again on the other side, they cross at their last common
 * point. Nothing is drawn across a point that one of the two lacks.
 * @returns  in order of where; of equal places in order of the options
 */
export function curveCrossings(points: readonly CurvePoint[], ids: readonly string[]): Crossing[] {
  const pairs = ids.flatMap((one, nth) => ids.slice(nth + 1).map((other) => ({ one, other })));
  const found = pairs.flatMap((pair) => pairCrossings(points, pair, ids));
  return found.sort((a, b) => a.at - b.at);
}

function pairCrossings(
  points: readonly CurvePoint[],
  { one, other }: { one: string; other: string },
  ids: readonly string[],
): Crossing[] {
  let cheaperBefore = 0; // -1: one, 1: other, 0: not known yet
  return points.flatMap((to, nth): Crossing[] => {
    const moreCents = moreAt(to, { one, other });
    if (moreCents === undefined) {
      cheaperBefore = 0;
      return [];
    }
    const cheaper = Math.sign(moreCents);
    const isCrossed = cheaperBefore * cheaper < 0;
    if (cheaper !== 0) cheaperBefore = cheaper;
    const from = points[nth - 1];
    const wasMoreCents = from && moreAt(from, { one, other });
    if (!isCrossed || !from || wasMoreCents === undefined) return [];
    const share = wasMoreCents / (wasMoreCents - moreCents);
    const [cheaperBelow, cheaperAbove] = cheaper > 0 ? [one, other] : [other, one];
    const costsAt = (id: string) => between(from.totals[id], to.totals[id], share);
    const totalCents = Math.round(costsAt(one) ?? 0);
    const isLeast = ids.every((id) => id === one || id === other || (costsAt(id) ?? totalCents) >= totalCents);
    return [
      {
        at: toFourDecimals(from.at + share * (to.at - from.at)),
        cheaperBelow,
        cheaperAbove,
        totalCents,
        isLeast,
        from,
        to,
      },
    ];
  });
}

/** By how much the first costs more than the second at a point where both can be had. */
function moreAt({ totals }: CurvePoint, { one, other }: { one: string; other: string }): number | undefined {
  const [oneCents, otherCents] = [totals[one], totals[other]];
  return oneCents === undefined || otherCents === undefined ? undefined : oneCents - otherCents;
}

function between(fromCents: number | undefined, toCents: number | undefined, share: number): number | undefined {
  return fromCents === undefined || toCents === undefined ? undefined : fromCents + share * (toCents - fromCents);
}

function reasonOf(
  { from, to, cheaperBelow, cheaperAbove }: Omit<Crossing, 'at'>,
  options: readonly Named[],
  unit: 'ft' | 'A',
): string {
  const at = (point: CurvePoint) =>
    [cheaperBelow, cheaperAbove]
      .map((id) => `${options.find((option) => option.id === id)?.label ?? id} ${wholeDollars(point.totals[id] ?? 0)}`)
      .join(', ');
  return (
    `Both were planned at ${Math.round(from.at * 10) / 10} ${unit} (${at(from)}) and at ` +
    `${Math.round(to.at * 10) / 10} ${unit} (${at(to)}), and straight lines are drawn between; prices go up in steps, so take it as about.`
  );
}
