import type { TableSource } from './table-source.ts';

type Row = readonly [changeF: number, inchesPer100Ft: number];

/** NEC Table 352.44(A): change in length of PVC conduit, in inches per 100 ft, by the change in temperature in °F. */
export const PVC_EXPANSION_352_44 = {
  source: {
    code: 'NEC',
    edition: '2023',
    table: '352.44(A)',
    note: 'printed as Table 352.44 in 2020; one independent listing agrees, and the coefficient in every row',
  },
  rows: [
    [5, 0.2],
    [10, 0.41],
    [15, 0.61],
    [20, 0.81],
    [25, 1.01],
    [30, 1.22],
    [35, 1.42],
    [40, 1.62],
    [45, 1.83],
    [50, 2.03],
    [55, 2.23],
    [60, 2.43],
    [65, 2.64],
    [70, 2.84],
    [75, 3.04],
    [80, 3.24],
    [85, 3.45],
    [90, 3.65],
    [95, 3.85],
    [100, 4.06],
    [105, 4.26],
    [110, 4.46],
    [115, 4.66],
    [120, 4.87],
    [125, 5.07],
    [130, 5.27],
    [135, 5.48],
    [140, 5.68],
    [145, 5.88],
    [150, 6.08],
  ],
} as const satisfies { source: TableSource; rows: readonly Row[] };

/** NEC Table 352.44(A): the coefficient behind it, in inches per inch and °F. */
export const PVC_EXPANSION_PER_F = 3.38e-5;
