import type { Edition } from './citations.ts';
import { cite } from './citations.ts';
import type { Finding } from './findings.ts';
import type { TradeSize } from './sizes.ts';
import { BEND_RADIUS_CH9_2 } from './tables/bend-radius-ch9-2.ts';

/** The most that bends may add up to between two pull points, in degrees. NEC 352.24(B), 358.24(B), 344.24(B). */
export const MOST_BENDS_DEG = 360;

/** Pull points that a run needs between its ends so that no part of it has more than 360° of bends. */
export function pullPointsNeeded(totalBendsDeg: number): number {
  return Math.max(0, Math.ceil(totalBendsDeg / MOST_BENDS_DEG - 1e-9) - 1);
}

/** Checks the bends between two pull points: `ok`, or `stop` and how many pull points would do. Degrees. */
export function checkBends({
  raceway,
  bendsDeg,
  leg,
  edition,
}: {
  raceway: 'pvc' | 'emt' | 'rmc';
  bendsDeg: number;
  leg?: number | undefined;
  edition: Edition;
}): Finding {
  const rule = `bends-${raceway}` as const;
  const numbers = { bendsDeg, mostDeg: MOST_BENDS_DEG, pullPoints: pullPointsNeeded(bendsDeg) };
  const about = { rule, citation: cite(rule, edition), numbers, ...(leg !== undefined && { leg }) };
  if (bendsDeg <= MOST_BENDS_DEG) {
    return {
      ...about,
      severity: 'ok',
      message: `${bendsDeg}° of bends between pull points; ${MOST_BENDS_DEG}° are allowed.`,
    };
  }
  const message = `${bendsDeg}° of bends between pull points are too many: ${MOST_BENDS_DEG}° are allowed. Add ${numbers.pullPoints} pull point(s).`;
  return { ...about, severity: 'stop', message };
}

/** Least radius of a bend in conduit, to its centerline, in inches. NEC Chapter 9 Table 2. */
export function bendRadiusIn({ tradeSize, bender }: { tradeSize: TradeSize; bender: 'one-shot' | 'other' }): number {
  const row = BEND_RADIUS_CH9_2.rows.find(([rowSize]) => rowSize === tradeSize);
  // Every trade size has a row; were one missing, the largest radius would be the safe one.
  return row?.[bender === 'one-shot' ? 1 : 2] ?? 24;
}
