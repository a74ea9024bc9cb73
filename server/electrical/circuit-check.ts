import { usableAmpacity } from './ampacity.ts';
import { groundFaultProtection } from './charging-circuit.ts';
import type { Edition, RuleKey } from './citations.ts';
import { cite } from './citations.ts';
import { twoAmpacityTests } from './conductor.ts';
import type { Connection } from './ev.ts';
import { checkReceptacle, circuitWires } from './ev.ts';
import type { Finding } from './findings.ts';
import { isLawful } from './findings.ts';
import type { ColumnC, Insulation } from './insulations.ts';
import { sizesOf } from './insulations.ts';
import { SETTING_A } from './largest-setting.ts';
import {
  CONTINUOUS_FACTOR,
  isStandardOcpd,
  largestOcpdForConductor,
  reaches,
  smallConductorLimitA,
} from './overcurrent.ts';
import type { ConductorSize, Metal } from './sizes.ts';
import { sizeInWords } from './sizes.ts';
import { ADVISED_DROP_PERCENT, voltageDrop } from './voltage-drop.ts';

/** A circuit that exists, or that somebody offers to build, and what is to charge on it. */
export interface CheckedCircuit {
  ocpdA: number;
  metal: Metal;
  size: ConductorSize;
  insulation: Insulation;
  /** Conductors with the equipment ground. */
  wires: 2 | 3 | 4;
  terminalsC?: ColumnC | undefined;
  /** One way, in feet. */
  lengthFt?: number | undefined;
  /** Around it where it is hottest, in °C, and how many conductors carry current with it there. */
  ambientC?: number | undefined;
  currentCarrying?: number | undefined;
  amps: number;
  connection: Connection;
  /** Is there class A ground-fault protection? */
  gfci?: boolean | undefined;
  edition?: Edition | undefined;
}

/** Is it lawful, what was found, and the largest setting that it could have, in amperes. */
export interface CircuitVerdict {
  lawful: boolean;
  findings: Finding[];
  /** By breaker, wire, wires and outlet, whatever protects against ground faults; 0 where no setting is lawful. */
  largestSettingA: number;
}

/** Amperes in a raceway or cable of its own: two conductors carry current (310.15(E)(1)); 30 °C around them. */
const OWN_CIRCUIT = { ambientC: 30, currentCarrying: 2 } as const;

/**
 * Checks a charging circuit as it is or as it is offered: breaker (625.41, 210.20(A), 240.6(A)), conductor
 * (210.19(A)(1), 240.4, 310.16, 334.80, 340.80), number of wires, receptacle (210.21(B), 625.44), ground-fault
 * protection (625.54, 210.8) and voltage drop. Where it is not said how it runs, 30 °C and no other circuit beside it are
 * taken.
 * @throws {BeyondTableError} for 14 AWG aluminum, or where it is too hot for the insulation
 */
export function circuitCheck(circuit: CheckedCircuit): CircuitVerdict {
  const findings = [
    ...capacityFindings(circuit),
    groundFault(circuit),
    ...aluminumAtTheOutlet(circuit),
    ...drop(circuit),
  ];
  return { lawful: isLawful(findings), findings, largestSettingA: largestLawfulSettingA(circuit) };
}

function largestLawfulSettingA(circuit: CheckedCircuit): number {
  for (let amps = SETTING_A.most; amps >= SETTING_A.least; amps -= 1) {
    if (isLawful(capacityFindings({ ...circuit, amps }))) return amps;
  }
  return 0;
}

function capacityFindings(circuit: CheckedCircuit): Finding[] {
  const { connection, ocpdA, amps } = circuit;
  return [
    breaker(circuit),
    conductor(circuit),
    protection(circuit),
    enoughWires(circuit),
    ...checkReceptacle({ connection, ocpdA, amps, edition: editionOf(circuit) }),
  ];
}

function breaker(circuit: CheckedCircuit): Finding {
  const { ocpdA, amps } = circuit;
  const neededA = amps * CONTINUOUS_FACTOR;
  const numbers = { amps, neededA, ocpdA };
  if (!isStandardOcpd(ocpdA, editionOf(circuit))) {
    return found(
      circuit,
      'standard-ratings',
      'caution',
      `${ocpdA} A is no standard rating: read the breaker again.`,
      numbers,
    );
  }
  return reaches(ocpdA, neededA)
    ? found(circuit, 'ev-continuous-load', 'ok', `A ${ocpdA} A breaker carries ${amps} A of charging.`, numbers)
    : found(
        circuit,
        'ev-continuous-load',
        'stop',
        `Charging at ${amps} A lasts and needs ${neededA} A of breaker; there are ${ocpdA} A. Set it to ${Math.floor(ocpdA / CONTINUOUS_FACTOR)} A or less.`,
        numbers,
      );
}

function conductor(circuit: CheckedCircuit): Finding {
  const { amps, metal, size, insulation } = circuit;
  if (!sizesOf(insulation, metal).includes(size)) {
    const message = `There is no ${insulation.toUpperCase()} of ${sizeInWords(size)} ${metal}: look at the wire again.`;
    return found(circuit, 'conductor-ampacity', 'caution', message, { size, insulation });
  }
  const ampacity = ampacityOf(circuit);
  const { passes, atTerminals, alongTheWay } = twoAmpacityTests({ loadA: amps, continuousA: amps, ampacity });
  const numbers = { amps, neededA: atTerminals.neededA, ampacityA: ampacity.ampacityA, columnC: ampacity.columnC };
  const wire = `${sizeInWords(size)} ${metal} ${insulation.toUpperCase()}`;
  if (atTerminals.passes && !alongTheWay.passes) {
    const message = `${wire} carries ${shown(alongTheWay.hasA)} A where its way is hottest or fullest; charging draws ${amps} A. Set the charger lower, or take a larger wire.`;
    return found(circuit, 'two-ampacity-tests', 'stop', message, numbers);
  }
  return passes
    ? found(circuit, 'two-ampacity-tests', 'ok', `${wire} carries ${shown(ampacity.ampacityA)} A.`, numbers)
    : found(
        circuit,
        'two-ampacity-tests',
        'stop',
        `${wire} carries ${shown(atTerminals.hasA)} A in the ${ampacity.columnC} °C column; charging at ${amps} A needs ${atTerminals.neededA} A. A larger breaker does not help: set the charger lower, or take a larger wire.`,
        numbers,
      );
}

function protection(circuit: CheckedCircuit): Finding {
  const { metal, size, ocpdA } = circuit;
  const { ampacityA } = ampacityOf(circuit);
  const mostA = largestOcpdForConductor({ metal, size, ampacityA });
  const numbers = { ocpdA, mostA, ampacityA };
  const rule = smallConductorLimitA({ metal, size }) === undefined ? 'next-size-up' : 'small-conductors';
  return ocpdA <= mostA
    ? found(circuit, rule, 'ok', `${sizeInWords(size)} ${metal} may lie behind ${ocpdA} A.`, numbers)
    : found(
        circuit,
        rule,
        'stop',
        `${sizeInWords(size)} ${metal} may lie behind ${mostA} A at most, not ${ocpdA} A: it can overheat before the breaker opens.`,
        numbers,
      );
}

function enoughWires(circuit: CheckedCircuit): Finding {
  const { poles, neutral } = circuitWires(circuit.connection);
  const needed = poles + (neutral ? 1 : 0) + 1;
  const numbers = { wires: circuit.wires, needed };
  if (circuit.wires >= needed) {
    return found(
      circuit,
      'equipment-ground-required',
      'ok',
      `${circuit.wires} wires, ground included; ${needed} are needed.`,
      numbers,
    );
  }
  const missing =
    circuit.wires === 2 ? 'an equipment ground is missing' : 'neutral and equipment ground would be one wire';
  const message = `${circuit.wires} wires, where ${needed} are needed for this outlet: ${missing}. Never use one for the other.`;
  return found(circuit, 'equipment-ground-required', 'stop', message, numbers);
}

/**
 * Where the outlet is, is not known here: outdoors or in a garage is taken, the places where a charger mostly hangs.
 */
function groundFault(circuit: CheckedCircuit): Finding {
  const { connection, ocpdA, gfci } = circuit;
  const { needed, finding } = groundFaultProtection({
    connection,
    ocpdA,
    place: 'outdoors',
    edition: editionOf(circuit),
  });
  if (!needed || gfci === true) return { ...finding, severity: needed ? 'ok' : finding.severity };
  if (gfci === undefined) {
    return { ...finding, severity: 'caution', message: `${finding.message} Ask whether there is any.` };
  }
  if (connection !== 'hardwired') {
    const message = 'A receptacle for charging needs ground-fault protection of class A, and there is none.';
    return { ...finding, severity: 'stop', message };
  }
  return { ...finding, severity: 'caution' };
}

function aluminumAtTheOutlet(circuit: CheckedCircuit): Finding[] {
  if (circuit.metal === 'copper') return [];
  const message =
    'Aluminum may end only on terminals marked for it; many chargers and receptacles take copper alone. Read the marking.';
  return [found(circuit, 'dissimilar-metals', 'caution', message, { metal: circuit.metal })];
}

function drop(circuit: CheckedCircuit): Finding[] {
  const { lengthFt, amps, metal, size, connection } = circuit;
  if (lengthFt === undefined) return [];
  const { voltageV } = circuitWires(connection);
  const { percent } = voltageDrop({ voltageV, currentA: amps, lengthFt, metal, size, method: 'dc-resistance' });
  const numbers = { percent, advisedPercent: ADVISED_DROP_PERCENT.each, lengthFt };
  const severity = percent > ADVISED_DROP_PERCENT.each ? 'caution' : 'ok';
  const message = `${percent.toFixed(1)} % of the voltage is lost over ${lengthFt} ft; the code advises ${ADVISED_DROP_PERCENT.each} % at most, and does not demand it.`;
  return [found(circuit, 'voltage-drop', severity, message, numbers)];
}

function ampacityOf({
  metal,
  size,
  insulation,
  terminalsC = 75,
  ambientC = OWN_CIRCUIT.ambientC,
  currentCarrying = OWN_CIRCUIT.currentCarrying,
}: CheckedCircuit) {
  return usableAmpacity({ metal, size, insulation, terminalsC, ambientC, currentCarrying });
}

function editionOf({ edition = '2023' }: CheckedCircuit): Edition {
  return edition;
}

function found(
  circuit: CheckedCircuit,
  rule: RuleKey,
  severity: Finding['severity'],
  message: string,
  numbers: Finding['numbers'],
): Finding {
  return { rule, severity, message, citation: cite(rule, editionOf(circuit)), numbers };
}

/** Amperes as people read them. */
const shown = (amps: number) => String(Math.round(amps * 100) / 100);
