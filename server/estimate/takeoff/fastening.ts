import { EXPANSION_FITTING_FROM_IN, pvcLengthChangeIn } from '../../electrical/expansion.ts';

/** Between joists or studs, centre to centre, in inches. Common practice, no source. */
export const FRAMING_SPACING_IN = 16;

/** What one expansion fitting takes up, in inches. Common practice, no source. */
const FITTING_TRAVEL_IN = 4;

/**
 * Decides how many expansion fittings a straight run of PVC above ground needs: none below the change that NEC 352.44(A)
 * names, else one for each 4 in of change.
 * @param lengthFt  of the straight run, in feet
 * @param swingF    between the coldest and the hottest that it gets, in °F
 */
export function expansionFittings({ lengthFt, swingF }: { lengthFt: number; swingF: number }): {
  count: number;
  changeIn: number;
} {
  const changeIn = pvcLengthChangeIn({ lengthFt, swingF });
  return { count: changeIn >= EXPANSION_FITTING_FROM_IN ? Math.ceil(changeIn / FITTING_TRAVEL_IN) : 0, changeIn };
}

/** Joists or studs that are crossed on the way: one for every 16 in begun. */
export function framingCrossed(lengthFt: number): number {
  return Math.ceil((lengthFt * 12) / FRAMING_SPACING_IN - 1e-9);
}
