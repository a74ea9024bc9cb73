/*
 * What is asked of a run at one metal and size, and its rates: cents a foot, a time, an elbow, read off what the take-off
 * says of long stretches.
 */
import type { PlannedRun } from '../plan-types.ts';
import { boxesAlong } from '../takeoff/boxes.ts';
import type { Demands } from '../takeoff/demand.ts';
import { racewayOfSegment, strapDemands } from '../takeoff/raceway.ts';
import { strapSpacing } from '../takeoff/straps.ts';
import { type Conduit, isOpened, type Stretch, type Way } from '../takeoff/way.ts';
import { pullsOf, wireDemands } from '../takeoff/wire.ts';
import type { Choice, Sized } from './choices.ts';
import { type LeastPrices, leastOf } from './least-price.ts';
import { once, type Parts } from './parts.ts';
import { type RunModel, runStub } from './run-tally.ts';
import { pooledPerFt, type SectionWire, sectionWire } from './section-wire.ts';
import { type Part, partOf } from './tally.ts';

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

/** The way of a run over one stretch, with two bare ends. */
export function wayOver(run: PlannedRun, stretch: Stretch): Way {
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

/** What the rates of a question are found with. */
export function toolsOf(question: RunQuestion): Tools {
  const run = runStub(question.model, question.sized);
  const cents = (demands: Demands) => leastOf(question.least, partOf(question.parts.kinds, demands));
  const { rates, segments } = question;
  return { question, run, cents, rates, segments, ratesOfChoice: new Map(), segmentsOfChoice: new Map() };
}

/** A question with its run, and with the rates that were found so far. */
export interface Tools {
  question: RunQuestion;
  run: PlannedRun;
  cents: (demands: Demands) => number;
  rates: Map<string, Rates>;
  segments: Map<string, SegmentRates>;
  /** Both by the choice itself, found without writing their text again. */
  ratesOfChoice: Map<Choice, Rates>;
  segmentsOfChoice: Map<Choice, SegmentRates>;
}

/** The rates of the conductors of a choice, found once. */
export function ratesOf(tools: Tools, choice: Choice): Rates {
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

/** The rates of the raceway of a choice, found once; 0 where none is laid anew. */
export function segmentRates(tools: Tools, choice: Choice): SegmentRates {
  return once(tools.segmentsOfChoice, choice, () => segmentRatesByText(tools, choice));
}

function segmentRatesByText(tools: Tools, choice: Choice): SegmentRates {
  const { conduit } = choice;
  const { run, question } = tools;
  if (!conduit || choice.stretch.existing) return { perFt: 0, perTime: 0, perPart: 0, perElbow: 0, perPullBox: 0 };
  const { poles, neutral } = run;
  const lies = `${choice.stretch.place} ${isOpened(choice.stretch)} ${choice.stretch.kind === 'tail' && run.chargers.length > 0}`;
  const what = `${poles}${Number(neutral)} ${conduit.type} ${conduit.tradeSize} ${choice.wireId} ${lies}`;
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
export function racewayCents(tools: Tools, choice: Choice, ft: number): number {
  const { perFt, perElbow } = segmentRates(tools, choice);
  return ft * perFt + (statedDeg(choice) / 90) * perElbow;
}

/** Raceway begins here: what it takes each time. */
export function segmentStart(tools: Tools, choice: Choice): number {
  const { perTime } = segmentRates(tools, choice);
  return isNewConduit(choice) ? perTime : 0;
}

/** Degrees of bends that the leg of a choice states. */
export const statedDeg = ({ stretch }: Choice) => stretch.stated?.bendsDeg ?? 0;

/** Is raceway laid anew for a choice? */
export const isNewConduit = ({ conduit, stretch }: Choice) => conduit !== undefined && !stretch.existing;
