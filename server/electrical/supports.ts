import type { RuleKey } from './citations.ts';
import type { TradeSize } from './sizes.ts';
import { compareTradeSizes } from './sizes.ts';
import { FASTENERS_334_358, PVC_SUPPORT_352_30, RMC_SUPPORT_344_30 } from './tables/supports.ts';

/** Methods that are fastened to a building. */
export type FastenedMethod = 'nm-b' | 'ser' | 'uf-b' | 'pvc' | 'emt' | 'rmc';

/** How a method is held. Feet between supports, and of the first from a box; where the rule stands. */
export interface SupportRule {
  everyFt: number;
  firstWithinFt: number;
  rule: RuleKey;
}

const CABLE_RULES = { 'nm-b': 'support-nm-b', ser: 'support-ser', 'uf-b': 'support-uf-b' } as const;

/**
 * Decides how far apart a method's supports may be. NEC 334.30, 338.10(B)(4), 340.10(4) for cables; Table 352.30(B)
 * PVC; 358.30(A) EMT; Table 344.30(B) rigid conduit, straight runs.
 * @param tradeSize  of a raceway; cables need none
 */
export function supportRule({
  method,
  tradeSize = '1/2',
}: {
  method: FastenedMethod;
  tradeSize?: TradeSize | undefined;
}): SupportRule {
  switch (method) {
    case 'pvc':
      return {
        everyFt: spacingFt(PVC_SUPPORT_352_30.rows, tradeSize),
        firstWithinFt: FASTENERS_334_358.pvcFirstWithinFt,
        rule: 'support-pvc',
      };
    case 'rmc':
      return {
        everyFt: spacingFt(RMC_SUPPORT_344_30.rows, tradeSize),
        firstWithinFt: FASTENERS_334_358.rmcFirstWithinFt,
        rule: 'support-rmc',
      };
    case 'emt':
      return { ...FASTENERS_334_358.emt, rule: 'support-emt' };
    default:
      return { ...FASTENERS_334_358.cable, rule: CABLE_RULES[method] };
  }
}

/**
 * Decides how many supports a stretch takes: one within reach of the box at each end, and none farther apart than
 * allowed. A stretch that is shorter than one reach takes one.
 * @param lengthFt  > 0
 * @param boxes     ends of the stretch at a box or cabinet: 0, 1 or 2
 */
export function supportCount({
  method,
  tradeSize,
  lengthFt,
  boxes,
}: {
  method: FastenedMethod;
  tradeSize?: TradeSize | undefined;
  lengthFt: number;
  boxes: 0 | 1 | 2;
}): number {
  const { everyFt, firstWithinFt } = supportRule({ method, tradeSize });
  const betweenFt = lengthFt - boxes * firstWithinFt;
  const inBetween = betweenFt <= 0 ? 0 : Math.ceil(betweenFt / everyFt - 1e-9);
  return Math.max(1, boxes === 2 ? inBetween + 1 : inBetween);
}

function spacingFt(rows: readonly (readonly [TradeSize, TradeSize, number])[], tradeSize: TradeSize): number {
  const row = rows.find(([, to]) => compareTradeSizes(tradeSize, to) <= 0);
  // Both tables end at the largest trade size that there is here; the shortest distance is the safe answer otherwise.
  return row?.[2] ?? Math.min(...rows.map(([, , feet]) => feet));
}
