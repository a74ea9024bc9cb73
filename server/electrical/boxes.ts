import { BeyondTableError } from './errors.ts';
import type { ConductorSize, TradeSize } from './sizes.ts';
import { compareSizes, largerSize } from './sizes.ts';
import { BOX_VOLUMES_314_16_B, METAL_BOXES_314_16_A } from './tables/box-volumes-314-16.ts';

/** From this size on a box is sized by its raceways, not by its volume. NEC 314.28(A). */
export const PULL_BOX_FROM: ConductorSize = '4';
/** Grounds that count as one conductor together; each more counts a quarter. NEC 314.16(B)(5). */
const GROUNDS_AS_ONE = 4;

/** What is in a box. Conductors that pass through unbroken count once. */
export interface BoxContents {
  conductors: readonly { size: ConductorSize; count: number }[];
  grounds?: { size: ConductorSize; count: number } | undefined;
  /** Largest conductor on each yoke: a receptacle or switch. */
  yokes?: readonly ConductorSize[] | undefined;
  internalClamps?: boolean | undefined;
}

/** Is a box of this conductor size judged by volume, or as a pull box? NEC 314.16, 314.28. */
export function isPullBox(largest: ConductorSize): boolean {
  return compareSizes(largest, PULL_BOX_FROM) >= 0;
}

/**
 * Decides the volume that a box needs, in cubic inches. NEC 314.16(B): each conductor by its size; a yoke twice the
 * largest on it; internal clamps once the largest in the box; up to four grounds once the largest of them, each more a
 * quarter.
 * @throws {BeyondTableError} for 4 AWG and larger: see `pullBox`
 */
export function boxFillIn3({ conductors, grounds, yokes = [], internalClamps = false }: BoxContents): number {
  const largest = conductors.reduce<ConductorSize>((size, one) => largerSize(size, one.size), '14');
  const ofConductors = conductors.reduce((sum, { size, count }) => sum + count * volumeIn3(size), 0);
  const ofYokes = yokes.reduce((sum, size) => sum + 2 * volumeIn3(size), 0);
  const ofClamps = internalClamps ? volumeIn3(largest) : 0;
  return ofConductors + ofYokes + ofClamps + groundsIn3(grounds);
}

function groundsIn3(grounds: BoxContents['grounds']): number {
  if (!grounds || grounds.count === 0) return 0;
  const beyond = Math.max(0, grounds.count - GROUNDS_AS_ONE);
  return volumeIn3(grounds.size) * (1 + beyond / 4);
}

function volumeIn3(size: ConductorSize): number {
  const row = BOX_VOLUMES_314_16_B.rows.find(([rowSize]) => rowSize === size);
  if (row) return row[1];
  const allowed = '14 to 6 AWG; larger conductors need a pull box';
  throw new BeyondTableError({ table: '314.16(B)(1)', field: 'size', value: size, allowed });
}

/**
 * The smallest metal box of Table 314.16(A) that holds so many cubic inches.
 * @throws {BeyondTableError} above 42 in³
 */
export function smallestMetalBox(neededIn3: number): { box: string; volumeIn3: number } {
  const fitting = METAL_BOXES_314_16_A.rows
    .filter(([, volume]) => volume >= neededIn3 - 1e-9)
    .toSorted(([, a], [, b]) => a - b);
  const [smallest] = fitting;
  if (smallest) return { box: smallest[0], volumeIn3: smallest[1] };
  throw new BeyondTableError({ table: '314.16(A)', field: 'neededIn3', value: neededIn3, allowed: 'at most 42 in³' });
}

/** Inches of a nominal trade size. */
export function nominalIn(tradeSize: TradeSize): number {
  return tradeSize.split('-').reduce((sum, part) => {
    const [above, below = '1'] = part.split('/');
    return sum + Number(above) / Number(below);
  }, 0);
}

/**
 * Decides the least inside dimension of a pull or junction box for conductors of 4 AWG and larger, in inches. NEC
 * 314.28(A): a straight pull 8 times the largest trade size; an angle or U pull, or a splice, 6 times the largest and
 * the sum of the others on the same wall; entries of the same conductors 6 times the trade size apart.
 * @param entries  trade sizes of the raceways on one wall
 */
export function pullBox({ pull, entries }: { pull: 'straight' | 'angle-or-splice'; entries: readonly TradeSize[] }): {
  dimensionIn: number;
  betweenEntriesIn: number;
} {
  const sizesIn = entries.map(nominalIn).toSorted((a, b) => b - a);
  const [largestIn = 0, ...othersIn] = sizesIn;
  const betweenEntriesIn = pull === 'straight' ? 0 : 6 * largestIn;
  if (pull === 'straight') return { dimensionIn: 8 * largestIn, betweenEntriesIn };
  return { dimensionIn: 6 * largestIn + othersIn.reduce((sum, sizeIn) => sum + sizeIn, 0), betweenEntriesIn };
}
