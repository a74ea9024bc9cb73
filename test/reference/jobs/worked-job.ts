import { describe, expect, it } from 'vitest';
import type { EstimateOption, Run, VISIT_REASONS } from '../../../server/estimate/answer.ts';
import { readDescription } from '../../../server/estimate/description.ts';
import { estimate } from '../../../server/estimate/estimate.ts';
import type { ConductorSize, LineClass, Metal, WiringMethod } from '../../../server/estimate/vocabulary.ts';
import { seededBook } from '../../estimate/reading.ts';

/*
 * Whole jobs, worked by hand from the code and the trade before the program ran. A job's file holds the description
 * and its take-off as data; here it is held against what the program makes of it with the starting price book. What
 * the hand did not write down the program may not take: both lists must be whole.
 */

/** So much of one item. Feet of conductors and conduit include makeup and waste; `bought` where packages decide. */
export interface Counted {
  /** Left out of what comes in a tin, tube or bottle of which the job needs a part: then only `bought` is compared. */
  taken?: number;
  /** Feet or pieces in the packages that are bought; where it is not written it is not compared. */
  bought?: number;
  /** The arithmetic, and where it comes from: an article, the contract's definition, or 'common practice, no source'. */
  working: string;
}

/** So many units of one labor task, and the hours that the starting book's unit and factors make of them. */
export interface Worked {
  units: number;
  hours: number;
  working: string;
}

/** One row of a run's wire list: whole conductors or cables as they are cut, waste not included. */
export interface WireByHand {
  use: Run['wire'][number]['use'];
  metal: Metal;
  size: ConductorSize;
  insulation: string;
  count: number;
  cutLengthFt: number;
}

/** A run as the hand plans it. What is left out is not compared. */
export interface RunByHand {
  name: string;
  role: Run['role'];
  lengthFt: number;
  ocpdA: number;
  poles: number;
  breaker: { kind: 'standard' | 'gfci'; spaces: number };
  neutral: boolean;
  conductor: { metal: Metal; size: ConductorSize; ampacityA: number };
  groundSize: ConductorSize;
  /** The method on each leg of the route, in order. */
  methods: WiringMethod[];
  /** Trade size on each leg; null where there is no conduit. */
  tradeSizes: (string | null)[];
  disconnect?: { kind: 'main-breaker' | 'non-fused-switch' | 'breaker-lock'; ratingA: number };
  /** Percent of 240 V, or of 120 V where the run has one pole; exact to 0.0001. */
  dropPercent: number;
  wire: WireByHand[];
  working: string;
}

/** All that one option takes, by hand. Keys are those of the starting price book. */
export interface TakeoffByHand {
  buildable: boolean;
  runs: RunByHand[];
  /** Every item of class material: nothing else may be taken. */
  materials: Record<string, Counted>;
  /** Every rental and everything else of class equipment. */
  equipment: Record<string, Counted>;
  /** Every fee. */
  fees: Record<string, Counted>;
  /** Every labor task. */
  tasks: Record<string, Worked>;
  workingDays: { days: number; working: string };
  grounding?: { electrodes: { kind: string; count: number }[]; conductorSize: ConductorSize; working: string };
  /** Days of each kind of visit; a kind that is not written must not be made. */
  visits: Partial<Record<(typeof VISIT_REASONS)[number], number>>;
  /** Waiting days of steps of the schedule; a step that is not written is not compared. */
  waits?: Record<string, number>;
  /** Findings that must be there: rule and severity. A `caution` or `stop` that is not written must not be there. */
  findings: [rule: string, severity: EstimateOption['findings'][number]['severity'], working: string][];
}

/** Quantities are printed with four decimals; half of the last one is left to rounding. */
const PRINTED = 5.1e-5;
const agree = (hand: number, program: number): boolean => Math.abs(hand - program) <= PRINTED;
const printed = (value: number): number => Math.round(value * 1e4) / 1e4;

interface Two {
  hand: number | undefined;
  program: number | undefined;
}

/** One text for each figure in which hand and program differ. */
function differences(named: Record<string, Two>): string[] {
  return Object.entries(named).flatMap(([name, { hand, program }]) => {
    if (hand === undefined && program !== undefined) return [`${name}: not by hand, program ${printed(program)}`];
    if (hand !== undefined && program === undefined) return [`${name}: by hand ${printed(hand)}, not by the program`];
    if (hand === undefined || program === undefined || agree(hand, program)) return [];
    return [`${name}: by hand ${printed(hand)}, program ${printed(program)}`];
  });
}

/** Two lists of figures under the names of both. */
function pairs(hand: Record<string, number | undefined>, program: Record<string, number>): Record<string, Two> {
  const names = [...new Set([...Object.keys(hand), ...Object.keys(program)])].sort();
  return Object.fromEntries(names.map((name) => [name, { hand: hand[name], program: program[name] }]));
}

/** What differs in the items of a class: what is taken, then what is bought. */
function itemDifferences(option: EstimateOption, itemClass: LineClass, hand: Record<string, Counted>): string[] {
  const lines = option.lines.filter((line) => line.class === itemClass);
  const taken: Record<string, number> = {};
  const bought: Record<string, number> = {};
  for (const line of lines) {
    taken[line.key] = (taken[line.key] ?? 0) + line.taken;
    bought[line.key] = (bought[line.key] ?? 0) + line.quantity * (line.package?.size ?? 1);
  }
  const byHand = Object.fromEntries(Object.entries(hand).map(([key, counted]) => [key, counted.taken ?? taken[key]]));
  const stated = Object.entries(hand).filter(([, counted]) => counted.bought !== undefined);
  const boughtPairs = stated.map(([key, counted]): [string, Two] => [
    `${key}, bought`,
    { hand: counted.bought, program: bought[key] },
  ]);
  return [...differences(pairs(byHand, taken)), ...differences(Object.fromEntries(boughtPairs))];
}

/** What differs in the labor: units and hours of each task. */
function taskDifferences(option: EstimateOption, hand: Record<string, Worked>): string[] {
  const units: Record<string, number> = {};
  const hours: Record<string, number> = {};
  for (const task of option.labor.tasks) {
    units[task.key] = (units[task.key] ?? 0) + task.quantity;
    hours[`${task.key}, hours`] = (hours[`${task.key}, hours`] ?? 0) + task.hours;
  }
  const entries = Object.entries(hand);
  return [
    ...differences(pairs(Object.fromEntries(entries.map(([key, worked]) => [key, worked.units])), units)),
    ...differences(pairs(Object.fromEntries(entries.map(([key, worked]) => [`${key}, hours`, worked.hours])), hours)),
  ];
}

const wireText = ({ use, metal, size, insulation, count, cutLengthFt }: WireByHand): string =>
  `${count} × ${printed(cutLengthFt)} ft ${use} ${size} ${metal} ${insulation}`;

/** The run as the program planned it, in the hand's words. */
function runInHandsWords(run: Run): Omit<RunByHand, 'working' | 'dropPercent'> {
  return {
    name: run.name,
    role: run.role,
    lengthFt: printed(run.lengthFt),
    ocpdA: run.ocpdA,
    poles: run.poles,
    breaker: { kind: run.breaker.kind, spaces: run.breaker.spaces },
    neutral: run.neutral,
    conductor: run.conductor,
    groundSize: run.groundSize,
    methods: run.legs.map(({ method }) => method),
    tradeSizes: run.legs.map(({ conduit }) => conduit?.tradeSize ?? null),
    ...(run.disconnect && { disconnect: { kind: run.disconnect.kind, ratingA: run.disconnect.ratingA } }),
    wire: [],
  };
}

/** Is what was found what the hand expects? Cautions and stops must be the same ones; the others must be there. */
function findingDifferences(option: EstimateOption, hand: TakeoffByHand['findings']): string[] {
  const program = option.findings.map(({ rule, severity }) => `${severity} ${rule}`);
  const byHand = hand.map(([rule, severity]) => `${severity} ${rule}`);
  const missing = byHand.filter((one) => !program.includes(one)).map((one) => `${one}: not by the program`);
  const grave = program.filter((one) => /^(?:caution|stop) /.test(one) && !byHand.includes(one));
  return [...missing, ...new Set(grave.map((one) => `${one}: not by hand`))];
}

function checkRuns(option: () => EstimateOption, hand: TakeoffByHand): void {
  it('plans the same runs', () => {
    expect(option().runs.map(runInHandsWords)).toEqual(
      hand.runs.map(({ working: _, dropPercent: __, ...run }) => ({ ...run, wire: [] })),
    );
    const drops = (runs: readonly { name: string; dropPercent: number }[]) =>
      Object.fromEntries(runs.map(({ name, dropPercent }) => [name, dropPercent]));
    expect(differences(pairs(drops(hand.runs), drops(option().runs)))).toEqual([]);
  });
  it('cuts the same wire', () => {
    const list = (runs: readonly { name: string; wire: WireByHand[] }[]) =>
      Object.fromEntries(runs.map(({ name, wire }) => [name, wire.map(wireText).sort()]));
    expect(list(option().runs)).toEqual(list(hand.runs));
  });
  it('grounds the same way', () => {
    const { electrodes, conductorSize } = option().grounding ?? {};
    expect({ electrodes, conductorSize }).toEqual({
      electrodes: hand.grounding?.electrodes,
      conductorSize: hand.grounding?.conductorSize,
    });
  });
}

function checkQuantities(option: () => EstimateOption, hand: TakeoffByHand): void {
  it('takes the same materials', () => expect(itemDifferences(option(), 'material', hand.materials)).toEqual([]));
  it('rents the same', () => expect(itemDifferences(option(), 'equipment', hand.equipment)).toEqual([]));
  it('pays the same fees', () => expect(itemDifferences(option(), 'fee', hand.fees)).toEqual([]));
  it('works the same hours', () => expect(taskDifferences(option(), hand.tasks)).toEqual([]));
}

function checkVisitsAndFindings(option: () => EstimateOption, hand: TakeoffByHand): void {
  it('comes as often', () => {
    const visits: Record<string, number> = {};
    for (const { why, days } of option().labor.visits) visits[why] = (visits[why] ?? 0) + days;
    expect({ ...visits, workingDays: option().labor.workingDays }).toEqual({
      ...hand.visits,
      workingDays: hand.workingDays.days,
    });
    const waits = Object.fromEntries(option().schedule.map(({ step, waitDays }) => [step, waitDays]));
    expect(waits).toMatchObject(hand.waits ?? {});
  });
  it('finds the same', () => {
    expect(findingDifferences(option(), hand.findings)).toEqual([]);
    expect(option().buildable).toBe(hand.buildable);
    expect(option().complete).toBe(true);
  });
}

/**
 * Holds a job against its take-off by hand, option by option.
 * @param stated   the description, as a user states it
 * @param byHand   a take-off for each of its options, by the option's id
 */
export function checkWorkedJob(title: string, stated: unknown, byHand: Record<string, TakeoffByHand>): void {
  describe(title, () => {
    const answer = estimate(readDescription(stated), seededBook(), { parts: 'core' });
    it('has a take-off by hand for each option', () => {
      expect(Object.keys(byHand).sort()).toEqual(answer.options.map(({ id }) => id).sort());
    });
    for (const [id, hand] of Object.entries(byHand)) {
      const option = (): EstimateOption => {
        const found = answer.options.find((one) => one.id === id);
        if (!found) throw new Error(`The job has no option ${id}.`);
        return found;
      };
      describe(id, () => {
        checkRuns(option, hand);
        checkQuantities(option, hand);
        checkVisitsAndFindings(option, hand);
      });
    }
  });
}
