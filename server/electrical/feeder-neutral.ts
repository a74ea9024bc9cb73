import { usableAmpacity } from './ampacity.ts';
import { equipmentGroundSize } from './equipment-ground.ts';
import { BeyondTableError } from './errors.ts';
import type { ColumnC, Insulation } from './insulations.ts';
import { sizesOf } from './insulations.ts';
import { reaches } from './overcurrent.ts';
import type { ConductorSize, Metal } from './sizes.ts';
import { compareSizes } from './sizes.ts';

/**
 * Decides the smallest neutral of a feeder: it carries the largest unbalanced load (220.61), and is not smaller than
 * the equipment ground of 250.122 (215.2(B)). A 240 V charger adds nothing to it; 120 V circuits do, and the neutral
 * of a 14-50 receptacle, whose load is not known, should count in full.
 * @param unbalancedA  the larger sum of 120 V loads on one leg, in amperes, what lasts at 125 %
 * @throws {BeyondTableError} where no size of this insulation is large enough
 */
export function feederNeutralSize({
  unbalancedA,
  ocpdA,
  metal,
  insulation,
  terminalsC,
  ambientC,
  currentCarrying,
}: {
  unbalancedA: number;
  ocpdA: number;
  metal: Metal;
  insulation: Insulation;
  terminalsC: ColumnC;
  ambientC: number;
  currentCarrying: number;
}): ConductorSize {
  const leastSize = equipmentGroundSize({ ocpdA, metal });
  const size = sizesOf(insulation, metal).find((one) => {
    if (compareSizes(one, leastSize) < 0) return false;
    const laid = { metal, size: one, insulation, terminalsC, ambientC, currentCarrying };
    return reaches(usableAmpacity(laid).ampacityA, unbalancedA);
  });
  if (size) return size;
  const allowed = `what ${metal} ${insulation} can carry`;
  throw new BeyondTableError({ table: '310.16', field: 'unbalancedA', value: unbalancedA, allowed });
}
