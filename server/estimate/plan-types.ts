/*
 * Plain data between the stages of an estimate: the planner makes a PlannedOption, the take-off makes Demands of it,
 * purchasing and pricing make lines of those. Lengths in feet, depths in inches. Legs are indices from 0 into the
 * option's own route.
 */
import type { Place } from '../electrical/wiring-methods.ts';
import type { Finding, Grounding, Run, RunLeg } from './answer.ts';
import type { Description, Leg, PlacedCharger } from './description.ts';
import type { SettledOption } from './plan/job.ts';
import type { Spec } from './price-book.ts';
import type { ConductorSize, LineClass, Metal, Scope, TradeSize, WiringMethod } from './vocabulary.ts';

/** Three points of a length, in feet. */
export interface ThreeFeet {
  low: number;
  likely: number;
  high: number;
}

/** A leg of the route with what the planner found out about it. */
export interface PlacedLeg {
  leg: number;
  stated: Leg;
  feet: ThreeFeet;
  place: Place;
  ambientC: number;
}

/** Conductors of one insulation, metal and size between two ends or splices. */
export interface Section {
  insulation: RunLeg['insulation'];
  /** A cable with so many insulated conductors besides its ground, or single conductors in a raceway or in the ground. */
  cable?: { form: 'nm-b' | 'uf-b' | 'ser' | 'mhf'; conductors: 2 | 3 };
  metal: Metal;
  size: ConductorSize;
  neutralSize?: ConductorSize;
  groundSize: ConductorSize;
  groundMetal: Metal;
  /** In the order of the route; empty where only the tail is this section's. */
  legs: number[];
  /** Does the section also cover the stretch from the end of the route to the outlet? */
  tail: boolean;
}

/** From the end of the route, or from the subpanel, to the outlet: not a leg of the route. */
export interface Tail {
  lengthFt: number;
  place: Place;
  method: WiringMethod;
  insulation: RunLeg['insulation'];
  conduit?: RunLeg['conduit'];
  because: string[];
}

/** A run as planned: what the answer prints of it but for wire list and proof, and what the take-off needs besides. */
export interface PlannedRun extends Omit<Run, 'wire' | 'runnersUp' | 'proof'> {
  sections: Section[];
  tail?: Tail;
  /** Which of the option's chargers hang on it, by index; empty for a feeder and for other circuits. */
  chargers: number[];
  /** For a subpanel's other circuit that is built: what it is for. */
  otherUse?: string;
}

/** Consecutive legs that lie in one ditch. It keeps its deepest cover; its ends come up on both sides. */
export interface Ditch {
  legs: number[];
  coverIn: number;
  /** Cover and the raceway or cable below it. */
  depthIn: number;
}

/** What is mounted at the end of a branch circuit. */
export interface Outlet {
  run: string;
  charger?: number;
  connection: PlacedCharger['connection'] | 'receptacle-120' | 'light';
  outdoors: boolean;
}

/** A raceway that is laid beside the option's runs and stays empty: for a later feeder, or for data. */
export interface EmptyRaceway {
  use: 'spare' | 'data';
  /** What it is sized for; its conductors are not bought. */
  run: PlannedRun;
  /** Does it end out of doors? */
  outdoors: boolean;
}

/** An option as planned: the electrical answer, without a cent in it. */
export interface PlannedOption {
  description: Description;
  /** Its chargers are settled: none is set to `largest` any more. */
  option: SettledOption;
  route: PlacedLeg[];
  runs: PlannedRun[];
  ditches: Ditch[];
  outlets: Outlet[];
  /** The subpanel as it will be bought: at least the rating and spaces asked for. */
  panel?: { ratingA: number; spaces: number; enclosure: 'indoor' | 'outdoor'; mainBreaker: boolean };
  grounding?: Grounding;
  /** Not part of `runs`: nothing flows in them yet. */
  emptyRaceways?: EmptyRaceway[];
  /** What is built at the service, where the option asks for a larger or a new one. */
  serviceWork?: {
    kind: 'upgrade' | 'panel-swap';
    toA: number;
    supply: 'overhead' | 'underground';
    replacesMeter: boolean;
    panels: { ratingA: number; spaces: number; enclosure: 'indoor' | 'outdoor'; mainBreaker: boolean }[];
    relocateFt: number;
  };
  /** How room is made where the panel that it starts at has too few free spaces; tandem breakers unless stated. */
  roomBy?: 'house-subpanel';
  /** From the service to the farthest outlet, in percent. */
  dropPercent: number;
  findings: Finding[];
}

/** So much of something, before packages and prices. Exactly one of `pieces` and `quantity`. */
export interface MaterialDemand {
  spec: Spec;
  /** Plain words, shown where the book lacks the item. */
  description: string;
  class: LineClass;
  scope: Scope;
  unit: string;
  /** Lengths in feet that may not be spliced, waste included. */
  pieces?: number[];
  /** A whole that may be made up of any packages, waste included. */
  quantity?: number;
  legs: number[];
  because: string[];
}

/** So many units of one labor task, with the difficulty factors of the price book that bear on it, by name. */
export interface TaskDemand {
  task: string;
  scope: Scope;
  quantity: number;
  /** So much of the unit lies there, where the quantity is reckoned for another depth or thickness. */
  inPlace?: number;
  unit: string;
  factors: string[];
  legs: number[];
  because: string[];
}

/** All that an option takes. */
export interface Takeoff {
  materials: MaterialDemand[];
  tasks: TaskDemand[];
  /** The wire list of each run, by the run's name. */
  wire: Record<string, Run['wire']>;
}

export type { Place, TradeSize };
