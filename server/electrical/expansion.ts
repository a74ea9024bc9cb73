import type { Edition } from './citations.ts';
import { cite } from './citations.ts';
import type { Finding } from './findings.ts';
import { PVC_EXPANSION_PER_F } from './tables/pvc-expansion-352-44.ts';

/**
 * From this change in length on, in inches, a straight run of PVC between fixed points needs an expansion fitting. NEC
 * 352.44(A).
 */
export const EXPANSION_FITTING_FROM_IN = 0.25;

/**
 * How much a straight run of PVC changes in length, in inches. NEC Table 352.44(A): 3.38 × 10⁻⁵ in/in/°F.
 * @param swingF  between the coldest and the hottest the run gets, in °F; more in the sun than in the air
 */
export function pvcLengthChangeIn({ lengthFt, swingF }: { lengthFt: number; swingF: number }): number {
  return lengthFt * 12 * swingF * PVC_EXPANSION_PER_F;
}

/**
 * Checks whether a straight run of PVC above ground needs an expansion fitting: from 1/4 in of change on. Underground
 * the soil holds it; where it comes up, frost and settlement ask for a fitting too (352.44(B); 2020: 300.5(J)).
 */
export function checkExpansion({
  lengthFt,
  swingF,
  leg,
  edition,
}: {
  lengthFt: number;
  swingF: number;
  leg?: number | undefined;
  edition: Edition;
}): Finding & { fittingNeeded: boolean } {
  const changeIn = pvcLengthChangeIn({ lengthFt, swingF });
  const fittingNeeded = changeIn >= EXPANSION_FITTING_FROM_IN;
  const said = changeIn.toFixed(2);
  const rule = 'pvc-expansion';
  return {
    rule,
    citation: cite(rule, edition),
    numbers: { lengthFt, swingF, changeIn, fittingFromIn: EXPANSION_FITTING_FROM_IN },
    ...(leg !== undefined && { leg }),
    severity: fittingNeeded ? 'note' : 'ok',
    fittingNeeded,
    message: fittingNeeded
      ? `${lengthFt} ft of PVC change by ${said} in over ${swingF} °F: fit an expansion fitting.`
      : `${lengthFt} ft of PVC change by ${said} in over ${swingF} °F: no expansion fitting is needed.`,
  };
}
