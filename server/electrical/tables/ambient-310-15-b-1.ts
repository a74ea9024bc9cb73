import type { TableSource } from './table-source.ts';

type Row = readonly [toC: number, factor60: number | null, factor75: number | null, factor90: number | null];

/**
 * NEC Table 310.15(B)(1)(1): what ampacities of a table for 30 °C are multiplied by where it is colder or hotter.
 * A row ends at the temperature given, in °C, and starts above the one before it; the first is 10 °C or less. Columns
 * are the temperature ratings of the insulation in °C. `null`: the conductor may not be there.
 */
export const AMBIENT_310_15_B_1 = {
  source: {
    code: 'NEC',
    edition: '2023',
    table: '310.15(B)(1)(1)',
    note: 'printed as Table 310.15(B)(1) in 2020; two independent listings agree, and the square-root law',
  },
  rows: [
    [10, 1.29, 1.2, 1.15],
    [15, 1.22, 1.15, 1.12],
    [20, 1.15, 1.11, 1.08],
    [25, 1.08, 1.05, 1.04],
    [30, 1.0, 1.0, 1.0],
    [35, 0.91, 0.94, 0.96],
    [40, 0.82, 0.88, 0.91],
    [45, 0.71, 0.82, 0.87],
    [50, 0.58, 0.75, 0.82],
    [55, 0.41, 0.67, 0.76],
    [60, null, 0.58, 0.71],
    [65, null, 0.47, 0.65],
    [70, null, 0.33, 0.58],
    [75, null, null, 0.5],
    [80, null, null, 0.41],
    [85, null, null, 0.29],
  ],
} as const satisfies { source: TableSource; rows: readonly Row[] };
