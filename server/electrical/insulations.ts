import type { ConductorSize, Metal } from './sizes.ts';
import { sizesBetween } from './sizes.ts';

/** Cables by their type, and single conductors by their insulation. */
export const INSULATIONS = ['nm-b', 'uf-b', 'ser', 'thwn-2', 'xhhw-2', 'use-2'] as const;
export type Insulation = (typeof INSULATIONS)[number];

/** A column of Table 310.16, in °C. */
export type ColumnC = 60 | 75 | 90;

interface InsulationRule {
  /** Column that correction and adjustment start from. */
  startC: ColumnC;
  /** Column that the cable type ends at, whatever its terminals allow; 90 where it adds no limit of its own. */
  finalC: ColumnC;
  /** Sizes that the article of the cable names; from and to. */
  sizes: Record<Metal, { from: ConductorSize; to: ConductorSize }>;
}

const SINGLE = { copper: { from: '14', to: '600' }, aluminum: { from: '12', to: '600' } } as const;

/**
 * What each insulation starts and ends at.
 * - NM-B: conductors rated 90 °C, the cable 60 °C (334.80), 14 to 2 AWG copper, 12 to 2 AWG aluminum (334.104).
 * - UF-B: 60 °C (340.80), which unlike 334.80 gives no leave to start from 90 °C; 14 (12) AWG to 4/0 (340.104).
 * - SER: the terminals' column; 60 °C only up to 10 AWG in thermal insulation (338.10(B)(4)(a)). Article 338 names no
 *   sizes: what is sold decides.
 * - Single conductors, and multi-rated USE-2 laid as a quad: the terminals' column.
 */
const RULES: Record<Insulation, InsulationRule> = {
  'nm-b': { startC: 90, finalC: 60, sizes: { copper: { from: '14', to: '2' }, aluminum: { from: '12', to: '2' } } },
  'uf-b': { startC: 60, finalC: 60, sizes: { copper: { from: '14', to: '4/0' }, aluminum: { from: '12', to: '4/0' } } },
  ser: { startC: 90, finalC: 90, sizes: SINGLE },
  'thwn-2': { startC: 90, finalC: 90, sizes: SINGLE },
  'xhhw-2': { startC: 90, finalC: 90, sizes: SINGLE },
  'use-2': { startC: 90, finalC: 90, sizes: SINGLE },
};

/**
 * Column of Table 310.16, in °C, that correction and adjustment of this insulation start from. NEC 310.15(A), 334.80,
 * 340.80.
 */
export function startColumnC(insulation: Insulation): ColumnC {
  return RULES[insulation].startC;
}

/**
 * Column of Table 310.16, in °C, that the ampacity may not pass: the lower of the terminals' and the cable's.
 * NEC 110.14(C)(1), 334.80, 340.80, 338.10(B)(4)(a). `inThermalInsulation` bears only on SER of 10 AWG and smaller.
 */
export function finalColumnC({
  insulation,
  terminalsC,
  size,
  inThermalInsulation = false,
}: {
  insulation: Insulation;
  terminalsC: ColumnC;
  size: ConductorSize;
  inThermalInsulation?: boolean;
}): ColumnC {
  const smallInInsulation = insulation === 'ser' && inThermalInsulation && ['14', '12', '10'].includes(size);
  const cableC = smallInInsulation ? 60 : RULES[insulation].finalC;
  return Math.min(cableC, terminalsC) as ColumnC;
}

/** Sizes that this insulation comes in, smallest first. NEC 334.104, 340.104, Table 310.16. */
export function sizesOf(insulation: Insulation, metal: Metal): ConductorSize[] {
  return sizesBetween(RULES[insulation].sizes[metal]);
}
