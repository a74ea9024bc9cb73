import { BeyondTableError } from './errors.ts';
import type { ConductorSize, Metal } from './sizes.ts';
import { CONDUCTOR_SIZES, circularMils } from './sizes.ts';
import { EQUIPMENT_GROUND_250_122 } from './tables/equipment-ground-250-122.ts';

/**
 * Ours: an area that misses a size by no more than this share of it takes that size. AWG is a geometric row and Table
 * 8 is rounded, so a ground enlarged by as many steps as its circuit lands up to 0.18 % above the size it is meant to
 * land on (60 A, 6 to 4 AWG: 16,511 circular mils against 16,510).
 */
export const ENLARGED_AREA_TOLERANCE = 0.002;

/** Ungrounded conductors that were made larger for a reason other than heat or company, such as voltage drop. */
export interface Enlargement {
  fromSize: ConductorSize;
  toSize: ConductorSize;
}

/**
 * Decides the least wire-type equipment grounding conductor. NEC Table 250.122 by the overcurrent device; where the
 * ungrounded conductors were enlarged, in proportion to their circular mils (250.122(B)). Conductors that are larger
 * only because of 310.15(B) or (C) are not enlarged in this sense: leave `enlarged` out.
 * @param ocpdA  rating of the device ahead of the circuit, in amperes; between two rows the higher one holds
 * @param metal  of the grounding conductor
 * @throws {BeyondTableError} above 1,200 A, or where no size is large enough
 */
export function equipmentGroundSize({
  ocpdA,
  metal,
  enlarged,
}: {
  ocpdA: number;
  metal: Metal;
  enlarged?: Enlargement | undefined;
}): ConductorSize {
  const row = EQUIPMENT_GROUND_250_122.rows.find(([ocpdToA]) => ocpdA <= ocpdToA);
  if (!row) throw new BeyondTableError({ table: '250.122', field: 'ocpdA', value: ocpdA, allowed: 'at most 1200 A' });
  const size = metal === 'copper' ? row[1] : row[2];
  if (!enlarged) return size;
  return enlargedGroundSize({ size, metal, enlarged });
}

function enlargedGroundSize({
  size,
  metal,
  enlarged: { fromSize, toSize },
}: {
  size: ConductorSize;
  metal: Metal;
  enlarged: Enlargement;
}): ConductorSize {
  const share = circularMils(toSize) / circularMils(fromSize);
  if (share <= 1) return size;
  const neededCircularMils = circularMils(size) * share;
  const sizes = metal === 'copper' ? CONDUCTOR_SIZES : CONDUCTOR_SIZES.filter((one) => one !== '14');
  const enough = sizes.find((one) => circularMils(one) * (1 + ENLARGED_AREA_TOLERANCE) >= neededCircularMils);
  if (enough) return enough;
  throw new BeyondTableError({
    table: 'Chapter 9 Table 8',
    field: 'enlarged.toSize',
    value: toSize,
    allowed: 'a size whose ground is at most 600 kcmil',
  });
}
