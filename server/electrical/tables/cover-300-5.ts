import type { TableSource } from './table-source.ts';

/**
 * The five columns of Table 300.5(A): cable or conductors, RMC or IMC, PVC or another raceway, and two of low power.
 */
export const BURIED_WIRINGS = ['cable', 'rmc', 'pvc', 'gfci-20a-120v', 'low-voltage'] as const;
export type BuriedWiring = (typeof BURIED_WIRINGS)[number];

type Row = Record<BuriedWiring, number>;

/**
 * NEC Table 300.5(A): least cover in inches, from the top of the cable or conduit to the finished surface, concrete
 * included. `gfci-20a-120v` is a residential branch circuit of 120 V and 20 A or less with ground-fault protection
 * ahead of the buried part: never a 240 V circuit, never a feeder. `under-4in-slab` is an exterior slab without
 * vehicles that reaches 6 in past the run; its two last columns have 6 in where directly buried and 4 in in a raceway,
 * and the deeper one stands here. Under a building, cables lie in a raceway (300.5(C)).
 */
export const COVER_300_5 = {
  source: {
    code: 'NEC',
    edition: '2023',
    table: '300.5(A)',
    note: 'printed as Table 300.5 in 2020, where EMT is not named in the third column; two independent listings agree in all cells',
  },
  rows: {
    'under-2in-concrete': { cable: 18, rmc: 6, pvc: 12, 'gfci-20a-120v': 6, 'low-voltage': 6 },
    'under-building': { cable: 0, rmc: 0, pvc: 0, 'gfci-20a-120v': 0, 'low-voltage': 0 },
    'under-4in-slab': { cable: 18, rmc: 4, pvc: 4, 'gfci-20a-120v': 6, 'low-voltage': 6 },
    street: { cable: 24, rmc: 24, pvc: 24, 'gfci-20a-120v': 24, 'low-voltage': 24 },
    'dwelling-driveway': { cable: 18, rmc: 18, pvc: 18, 'gfci-20a-120v': 12, 'low-voltage': 18 },
    elsewhere: { cable: 24, rmc: 6, pvc: 18, 'gfci-20a-120v': 12, 'low-voltage': 6 },
  },
} as const satisfies { source: TableSource; rows: Record<string, Row> };
export type BurialLocation = keyof typeof COVER_300_5.rows;
