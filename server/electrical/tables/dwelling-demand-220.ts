import type { TableSource } from './table-source.ts';

/**
 * NEC Table 220.45: general lighting of dwellings, volt-amperes up to the end of each step and the percent they count
 * at.
 */
export const LIGHTING_DEMAND_220_45 = {
  source: {
    code: 'NEC',
    edition: '2023',
    table: '220.45',
    note: 'printed as Table 220.42 in 2020; two listings agree',
  },
  rows: [
    [3_000, 100],
    [120_000, 35],
    [Number.POSITIVE_INFINITY, 25],
  ],
} as const satisfies { source: TableSource; rows: readonly (readonly [toVA: number, percent: number])[] };

/**
 * NEC Table 220.54: percent that household dryers count at, by their number. To 11; beyond, `47 − (number − 11)` to
 * 23.
 */
export const DRYER_DEMAND_220_54 = {
  source: { code: 'NEC', edition: '2023', table: '220.54', note: 'one to four read; from five on from memory' },
  percentByCount: [100, 100, 100, 100, 85, 75, 65, 60, 55, 50, 47],
  /** The least that a dryer counts, in volt-amperes: 220.54. */
  leastVA: 5_000,
} as const satisfies { source: TableSource } & Record<string, unknown>;

type RangeRow = readonly [count: number, columnAPercent: number, columnBPercent: number, columnCKw: number];

/**
 * NEC Table 220.55: household ranges and other cooking appliances above 1.75 kW, by their number. Column A, percent of
 * nameplates below 3.5 kW; column B, percent from 3.5 through 8.75 kW; column C, kilowatts of demand in all, for
 * ratings to 12 kW. Above 12 kW column C rises by 5 % for each kilowatt or major fraction of it (notes 1 and 2), to 27
 * kW.
 */
export const RANGE_DEMAND_220_55 = {
  source: {
    code: 'NEC',
    edition: '2023',
    table: '220.55',
    note: 'from memory; column C of one range (8 kW) and column B of three (55 %) confirmed by Examples D1(a) and D2(b)',
  },
  rows: [
    [1, 80, 80, 8],
    [2, 75, 65, 11],
    [3, 70, 55, 14],
    [4, 66, 50, 17],
    [5, 62, 45, 20],
    [6, 59, 43, 21],
    [7, 56, 40, 22],
    [8, 53, 36, 23],
    [9, 51, 35, 24],
    [10, 49, 34, 25],
  ],
  aboveVA: 1_750,
  columnBFromVA: 3_500,
  columnBToVA: 8_750,
  columnCToVA: 12_000,
  mostVA: 27_000,
  risePercentPerKw: 5,
} as const satisfies { source: TableSource; rows: readonly RangeRow[] } & Record<string, unknown>;
