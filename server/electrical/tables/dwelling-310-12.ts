import type { ConductorSize } from '../sizes.ts';
import type { TableSource } from './table-source.ts';

type Row = readonly [ratingA: number, copper: ConductorSize, aluminum: ConductorSize];

/**
 * NEC Table 310.12(A): conductors of a single-phase 120/240 V service, or of a feeder that carries the entire load of a
 * dwelling, where no correction or adjustment is needed. Rating of the service or feeder in amperes. Each size is the
 * smallest whose 75 °C ampacity reaches 83 % of the rating, which a test computes.
 */
export const DWELLING_310_12 = {
  source: {
    code: 'NEC',
    edition: '2023',
    table: '310.12(A)',
    note: 'printed as Table 310.12 in 2020; one independent listing agrees, and the 83 % rule gives every row',
  },
  rows: [
    [100, '4', '2'],
    [110, '3', '1'],
    [125, '2', '1/0'],
    [150, '1', '2/0'],
    [175, '1/0', '3/0'],
    [200, '2/0', '4/0'],
    [225, '3/0', '250'],
    [250, '4/0', '300'],
    [300, '250', '350'],
    [350, '350', '500'],
    [400, '400', '600'],
  ],
} as const satisfies { source: TableSource; rows: readonly Row[] };
