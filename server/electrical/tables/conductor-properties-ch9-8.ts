import type { ConductorSize } from '../sizes.ts';
import type { TableSource } from './table-source.ts';

type Row = readonly [
  size: ConductorSize,
  construction: 'solid' | 'stranded',
  strands: number,
  circularMils: number,
  overallDiameterIn: number,
  overallIn2: number,
  copperOhmPerKft: number,
  aluminumOhmPerKft: number,
];

/**
 * NEC Chapter 9 Table 8: the bare conductor. Area of the metal in circular mils, overall diameter in inches and area in
 * square inches, direct-current resistance at 75 °C in ohms per 1,000 ft of uncoated copper and of aluminum. Both
 * constructions are kept as printed; calculations take the stranded rows.
 */
export const CONDUCTOR_PROPERTIES_CH9_8 = {
  source: {
    code: 'NEC',
    edition: '2023',
    table: 'Chapter 9 Table 8',
    note: 'resistance: three listings agree; 10 AWG aluminum, solid: 2.00, as computed, where one of them has 1.99; overall areas from memory, and by geometry to rounding: 12 AWG stranded is cut off at 0.006, not rounded',
  },
  rows: [
    ['14', 'solid', 1, 4110, 0.064, 0.003, 3.07, 5.06],
    ['14', 'stranded', 7, 4110, 0.073, 0.004, 3.14, 5.17],
    ['12', 'solid', 1, 6530, 0.081, 0.005, 1.93, 3.18],
    ['12', 'stranded', 7, 6530, 0.092, 0.006, 1.98, 3.25],
    ['10', 'solid', 1, 10380, 0.102, 0.008, 1.21, 2.0],
    ['10', 'stranded', 7, 10380, 0.116, 0.011, 1.24, 2.04],
    ['8', 'solid', 1, 16510, 0.128, 0.013, 0.764, 1.26],
    ['8', 'stranded', 7, 16510, 0.146, 0.017, 0.778, 1.28],
    ['6', 'stranded', 7, 26240, 0.184, 0.027, 0.491, 0.808],
    ['4', 'stranded', 7, 41740, 0.232, 0.042, 0.308, 0.508],
    ['3', 'stranded', 7, 52620, 0.26, 0.053, 0.245, 0.403],
    ['2', 'stranded', 7, 66360, 0.292, 0.067, 0.194, 0.319],
    ['1', 'stranded', 19, 83690, 0.332, 0.087, 0.154, 0.253],
    ['1/0', 'stranded', 19, 105600, 0.372, 0.109, 0.122, 0.201],
    ['2/0', 'stranded', 19, 133100, 0.418, 0.137, 0.0967, 0.159],
    ['3/0', 'stranded', 19, 167800, 0.47, 0.173, 0.0766, 0.126],
    ['4/0', 'stranded', 19, 211600, 0.528, 0.219, 0.0608, 0.1],
    ['250', 'stranded', 37, 250000, 0.575, 0.26, 0.0515, 0.0847],
    ['300', 'stranded', 37, 300000, 0.63, 0.312, 0.0429, 0.0707],
    ['350', 'stranded', 37, 350000, 0.681, 0.364, 0.0367, 0.0605],
    ['400', 'stranded', 37, 400000, 0.728, 0.416, 0.0321, 0.0529],
    ['500', 'stranded', 37, 500000, 0.813, 0.519, 0.0258, 0.0424],
  ],
} as const satisfies { source: TableSource; rows: readonly Row[] };
