/*
 * The parts of a take-off, each asked of it once: a stretch, a joint between two, raceway between two pull points, the
 * conductors between two splices. A part depends on little besides itself, and its text says on what.
 */
import type { PlannedOption, PlannedRun, Section } from '../plan-types.ts';
import { boxAt, boxesAlong } from '../takeoff/boxes.ts';
import { cableAlong, cableEnd, endsInPlastic } from '../takeoff/cable.ts';
import { type Demands, joined } from '../takeoff/demand.ts';
import { racewayAlong, racewayOfSegment, strapDemands } from '../takeoff/raceway.ts';
import { racewayEnd } from '../takeoff/raceway-ends.ts';
import { riserAt } from '../takeoff/risers.ts';
import { withoutConductors } from '../takeoff/rough-in.ts';
import { climbsOf, isPullPoint, segmentsOf } from '../takeoff/segments.ts';
import { drilledWall, wallAt } from '../takeoff/walls.ts';
import {
  ABOVE_GRADE_FT,
  type BuriedSpan,
  enclosuresPassed,
  isNewRaceway,
  type Joint,
  type Stretch,
  type Way,
} from '../takeoff/way.ts';
import { cutsOf, pullsOf, startTerminations, wireDemands } from '../takeoff/wire.ts';
import { type Choice, isOneSection } from './choices.ts';
import { type Kinds, type Part, partOf } from './tally.ts';
import type { Workshop } from './workshop.ts';

/** A joint's part, with the masonry wall that the job's drills are rented for. */
export interface JointPart extends Part {
  /** Undefined where no masonry is drilled. */
  cored?: boolean;
}

/** What was asked of the take-off for one option. */
export interface Parts {
  plan: PlannedOption;
  kinds: Kinds;
  stretches: Workshop['stretches'];
  joints: Workshop['joints'];
  size: Workshop['size'];
  /** The joints of the workshop by run, place and cover: found without writing their text again. */
  jointsOf: Map<PlannedRun, Map<Place, Map<number, Map<number, JointPart>>>>;
  ratesOfRaceway: Map<string, Part[]>;
  segments: Map<string, Part>;
  sections: Map<string, Part>;
  others: Map<string, Part>;
}

/** What the workshop knows, and nothing yet of this option. */
export function partsFor(plan: PlannedOption, { kinds, stretches, joints, size, ratesOfRaceway }: Workshop): Parts {
  return {
    plan,
    kinds,
    stretches,
    joints,
    size,
    jointsOf: new Map(),
    ratesOfRaceway,
    segments: new Map(),
    sections: new Map(),
    others: new Map(),
  };
}

/** Asks once, and keeps the answer under its text or whatever else it depends on. */
export function once<Key, Answer>(known: Map<Key, Answer>, text: Key, ask: () => Answer): Answer {
  const before = known.get(text);
  if (before !== undefined) return before;
  const answer = ask();
  known.set(text, answer);
  return answer;
}

/** The part of some demands; where only raceway is built now, without what conductors take. */
function partIn({ plan, kinds }: Parts, demands: Demands): Part {
  return partOf(kinds, plan.option.roughInOnly ? withoutConductors(demands) : demands);
}

/** A span of the ground that holds some of the stretches of a short way. */
function spanOver(from: number, to: number, coverIn: number): BuriedSpan {
  return { from, to, coverIn, verticalFt: coverIn / 12 + ABOVE_GRADE_FT };
}

/** How a stretch lies among its neighbours: what of it its take-off depends on. */
export interface Lie {
  /** Cover of the ditch it is in, in inches; 0 where it is in none. */
  coverIn: number;
  /** Does it come up at its start, at its end? */
  rises: boolean;
  falls: boolean;
  /** Does it begin at the panel, or come right out of the ground? */
  isFirst: boolean;
}

const END = {
  at: 0,
  before: undefined,
  after: undefined,
  splice: false,
  wall: undefined,
  leavesHouse: false,
  legs: [],
};

/** What one stretch takes by its length. */
export function stretchPart(parts: Parts, run: PlannedRun, choice: Choice, lie: Lie): Part {
  const { stretch } = choice;
  const { coverIn, rises, falls, isFirst } = lie;
  const isRough = parts.plan.option.roughInOnly;
  const flags = 8 * Number(rises) + 4 * Number(falls) + 2 * Number(isFirst) + Number(isRough);
  const ofCover = once(parts.stretches, coverIn, () => new Map<number, Part>());
  return once(ofCover, 16 * pairOf(choice.legId, choice.id) + flags, () => {
    parts.size.entries += 1;
    // Neighbours in the same ditch stand in for what does not come up.
    const hasBefore = !rises && !isFirst;
    const at = hasBefore ? 1 : 0;
    const stretches = [...(hasBefore ? [stretch] : []), stretch, ...(falls ? [] : [stretch])];
    const spans = coverIn > 0 ? [spanOver(0, stretches.length - 1, coverIn)] : [];
    const way: Way = { run, stretches, joints: stretches.map(() => END), spans, divisions: 0 };
    const { plan } = parts;
    const along = racewayAlong({ plan, way, at });
    if (plan.option.roughInOnly) return partIn(parts, along);
    return partIn(parts, joined([cableAlong({ plan, way, at }), along]));
  });
}

/** A joint of a run, whatever is chosen on both sides of it. */
export interface Place extends Pick<Joint, 'at' | 'wall' | 'leavesHouse'> {
  /** Does the run end here, and how often does it divide on its way? */
  isRunEnd: boolean;
  divisions: number;
}

interface Sides {
  before: Choice | undefined;
  after: Choice | undefined;
  /** Cover of the ditch that ends or begins here, in inches; 0 where none does. */
  coverIn: number;
}

/** One number for two ids: a workshop is cleared out long before it has so many. */
const pairOf = (first: number, second: number) => first * 2 ** 22 + second;

/** The joints of a run at a place under so much cover, by their sides. */
function jointsAt(parts: Parts, run: PlannedRun, place: Place, coverIn: number): Map<number, JointPart> {
  const ofRun = once(parts.jointsOf, run, () => new Map<Place, Map<number, Map<number, JointPart>>>());
  const ofPlace = once(ofRun, place, () => new Map<number, Map<number, JointPart>>());
  return once(ofPlace, coverIn, () =>
    once(parts.joints, jointText(parts, run, place, coverIn), () => new Map<number, JointPart>()),
  );
}

/** What a joint depends on besides its sides. */
function jointText({ plan }: Parts, run: PlannedRun, place: Place, coverIn: number): string {
  const ends = place.isRunEnd
    ? `${endsInPlastic(plan, run)} ${place.divisions} ${run.disconnect?.kind === 'non-fused-switch'}`
    : '';
  const kind = `${ends} ${run.poles}${Number(run.neutral)}${Number(plan.option.roughInOnly)}`;
  return `${kind} ${place.wall} ${place.leavesHouse} ${coverIn}`;
}

/** Where two stretches meet, or at an end: wall, box, climb out of the ground, ends of raceway and cable. */
export function jointPart(parts: Parts, run: PlannedRun, place: Place, sides: Sides): JointPart {
  const { before, after, coverIn } = sides;
  const bySides = jointsAt(parts, run, place, coverIn);
  return once(bySides, pairOf(before ? before.sideId + 1 : 0, after ? after.sideId + 1 : 0), () => {
    parts.size.entries += 1;
    const joint: Joint = {
      at: before ? 1 : 0,
      before: before?.stretch,
      after: after?.stretch,
      splice: before !== undefined && after !== undefined && !isOneSection(before, after),
      wall: place.wall,
      leavesHouse: place.leavesHouse,
      legs: [],
    };
    const stretches = [before, after].flatMap((choice) => choice?.stretch ?? []);
    const joints = before ? [END, joint, END] : [joint, END];
    const buried = coverIn > 0 ? [before, after].findIndex((choice) => choice && choice.coverIn > 0) : -1;
    const at = buried === 1 && before ? 1 : 0;
    const way: Way = {
      run,
      stretches,
      joints,
      spans: buried < 0 ? [] : [spanOver(at, at, coverIn)],
      divisions: place.divisions,
    };
    const drilled = drilledWall(way, joint);
    return {
      ...partIn(parts, demandsAt(parts.plan, way, { joint, isRunEnd: place.isRunEnd })),
      ...(drilled && { cored: drilled.cored }),
    };
  });
}

function demandsAt(plan: PlannedOption, way: Way, { joint, isRunEnd }: { joint: Joint; isRunEnd: boolean }): Demands {
  const sides = [joint.before, joint.after].flatMap((stretch) => (stretch ? [stretch] : []));
  const ends = sides.filter(isNewRaceway).filter(() => isPullPoint(joint));
  const isEnd = joint.splice || sides.length < 2;
  const climbs = climbsOf(way).filter((climb) => climb.joint === joint);
  const { conduit: wastePercent } = plan.description.terms.makeup.wastePercent;
  const count = isRunEnd ? 1 + 2 * enclosuresPassed(way) : 1;
  return joined([
    ...ends.map((stretch) => racewayEnd({ way, joint, stretch, count })),
    ...climbs.map((climb) => riserAt(way, climb, wastePercent)),
    wallAt({ plan, way, joint }),
    boxAt({ plan, way, joint }),
    ...(isEnd && !plan.option.roughInOnly ? sides.map((stretch) => cableEnd({ plan, way, stretch, isRunEnd })) : []),
  ]);
}

/** What raceway between two pull points takes as a whole. `way` is asked only where the text is new. */
export function segmentPart(parts: Parts, text: string, ask: () => { way: Way; from: number }): Part {
  return once(parts.segments, text, () => {
    const { way, from } = ask();
    const segment = segmentsOf(way).find((one) => one.from === from);
    if (!segment) return partOf(parts.kinds, joined([]));
    const { plan } = parts;
    const { conduit: wastePercent } = plan.description.terms.makeup.wastePercent;
    return partIn(
      parts,
      joined([
        strapDemands(way, segment),
        racewayOfSegment({ way, segment, wastePercent }),
        boxesAlong({ plan, way, segment }),
      ]),
    );
  });
}

/** The conductors between two splices, and pulling them; at the start of the run, landing them. */
export function sectionPart(
  parts: Parts,
  text: string,
  ask: () => { way: Way; section: Section; isFirst: boolean },
): Part {
  return once(parts.sections, text, () => {
    if (parts.plan.option.roughInOnly) return partOf(parts.kinds, joined([]));
    const { way, section, isFirst } = ask();
    const { makeup } = parts.plan.description.terms;
    const cuts = cutsOf({ ...way, run: { ...way.run, sections: [section] } }, makeup);
    return partOf(
      parts.kinds,
      joined([
        wireDemands(way, cuts, makeup),
        pullsOf(parts.plan, way, section),
        ...(isFirst ? [startTerminations(way)] : []),
      ]),
    );
  });
}

/** All stretches of a section as one object of their own, so that no other section is taken for it. */
export function asOneSection(stretches: readonly Stretch[], section: Section): Stretch[] {
  return stretches.map((stretch) => ({ ...stretch, section }));
}
