import type { ConductorSize } from '../sizes.ts';
import type { TableSource } from './table-source.ts';

type Row = readonly [
  size: ConductorSize,
  copper60A: number,
  copper75A: number,
  copper90A: number,
  aluminum60A: number | null,
  aluminum75A: number | null,
  aluminum90A: number | null,
];

/**
 * NEC Table 310.16: ampacity in amperes of insulated conductors, not more than three current-carrying ones in a
 * raceway, cable or the earth, at 30 °C around them, by the temperature rating of the insulation in °C. 14 AWG to
 * 500 kcmil, and 600 because Table 310.12 asks for it. Aluminum stands for copper-clad aluminum too.
 * `null`: the table has no value.
 */
export const AMPACITY_310_16 = {
  source: {
    code: 'NEC',
    edition: '2023',
    table: '310.16',
    note: 'printed as Table 310.15(B)(16) until 2017; two independent listings agree in all cells',
  },
  rows: [
    ['14', 15, 20, 25, null, null, null],
    ['12', 20, 25, 30, 15, 20, 25],
    ['10', 30, 35, 40, 25, 30, 35],
    ['8', 40, 50, 55, 35, 40, 45],
    ['6', 55, 65, 75, 40, 50, 55],
    ['4', 70, 85, 95, 55, 65, 75],
    ['3', 85, 100, 115, 65, 75, 85],
    ['2', 95, 115, 130, 75, 90, 100],
    ['1', 110, 130, 145, 85, 100, 115],
    ['1/0', 125, 150, 170, 100, 120, 135],
    ['2/0', 145, 175, 195, 115, 135, 150],
    ['3/0', 165, 200, 225, 130, 155, 175],
    ['4/0', 195, 230, 260, 150, 180, 205],
    ['250', 215, 255, 290, 170, 205, 230],
    ['300', 240, 285, 320, 195, 230, 260],
    ['350', 260, 310, 350, 210, 250, 280],
    ['400', 280, 335, 380, 225, 270, 305],
    ['500', 320, 380, 430, 260, 310, 350],
    ['600', 350, 420, 475, 285, 340, 385],
  ],
} as const satisfies { source: TableSource; rows: readonly Row[] };
