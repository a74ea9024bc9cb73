import type { TableSource } from './table-source.ts';

/**
 * NEC Table 240.6(A): standard ratings in amperes of fuses and inverse-time circuit breakers. The 10 A row came in
 * 2023; the edition of 2020 lists 1, 3, 6, 10 and 601 A for fuses only.
 */
export const STANDARD_RATINGS_240_6 = {
  source: {
    code: 'NEC',
    edition: '2023',
    table: '240.6(A)',
    note: 'two independent listings agree; 10 A in one of them',
  },
  ratingsA: [
    10, 15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250, 300, 350, 400, 450, 500,
    600, 700, 800, 1000, 1200, 1600, 2000, 2500, 3000, 4000, 5000, 6000,
  ],
  newIn2023A: [10],
} as const satisfies { source: TableSource; ratingsA: readonly number[]; newIn2023A: readonly number[] };
