import type { ConductorSize } from '../sizes.ts';
import type { TableSource } from './table-source.ts';

type Row = readonly [ocpdToA: number, copper: ConductorSize, aluminum: ConductorSize];

/**
 * NEC Table 250.122: least equipment grounding conductor by the overcurrent device ahead of it, in amperes, up to the
 * rating given. To 1,200 A.
 */
export const EQUIPMENT_GROUND_250_122 = {
  source: { code: 'NEC', edition: '2023', table: '250.122', note: 'two independent listings agree' },
  rows: [
    [15, '14', '12'],
    [20, '12', '10'],
    [60, '10', '8'],
    [100, '8', '6'],
    [200, '6', '4'],
    [300, '4', '2'],
    [400, '3', '1'],
    [500, '2', '1/0'],
    [600, '1', '2/0'],
    [800, '1/0', '3/0'],
    [1000, '2/0', '4/0'],
    [1200, '3/0', '250'],
  ],
} as const satisfies { source: TableSource; rows: readonly Row[] };
