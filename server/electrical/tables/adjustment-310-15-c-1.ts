import type { TableSource } from './table-source.ts';

type Row = readonly [toCount: number, percent: number];

/**
 * NEC Table 310.15(C)(1): percent of the ampacity that is left where more than three current-carrying conductors lie
 * together, spares counted. A row ends at the count given; one to three conductors, which the table leaves out, keep
 * all.
 */
export const ADJUSTMENT_310_15_C_1 = {
  source: { code: 'NEC', edition: '2023', table: '310.15(C)(1)', note: 'two independent listings agree' },
  rows: [
    [3, 100],
    [6, 80],
    [9, 70],
    [20, 50],
    [30, 45],
    [40, 40],
    [Number.POSITIVE_INFINITY, 35],
  ],
} as const satisfies { source: TableSource; rows: readonly Row[] };
