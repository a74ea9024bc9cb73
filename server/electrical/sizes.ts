import { BeyondTableError } from './errors.ts';
import { CONDUCTOR_PROPERTIES_CH9_8 } from './tables/conductor-properties-ch9-8.ts';

/** What the current flows in. Copper-clad aluminum counts as aluminum. */
export const METALS = ['copper', 'aluminum'] as const;
export type Metal = (typeof METALS)[number];

/** Conductor sizes in order: AWG, then kcmil. */
export const CONDUCTOR_SIZES = [
  '14',
  '12',
  '10',
  '8',
  '6',
  '4',
  '3',
  '2',
  '1',
  '1/0',
  '2/0',
  '3/0',
  '4/0',
  '250',
  '300',
  '350',
  '400',
  '500',
  '600',
] as const;
export type ConductorSize = (typeof CONDUCTOR_SIZES)[number];

/** Raceways that the tables here know: PVC schedule 40 and 80, electrical metallic tubing, rigid metal conduit. */
export const RACEWAY_TYPES = ['pvc-40', 'pvc-80', 'emt', 'rmc'] as const;
export type RacewayType = (typeof RACEWAY_TYPES)[number];

/** Trade sizes of raceways, in order. */
export const TRADE_SIZES = ['1/2', '3/4', '1', '1-1/4', '1-1/2', '2', '2-1/2', '3', '3-1/2', '4'] as const;
export type TradeSize = (typeof TRADE_SIZES)[number];

/** Below 0 where `a` is the smaller conductor, 0 where they are equal, above 0 where it is the larger one. */
export function compareSizes(a: ConductorSize, b: ConductorSize): number {
  return CONDUCTOR_SIZES.indexOf(a) - CONDUCTOR_SIZES.indexOf(b);
}

/** The larger of two conductor sizes. */
export function largerSize(a: ConductorSize, b: ConductorSize): ConductorSize {
  return compareSizes(a, b) >= 0 ? a : b;
}

/** Sizes from one to another, both included, in order. */
export function sizesBetween({ from, to }: { from: ConductorSize; to: ConductorSize }): ConductorSize[] {
  return CONDUCTOR_SIZES.slice(CONDUCTOR_SIZES.indexOf(from), CONDUCTOR_SIZES.indexOf(to) + 1);
}

/**
 * Area of the metal of a conductor, in circular mils. NEC Chapter 9 Table 8; kcmil sizes are their own area.
 * @throws {BeyondTableError} for a size that is neither in the table nor a kcmil size
 */
export function circularMils(size: ConductorSize): number {
  const row = CONDUCTOR_PROPERTIES_CH9_8.rows.find(([rowSize]) => rowSize === size);
  if (row) return row[3];
  if (/^\d{3}$/.test(size)) return Number(size) * 1000;
  throw new BeyondTableError({
    table: 'Chapter 9 Table 8',
    field: 'size',
    value: size,
    allowed: CONDUCTOR_SIZES.join(', '),
  });
}

/** How people say it: `6 AWG`, `1/0 AWG`, `250 kcmil`. */
export function sizeInWords(size: ConductorSize): string {
  return /^\d{3}$/.test(size) ? `${size} kcmil` : `${size} AWG`;
}

/** Below 0 where `a` is the smaller raceway. */
export function compareTradeSizes(a: TradeSize, b: TradeSize): number {
  return TRADE_SIZES.indexOf(a) - TRADE_SIZES.indexOf(b);
}
