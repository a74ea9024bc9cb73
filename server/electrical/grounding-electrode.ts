import { RefusedInputError } from './errors.ts';
import type { ConductorSize, Metal } from './sizes.ts';
import { circularMils, compareSizes } from './sizes.ts';
import { ELECTRODE_CONDUCTOR_250_66, ELECTRODE_LIMITS_250_66 } from './tables/electrode-conductor-250-66.ts';

/** Grounding electrodes: driven rod, buried plate, concrete-encased, underground metal water pipe. NEC 250.52(A). */
export const ELECTRODES = ['rod', 'plate', 'concrete-encased', 'water-pipe'] as const;
export type Electrode = (typeof ELECTRODES)[number];

/**
 * Decides the least grounding electrode conductor. NEC Table 250.66 by the largest ungrounded supply conductor; a
 * conductor that serves only rods or plates need not be larger than 6 AWG copper or 4 AWG aluminum (250.66(A)), only a
 * concrete-encased electrode than 4 AWG copper (250.66(B)). Also for separate buildings (250.32(E)).
 * @param conductorSize   the largest ungrounded conductor of the supply, and its metal
 * @param metal           of the grounding electrode conductor
 * @throws {RefusedInputError} for aluminum to a concrete-encased electrode: 250.66(B) names no size for it, and 250.64(A)
 *   keeps bare aluminum from masonry and earth
 */
export function electrodeConductorSize({
  conductorSize,
  conductorMetal,
  metal,
  electrode,
}: {
  conductorSize: ConductorSize;
  conductorMetal: Metal;
  metal: Metal;
  electrode: Electrode;
}): ConductorSize {
  const area = circularMils(conductorSize);
  const row = ELECTRODE_CONDUCTOR_250_66.rows.find((one) => area <= (conductorMetal === 'copper' ? one[0] : one[1]));
  if (!row)
    throw new RefusedInputError({ field: 'conductorSize', value: conductorSize, allowed: 'a size of Table 250.66' });
  const byTable = metal === 'copper' ? row[2] : row[3];
  if (electrode === 'water-pipe') return byTable;
  const limit = ELECTRODE_LIMITS_250_66.rows[electrode][metal];
  if (limit === null) {
    throw new RefusedInputError({ field: 'metal', value: metal, allowed: `copper for a ${electrode} electrode` });
  }
  return compareSizes(byTable, limit) > 0 ? limit : byTable;
}
