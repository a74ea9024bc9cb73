import type { ConductorSize, Metal } from '../sizes.ts';
import type { TableSource } from './table-source.ts';

type Row = readonly [size: ConductorSize, metal: Metal, mostA: number, item2020: string, item2023: string];

/**
 * NEC 240.4(D): the most an overcurrent device may be rated, in amperes, over small conductors, whatever their
 * ampacity. 18 and 16 AWG and copper-clad aluminum are left out. The numbers of the items moved by one in 2023.
 */
export const SMALL_CONDUCTORS_240_4_D = {
  source: { code: 'NEC', edition: '2023', table: '240.4(D)', note: 'two independent listings agree' },
  rows: [
    ['14', 'copper', 15, '240.4(D)(3)', '240.4(D)(4)'],
    ['12', 'aluminum', 15, '240.4(D)(4)', '240.4(D)(5)'],
    ['12', 'copper', 20, '240.4(D)(5)', '240.4(D)(6)'],
    ['10', 'aluminum', 25, '240.4(D)(6)', '240.4(D)(7)'],
    ['10', 'copper', 30, '240.4(D)(7)', '240.4(D)(8)'],
  ],
} as const satisfies { source: TableSource; rows: readonly Row[] };
