import type { Edition } from './citations.ts';
import type { Connection } from './ev.ts';
import { citedFinding, type Finding } from './findings.ts';
import { CONTINUOUS_FACTOR, reaches } from './overcurrent.ts';

/** Equipment rated above this, in amperes, needs a disconnect of its own until 2023. NEC 625.43. */
export const DISCONNECT_ABOVE_A = 60;
/** Outlets that are wired up to this circuit rating, in amperes, fall under 210.8(F). */
export const GROUND_FAULT_TO_A = 50;

/** Where a charging outlet is. */
export type OutletPlace = 'outdoors' | 'garage' | 'accessory-building' | 'indoors';

/** Must the circuit have class A ground-fault protection, and why? */
export interface GroundFaultAnswer {
  needed: boolean;
  finding: Finding;
}

/**
 * Decides whether a charging circuit of a dwelling needs class A ground-fault protection (120 V to ground). Every
 * receptacle for charging does: 625.54, 210.8(A). Wired equipment on 50 A or less does outdoors (210.8(F)) and, from
 * 2023, in a garage or accessory building at grade; whether the floor is at grade is rarely said, so it is taken to
 * be. Above 50 A none is asked for. The protection inside the charger (20 mA) is no class A device. Widely argued: a
 * caution that names the AHJ goes with the wired ones. What 625.54 of 2026 says of wired equipment was not to be had.
 */
export function groundFaultProtection({
  connection,
  ocpdA,
  place,
  edition,
}: {
  connection: Connection;
  ocpdA: number;
  place: OutletPlace;
  edition: Edition;
}): GroundFaultAnswer {
  const numbers = { ocpdA, place, hardwired: connection === 'hardwired' };
  if (connection !== 'hardwired') {
    const message = 'A receptacle for charging has ground-fault protection of class A, by its breaker.';
    return { needed: true, finding: citedFinding('gfci-ev-receptacle', edition, numbers, { severity: 'ok', message }) };
  }
  const rule = 'outdoor-ground-fault';
  if (ocpdA > GROUND_FAULT_TO_A) {
    const message = `A charger wired on ${ocpdA} A is past the ${GROUND_FAULT_TO_A} A where outlets of a dwelling need ground-fault protection; its own stays.`;
    return {
      needed: false,
      finding: citedFinding(rule, edition, numbers, { severity: unsettledIn(edition), message }),
    };
  }
  const covered =
    place === 'outdoors' || (edition !== '2020' && (place === 'garage' || place === 'accessory-building'));
  if (!covered) {
    const message = 'A charger wired here needs no ground-fault breaker; its own protection stays.';
    return {
      needed: false,
      finding: citedFinding(rule, edition, numbers, { severity: unsettledIn(edition), message }),
    };
  }
  const where = place === 'outdoors' ? 'outdoors' : 'in a garage or accessory building at or below grade';
  const message = `An outlet on ${ocpdA} A ${where} needs ground-fault protection even where the charger is wired. A ground-fault breaker may trip with the charger's own protection: ask the maker, and the authority having jurisdiction.`;
  return { needed: true, finding: citedFinding(rule, edition, numbers, { severity: 'caution', message }) };
}

function unsettledIn(edition: Edition): 'ok' | 'note' {
  return edition === '2026' ? 'note' : 'ok';
}

/** Must there be a disconnect at the charger? */
export interface DisconnectAnswer {
  required: boolean;
  finding: Finding;
}

/**
 * Decides whether charging equipment needs a disconnect, lockable open and readily accessible. Until 2023 above 60 A
 * or 150 V to ground (625.43; 240 V of a dwelling is 120 V to ground); 2026: for all that is wired permanently
 * (625.43(A)).
 * @param ratingA  nameplate of the equipment, in amperes, not the breaker: 48 A on a 60 A breaker is not above 60 A
 */
export function chargerDisconnect({
  ratingA,
  connection,
  edition,
}: {
  ratingA: number;
  connection: Connection;
  edition: Edition;
}): DisconnectAnswer {
  const wired = connection === 'hardwired';
  const required = edition === '2026' ? wired : ratingA > DISCONNECT_ABOVE_A;
  const numbers = { ratingA, thresholdA: DISCONNECT_ABOVE_A };
  const message = required
    ? 'The charger needs a disconnect that can be locked open, within reach, with a plaque where it stands elsewhere.'
    : wired
      ? `Equipment of ${ratingA} A needs no disconnect of its own; its breaker serves.`
      : 'The plug is the disconnect.';
  return {
    required,
    finding: citedFinding('charger-disconnect', edition, numbers, { severity: required ? 'note' : 'ok', message }),
  };
}

/** What charges on an outlet, and the circuit that it hangs on. */
interface ChargingOutlet {
  amps: number;
  voltageV: 120 | 240;
  ocpdA: number;
  edition: Edition;
}

/** Is it 120 V charging at 16 A or less, and at most 80 % of the circuit? Amperes. NEC 210.23, 625.40. */
function isSmallCharging({ amps, voltageV, ocpdA }: Omit<ChargingOutlet, 'edition'>): boolean {
  return voltageV === 120 && amps <= 16 && reaches(ocpdA, amps * CONTINUOUS_FACTOR);
}

/**
 * Decides whether other outlets may be on the circuit without a circuit of its own being needed: in no edition before
 * 2023, and only for small charging. Amperes. NEC 625.40, 210.23.
 */
export function maySharedCircuitCharge({ edition, ...outlet }: ChargingOutlet): boolean {
  return edition !== '2020' && isSmallCharging(outlet);
}

/**
 * Decides whether a charging outlet may share its circuit. 2020: never, where it was installed for charging (625.40).
 * From 2023: only 120 V outlets that charge at 16 A or less, at most 80 % of the circuit (210.23), or several chargers
 * under load management (625.42(A)). What shares an existing outlet may be unknown.
 * @param sharedWith  what else is on the circuit; `null`: not known
 */
export function individualBranchCircuit({
  amps,
  voltageV,
  ocpdA,
  sharedWith,
  managed = false,
  edition,
}: ChargingOutlet & { sharedWith: readonly string[] | null; managed?: boolean | undefined }): Finding {
  const rule = 'individual-branch-circuit';
  const numbers = { amps, voltageV, ocpdA, shares: sharedWith === null ? 'not known' : sharedWith.length > 0 };
  if (sharedWith !== null && sharedWith.length === 0) {
    return citedFinding(rule, edition, numbers, { severity: 'ok', message: 'The charger has its circuit to itself.' });
  }
  if (managed) {
    const message = 'Chargers share this circuit under listed load management, which holds them to its setting.';
    return citedFinding('load-management', edition, numbers, { severity: 'ok', message });
  }
  const with_ =
    sharedWith === null ? 'what else is on the circuit is not known' : `it shares with ${sharedWith.join(', ')}`;
  if (maySharedCircuitCharge({ amps, voltageV, ocpdA, edition })) {
    const message = `Charging at ${amps} A may share a ${ocpdA} A circuit, but ${with_}: what runs at the same time can trip it, and charging lasts all night.`;
    return citedFinding(rule, edition, numbers, { severity: 'caution', message });
  }
  const severity = isSmallCharging({ amps, voltageV, ocpdA }) || sharedWith === null ? 'caution' : 'stop';
  const message = `An outlet for charging at ${amps} A and ${voltageV} V needs a circuit of its own, and ${with_}. Give it one, or find out.`;
  return citedFinding(rule, edition, numbers, { severity, message });
}
