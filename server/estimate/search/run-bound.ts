/*
 * The least that a run costs, piece by piece and joint by joint: a layered graph of what may be chosen, in which the
 * length of a path is never more than what its plan costs.
 */
import type { PlannedRun } from '../plan-types.ts';
import { boxesAlong } from '../takeoff/boxes.ts';
import type { Demands } from '../takeoff/demand.ts';
import { racewayOfSegment, strapDemands } from '../takeoff/raceway.ts';
import { strapSpacing } from '../takeoff/straps.ts';
import { ABOVE_GRADE_FT, type Conduit, isOpened, type Stretch, type Way } from '../takeoff/way.ts';
import { pullsOf, startTerminations, wireDemands } from '../takeoff/wire.ts';
import { type Choice, mayFollow, type Sized } from './choices.ts';
import { type LeastPrices, leastOf } from './least-price.ts';
import { jointPart, once, type Parts, stretchPart } from './parts.ts';
import { isOpenedBetween, lieOf, type RunModel, runStub } from './run-tally.ts';
import { loneCents, type PooledLine, pooledLines, pooledPerFt, type SectionWire, sectionWire } from './section-wire.ts';
import { type Part, partOf } from './tally.ts';

/** A choice for one piece, in a ditch of so much cover (0 where it is in none). */
export interface Node {
  choice: Choice;
  coverIn: number;
  /** Of its own, without conductors. */
  cents: number;
  /** Feet that conductors run along it. */
  wireFt: number;
  /** Index of its wiring. */
  wiring: number;
  /** What a pull box costs in its raceway; 0 where it is none that is laid anew. */
  pullBoxCents: number;
}

/** Bends where two pieces meet, in eighths of the 360° that are allowed between two pull points. */
export interface Bends {
  /** Is raceway opened there, so that bends are counted anew? */
  isOpened: boolean;
  before: number;
  after: number;
}

/** All nodes of a run at one metal and size, with what it costs to go from one to the next. */
export interface Layers {
  nodes: Node[][];
  /** From node `from` of a piece to node `to` of the next; infinite where the second may not follow. */
  step: (piece: number, from: number, to: number) => number;
  startCents: (to: number) => number;
  endCents: (from: number) => number;
  /** Bends where one node of a piece meets one of the next, and those by which a section begins or ends at a node. */
  bends: (piece: number, from: number, to: number) => Bends;
  opening: (piece: number, node: number) => number;
  closing: (piece: number, node: number) => number;
  wirings: number;
  /** Is a section dearer that is the only one of its wiring? */
  isAlonePriced: (wiring: number) => boolean;
  /** The conductors of such a section, with their makeup, from one piece to another, both included. */
  aloneCents: (wiring: number, from: number, to: number) => number;
  /** A foot of conductors at the best price of any plan. */
  leastPerFt: (wiring: number) => number;
  /** What the sections of a wiring cost together, as the lesser of these. */
  lines: (wiring: number) => readonly PooledLine[];
  /** Feet of a section; where it is the third of its wiring or a later one, makeup is not counted. */
  pooledFt: (wiring: number, section: { from: number; to: number; withMakeup: boolean }) => number;
}

/** What bounding a run looks at. */
export interface RunQuestion {
  parts: Parts;
  least: LeastPrices;
  model: RunModel;
  sized: Sized;
  /** What a leg adds that is dug so deep; nothing where several runs share the ditch. */
  digCents: (leg: number, depthIn: number) => number;
  /** Inches of cover that a ditch has whatever is chosen. */
  leastCoverIn: (ditch: number) => number;
  /** May a ditch of so much cover be dug in the way that is looked at? */
  allows: (ditch: number, coverIn: number) => boolean;
  /** Is a ditch of one cover along all its legs? Not decided here where several runs share it. */
  oneCover: boolean;
  /** Rates of the run at this metal and size, as far as they were asked for. */
  rates: Map<string, Rates>;
  segments: Map<string, SegmentRates>;
  /** What the end of the run adds, by its last choice. */
  endsCents: (last: Choice) => number;
  /** May no other run buy of its kinds before they are paid for here? Then a section can be bought alone. */
  isFirst: boolean;
  /** Kinds of conductors that are paid for with another run. */
  free: ReadonlySet<number>;
  /** Feet that all sections of a wiring have together at most, of all runs that may buy of its kinds. */
  mostFt: (wiring: Choice['wiring']) => number;
}

/** More nodes than any piece has. */
export const MOST_NODES = 64;
/** Wirings by index. */
const WIRINGS: readonly Choice['wiring'][] = ['nm-b', 'uf-b', 'ser', 'use-2', 'singles'];
/** A length that is long enough for roundings not to show, in feet. */
const LONG_FT = 1000;

/** Cents a foot, and cents a time, of raceway between two pull points. */
export interface SegmentRates {
  perFt: number;
  perTime: number;
  /** What straps may be fewer by where raceway comes up and goes on: 0 or less. */
  perPart: number;
  perElbow: number;
  perPullBox: number;
}

/** Cents a foot of the conductors of a choice, and of pulling them. */
export interface Rates {
  wire: SectionWire | undefined;
  pullPerFt: number;
}

function longest(choice: Choice): Stretch {
  return { ...choice.stretch, lengthFt: LONG_FT, riseFt: 0 };
}

function wayOver(run: PlannedRun, stretch: Stretch): Way {
  const end = { before: undefined, after: undefined, splice: false, wall: undefined, leavesHouse: false, legs: [] };
  return {
    run,
    stretches: [stretch],
    joints: [
      { ...end, at: 0 },
      { ...end, at: 1 },
    ],
    spans: [],
    divisions: 0,
  };
}

/** Finds the layers of a run. */
export function layersOf(question: RunQuestion): Layers {
  const { model, sized, parts } = question;
  const tools = toolsOf(question);
  const { run, cents } = tools;
  const nodes = sized.choices.map((choices, piece) => nodesOf(tools, choices, piece));
  const { places } = model;
  const last = nodes.length - 1;
  const turns = new Map<number, Bends>();
  const steps = new Map<number, number>();
  const starts = new Map<number, number>();
  const finishes = new Map<number, number>();
  return {
    nodes,
    ...sectionPrices(tools, nodes),
    bends: (piece, from, to) => {
      const at = (piece * MOST_NODES + from) * MOST_NODES + to;
      const known = turns.get(at);
      if (known) return known;
      const [before, after] = [nodes[piece]?.[from], nodes[piece + 1]?.[to]];
      const found = bendsAt(tools, piece + 1, { ...(before && { before }), ...(after && { after }) });
      turns.set(at, found);
      return found;
    },
    opening: (piece, to) => {
      const after = nodes[piece]?.[to];
      return after ? openingBends(tools, piece, after) : 0;
    },
    closing: (piece, from) => {
      const before = nodes[piece]?.[from];
      return before && climbsAt(tools, piece, before, 1) ? 2 : 0;
    },
    step: (piece, from, to) =>
      once(steps, (piece * MOST_NODES + from) * MOST_NODES + to, () => {
        const [before, after] = [nodes[piece]?.[from], nodes[piece + 1]?.[to]];
        if (!before || !after || !mayFollow(before.choice, after.choice)) return Number.POSITIVE_INFINITY;
        const sameDitch = model.ditchOf[piece] !== undefined && model.ditchOf[piece] === model.ditchOf[piece + 1];
        if (sameDitch && question.oneCover && before.coverIn !== after.coverIn) return Number.POSITIVE_INFINITY;
        return stepCents(tools, piece + 1, before, after);
      }),
    startCents: (to) =>
      once(starts, to, () => {
        const node = nodes[0]?.[to];
        if (!node || node.choice.phase === 'carried-out') return Number.POSITIVE_INFINITY;
        const landing = parts.plan.option.roughInOnly ? 0 : cents(startTerminations(wayOver(run, node.choice.stretch)));
        return places[0] ? landing + endCents(tools, 0, { after: node }) : landing;
      }),
    endCents: (from) =>
      once(finishes, from, () => {
        const node = nodes[last]?.[from];
        if (!node || node.choice.phase === 'carried-in') return Number.POSITIVE_INFINITY;
        const ends = question.endsCents(node.choice);
        return places[last + 1] ? ends + endCents(tools, last + 1, { before: node }) : ends;
      }),
  };
}

/** The least that a run costs by its pieces alone, whatever joins them: quick to know, and less than any way. */
export function floorCents({ nodes, startCents, endCents, leastPerFt }: Layers): number {
  const least = (some: readonly number[]) => Math.min(...some);
  const first = nodes[0] ?? [];
  const last = nodes.at(-1) ?? [];
  const pieces = nodes.map((some) => least(some.map((node) => node.cents + leastPerFt(node.wiring) * node.wireFt)));
  const ends = least(first.map((_, at) => startCents(at))) + least(last.map((_, at) => endCents(at)));
  return pieces.reduce((sum, cents) => sum + cents, ends);
}

/** What the sections of a run cost: each alone, or cut from the coils of others. */
function sectionPrices(
  tools: Tools,
  nodes: readonly Node[][],
): Pick<Layers, 'wirings' | 'isAlonePriced' | 'aloneCents' | 'leastPerFt' | 'lines' | 'pooledFt'> {
  const { least, isFirst, free, mostFt, model } = tools.question;
  const wires: (SectionWire | undefined)[] = [];
  const feet = WIRINGS.map(() => new Float64Array(nodes.length));
  nodes.forEach((some, piece) => {
    for (const { wiring, choice, wireFt } of some) {
      wires[wiring] ??= ratesOf(tools, choice).wire;
      const along = feet[wiring];
      if (along) along[piece] = Math.min(along[piece] || Number.POSITIVE_INFINITY, wireFt);
    }
  });
  const kinds = wires.flatMap((wire) => wire?.map(({ kind }) => kind) ?? []);
  const shared = new Set(kinds.filter((kind, at) => kinds.indexOf(kind) !== at));
  const before = feet.map(sumsBefore);
  const alongFt = (wiring: number, from: number, to: number) =>
    (before[wiring]?.[to + 1] ?? 0) - (before[wiring]?.[from] ?? 0);
  const hasEnds = model.places.length > 0;
  const makeupFt = (from: number, to: number) => {
    if (!hasEnds) return 0;
    return (from === 0 ? startFt(tools) : boxFt(tools)) + (to === nodes.length - 1 ? endFt(tools) : boxFt(tools));
  };
  const lines = WIRINGS.map((wiring, at) =>
    pooledLines(least, wires[at] ?? [], { mostFt: mostFt(wiring), free, isFirst }),
  );
  const perFt = WIRINGS.map((_, at) => pooledPerFt(wires[at] ?? [], free));
  const known = new Map<number, number>();
  return {
    wirings: WIRINGS.length,
    isAlonePriced: (wiring) => isFirst && (wires[wiring]?.some(({ kind }) => !shared.has(kind)) ?? false),
    aloneCents: (wiring, from, to) => {
      const key = (wiring * nodes.length + from) * nodes.length + to;
      return once(known, key, () => {
        const lengthFt = alongFt(wiring, from, to) + makeupFt(from, to);
        return loneCents(least, wires[wiring] ?? [], { lengthFt, shared });
      });
    },
    leastPerFt: (wiring) => perFt[wiring] ?? 0,
    lines: (wiring) => lines[wiring] ?? [],
    pooledFt: (wiring, { from, to, withMakeup }) => alongFt(wiring, from, to) + (withMakeup ? makeupFt(from, to) : 0),
  };
}

/** Of each place the sum of all before it, and the whole sum last. */
function sumsBefore(feet: Float64Array): Float64Array {
  const sums = new Float64Array(feet.length + 1);
  feet.forEach((ft, at) => {
    sums[at + 1] = (sums[at] ?? 0) + ft;
  });
  return sums;
}

/** What the wire of a run costs at least, and nothing else of it: quick to know before its layers are. */
export function leastWireCents(question: RunQuestion): number {
  const tools = toolsOf(question);
  return question.sized.choices.reduce((sum, choices) => {
    const each = choices.map((choice) => {
      const { lengthFt, riseFt } = choice.stretch;
      return wireCents(tools, choice, lengthFt + riseFt);
    });
    return sum + (question.model.nowhere ? 0 : Math.min(...each));
  }, 0);
}

/** The kinds of conductors that a run may buy in its metal and size. */
export function kindsOfWire(question: RunQuestion): Set<number> {
  const tools = toolsOf(question);
  const choices = new Map(question.sized.choices.flat().map((choice) => [choice.wireId, choice]));
  return new Set([...choices.values()].flatMap((choice) => ratesOf(tools, choice).wire?.map(({ kind }) => kind) ?? []));
}

function toolsOf(question: RunQuestion): Tools {
  const run = leastStub(question);
  const cents = (demands: Demands) => leastOf(question.least, partOf(question.parts.kinds, demands));
  const { rates, segments } = question;
  return { question, run, cents, rates, segments, ratesOfChoice: new Map(), segmentsOfChoice: new Map() };
}

interface Tools {
  question: RunQuestion;
  run: PlannedRun;
  cents: (demands: Demands) => number;
  rates: Map<string, Rates>;
  segments: Map<string, SegmentRates>;
  /** Both by the choice itself, found without writing their text again. */
  ratesOfChoice: Map<Choice, Rates>;
  segmentsOfChoice: Map<Choice, SegmentRates>;
}

/** The run with the smallest ground of any choice: its taps are at least for that. */
function leastStub({ model, sized }: RunQuestion): PlannedRun {
  const grounds = sized.choices.flatMap((choices) => choices.map(({ section }) => section.groundSize));
  return runStub(model, sized.metal, sized.size, grounds[0] ?? sized.size);
}

function nodesOf(tools: Tools, choices: readonly Choice[], piece: number): Node[] {
  const { model, oneCover, sized } = tools.question;
  const ditch = model.ditchOf[piece];
  if (ditch === undefined) return choices.map((choice) => nodeOf(tools, { choice, coverIn: 0, piece }));
  const leastIn = tools.question.leastCoverIn(ditch);
  const covers = sized.choices
    .flatMap((some, at) => (model.ditchOf[at] === ditch ? some : []))
    .map((one) => Math.max(leastIn, one.coverIn));
  const levels = [...new Set(covers)].filter((coverIn) => tools.question.allows(ditch, coverIn));
  return choices.flatMap((choice) =>
    (oneCover ? levels.filter((coverIn) => coverIn >= choice.coverIn) : [Math.max(leastIn, choice.coverIn)]).map(
      (coverIn) => nodeOf(tools, { choice, coverIn, piece }),
    ),
  );
}

function nodeOf(tools: Tools, { choice, coverIn, piece }: { choice: Choice; coverIn: number; piece: number }): Node {
  const { question, run } = tools;
  const { model, parts, least } = question;
  const wiring = WIRINGS.indexOf(choice.wiring);
  if (model.nowhere) return { choice, coverIn, cents: 0, wireFt: 0, wiring, pullBoxCents: 0 };
  const lie = lieOf({ model, coversIn: [] }, piece);
  const { rises, falls } = lie;
  const part = stretchPart(parts, run, choice, { ...lie, coverIn });
  const { stretch } = choice;
  const upFt = (Number(rises) + Number(falls)) * (coverIn / 12 + ABOVE_GRADE_FT);
  const ft = stretch.lengthFt + stretch.riseFt + upFt;
  const { pullPerFt } = ratesOf(tools, choice);
  const { perPullBox } = segmentRates(tools, choice);
  const dig = stretch.leg === undefined ? 0 : question.digCents(stretch.leg, coverIn + choice.thickIn);
  const cents = leastOf(least, part) + ft * pullPerFt + dig + racewayCents(tools, choice, ft);
  return {
    choice,
    coverIn,
    cents,
    wireFt: ft,
    wiring,
    pullBoxCents: perPullBox,
  };
}

function ratesOf(tools: Tools, choice: Choice): Rates {
  return once(tools.ratesOfChoice, choice, () => ratesByText(tools, choice));
}

function ratesByText(tools: Tools, choice: Choice): Rates {
  const { run, question } = tools;
  const isPulled = choice.conduit !== undefined || choice.stretch.existing;
  return once(tools.rates, `${run.name} ${choice.wireId} ${isPulled}`, () => {
    if (question.parts.plan.option.roughInOnly) return { wire: undefined, pullPerFt: 0 };
    const stretch = longest(choice);
    const way = wayOver({ ...run, sections: [choice.section] }, stretch);
    const { makeup } = question.parts.plan.description.terms;
    const cut = { section: choice.section, stretches: [stretch], cutLengthFt: LONG_FT, words: '' };
    return {
      wire: sectionWire(question.least, wireDemands(way, [cut], makeup), {
        lengthFt: LONG_FT,
        mostFt: question.mostFt(choice.wiring),
      }),
      pullPerFt:
        leastOf(question.least, partOf(question.parts.kinds, pullsOf(question.parts.plan, way, choice.section))) /
        LONG_FT,
    };
  });
}

const wireCents = (tools: Tools, choice: Choice, ft: number) =>
  ft * pooledPerFt(ratesOf(tools, choice).wire ?? [], tools.question.free);

function boxFt({ question }: Tools): number {
  return question.parts.plan.description.terms.makeup.boxFt;
}

function startFt({ question }: Tools): number {
  return question.parts.plan.description.terms.makeup.panelFt;
}

function endFt({ question, run }: Tools): number {
  const { panelFt, boxFt, outletFt } = question.parts.plan.description.terms.makeup;
  const switchFt = run.disconnect?.kind === 'non-fused-switch' ? 2 * boxFt : 0;
  const divideFt = question.model.divisions * (3 * boxFt + outletFt);
  return (run.role === 'feeder' ? panelFt : outletFt) + switchFt + divideFt;
}

function segmentRates(tools: Tools, choice: Choice): SegmentRates {
  return once(tools.segmentsOfChoice, choice, () => segmentRatesByText(tools, choice));
}

function segmentRatesByText(tools: Tools, choice: Choice): SegmentRates {
  const { conduit } = choice;
  const { run, question } = tools;
  if (!conduit || choice.stretch.existing) return { perFt: 0, perTime: 0, perPart: 0, perElbow: 0, perPullBox: 0 };
  const { poles, neutral, conductor } = run;
  const lies = `${choice.stretch.place} ${isOpened(choice.stretch)} ${choice.stretch.kind === 'tail' && run.chargers.length > 0}`;
  const what = `${conductor.size} ${poles}${Number(neutral)} ${conduit.type} ${conduit.tradeSize} ${choice.wireId} ${lies}`;
  return once(tools.segments, what, () => {
    const parts = once(question.parts.ratesOfRaceway, what, () => racewayParts(tools, choice, conduit));
    const [long = 0, twiceAsLong = 0, withElbow = 0, straps = 0, twiceTheStraps = 0, ...boxes] = parts.map((part) =>
      leastOf(question.least, part),
    );
    const { conduit: wastePercent } = question.parts.plan.description.terms.makeup.wastePercent;
    const alongPerFt = (twiceAsLong - long) / LONG_FT;
    const joints = (1 + wastePercent / 100) * (LONG_FT / 10);
    const perCoupling = conduit.type === 'emt' || conduit.type === 'rmc' ? alongPerFt * (LONG_FT / joints) : 0;
    const strapsPerFt = (twiceTheStraps - straps) / LONG_FT;
    const perPart = strapsPerFt * leastStrapsFt(conduit);
    return {
      perFt: alongPerFt + strapsPerFt,
      perTime: long - alongPerFt * LONG_FT - perCoupling + perPart,
      perPart,
      perElbow: withElbow - long,
      perPullBox: Math.min(...boxes),
    };
  });
}

/** Of the straps by its feet raceway may lack those of so many feet at least, whether it ends at boxes or not: 0 or less. */
function leastStrapsFt(conduit: Conduit): number {
  const { everyFt, firstWithinFt } = strapSpacing({ conduit });
  return Math.min(0, -firstWithinFt, everyFt - 2 * firstWithinFt);
}

/** A long raceway, one twice as long, one with an elbow, the straps of both, and a pull box inside and in the ground. */
function racewayParts({ run, question }: Tools, choice: Choice, conduit: Conduit): Part[] {
  const { plan, kinds } = question.parts;
  const { conduit: wastePercent } = plan.description.terms.makeup.wastePercent;
  const stretch = { ...longest(choice), conduit };
  const over = (lengthFt: number, elbows: number) => {
    const long = { ...stretch, lengthFt };
    const segment = { conduit, from: 0, to: 0, stretches: [long], elbows, bendsDeg: 0 };
    return partOf(kinds, racewayOfSegment({ way: wayOver(run, long), segment, wastePercent }));
  };
  const box = (place: Stretch['place']) => {
    const there = { ...stretch, place };
    const segment = { conduit, from: 0, to: 0, stretches: [there], elbows: 0, bendsDeg: 720 };
    return partOf(kinds, boxesAlong({ plan, way: wayOver(run, there), segment }));
  };
  const strapped = (lengthFt: number) => {
    const long = { ...stretch, lengthFt };
    const segment = { conduit, from: 0, to: 0, stretches: [long], elbows: 0, bendsDeg: 0 };
    return partOf(kinds, strapDemands(wayOver(run, long), segment));
  };
  return [
    ...[over(LONG_FT, 0), over(2 * LONG_FT, 0), over(LONG_FT, 1)],
    ...[strapped(LONG_FT), strapped(2 * LONG_FT)],
    ...[box('dry-exposed'), box('underground')],
  ];
}

/** Couplings and pull line by the foot, and the bends that a leg states. */
function racewayCents(tools: Tools, choice: Choice, ft: number): number {
  const { perFt, perElbow } = segmentRates(tools, choice);
  return ft * perFt + (statedDeg(choice) / 90) * perElbow;
}

/** Raceway begins here: what it takes each time. */
function segmentStart(tools: Tools, choice: Choice): number {
  const { perTime } = segmentRates(tools, choice);
  return isNewConduit(choice) ? perTime : 0;
}

function jointCents(tools: Tools, at: number, sides: { before?: Node; after?: Node; coverIn: number }): number {
  const { question, run } = tools;
  const place = question.model.places[at];
  if (!place) return 0;
  const [before, after] = [sides.before?.choice, sides.after?.choice];
  return leastOf(question.least, jointPart(question.parts, run, place, { before, after, coverIn: sides.coverIn }));
}

function endCents(tools: Tools, at: number, sides: { before?: Node; after?: Node }): number {
  const coverIn = Math.max(sides.before?.coverIn ?? 0, sides.after?.coverIn ?? 0);
  const begins = sides.after ? segmentStart(tools, sides.after.choice) : 0;
  return jointCents(tools, at, { ...sides, coverIn }) + begins;
}

function stepCents(tools: Tools, at: number, before: Node, after: Node): number {
  const { model } = tools.question;
  const place = model.places[at];
  if (!place) return 0;
  const sameDitch = model.ditchOf[at - 1] === model.ditchOf[at];
  const coverIn = sameDitch ? 0 : Math.max(before.coverIn, after.coverIn);
  const cents = jointCents(tools, at, { before, after, coverIn });
  if (isOpenedBetween(before.choice, after.choice, place)) return cents + segmentStart(tools, after.choice);
  const { perElbow, perPart } = segmentRates(tools, after.choice);
  return cents + (turnsBetween(before, after) ? perElbow : 0) + (coverIn > 0 ? perPart : 0);
}

const statedDeg = ({ stretch }: Choice) => stretch.stated?.bendsDeg ?? 0;
const isNewConduit = ({ conduit, stretch }: Choice) => conduit !== undefined && !stretch.existing;
const turnsBetween = (before: Node, after: Node) => !isOpened(before.choice.stretch) && !isOpened(after.choice.stretch);
/** Eighths of 360°, whole ones, so that a bound stays below. */
const eighths = (deg: number) => Math.floor(deg / 45);

/** Does raceway of a node climb out of the ground at its start (`end` 0) or its end (1)? */
function climbsAt({ question: { model } }: Tools, piece: number, { choice }: Node, end: 0 | 1): boolean {
  const ditch = model.ditchOf[piece];
  return isNewConduit(choice) && ditch !== undefined && model.ditchOf[piece + (end === 0 ? -1 : 1)] !== ditch;
}

function openingBends(tools: Tools, piece: number, after: Node): number {
  if (!isNewConduit(after.choice)) return 0;
  return (climbsAt(tools, piece, after, 0) ? 2 : 0) + eighths(statedDeg(after.choice));
}

/** As the take-off counts them: one where raceway turns above ground, one or two where it climbs, and what a leg states. */
function bendsAt(tools: Tools, at: number, { before, after }: { before?: Node; after?: Node }): Bends {
  const place = tools.question.model.places[at];
  if (!place || !before || !after) return { isOpened: true, before: 0, after: 0 };
  const [falls, rises] = [climbsAt(tools, at - 1, before, 1), climbsAt(tools, at, after, 0)];
  if (isOpenedBetween(before.choice, after.choice, place)) {
    return { isOpened: true, before: falls ? 2 : 0, after: openingBends(tools, at, after) };
  }
  const turn = isNewConduit(after.choice) && turnsBetween(before, after) ? 2 : 0;
  const own = eighths(statedDeg(after.choice));
  return { isOpened: false, before: 0, after: turn + (falls ? 4 : 0) + (rises ? 4 : 0) + own };
}
