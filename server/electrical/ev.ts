import type { Edition } from './citations.ts';
import { citedFinding, type Finding } from './findings.ts';
import { CONTINUOUS_FACTOR, reaches, standardOcpdA } from './overcurrent.ts';

export { evseLoadVA, LEAST_EVSE_VA_2023 } from './evse-load.ts';

/** How charging equipment is connected: a receptacle by its configuration, or wired. */
export const CONNECTIONS = [
  'receptacle-14-50',
  'receptacle-6-50',
  'receptacle-5-15',
  'receptacle-5-20',
  'hardwired',
] as const;
export type Connection = (typeof CONNECTIONS)[number];

/** What a receptacle is, and the circuits it may sit on. */
export interface ReceptacleFacts {
  ratingA: number;
  voltageV: 120 | 240;
  poles: 1 | 2;
  /** Has the configuration a neutral? NEMA WD 6. */
  neutral: boolean;
  /**
   * Ratings of branch circuits it may be the single receptacle of. NEC 210.21(B)(1), Table 210.21(B)(3); 2026: 625.44.
   */
  circuitsA: readonly number[];
}

/**
 * What a receptacle is. NEMA WD 6; NEC 210.21(B). A 50 A receptacle may sit on a 40 A circuit until 2023, not on one
 * for charging in 2026 (625.44, from articles).
 * @returns nothing for `hardwired`
 */
export function receptacleFacts(connection: Connection, edition: Edition): ReceptacleFacts | undefined {
  const circuitsA = edition === '2026' ? [50] : [40, 50];
  switch (connection) {
    case 'receptacle-14-50':
      return { ratingA: 50, voltageV: 240, poles: 2, neutral: true, circuitsA };
    case 'receptacle-6-50':
      return { ratingA: 50, voltageV: 240, poles: 2, neutral: false, circuitsA };
    case 'receptacle-5-15':
      return { ratingA: 15, voltageV: 120, poles: 1, neutral: true, circuitsA: [15] };
    case 'receptacle-5-20':
      return { ratingA: 20, voltageV: 120, poles: 1, neutral: true, circuitsA: [20] };
    case 'hardwired':
      return undefined;
  }
}

/**
 * Conductors that a charging circuit needs besides its equipment ground: hots, and a neutral only where the outlet has
 * one.
 */
export function circuitWires(connection: Connection): { poles: 1 | 2; neutral: boolean; voltageV: 120 | 240 } {
  const { poles, neutral, voltageV } = receptacleFacts(connection, '2023') ?? {
    poles: 2 as const,
    neutral: false,
    voltageV: 240 as const,
  };
  return { poles, neutral, voltageV };
}

/**
 * The largest setting that a circuit of this rating and its outlet allow, in amperes: 80 % of the smaller, since
 * charging is continuous. NEC 625.41, 625.42, 210.21(B)(2).
 */
export function largestSettingOfOutletA({ connection, ocpdA }: { connection: Connection; ocpdA: number }): number {
  const receptacle = receptacleFacts(connection, '2023');
  return Math.min(ocpdA, receptacle?.ratingA ?? Number.POSITIVE_INFINITY) / CONTINUOUS_FACTOR;
}

/**
 * The circuit rating that a charger's outlet is planned with, in amperes: 125 % of the setting, and one its receptacle
 * may sit on.
 */
export function chargingOcpdA({
  amps,
  connection,
  edition,
}: {
  amps: number;
  connection: Connection;
  edition: Edition;
}): number {
  const ocpdA = standardOcpdA({ loadA: amps, continuous: true });
  const circuitsA = receptacleFacts(connection, edition)?.circuitsA;
  return circuitsA?.find((ratingA) => ratingA >= ocpdA) ?? ocpdA;
}

/** A 15 A receptacle may be one of several on a circuit of this rating, in amperes. NEC Table 210.21(B)(3). */
const SEVERAL_OF_15_ON_A = 20;

/**
 * Checks a receptacle for charging against its circuit and its load. NEC 210.21(B)(1) and (2), 625.44: no 50 A
 * receptacle on a 60 A circuit, and no more than 80 % of either.
 * @param found  is it there already? Then a 15 A one on 20 A may be one of several, as both halves of a duplex are
 */
export function checkReceptacle({
  connection,
  ocpdA,
  amps,
  edition,
  found = false,
}: {
  connection: Connection;
  ocpdA: number;
  amps: number;
  edition: Edition;
  found?: boolean | undefined;
}): Finding[] {
  const receptacle = receptacleFacts(connection, edition);
  if (!receptacle) return [];
  const { ratingA, circuitsA } = receptacle;
  const numbers = { amps, ocpdA, receptacleA: ratingA, largestA: largestSettingOfOutletA({ connection, ocpdA }) };
  const fitsCircuit = circuitsA.includes(ocpdA);
  const oneOfSeveral = found && ratingA === 15 && ocpdA === SEVERAL_OF_15_ON_A;
  const several = citedFinding('receptacle-rating', edition, numbers, {
    severity: 'caution',
    message: `A ${ratingA} A receptacle may sit on a ${ocpdA} A circuit only as one of several, as the two halves of a duplex are. A single one must be rated ${ocpdA} A.`,
  });
  const single = citedFinding('single-receptacle-rating', edition, numbers, {
    severity: fitsCircuit ? 'ok' : 'stop',
    message: fitsCircuit
      ? `A ${ratingA} A receptacle may sit on a ${ocpdA} A circuit.`
      : `A ${ratingA} A receptacle for charging may not sit on a ${ocpdA} A circuit, only on ${circuitsA.join(' or ')} A. Change the breaker and its wire, or wire the charger permanently.`,
  });
  const rating = oneOfSeveral ? several : single;
  if (reaches(ratingA, amps * CONTINUOUS_FACTOR)) return [rating];
  const tooMuch = citedFinding('plug-or-hardwired', edition, numbers, {
    severity: 'stop',
    message: `${amps} A last for hours and count at 125 %: more than a ${ratingA} A receptacle carries. Set the charger to ${ratingA / CONTINUOUS_FACTOR} A or less, or wire it permanently.`,
  });
  return [rating, tooMuch];
}

/** The amperes that a charger's circuit is sized for, before the 125 %, and the finding that says why. */
export interface ChargerLoad {
  loadA: number;
  finding?: Finding;
}

/**
 * Decides whether a setting below the nameplate counts. It does where only a tool, a lock or a password changes it and
 * the label names it (625.42(B)); in 2020 only for equipment fixed in place (625.42). Otherwise the nameplate counts.
 * A slider in an app is no restricted access.
 */
export function chargerLoadA({
  amps,
  nameplateA,
  setting,
  connection,
  edition,
}: {
  amps: number;
  nameplateA?: number | undefined;
  setting: 'label-and-restricted' | 'open';
  connection: Connection;
  edition: Edition;
}): ChargerLoad {
  if (nameplateA === undefined || nameplateA <= amps) return { loadA: amps };
  const numbers = { amps, nameplateA };
  const fixedEnough = edition !== '2020' || connection === 'hardwired';
  if (setting === 'label-and-restricted' && fixedEnough) {
    const message = `Set to ${amps} A of its ${nameplateA} A: the setting counts as long as only a tool, lock or password changes it and the label names it.`;
    return { loadA: amps, finding: citedFinding('adjustable-rating', edition, numbers, { severity: 'note', message }) };
  }
  const why = fixedEnough
    ? 'anybody can change the setting'
    : 'this edition lets only equipment fixed in place count at its setting';
  const message = `The charger counts at its nameplate of ${nameplateA} A, not at ${amps} A, because ${why}.`;
  return {
    loadA: nameplateA,
    finding: citedFinding('adjustable-rating', edition, numbers, { severity: 'caution', message }),
  };
}

/** Longest cable to the car without listed cable management, in feet. NEC 625.17(C). */
export const LONGEST_CAR_CABLE_FT = 25;
/** Least height of the stored coupler, in inches, above an indoor floor and above grade outdoors. NEC 625.50. */
export const COUPLER_HEIGHT_IN = { indoors: 18, outdoors: 24 } as const;

/** Checks the cable to the car. Feet. NEC 625.17(C). */
export function checkCarCable({ cordFt, edition }: { cordFt: number; edition: Edition }): Finding {
  const within = cordFt <= LONGEST_CAR_CABLE_FT;
  return citedFinding(
    'cable-to-car',
    edition,
    { cordFt, mostFt: LONGEST_CAR_CABLE_FT },
    {
      severity: within ? 'ok' : 'caution',
      message: within
        ? `${cordFt} ft of cable to the car; up to ${LONGEST_CAR_CABLE_FT} ft are fine.`
        : `${cordFt} ft of cable to the car is more than ${LONGEST_CAR_CABLE_FT} ft: only equipment listed with cable management may have it.`,
    },
  );
}

/** Says how high the coupler hangs when it is stored. Inches. NEC 625.50. */
export function couplerHeight({ outdoors, edition }: { outdoors: boolean; edition: Edition }): Finding {
  const leastIn = outdoors ? COUPLER_HEIGHT_IN.outdoors : COUPLER_HEIGHT_IN.indoors;
  const message = `Hang the coupler at least ${leastIn} in above the ${outdoors ? 'ground' : 'floor'}, unless the equipment is listed for less.`;
  return citedFinding('coupler-height', edition, { leastIn }, { severity: 'note', message });
}

/**
 * What chargers under load management put on their circuit, feeder or service, in amperes: the setting of the system,
 * or all of them where that is less. It is continuous, and each branch is still sized for its own charger. NEC
 * 625.42(A), 750.30.
 */
export function managedLoadA({ chargersA, maxA }: { chargersA: readonly number[]; maxA: number }): number {
  return Math.min(
    maxA,
    chargersA.reduce((sum, amps) => sum + amps, 0),
  );
}
