import type { Line } from '../answer.ts';
import { LINE_CLASSES, type LineClass } from '../vocabulary.ts';
import { CAUSES, GROUPS, type Group } from './causes.ts';
import type { TotalOf } from './drawn-total.ts';
import {
  addDraws,
  DRAWS,
  happens,
  partsOf,
  SEED,
  type SharedScores,
  type Stream,
  scoresOf,
  sharedScores,
  streamsOf,
} from './draws.ts';
import { differenceTable, type Matched, type Mover, matched, tablesOf } from './tables.ts';

/** Something that nobody knows, and what the job takes if it is so. */
export interface Scenario {
  name: string;
  /** 0 to 1: that it is so. */
  chance: number;
  /** The same, given that nothing before it in its group is so. Another number only where the group's exclude each other. */
  givenChance: number;
  /** Of scenarios of one group that all come true in a draw only the first stands: a new service has its panel with it. */
  group: string;
  /** Why it may be so and how its chance is known, to be read aloud. */
  because: string;
  lines: readonly Line[];
}

/** What further days of work cost: one more trip of the crew, by class. */
export interface CrewDays {
  /** Person-hours that the paid crew works in a day. */
  hoursPerDay: number;
  tripCents: Record<LineClass, number>;
}

/** A job with all that is not known of it. */
export interface UncertainJob {
  /** The likeliest case of everything. */
  lines: readonly Line[];
  /** The lines at quantiles of the guessed lengths, the shortest first; none where all are measured. */
  atLengths: readonly (readonly Line[])[];
  scenarios: readonly Scenario[];
  crewDays?: CrewDays | undefined;
}

type Sums = Record<LineClass, Float64Array>;
interface DrawnScenario extends Scenario {
  /** By class, only those that it changes. */
  adds: Partial<Sums>;
  happens: Uint8Array;
}

/** A job drawn many times. */
export interface DrawnJob {
  matched: Matched;
  /** Which of the lengths each draw takes. */
  lengthOf: Uint8Array;
  /** How many lengths there are; 1 where all are measured. */
  lengths: number;
  /** By class, without any scenario. */
  base: Sums;
  scenarios: DrawnScenario[];
}

const newSums = (): Sums => ({
  material: new Float64Array(DRAWS),
  labor: new Float64Array(DRAWS),
  equipment: new Float64Array(DRAWS),
  fee: new Float64Array(DRAWS),
});

/** The streams of a job: the lengths' and the causes' first, then its own. */
interface Dealt {
  /** Which of so many lengths each draw takes. */
  lengthsAmong: (lengths: number) => Uint8Array;
  shared: Map<Group | undefined, SharedScores>;
  next: () => Stream;
}

/** What the usual seed deals to every job alike, made when it is first asked for. */
let usual: Omit<Dealt, 'next'> | undefined;

function deal(seed: number): Dealt {
  const next = streamsOf(seed);
  if (seed !== SEED) return { ...dealtToAll(next), next };
  if (!usual) {
    usual = dealtToAll(next);
    return { ...usual, next };
  }
  for (let passed = 0; passed <= CAUSES.length; passed++) next(); // the lengths' and the causes' streams
  return { ...usual, next };
}

function dealtToAll(next: () => Stream): Omit<Dealt, 'next'> {
  const lengthScores = scoresOf(next());
  const known = new Map<number, Uint8Array>();
  const lengthsAmong = (lengths: number) => {
    const drawn = known.get(lengths) ?? partsOf(lengthScores, lengths);
    known.set(lengths, drawn);
    return drawn;
  };
  const causes = CAUSES.map((cause) => ({ cause, scores: scoresOf(next()) }));
  const mixOf = (group: Group | undefined) =>
    sharedScores(causes.map(({ cause, scores }) => ({ weight: group?.weights[cause] ?? 0, scores })));
  return { lengthsAmong, shared: new Map([undefined, ...GROUPS].map((group) => [group, mixOf(group)])) };
}

/**
 * Draws a job: prices, hours and fees by their causes, the lengths by one cause of theirs, and the scenarios by their
 * chances. Each draw takes the nearest of the lengths that were taken off, so that its packages and days are whole.
 */
export function drawJob(
  { lines, atLengths, scenarios, crewDays }: UncertainJob,
  { seed = SEED }: { seed?: number } = {},
): DrawnJob {
  const { lengthsAmong, shared, next } = deal(seed);
  const byLength = atLengths.length > 0 ? atLengths : [lines];
  // Ways: the likeliest, then the lengths, then the scenarios.
  const all = matched([lines, ...byLength, ...scenarios.map((scenario) => scenario.lines)]);
  const lengthWays = byLength.map((_, at) => 1 + at);
  const lengthOf = lengthsAmong(byLength.length);
  const happening = scenarios.map(({ givenChance }) => happens(next(), givenChance));
  const streams = new Map(widestFirst(all.movers).map((one) => [one, next()]));
  const base = drawBase({ shared, all, streams, lengthWays, lengthOf });
  if (crewDays) addFurtherDays({ base, byLength, lengthOf, crewDays });
  const drawnScenarios = scenarios.map((scenario, at) => ({
    ...scenario,
    adds: drawAdded({ shared, all, streams, way: 1 + byLength.length + at }),
    happens: happening[at] ?? new Uint8Array(DRAWS),
  }));
  return { matched: all, lengthOf, lengths: byLength.length, base, scenarios: drawnScenarios };
}

/** Movers by their widest swing: the lattice serves the widest first. */
function widestFirst(movers: readonly Mover[]): Mover[] {
  const swings = new Map(movers.map((one) => [one, widestOf(one)]));
  return [...movers].sort((a, b) => (swings.get(b) ?? 0) - (swings.get(a) ?? 0));
}

function widestOf({ ends }: Mover): number {
  let widest = 0;
  for (const one of ends) if (one && one.high - one.low > widest) widest = one.high - one.low;
  return widest;
}

interface Drawing {
  shared: Dealt['shared'];
  all: Matched;
  streams: ReadonlyMap<Mover, Stream>;
}

const ALONE: SharedScores = { scores: new Float32Array(DRAWS), ownWeight: 1 };

function drawBase({
  shared,
  all,
  streams,
  lengthWays,
  lengthOf,
}: Drawing & { lengthWays: readonly number[]; lengthOf: Uint8Array }): Sums {
  const base = newSums();
  for (const name of LINE_CLASSES) {
    const sums = base[name];
    const fixed = lengthWays.map((way) => all.fixed[name][way] ?? 0);
    for (let draw = 0; draw < DRAWS; draw++) sums[draw] = fixed[lengthOf[draw] ?? 0] ?? 0;
  }
  for (const [one, own] of streams) {
    if (lengthWays.every((way) => !one.ends[way])) continue;
    const tables = tablesOf(one, lengthWays);
    addDraws(base[one.line.class], { own, shared: shared.get(one.group) ?? ALONE, tables, tableOf: lengthOf });
  }
  return base;
}

/** What a scenario adds to the likeliest case in every draw, whether it comes true there or not. */
function drawAdded({ shared, all, streams, way }: Drawing & { way: number }): Partial<Sums> {
  const adds: Partial<Sums> = {};
  for (const name of LINE_CLASSES) {
    const fixed = (all.fixed[name][way] ?? 0) - (all.fixed[name][0] ?? 0);
    if (fixed !== 0) adds[name] = new Float64Array(DRAWS).fill(fixed);
  }
  for (const [one, own] of streams) {
    const tables = differenceTable(one, { from: 0, to: way });
    if (!tables) continue;
    const sums = adds[one.line.class] ?? new Float64Array(DRAWS);
    adds[one.line.class] = sums;
    addDraws(sums, { own, shared: shared.get(one.group) ?? ALONE, tables });
  }
  return adds;
}

/** A slower crew comes for more whole days, a faster one for fewer: each day is a trip more or less. */
function addFurtherDays({
  base,
  byLength,
  lengthOf,
  crewDays: { hoursPerDay, tripCents },
}: {
  base: Sums;
  byLength: readonly (readonly Line[])[];
  lengthOf: Uint8Array;
  crewDays: CrewDays;
}): void {
  const likely = byLength.map(paidLabor);
  const daysAt = (hours: number) => Math.ceil(hours / hoursPerDay - 1e-9);
  const likelyDays = likely.map(({ hours }) => daysAt(hours));
  const further = new Int32Array(DRAWS);
  for (let draw = 0; draw < DRAWS; draw++) {
    const length = lengthOf[draw] ?? 0;
    const { hours, cents } = likely[length] ?? NO_LABOR;
    if (cents > 0) further[draw] = daysAt((hours * (base.labor[draw] ?? 0)) / cents) - (likelyDays[length] ?? 0);
  }
  for (const name of LINE_CLASSES) {
    const sums = base[name];
    const cents = tripCents[name];
    for (let draw = 0; draw < DRAWS; draw++) sums[draw] = (sums[draw] ?? 0) + (further[draw] ?? 0) * cents;
  }
}

const NO_LABOR = { hours: 0, cents: 0 };

/** Person-hours that are paid for, and what they cost at likely prices. */
function paidLabor(lines: readonly Line[]): { hours: number; cents: number } {
  const paid = lines.filter((line) => line.class === 'labor' && line.priced && line.hours !== undefined);
  return {
    hours: paid.reduce((sum, { hours = 0 }) => sum + hours, 0),
    cents: paid.reduce((sum, { amountCents }) => sum + amountCents, 0),
  };
}

/** What is known beyond the draws: scenarios that are certainly so or not so, and what to take off at each length. */
export interface Known {
  scenarios?: ReadonlyMap<string, boolean>;
  /** By class, cents at each length that are not uncertain any more. */
  withoutAtLength?: Record<LineClass, readonly number[]> | undefined;
}

/** The total of every draw, in the order of the draws, in fractions of a cent. */
export function drawnTotals(
  drawn: DrawnJob,
  totalOf: TotalOf,
  { scenarios, withoutAtLength }: Known = {},
): Float64Array {
  const sums = withScenarios(drawn, scenarios);
  if (withoutAtLength) {
    for (const name of LINE_CLASSES) takeOff(sums[name], withoutAtLength[name], drawn.lengthOf);
  }
  const totals = new Float64Array(DRAWS);
  const { material, labor, equipment, fee } = sums;
  for (let draw = 0; draw < DRAWS; draw++) {
    totals[draw] = totalOf(material[draw] ?? 0, labor[draw] ?? 0, equipment[draw] ?? 0, fee[draw] ?? 0);
  }
  return totals;
}

function takeOff(sums: Float64Array, cents: readonly number[], lengthOf: Uint8Array): void {
  for (let draw = 0; draw < DRAWS; draw++) sums[draw] = (sums[draw] ?? 0) - (cents[lengthOf[draw] ?? 0] ?? 0);
}

/** Which draws are built with one of the named scenarios of a group: of those that come true together the first stands. */
export function drawsBuiltWith({ scenarios }: DrawnJob, group: string, names: readonly string[]): Uint8Array {
  const built = new Uint8Array(DRAWS);
  const taken = new Uint8Array(DRAWS);
  for (const { name, happens: drawn } of scenarios.filter((scenario) => scenario.group === group)) {
    const isNamed = Number(names.includes(name));
    for (let draw = 0; draw < DRAWS; draw++) {
      if (taken[draw] === 1 || drawn[draw] === 0) continue;
      taken[draw] = 1;
      built[draw] = isNamed;
    }
  }
  return built;
}

/** The sums with what each draw's scenarios add. */
function withScenarios({ base, scenarios }: DrawnJob, known: Known['scenarios']): Sums {
  const sums: Sums = {
    material: base.material.slice(),
    labor: base.labor.slice(),
    equipment: base.equipment.slice(),
    fee: base.fee.slice(),
  };
  const taken = new Map<string, Uint8Array>();
  for (const { name, group, adds, happens: drawn } of scenarios) {
    const certain = known?.get(name);
    if (certain === false) continue;
    const before = taken.get(group) ?? new Uint8Array(DRAWS);
    taken.set(group, before);
    const isSo = new Uint8Array(DRAWS);
    for (let draw = 0; draw < DRAWS; draw++) {
      if (before[draw] === 1 || (certain === undefined && drawn[draw] === 0)) continue;
      before[draw] = 1;
      isSo[draw] = 1;
    }
    for (const lineClass of LINE_CLASSES) {
      const added = adds[lineClass];
      if (added) addWhere(isSo, added, sums[lineClass]);
    }
  }
  return sums;
}

/** Adds to the sums of those draws in which something is so. */
function addWhere(isSo: Uint8Array, added: Float64Array, sums: Float64Array): void {
  for (let draw = 0; draw < DRAWS; draw++) if (isSo[draw] === 1) sums[draw] = (sums[draw] ?? 0) + (added[draw] ?? 0);
}
