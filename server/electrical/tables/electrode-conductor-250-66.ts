import type { TableSource } from './table-source.ts';

type Row = readonly [
  copperToCircularMils: number,
  aluminumToCircularMils: number,
  copper: ElectrodeConductorSize,
  aluminum: ElectrodeConductorSize,
];

/** Sizes that Table 250.66 answers with. */
export type ElectrodeConductorSize = '8' | '6' | '4' | '2' | '1/0' | '2/0' | '3/0' | '4/0' | '250';

/**
 * NEC Table 250.66: least grounding electrode conductor, copper and aluminum, by the largest ungrounded supply
 * conductor. A row ends at the size given for copper and for aluminum, here as the circular mils of Table 8 because
 * rows of the table end at 1,100 and 1,750 kcmil, which are no sizes of their own elsewhere: 2, 1/0, 3/0, 350, 600,
 * 1,100, above; aluminum 1/0, 3/0, 250, 500, 900, 1,750, above.
 */
export const ELECTRODE_CONDUCTOR_250_66 = {
  source: {
    code: 'NEC',
    edition: '2023',
    table: '250.66',
    note: 'one listing agrees; the copper column with 46 CFR 111.05-31 too',
  },
  rows: [
    [66_360, 105_600, '8', '6'],
    [105_600, 167_800, '6', '4'],
    [167_800, 250_000, '4', '2'],
    [350_000, 500_000, '2', '1/0'],
    [600_000, 900_000, '1/0', '3/0'],
    [1_100_000, 1_750_000, '2/0', '4/0'],
    [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, '3/0', '250'],
  ],
} as const satisfies { source: TableSource; rows: readonly Row[] };

/**
 * NEC 250.66(A), (B): electrodes whose conductor need never be larger than this, as long as it does not run on to
 * another kind that needs a larger one. `null`: the article names no aluminum for it.
 */
export const ELECTRODE_LIMITS_250_66 = {
  source: { code: 'NEC', edition: '2023', table: '250.66(A), (B)', note: 'one listing agrees' },
  rows: {
    rod: { article: '250.66(A)', copper: '6', aluminum: '4' },
    plate: { article: '250.66(A)', copper: '6', aluminum: '4' },
    'concrete-encased': { article: '250.66(B)', copper: '4', aluminum: null },
  },
} as const;
