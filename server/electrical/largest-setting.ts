import { usableAmpacity } from './ampacity.ts';
import type { Edition } from './citations.ts';
import { conductorSuffices } from './conductor.ts';
import { RefusedInputError } from './errors.ts';
import { LEAST_EVSE_VA_2023 } from './evse-load.ts';
import type { ColumnC, Insulation } from './insulations.ts';
import { CONTINUOUS_FACTOR, isStandardOcpd, reaches, standardOcpdA, standardRatingsA } from './overcurrent.ts';
import type { ConductorSize, Metal } from './sizes.ts';

/**
 * Settings of charging equipment, in amperes, that are looked at. 6 A is the least that a car is offered: SAE J1772,
 * from memory.
 */
export const SETTING_A = { least: 6, most: 80 } as const;

/** A link of the chain from the service to the car; `charger`: 80 A, the most that is looked at. */
export type SettingLimit = 'service' | 'feeder' | 'breaker' | 'wire' | 'car' | 'charger';

/** What exists of a circuit and of what feeds it. What is left out does not limit. Amperes. */
export interface ExistingChain {
  metal: Metal;
  size: ConductorSize;
  insulation: Insulation;
  terminalsC?: ColumnC | undefined;
  ambientC?: number | undefined;
  currentCarrying?: number | undefined;
  ocpdA?: number | undefined;
  /** What the service, and the feeder, have left, in amperes. The charger takes 125 % of its setting of it. */
  serviceSpareA?: number | undefined;
  feederSpareA?: number | undefined;
  carMaxA?: number | undefined;
  edition?: Edition | undefined;
}

/**
 * The largest setting: whole amperes from 6 to 80, or 0 where not even 6 are lawful; the first link that holds it
 * there.
 */
export interface LargestSetting {
  amps: number;
  limitedBy: SettingLimit;
  /** The device given, or the smallest that suits the setting; with 0 amperes and none given, 0. */
  ocpdA: number;
}

/**
 * Decides the largest setting that this wire, breaker, feeder, service and car allow. NEC 625.41, 625.42: charging
 * lasts, so that it takes 125 % of breaker, feeder and service; 210.19(A)(1), 240.4 and 310.16 for the wire. The car
 * takes what it takes. Where service and feeder have room, the safe reading counts 125 % of the setting, not 100. In the
 * edition of 2023 no setting counts less than 7,200 VA on them (220.57): 30 A of a feeder, and at 125 % 37.5 A of a
 * service, as the planner counts them.
 * @throws {RefusedInputError} at `ocpdA` where it is no standard rating
 * @throws {BeyondTableError} where it is too hot for the insulation
 */
export function largestSetting(chain: ExistingChain): LargestSetting {
  const { ocpdA, edition = '2023' } = chain;
  if (ocpdA !== undefined && !isStandardOcpd(ocpdA, edition)) {
    const allowed = `a standard rating: one of ${standardRatingsA(edition).join(', ')}`;
    throw new RefusedInputError({ field: 'ocpdA', value: ocpdA, allowed });
  }
  const links: { limitedBy: SettingLimit; amps: number }[] = [
    { limitedBy: 'service', amps: loadShareOf(chain.serviceSpareA, LEAST_A[edition] * CONTINUOUS_FACTOR) },
    { limitedBy: 'feeder', amps: loadShareOf(chain.feederSpareA, LEAST_A[edition]) },
    { limitedBy: 'breaker', amps: shareOf(ocpdA) },
    { limitedBy: 'wire', amps: wireAllowsA(chain) },
    { limitedBy: 'car', amps: wholeA(chain.carMaxA) },
    { limitedBy: 'charger', amps: SETTING_A.most },
  ];
  const weakest = links.reduce((least, link) => (link.amps < least.amps ? link : least));
  const amps = weakest.amps >= SETTING_A.least ? weakest.amps : 0;
  const suitingA = amps === 0 ? 0 : standardOcpdA({ loadA: amps, continuous: true });
  return { amps, limitedBy: weakest.limitedBy, ocpdA: ocpdA ?? suitingA };
}

/** What a charger counts at least on a feeder or service, whatever it is set to, in amperes at 240 V. NEC 220.57 (2023). */
const LEAST_A = { '2020': 0, '2023': LEAST_EVSE_VA_2023 / 240, '2026': 0 } as const satisfies Record<Edition, number>;

/** 80 % of what a feeder or service has left, or nothing where that is less than the least that counts. */
function loadShareOf(spareA: number | undefined, leastA: number): number {
  return spareA !== undefined && !reaches(spareA, leastA) ? 0 : shareOf(spareA);
}

/** 80 % of what there is, in whole amperes. */
function shareOf(availableA: number | undefined): number {
  return availableA === undefined ? Number.POSITIVE_INFINITY : wholeA(availableA / CONTINUOUS_FACTOR);
}

function wholeA(amps: number | undefined): number {
  if (amps === undefined) return Number.POSITIVE_INFINITY;
  return Math.max(0, Math.floor(amps + 1e-9));
}

/**
 * The largest whole setting that the conductor carries behind the device given, or behind the one that suits the
 * setting.
 */
function wireAllowsA(chain: ExistingChain): number {
  const { metal, size, insulation, terminalsC = 75, ambientC = 30, currentCarrying = 2 } = chain;
  const laid = { metal, size, insulation, terminalsC, ambientC, currentCarrying };
  // A device that the wire may not lie behind at all allows nothing, whatever the setting.
  for (let loadA = startFromA(usableAmpacity(laid).columnA); loadA >= SETTING_A.least; loadA -= 1) {
    const ocpdA = chain.ocpdA ?? standardOcpdA({ loadA, continuous: true });
    if (!conductorSuffices({ ...laid, loadA, continuousA: loadA, ocpdA, supplies: 'branch' })) continue;
    // What carries the most that is looked at does not limit it.
    return loadA === SETTING_A.most ? Number.POSITIVE_INFINITY : loadA;
  }
  return 0;
}

function startFromA(columnA: number): number {
  const shareA = wholeA(columnA / CONTINUOUS_FACTOR);
  return reaches(shareA, SETTING_A.most) ? SETTING_A.most : shareA;
}
