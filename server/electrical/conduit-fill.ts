import { BeyondTableError } from './errors.ts';
import type { ConductorSize, RacewayType, TradeSize } from './sizes.ts';
import { CONDUCTOR_AREAS_CH9_5 } from './tables/conductor-areas-ch9-5.ts';
import { CONDUCTOR_PROPERTIES_CH9_8 } from './tables/conductor-properties-ch9-8.ts';
import { CONDUIT_AREAS_CH9_4 } from './tables/conduit-areas-ch9-4.ts';
import { CONDUIT_FILL_CH9_1 } from './tables/conduit-fill-ch9-1.ts';

/** Single conductors whose room is known: by their insulation, or bare. */
export const FILL_INSULATIONS = ['thwn-2', 'xhhw-2', 'use-2', 'bare'] as const;
export type FillInsulation = (typeof FILL_INSULATIONS)[number];

/** So many conductors of one kind in a raceway. Equipment grounds count like all others: Chapter 9 note 3. */
export interface FillConductor {
  insulation: FillInsulation;
  size: ConductorSize;
  count: number;
}

/** How full a raceway is. Areas in square inches; the limit is that of the table for so many conductors. */
export interface FillAnswer {
  tradeSize: TradeSize;
  areaIn2: number;
  limitIn2: number;
  fillPercent: number;
  fits: boolean;
}

type ConduitRow = (typeof CONDUIT_AREAS_CH9_4.rows)[number];

/**
 * Area of one conductor with its insulation, in square inches. NEC Chapter 9 Table 5; bare ones Table 8, stranded;
 * USE-2 takes RHW-2's row.
 * @throws {BeyondTableError} above 500 kcmil
 */
export function conductorAreaIn2({ insulation, size }: { insulation: FillInsulation; size: ConductorSize }): number {
  const bare = CONDUCTOR_PROPERTIES_CH9_8.rows.find((one) => one[0] === size && one[1] === 'stranded');
  const insulated = CONDUCTOR_AREAS_CH9_5.rows.find(([rowSize]) => rowSize === size);
  if (bare && insulated) {
    return { bare: bare[5], 'thwn-2': insulated[2], 'xhhw-2': insulated[4], 'use-2': insulated[6] }[insulation];
  }
  const table = insulation === 'bare' ? 'Chapter 9 Table 8' : 'Chapter 9 Table 5';
  throw new BeyondTableError({ table, field: 'conductors', value: size, allowed: 'sizes 14 AWG to 500 kcmil' });
}

/** Area of all conductors, in square inches. */
export function conductorsAreaIn2(conductors: readonly FillConductor[]): number {
  return conductors.reduce((sum, { count, ...conductor }) => sum + count * conductorAreaIn2(conductor), 0);
}

/**
 * Decides how full a raceway of a trade size is. NEC Chapter 9 Tables 1, 4 and 5: one conductor 53 %, two 31 %, more
 * 40 % of the inside, as printed in Table 4; a nipple of 24 in or less 60 % (note 4).
 */
export function conduitFill({
  type,
  tradeSize,
  conductors,
  lengthIn,
}: {
  type: RacewayType;
  tradeSize: TradeSize;
  conductors: readonly FillConductor[];
  lengthIn?: number | undefined;
}): FillAnswer {
  const row = conduitRow(type, tradeSize);
  const areaIn2 = conductorsAreaIn2(conductors);
  const count = conductors.reduce((sum, conductor) => sum + conductor.count, 0);
  const limitIn2 = limitOf(row, count, lengthIn);
  return { tradeSize, areaIn2, limitIn2, fillPercent: (100 * areaIn2) / row[3], fits: withinIn2(areaIn2, limitIn2) };
}

/**
 * Decides the smallest trade size that holds these conductors. NEC Chapter 9 Tables 1, 4 and 5.
 * @throws {BeyondTableError} where not even trade size 4 does
 */
export function smallestConduit({
  type,
  conductors,
  lengthIn,
}: {
  type: RacewayType;
  conductors: readonly FillConductor[];
  lengthIn?: number | undefined;
}): FillAnswer {
  const fills = CONDUIT_AREAS_CH9_4.rows
    .filter((row) => row[0] === type)
    .map((row) => conduitFill({ type, tradeSize: row[1], conductors, lengthIn }));
  const fitting = fills.find(({ fits }) => fits);
  if (fitting) return fitting;
  throw tooMuch(type, conductorsAreaIn2(conductors));
}

/**
 * Decides the smallest raceway that a multiconductor cable is sleeved in: it counts as one conductor by its own, for
 * flat cable its larger, diameter in inches. NEC Chapter 9 note 9 (from memory) and Table 1.
 * @throws {BeyondTableError} where not even trade size 4 does
 */
export function smallestSleeve({ type, cableDiameterIn }: { type: RacewayType; cableDiameterIn: number }): FillAnswer {
  const areaIn2 = (Math.PI / 4) * cableDiameterIn ** 2;
  const row = CONDUIT_AREAS_CH9_4.rows.find((one) => one[0] === type && withinIn2(areaIn2, one[4]));
  if (!row) throw tooMuch(type, areaIn2);
  return { tradeSize: row[1], areaIn2, limitIn2: row[4], fillPercent: (100 * areaIn2) / row[3], fits: true };
}

function conduitRow(type: RacewayType, tradeSize: TradeSize): ConduitRow {
  const row = CONDUIT_AREAS_CH9_4.rows.find((one) => one[0] === type && one[1] === tradeSize);
  if (row) return row;
  const allowed = 'a trade size from 1/2 to 4';
  throw new BeyondTableError({ table: 'Chapter 9 Table 4', field: 'tradeSize', value: tradeSize, allowed });
}

function limitOf(row: ConduitRow, count: number, lengthIn: number | undefined): number {
  if (lengthIn !== undefined && lengthIn <= CONDUIT_FILL_CH9_1.nippleToIn) {
    return (row[3] * CONDUIT_FILL_CH9_1.nipplePercent) / 100;
  }
  if (count <= 1) return row[4];
  return count === 2 ? row[5] : row[6];
}

/** Sums of printed areas may miss the limit by a binary fraction only. */
function withinIn2(areaIn2: number, limitIn2: number): boolean {
  return areaIn2 <= limitIn2 + 1e-9;
}

function tooMuch(type: RacewayType, areaIn2: number): BeyondTableError {
  return new BeyondTableError({
    table: 'Chapter 9 Table 4',
    field: 'conductors',
    value: `${areaIn2.toFixed(3)} in²`,
    allowed: `what trade size 4 of ${type} holds`,
  });
}
