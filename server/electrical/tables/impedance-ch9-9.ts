import type { ConductorSize } from '../sizes.ts';
import type { TableSource } from './table-source.ts';

type Row = readonly [
  size: ConductorSize,
  reactancePvcOrAluminum: number,
  reactanceSteel: number,
  copperInPvc: number,
  copperInAluminum: number,
  copperInSteel: number,
  aluminumInPvc: number | null,
  aluminumInAluminum: number | null,
  aluminumInSteel: number | null,
  copperZInPvc: number,
  copperZInAluminum: number,
  copperZInSteel: number,
  aluminumZInPvc: number | null,
  aluminumZInAluminum: number | null,
  aluminumZInSteel: number | null,
];

/**
 * NEC Chapter 9 Table 9: three single conductors in conduit at 60 Hz and 75 °C, in ohms to neutral per 1,000 ft:
 * reactance in PVC or aluminum and in steel conduit; resistance of copper, then of aluminum, in PVC, aluminum and steel
 * conduit; effective impedance at 0.85 power factor in the same six. The last six are printed, not used: they
 * are R cos φ + X sin φ rounded, up to 5 % off in small sizes.
 */
export const IMPEDANCE_CH9_9 = {
  source: {
    code: 'NEC',
    edition: '2023',
    table: 'Chapter 9 Table 9',
    note: 'up to three listings agree; they differ at 1/0 copper in aluminum conduit (0.13 taken, one has 0.12) and in the reactance of 10 and 8 AWG (0.050, 0.063 and 0.052, 0.065 taken, one is shifted)',
  },
  rows: [
    ['14', 0.058, 0.073, 3.1, 3.1, 3.1, null, null, null, 2.7, 2.7, 2.7, null, null, null],
    ['12', 0.054, 0.068, 2.0, 2.0, 2.0, 3.2, 3.2, 3.2, 1.7, 1.7, 1.7, 2.8, 2.8, 2.8],
    ['10', 0.05, 0.063, 1.2, 1.2, 1.2, 2.0, 2.0, 2.0, 1.1, 1.1, 1.1, 1.8, 1.8, 1.8],
    ['8', 0.052, 0.065, 0.78, 0.78, 0.78, 1.3, 1.3, 1.3, 0.69, 0.69, 0.7, 1.1, 1.1, 1.1],
    ['6', 0.051, 0.064, 0.49, 0.49, 0.49, 0.81, 0.81, 0.81, 0.44, 0.45, 0.45, 0.71, 0.72, 0.72],
    ['4', 0.048, 0.06, 0.31, 0.31, 0.31, 0.51, 0.51, 0.51, 0.29, 0.29, 0.3, 0.46, 0.46, 0.46],
    ['3', 0.047, 0.059, 0.25, 0.25, 0.25, 0.4, 0.41, 0.4, 0.23, 0.24, 0.24, 0.37, 0.37, 0.37],
    ['2', 0.045, 0.057, 0.19, 0.2, 0.2, 0.32, 0.32, 0.32, 0.19, 0.19, 0.2, 0.3, 0.3, 0.3],
    ['1', 0.046, 0.057, 0.15, 0.16, 0.16, 0.25, 0.26, 0.25, 0.16, 0.16, 0.16, 0.24, 0.24, 0.25],
    ['1/0', 0.044, 0.055, 0.12, 0.13, 0.12, 0.2, 0.21, 0.2, 0.13, 0.13, 0.13, 0.19, 0.2, 0.2],
    ['2/0', 0.043, 0.054, 0.1, 0.1, 0.1, 0.16, 0.16, 0.16, 0.11, 0.11, 0.11, 0.16, 0.16, 0.16],
    ['3/0', 0.042, 0.052, 0.077, 0.082, 0.079, 0.13, 0.13, 0.13, 0.088, 0.092, 0.094, 0.13, 0.13, 0.14],
    ['4/0', 0.041, 0.051, 0.062, 0.067, 0.063, 0.1, 0.11, 0.1, 0.074, 0.078, 0.08, 0.11, 0.11, 0.11],
    ['250', 0.041, 0.052, 0.052, 0.057, 0.054, 0.085, 0.09, 0.086, 0.066, 0.07, 0.073, 0.094, 0.098, 0.1],
    ['300', 0.041, 0.051, 0.044, 0.049, 0.045, 0.071, 0.076, 0.072, 0.059, 0.063, 0.065, 0.082, 0.086, 0.088],
    ['350', 0.04, 0.05, 0.038, 0.043, 0.039, 0.061, 0.066, 0.063, 0.053, 0.058, 0.06, 0.073, 0.077, 0.08],
    ['400', 0.04, 0.049, 0.033, 0.038, 0.035, 0.054, 0.059, 0.055, 0.049, 0.053, 0.056, 0.066, 0.071, 0.073],
    ['500', 0.039, 0.048, 0.027, 0.032, 0.029, 0.043, 0.048, 0.045, 0.043, 0.048, 0.05, 0.057, 0.061, 0.064],
  ],
} as const satisfies { source: TableSource; rows: readonly Row[] };
