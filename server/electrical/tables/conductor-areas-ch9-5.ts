import type { ConductorSize } from '../sizes.ts';
import type { TableSource } from './table-source.ts';

type Row = readonly [
  size: ConductorSize,
  thwn2DiameterIn: number,
  thwn2In2: number,
  xhhw2DiameterIn: number,
  xhhw2In2: number,
  rhw2DiameterIn: number,
  rhw2In2: number,
];

/**
 * NEC Chapter 9 Table 5: diameter in inches and area in square inches of insulated conductors: THHN, THWN, THWN-2;
 * XHHW, XHHW-2; RHW-2 without outer covering. USE-2 has no row of its own and takes RHW-2's, since it is sold marked
 * as both.
 */
export const CONDUCTOR_AREAS_CH9_5 = {
  source: {
    code: 'NEC',
    edition: '2023',
    table: 'Chapter 9 Table 5',
    note: 'three independent listings agree in all cells',
  },
  rows: [
    ['14', 0.111, 0.0097, 0.133, 0.0139, 0.163, 0.0209],
    ['12', 0.13, 0.0133, 0.152, 0.0181, 0.182, 0.026],
    ['10', 0.164, 0.0211, 0.176, 0.0243, 0.206, 0.0333],
    ['8', 0.216, 0.0366, 0.236, 0.0437, 0.266, 0.0556],
    ['6', 0.254, 0.0507, 0.274, 0.059, 0.304, 0.0726],
    ['4', 0.324, 0.0824, 0.322, 0.0814, 0.352, 0.0973],
    ['3', 0.352, 0.0973, 0.35, 0.0962, 0.38, 0.1134],
    ['2', 0.384, 0.1158, 0.382, 0.1146, 0.412, 0.1333],
    ['1', 0.446, 0.1562, 0.442, 0.1534, 0.492, 0.1901],
    ['1/0', 0.486, 0.1855, 0.482, 0.1825, 0.532, 0.2223],
    ['2/0', 0.532, 0.2223, 0.528, 0.219, 0.578, 0.2624],
    ['3/0', 0.584, 0.2679, 0.58, 0.2642, 0.63, 0.3117],
    ['4/0', 0.642, 0.3237, 0.638, 0.3197, 0.688, 0.3718],
    ['250', 0.711, 0.397, 0.705, 0.3904, 0.765, 0.4596],
    ['300', 0.766, 0.4608, 0.76, 0.4536, 0.82, 0.5281],
    ['350', 0.817, 0.5242, 0.811, 0.5166, 0.871, 0.5958],
    ['400', 0.864, 0.5863, 0.858, 0.5782, 0.918, 0.6619],
    ['500', 0.949, 0.7073, 0.943, 0.6984, 1.003, 0.7901],
  ],
} as const satisfies { source: TableSource; rows: readonly Row[] };
