import type { Edition } from './citations.ts';

/**
 * The least that charging equipment counts in a load calculation, in volt-amperes, in the edition of 2023. NEC 220.57.
 */
export const LEAST_EVSE_VA_2023 = 7_200;

/**
 * Decides what a charger counts in the load calculation of a feeder or service, in volt-amperes, before any factor for
 * continuous loads. 2020: its nameplate (625.42). 2023: the larger of 7,200 VA and the nameplate (220.57). 2026: the
 * nameplate; 7,200 VA only where it is not known (120.57). A managed charger counts the setting of its load management
 * (625.42(A), 220.70, 750.30; 2026: 120.7, 130.30).
 * @param nameplateVA  of the equipment, or of a setting that may stand for it (625.42(B))
 * @param managed      does listed load management hold it at that figure?
 */
export function evseLoadVA({
  nameplateVA,
  managed = false,
  edition,
}: {
  nameplateVA: number;
  managed?: boolean | undefined;
  edition: Edition;
}): number {
  if (managed || edition !== '2023') return nameplateVA;
  return Math.max(LEAST_EVSE_VA_2023, nameplateVA);
}
