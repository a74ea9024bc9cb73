import { evseLoadVA } from '../../electrical/evse-load.ts';
import { CONTINUOUS_FACTOR, neededA, standardRatingsA } from '../../electrical/overcurrent.ts';
import type { Edition } from '../vocabulary.ts';
import { chargerA, countedCircuits, drawnTogetherA, is120V } from './charger-load.ts';
import { amperes, type Job, type SettledCharger } from './job.ts';

/** Between the two hots, in volts. */
const FEEDER_V = 240;
/** A general receptacle or lighting circuit, in volt-amperes, as small-appliance and laundry circuits count (220.52). */
const GENERAL_CIRCUIT_VA = 1500;

/** A circuit of the subpanel besides the chargers. */
export type OtherCircuit = NonNullable<Job['option']['subpanel']>['otherCircuits'][number];

/** Words by which people name general circuits for receptacles and for light. */
const RECEPTACLE_WORDS = /recept|outlet|socket|plug/i;
const LIGHT_WORDS = /light|lamp|lumin/i;

/** Does the use of a circuit speak of receptacles? */
export function namesReceptacles({ use }: OtherCircuit): boolean {
  return RECEPTACLE_WORDS.test(use);
}

/** Is the circuit one for general receptacles, by its use? */
export function isReceptacles(circuit: OtherCircuit): boolean {
  return circuit.poles === 1 && namesReceptacles(circuit);
}

/** Is the circuit one for light, by its use? */
export function isLight({ use, poles }: OtherCircuit): boolean {
  return poles === 1 && LIGHT_WORDS.test(use);
}

/** A feeder's load in amperes at 240 V: of which so much lasts, what device and terminals must carry, and how it came about. */
export interface FeederLoad {
  loadA: number;
  continuousA: number;
  neededA: number;
  /** The chargers' amperes together, which the voltage drop is figured at. */
  chargersA: number;
  because: string[];
}

/** What a charger counts at least on a feeder, in amperes at 240 V. NEC 220.57 (2023): 7,200 VA. */
function leastCountedA(charger: SettledCharger, edition: Edition): number {
  const ownA = chargerA(charger, edition);
  return is120V(charger) ? ownA : evseLoadVA({ nameplateVA: ownA * FEEDER_V, edition }) / FEEDER_V;
}

/**
 * What other circuits put on the fuller leg of a feeder, in amperes. A circuit for general receptacles or light counts
 * 1,500 VA, spread over the two legs; every other circuit counts its whole rating, since nobody has said what it feeds:
 * the safe side. A circuit that lasts counts 80 % of its rating, at 125 %.
 */
export function otherLoad(circuits: readonly OtherCircuit[]): {
  loadA: number;
  continuousA: number;
  because: string[];
} {
  const general = circuits.filter((circuit) => (isReceptacles(circuit) || isLight(circuit)) && !circuit.continuous);
  const generalA = (Math.ceil(general.length / 2) * GENERAL_CIRCUIT_VA) / (FEEDER_V / 2);
  const others = circuits.filter((circuit) => !general.includes(circuit));
  const lasting = others.filter(({ continuous }) => continuous);
  const continuousA = lasting.reduce((sum, { amps }) => sum + amps * 0.8, 0);
  const restA = others.filter(({ continuous }) => !continuous).reduce((sum, { amps }) => sum + amps, 0);
  return {
    loadA: generalA + continuousA + restA,
    continuousA,
    because: [
      ...(general.length > 0
        ? [`general circuits at ${GENERAL_CIRCUIT_VA} VA each, ${general.length} over two legs: ${generalA} A`]
        : []),
      ...others.map(({ use, amps, continuous }) =>
        continuous ? `${use}: ${amps * 0.8} A that last, of ${amps} A` : `${use}: its whole ${amps} A`,
      ),
    ],
  };
}

/** Who charges, and under which edition. */
type Charging = Pick<Job, 'option' | 'edition'>;

/**
 * The calculated load of the option's feeder. Load management holds the chargers that share a circuit at its setpoint, a
 * monitor of the service all of them (625.42(A)). Chargers count at 125 % of what they draw, and without management at no less than 7,200 VA each (220.57 of 2023), to
 * which the 125 % are not added again: the AHJ may read that more strictly. Amperes at 240 V; single-pole loads by the
 * fuller leg.
 */
export function feederLoad({ option, edition }: Charging, others: readonly OtherCircuit[]): FeederLoad {
  const { chargers, loadManagement } = option;
  const chargersA = drawnTogetherA({ option, edition });
  const leastA = loadManagement?.kind === 'service-monitor' ? 0 : leastOfAllA({ option, edition });
  const other = otherLoad(others);
  const loadA = chargersA + other.loadA;
  const continuousA = chargersA + other.continuousA;
  const drawnA = neededA({ loadA, continuousA });
  const countedA = leastA + neededA(other);
  return {
    loadA,
    continuousA,
    neededA: Math.max(drawnA, countedA),
    chargersA,
    because: [
      ...(chargers.length > 0 ? [`chargers together ${amperes(chargersA)}, at 125 %`] : []),
      ...(countedA > drawnA ? [`but not less than 7,200 VA each: ${amperes(leastA)}`] : []),
      ...other.because,
    ],
  };
}

/** What the circuits for charging count at least: managed ones what they may draw at 125 %, others 7,200 VA a charger. */
function leastOfAllA(charging: Charging): number {
  return countedCircuits(charging).reduce(
    (sum, { chargers, drawnA, managed }) =>
      sum +
      (managed
        ? drawnA * CONTINUOUS_FACTOR
        : chargers.reduce((total, charger) => total + leastCountedA(charger, charging.edition), 0)),
    0,
  );
}

/** The largest standard rating that is not above one that was stated; that one itself below them all. NEC 240.6(A). */
export function standardAtMostA(statedA: number, edition: Edition): number {
  return standardRatingsA(edition).findLast((standardA) => standardA <= statedA) ?? statedA;
}
