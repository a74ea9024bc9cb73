import type { ConductorSize } from '../sizes.ts';
import type { TableSource } from './table-source.ts';

type Row = readonly [size: ConductorSize, volumeIn3: number];

/** NEC Table 314.16(B)(1): room that each conductor takes in a box, in cubic inches. */
export const BOX_VOLUMES_314_16_B = {
  source: {
    code: 'NEC',
    edition: '2023',
    table: '314.16(B)(1)',
    note: 'printed as Table 314.16(B) in 2020; one listing agrees',
  },
  rows: [
    ['14', 2.0],
    ['12', 2.25],
    ['10', 2.5],
    ['8', 3.0],
    ['6', 5.0],
  ],
} as const satisfies { source: TableSource; rows: readonly Row[] };

type Box = readonly [box: string, volumeIn3: number];

/** NEC Table 314.16(A): least volume of metal boxes, in cubic inches. */
export const METAL_BOXES_314_16_A = {
  source: { code: 'NEC', edition: '2023', table: '314.16(A)', note: 'one listing only' },
  rows: [
    ['4 × 1-1/4 round or octagonal', 12.5],
    ['4 × 1-1/2 round or octagonal', 15.5],
    ['4 × 2-1/8 round or octagonal', 21.5],
    ['4 × 1-1/4 square', 18.0],
    ['4 × 1-1/2 square', 21.0],
    ['4 × 2-1/8 square', 30.3],
    ['4-11/16 × 1-1/4 square', 25.5],
    ['4-11/16 × 1-1/2 square', 29.5],
    ['4-11/16 × 2-1/8 square', 42.0],
    ['3 × 2 × 2-1/2 device', 12.5],
    ['3 × 2 × 2-3/4 device', 14.0],
    ['3 × 2 × 3-1/2 device', 18.0],
    ['4 × 2-1/8 × 1-7/8 device', 13.0],
    ['4 × 2-1/8 × 2-1/8 device', 14.5],
    ['FS single gang 1-3/4 deep', 13.5],
    ['FD single gang 2-3/8 deep', 18.0],
    ['FS multiple, a gang, 1-3/4 deep', 18.0],
    ['FD multiple, a gang, 2-3/8 deep', 24.0],
  ],
} as const satisfies { source: TableSource; rows: readonly Box[] };
