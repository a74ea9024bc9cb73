import type { TradeSize } from '../sizes.ts';
import type { TableSource } from './table-source.ts';

type Row = readonly [tradeSize: TradeSize, oneShotIn: number, otherBendsIn: number];

/**
 * NEC Chapter 9 Table 2: least radius of a bend in conduit, to its centerline, in inches: one-shot and full-shoe
 * benders, and others.
 */
export const BEND_RADIUS_CH9_2 = {
  source: { code: 'NEC', edition: '2023', table: 'Chapter 9 Table 2', note: 'one independent listing agrees' },
  rows: [
    ['1/2', 4, 4],
    ['3/4', 4.5, 5],
    ['1', 5.75, 6],
    ['1-1/4', 7.25, 8],
    ['1-1/2', 8.25, 10],
    ['2', 9.5, 12],
    ['2-1/2', 10.5, 15],
    ['3', 13, 18],
    ['3-1/2', 15, 21],
    ['4', 16, 24],
  ],
} as const satisfies { source: TableSource; rows: readonly Row[] };
