import type { TableSource } from './table-source.ts';

/**
 * NEC Chapter 9 Table 1: the most that conductors may fill of conduit or tubing, in percent, by their number; note 4:
 * a nipple of 24 in or less.
 */
export const CONDUIT_FILL_CH9_1 = {
  source: { code: 'NEC', edition: '2023', table: 'Chapter 9 Table 1', note: 'two independent listings agree' },
  oneConductorPercent: 53,
  twoConductorsPercent: 31,
  moreConductorsPercent: 40,
  nipplePercent: 60,
  nippleToIn: 24,
} as const satisfies { source: TableSource } & Record<string, unknown>;
