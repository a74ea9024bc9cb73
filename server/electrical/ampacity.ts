import { BeyondTableError } from './errors.ts';
import type { ColumnC, Insulation } from './insulations.ts';
import { finalColumnC, startColumnC } from './insulations.ts';
import type { ConductorSize, Metal } from './sizes.ts';
import { ADJUSTMENT_310_15_C_1 } from './tables/adjustment-310-15-c-1.ts';
import { AMBIENT_310_15_B_1 } from './tables/ambient-310-15-b-1.ts';
import { AMPACITY_310_16 } from './tables/ampacity-310-16.ts';

/** What ampacities are multiplied by. NEC Tables 310.15(B)(1)(1) and 310.15(C)(1). */
export interface AmpacityFactors {
  ambient: number;
  adjustment: number;
}

/** How many amperes a conductor may carry, and how that came about. */
export interface Ampacity {
  /** Usable: the smaller of the corrected and adjusted ampacity and the final column's. */
  ampacityA: number;
  /** The column that correction starts from, before factors. */
  tableA: number;
  /** The final column's, before factors: what terminals and cable type allow. */
  columnA: number;
  columnC: ColumnC;
  /** Starting column times factors. */
  correctedA: number;
  factors: AmpacityFactors;
}

const COLUMN_INDEX = { copper: { 60: 1, 75: 2, 90: 3 }, aluminum: { 60: 4, 75: 5, 90: 6 } } as const;

/**
 * Ampacity of Table 310.16, in amperes, before any factor.
 * @throws {BeyondTableError} for 14 AWG aluminum, which the table does not have
 */
export function tableAmpacityA({
  metal,
  size,
  columnC,
}: {
  metal: Metal;
  size: ConductorSize;
  columnC: ColumnC;
}): number {
  const row = AMPACITY_310_16.rows.find(([rowSize]) => rowSize === size);
  const ampacityA = row?.[COLUMN_INDEX[metal][columnC]];
  if (typeof ampacityA === 'number') return ampacityA;
  throw new BeyondTableError({
    table: '310.16',
    field: 'size',
    value: size,
    allowed: metal === 'copper' ? '14 AWG to 600 kcmil in copper' : '12 AWG to 600 kcmil in aluminum',
  });
}

/**
 * Factor for the temperature around the conductor. NEC Table 310.15(B)(1)(1). Between whole degrees the hotter row
 * holds.
 * @throws {BeyondTableError} where it is too hot for the insulation
 */
export function ambientFactor({ ambientC, columnC }: { ambientC: number; columnC: ColumnC }): number {
  const row = AMBIENT_310_15_B_1.rows.find(([toC]) => ambientC <= toC);
  const factor = row?.[{ 60: 1 as const, 75: 2 as const, 90: 3 as const }[columnC]];
  if (typeof factor === 'number') return factor;
  const hottestC = { 60: 55, 75: 70, 90: 85 }[columnC];
  throw new BeyondTableError({
    table: '310.15(B)(1)(1)',
    field: 'ambientC',
    value: ambientC,
    allowed: `at most ${hottestC} °C around conductors of ${columnC} °C insulation`,
  });
}

/**
 * Factor for more than three current-carrying conductors together. NEC Table 310.15(C)(1). Equipment grounds never
 * count, nor does a neutral that carries only the unbalance (310.15(E)(1), (F)): a 240 V charger counts 2, a 120/240 V
 * feeder 2.
 */
export function adjustmentFactor(currentCarrying: number): number {
  const row = ADJUSTMENT_310_15_C_1.rows.find(([toCount]) => currentCarrying <= toCount);
  return (row?.[1] ?? 0) / 100;
}

/** A conductor by its own columns. */
export interface ConductorColumns {
  metal: Metal;
  size: ConductorSize;
  /** Column that correction starts from, in °C. */
  insulationC: ColumnC;
  /** Column that the result may not pass, in °C: terminals, or a cable type below them. */
  terminalsC: ColumnC;
  /** Around the conductor, in °C. */
  ambientC: number;
  currentCarrying: number;
}

/**
 * Decides how many amperes a conductor may carry: the insulation's column, corrected for the temperature and adjusted
 * for company, but never above the terminals' column. NEC 310.15(B), (C); 110.14(C)(1).
 * @throws {BeyondTableError} for 14 AWG aluminum, or where it is too hot for the insulation
 */
export function ampacity({
  metal,
  size,
  insulationC,
  terminalsC,
  ambientC,
  currentCarrying,
}: ConductorColumns): Ampacity {
  const columnC = Math.min(insulationC, terminalsC) as ColumnC;
  const factors = {
    ambient: ambientFactor({ ambientC, columnC: insulationC }),
    adjustment: adjustmentFactor(currentCarrying),
  };
  const tableA = tableAmpacityA({ metal, size, columnC: insulationC });
  const columnA = tableAmpacityA({ metal, size, columnC });
  const correctedA = tableA * factors.ambient * factors.adjustment;
  return { ampacityA: Math.min(correctedA, columnA), tableA, columnA, columnC, correctedA, factors };
}

/** A conductor as it is laid. */
export interface LaidConductor {
  metal: Metal;
  size: ConductorSize;
  insulation: Insulation;
  /** Lowest rating of the terminations at both ends, in °C. */
  terminalsC: ColumnC;
  ambientC: number;
  currentCarrying: number;
  inThermalInsulation?: boolean;
}

/**
 * Decides how many amperes a conductor may carry as it is laid, with the column of its cable type: NM-B starts at 90 °C
 * and ends at 60 (334.80), UF-B is 60 (340.80), SER and single conductors end at the terminals' (338.10(B)(4)(a),
 * 110.14(C)(1)). `tableA` is the starting column's ampacity, `columnA` the final one's.
 * @throws {BeyondTableError} as `ampacity`
 */
export function usableAmpacity({ insulation, terminalsC, inThermalInsulation, ...laid }: LaidConductor): Ampacity {
  const finalC = finalColumnC({
    insulation,
    terminalsC,
    size: laid.size,
    ...(inThermalInsulation === undefined ? {} : { inThermalInsulation }),
  });
  return ampacity({ insulationC: startColumnC(insulation), terminalsC: finalC, ...laid });
}
