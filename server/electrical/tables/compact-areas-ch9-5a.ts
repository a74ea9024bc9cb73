import type { ConductorSize } from '../sizes.ts';
import type { TableSource } from './table-source.ts';

type Row = readonly [
  size: ConductorSize,
  bareDiameterIn: number,
  bareIn2: number,
  thhnIn2: number | null,
  xhhwIn2: number,
  rhwOrUseIn2: number,
];

/**
 * NEC Chapter 9 Table 5A: compact-stranded aluminum. Diameter of the bare conductor in inches, then areas in square
 * inches: bare, THHN, XHHW, RHW or USE without outer covering. It needs less room than Table 5 says, so a conduit
 * chosen by Table 5 always holds it; fill is judged by Table 5 unless the wire is known to be compact.
 */
export const COMPACT_AREAS_CH9_5A = {
  source: {
    code: 'NEC',
    edition: '2023',
    table: 'Chapter 9 Table 5A',
    note: 'one listing only; the areas give diameters in steps of 0.005 in',
  },
  rows: [
    ['8', 0.134, 0.0141, null, 0.0394, 0.0531],
    ['6', 0.169, 0.0224, 0.0452, 0.053, 0.0683],
    ['4', 0.213, 0.0356, 0.073, 0.073, 0.0881],
    ['2', 0.268, 0.0564, 0.1017, 0.1017, 0.1194],
    ['1', 0.299, 0.0702, 0.1352, 0.1352, 0.1698],
    ['1/0', 0.336, 0.0887, 0.159, 0.159, 0.1963],
    ['2/0', 0.376, 0.111, 0.1924, 0.1885, 0.229],
    ['3/0', 0.423, 0.1405, 0.229, 0.229, 0.2733],
    ['4/0', 0.475, 0.1772, 0.278, 0.2733, 0.3217],
    ['250', 0.52, 0.2124, 0.3525, 0.3421, 0.4015],
    ['300', 0.57, 0.2552, 0.4071, 0.4015, 0.4596],
    ['350', 0.616, 0.298, 0.4656, 0.4536, 0.5153],
    ['400', 0.659, 0.3411, 0.5216, 0.5026, 0.5741],
    ['500', 0.736, 0.4254, 0.6151, 0.6082, 0.6793],
  ],
} as const satisfies { source: TableSource; rows: readonly Row[] };
