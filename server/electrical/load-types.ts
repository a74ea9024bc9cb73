import type { Edition } from './citations.ts';

/** Something that a dwelling runs. Nameplate in volt-amperes. */
export interface Appliance {
  name: string;
  va: number;
  /**
   * `fastened`: fastened in place or on its own circuit; `range`: any cooking appliance; `motor`: a pump and the like.
   */
  kind?: 'fastened' | 'range' | 'dryer' | 'motor' | undefined;
}

/** Electric heat. Nameplate in volt-amperes; of a heat pump the compressor, its electric strips as `supplementalVA`. */
export interface Heating {
  kind: 'none' | 'central-electric' | 'separate-units' | 'heat-pump' | 'thermal-storage';
  va: number;
  supplementalVA?: number | undefined;
  /** Units with thermostats of their own; fewer than four where not stated. */
  units?: number | undefined;
}

/** What a dwelling draws, as a list of nameplates. */
export interface ListedLoad {
  floorAreaFt2: number;
  smallApplianceCircuits?: number | undefined;
  laundryCircuits?: number | undefined;
  appliances?: readonly Appliance[] | undefined;
  heating?: Heating | undefined;
  cooling?: { va: number } | undefined;
  /** Is heating or cooling added, or made larger, by this job? Decides between 220.83(A) and (B). */
  addingHeatOrCooling?: boolean | undefined;
}

/** What is added to a listed or measured load, in volt-amperes. */
export interface AddedLoad {
  addedVA: number;
  /** Chargers, by 220.57 and its like. */
  chargerVA: number;
  edition: Edition;
}

/** One line of a load calculation, as an inspector reads it. */
export interface LoadStep {
  name: string;
  va: number;
}

/** A load and the steps that led to it. */
export interface LoadSum {
  demandVA: number;
  steps: LoadStep[];
}

/** Volt-amperes of each small-appliance and each laundry circuit. NEC 220.52. */
export const CIRCUIT_VA = 1500;
/** Circuits that a dwelling has at least, where not stated otherwise. NEC 210.11(C). */
export const LEAST_CIRCUITS = { smallAppliance: 2, laundry: 1 } as const;

/** Sum of volt-amperes. */
export function sumVA(parts: readonly { va: number }[]): number {
  return parts.reduce((sum, { va }) => sum + va, 0);
}

/** Lighting and receptacles of a dwelling with its small-appliance and laundry circuits, before any demand factor. */
export function generalSteps(load: ListedLoad, vaPerFt2: number): LoadStep[] {
  const smallAppliance = load.smallApplianceCircuits ?? LEAST_CIRCUITS.smallAppliance;
  const laundry = load.laundryCircuits ?? LEAST_CIRCUITS.laundry;
  return [
    {
      name: `lighting and receptacles, ${load.floorAreaFt2} ft² at ${vaPerFt2} VA/ft²`,
      va: load.floorAreaFt2 * vaPerFt2,
    },
    { name: `small-appliance circuits, ${smallAppliance} at ${CIRCUIT_VA} VA`, va: smallAppliance * CIRCUIT_VA },
    { name: `laundry circuits, ${laundry} at ${CIRCUIT_VA} VA`, va: laundry * CIRCUIT_VA },
  ];
}
