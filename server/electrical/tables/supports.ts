import type { TradeSize } from '../sizes.ts';
import type { TableSource } from './table-source.ts';

type Row = readonly [from: TradeSize, to: TradeSize, feet: number];

/** NEC Table 352.30(B): greatest distance between supports of PVC conduit, in feet, by trade size from and to. */
export const PVC_SUPPORT_352_30 = {
  source: {
    code: 'NEC',
    edition: '2023',
    table: '352.30(B)',
    note: 'printed as Table 352.30 in 2020; one listing agrees',
  },
  rows: [
    ['1/2', '1', 3],
    ['1-1/4', '2', 5],
    ['2-1/2', '3', 6],
    ['3-1/2', '4', 7],
  ],
} as const satisfies { source: TableSource; rows: readonly Row[] };

/**
 * NEC Table 344.30(B): greatest distance between supports of straight rigid metal conduit with threaded couplings, in
 * feet.
 */
export const RMC_SUPPORT_344_30 = {
  source: {
    code: 'NEC',
    edition: '2023',
    table: '344.30(B)',
    note: 'printed as Table 344.30(B)(2) in 2020; one listing agrees',
  },
  rows: [
    ['1/2', '3/4', 10],
    ['1', '1', 12],
    ['1-1/4', '1-1/2', 14],
    ['2', '2-1/2', 16],
    ['3', '4', 20],
  ],
} as const satisfies { source: TableSource; rows: readonly Row[] };

/**
 * NEC 334.30 (NM-B; SER and UF-B above ground follow it: 338.10(B)(4), 340.10(4)) and 358.30 (EMT): greatest distance
 * between fasteners, and of the first one from a box or cabinet. Feet. The 3 ft of 358.30 at a box are from memory.
 */
export const FASTENERS_334_358 = {
  source: { code: 'NEC', edition: '2023', table: '334.30, 358.30(A)', note: 'one listing agrees' },
  cable: { everyFt: 4.5, firstWithinFt: 1 },
  emt: { everyFt: 10, firstWithinFt: 3 },
  /** 352.30(A), 344.30(A): 3 ft at a box. */
  pvcFirstWithinFt: 3,
  rmcFirstWithinFt: 3,
} as const satisfies { source: TableSource } & Record<string, unknown>;
