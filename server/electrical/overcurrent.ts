import type { Edition } from './citations.ts';
import { BeyondTableError } from './errors.ts';
import type { ConductorSize, Metal } from './sizes.ts';
import { SMALL_CONDUCTORS_240_4_D } from './tables/small-conductors-240-4-d.ts';
import { STANDARD_RATINGS_240_6 } from './tables/standard-ratings-240-6.ts';

/** A load that can last three hours or more counts so many times. NEC 210.20(A), 215.3, 625.42. */
export const CONTINUOUS_FACTOR = 1.25;

/** Up to this rating, in amperes, 240.4(B) lets the device be the next standard one above the ampacity. */
const NEXT_SIZE_UP_TO_A = 800;

/**
 * The least device that this code book plans, in amperes. Table 240.6(A) of 2023 lists 10 A, but 210.23 keeps such
 * circuits from receptacles and fastened appliances (from memory), and a charger is either.
 */
const LEAST_PLANNED_A = 15;

/** Standard ratings of an edition, in amperes, smallest first. NEC Table 240.6(A). */
export function standardRatingsA(edition: Edition = '2023'): number[] {
  const tooNew: readonly number[] = edition === '2020' ? STANDARD_RATINGS_240_6.newIn2023A : [];
  return STANDARD_RATINGS_240_6.ratingsA.filter((ratingA) => !tooNew.includes(ratingA));
}

/** Is this a standard rating in amperes? NEC Table 240.6(A). */
export function isStandardOcpd(ratingA: number, edition: Edition = '2023'): boolean {
  return standardRatingsA(edition).includes(ratingA);
}

/**
 * What a load asks of device and terminals, in amperes: 125 % of what can last three hours, 100 % of the rest.
 * NEC 210.19(A)(1), 210.20(A), 215.2(A)(1), 215.3; EV charging always lasts (625.42).
 */
export function neededA({ loadA, continuousA }: { loadA: number; continuousA: number }): number {
  return loadA - continuousA + continuousA * CONTINUOUS_FACTOR;
}

/**
 * Decides the smallest standard overcurrent device for a load, at least 15 A. NEC 210.20(A), 215.3, Table 240.6(A).
 * @param loadA       current of the load, in amperes, > 0
 * @param continuous  can all of it last three hours or more? Then it counts at 125 %. EV charging always does (625.42)
 * @returns           rating in amperes, one of Table 240.6(A)
 * @throws {BeyondTableError} above 6,000 A
 */
export function standardOcpdA({ loadA, continuous }: { loadA: number; continuous: boolean }): number {
  return nextStandardOcpdA(neededA({ loadA, continuousA: continuous ? loadA : 0 }));
}

/**
 * The smallest standard device of at least so many amperes, from 15 A on. NEC Table 240.6(A).
 * @throws {BeyondTableError} at `loadA`, that asks for them, above 6,000 A
 */
export function nextStandardOcpdA(atLeastA: number): number {
  const ratingA = STANDARD_RATINGS_240_6.ratingsA.find(
    (standardA) => standardA >= LEAST_PLANNED_A && reaches(standardA, atLeastA),
  );
  if (ratingA !== undefined) return ratingA;
  throw new BeyondTableError({
    table: '240.6(A)',
    field: 'loadA',
    value: atLeastA,
    allowed: 'at most 6000 A, 125 % included',
  });
}

/**
 * Decides the largest device that may protect a conductor, in amperes: the next standard rating above its ampacity up
 * to 800 A (240.4(B)), its ampacity's own rating where that is standard, and never more than 240.4(D) lets small
 * conductors have. Where the conductor feeds several receptacles for portable loads, the next rating *below*
 * (240.4(B)(1)).
 * @param ampacityA  after correction, adjustment and the terminals' column
 * @returns          rating in amperes; 0 where even the smallest standard device is too large
 */
export function largestOcpdForConductor({
  metal,
  size,
  ampacityA,
  severalReceptacles = false,
}: {
  metal: Metal;
  size: ConductorSize;
  ampacityA: number;
  severalReceptacles?: boolean;
}): number {
  const { ratingsA } = STANDARD_RATINGS_240_6;
  const below = ratingsA.findLast((ratingA) => reaches(ampacityA, ratingA)) ?? 0;
  const above = ratingsA.find((ratingA) => reaches(ratingA, ampacityA)) ?? 0;
  const mayStepUp = !severalReceptacles && above > 0 && above <= NEXT_SIZE_UP_TO_A;
  return Math.min(mayStepUp ? above : below, smallConductorLimitA({ metal, size }) ?? Number.POSITIVE_INFINITY);
}

/** The most a device over 14, 12 or 10 AWG may be rated, in amperes; nothing for larger conductors. NEC 240.4(D). */
export function smallConductorLimitA({ metal, size }: { metal: Metal; size: ConductorSize }): number | undefined {
  return SMALL_CONDUCTORS_240_4_D.rows.find((row) => row[0] === size && row[1] === metal)?.[2];
}

/**
 * Amperes come from products such as 48 × 1.25 and 75 × 0.8: what only binary fractions keep apart counts as reached.
 */
export function reaches(hasA: number, needsA: number): boolean {
  return hasA >= needsA - 1e-9 * Math.max(1, Math.abs(needsA));
}
