import type { Ampacity, LaidConductor } from './ampacity.ts';
import { usableAmpacity } from './ampacity.ts';
import type { Edition } from './citations.ts';
import { equipmentGroundSize } from './equipment-ground.ts';
import { BeyondTableError, RefusedInputError } from './errors.ts';
import type { ColumnC, Insulation } from './insulations.ts';
import { sizesOf } from './insulations.ts';
import {
  isStandardOcpd,
  largestOcpdForConductor,
  neededA as neededForLoadA,
  nextStandardOcpdA,
  reaches,
  standardRatingsA,
} from './overcurrent.ts';
import type { ConductorSize, Metal } from './sizes.ts';

/** What a run of conductors supplies. Only `entire-dwelling` may take the 83 % rule of 310.12. */
export type Supplies = 'branch' | 'feeder' | 'entire-dwelling';

/** A load and the way its conductors go. */
export interface ConductorQuestion {
  /** Current in amperes, before the 125 % of what lasts. */
  loadA: number;
  /** Can all of it last three hours or more? EV charging always does (625.42). */
  continuous: boolean;
  /** So much of the load lasts, in amperes, where it is not all or nothing; stands instead of `continuous`. */
  continuousA?: number | undefined;
  /** Overcurrent device that was chosen; the smallest standard one otherwise. */
  ocpdA?: number | undefined;
  metal: Metal;
  insulation: Insulation;
  terminalsC: ColumnC;
  ambientC: number;
  currentCarrying: number;
  supplies: Supplies;
  edition: Edition;
  inThermalInsulation?: boolean;
  severalReceptacles?: boolean;
}

/** The smallest conductor that may be used. Amperes; sizes in AWG or kcmil; the ground in copper. */
export interface ConductorAnswer {
  ocpdA: number;
  size: ConductorSize;
  ampacityA: number;
  tableA: number;
  columnC: ColumnC;
  groundSize: ConductorSize;
}

/** Does a conductor carry a load? Each test by itself, in amperes. */
export interface TwoTests {
  passes: boolean;
  /**
   * Test 1, at the terminals: 125 % of the continuous load and 100 % of the rest against the column before any factor.
   */
  atTerminals: { neededA: number; hasA: number; passes: boolean };
  /** Test 2, along the way: the load itself against the ampacity after correction and adjustment. */
  alongTheWay: { neededA: number; hasA: number; passes: boolean };
}

/**
 * Share of its rating that a service or feeder of an entire dwelling needs as ampacity, and the ratings it holds for.
 * NEC 310.12.
 */
export const ENTIRE_DWELLING = { share: 0.83, fromA: 100, toA: 400 } as const;

/**
 * Checks a conductor against a load twice, as 210.19(A)(1) and 215.2(A)(1) ask. The 125 % is never multiplied on top
 * of corrected ampacity; the next size up of 240.4(B) never repairs the first test: 6 AWG NM-B (55 A) may lie behind a
 * 60 A breaker, but not carry a 48 A charger, which needs 60 A.
 */
export function twoAmpacityTests({
  loadA,
  continuousA,
  ampacity: { columnA, correctedA },
}: {
  loadA: number;
  continuousA: number;
  ampacity: Ampacity;
}): TwoTests {
  const neededA = neededForLoadA({ loadA, continuousA });
  const atTerminals = { neededA, hasA: columnA, passes: reaches(columnA, neededA) };
  const alongTheWay = { neededA: loadA, hasA: correctedA, passes: reaches(correctedA, loadA) };
  return { atTerminals, alongTheWay, passes: atTerminals.passes && alongTheWay.passes };
}

/**
 * Decides the overcurrent device: the one asked for, or the smallest standard one. NEC 210.20(A), 215.3, 240.6(A).
 * @throws {RefusedInputError} at `ocpdA` where it is no standard rating or smaller than the load asks for
 */
export function circuitOcpdA({
  loadA,
  continuousA,
  ocpdA,
  edition,
}: {
  loadA: number;
  continuousA: number;
  ocpdA?: number | undefined;
  edition: Edition;
}): number {
  const neededA = neededForLoadA({ loadA, continuousA });
  const smallestA = nextStandardOcpdA(neededA);
  if (ocpdA === undefined) return smallestA;
  if (!isStandardOcpd(ocpdA, edition)) {
    const allowed = `a standard rating: one of ${standardRatingsA(edition).join(', ')}`;
    throw new RefusedInputError({ field: 'ocpdA', value: ocpdA, allowed });
  }
  if (!reaches(ocpdA, neededA)) {
    const allowed = `at least ${smallestA} A for a load that asks for ${Number(neededA.toFixed(4))} A`;
    throw new RefusedInputError({ field: 'ocpdA', value: ocpdA, allowed });
  }
  return ocpdA;
}

/**
 * May this conductor lie behind this device and carry this load? Both ampacity tests, and protection by 240.4(B), (D);
 * for an entire dwelling of 100 to 400 A instead 83 % of the rating (310.12).
 */
export function conductorSuffices({
  loadA,
  continuousA,
  ocpdA,
  supplies,
  severalReceptacles = false,
  ...laid
}: LaidConductor & {
  loadA: number;
  continuousA: number;
  ocpdA: number;
  supplies: Supplies;
  severalReceptacles?: boolean;
}): boolean {
  const ampacity = usableAmpacity(laid);
  if (supplies === 'entire-dwelling' && ocpdA >= ENTIRE_DWELLING.fromA && ocpdA <= ENTIRE_DWELLING.toA) {
    const enough = Math.max(ENTIRE_DWELLING.share * ocpdA, loadA);
    return reaches(ampacity.ampacityA, enough);
  }
  if (!twoAmpacityTests({ loadA, continuousA, ampacity }).passes) return false;
  const { metal, size } = laid;
  return largestOcpdForConductor({ metal, size, ampacityA: ampacity.ampacityA, severalReceptacles }) >= ocpdA;
}

/**
 * Decides the smallest conductor for a load. NEC 210.19(A)(1), 215.2(A)(1), 240.4(B) and (D), 310.12, 310.15, 310.16;
 * the copper ground by 250.122. The 83 % rule needs `supplies: "entire-dwelling"` and 100 to 400 A: a feeder to a
 * garage, to a subpanel or to a charger is none (310.12(A), (B)).
 * @throws {RefusedInputError} for a device that does not suit the load
 * @throws {BeyondTableError} where no size of this insulation is large enough, or it is too hot
 */
export function smallestConductor(question: ConductorQuestion): ConductorAnswer {
  const { loadA, metal, insulation, terminalsC, edition } = question;
  const continuousA = question.continuousA ?? (question.continuous ? loadA : 0);
  const ocpdA = circuitOcpdA({ loadA, continuousA, ocpdA: question.ocpdA, edition });
  const { ambientC, currentCarrying, supplies, inThermalInsulation = false, severalReceptacles = false } = question;
  const laid = { metal, insulation, terminalsC, ambientC, currentCarrying, inThermalInsulation };
  const sizes = sizesOf(insulation, metal);
  const size = sizes.find((one) =>
    conductorSuffices({ ...laid, size: one, loadA, continuousA, ocpdA, supplies, severalReceptacles }),
  );
  if (!size) {
    throw new BeyondTableError({
      table: '310.16',
      field: 'loadA',
      value: loadA,
      allowed: `a load that ${metal} ${insulation} of ${sizes[0]} to ${sizes.at(-1)} can carry behind ${ocpdA} A`,
    });
  }
  const { ampacityA, tableA, columnC } = usableAmpacity({ ...laid, size });
  return { ocpdA, size, ampacityA, tableA, columnC, groundSize: equipmentGroundSize({ ocpdA, metal: 'copper' }) };
}
