/*
 * What one run takes when its pieces are laid in a given way: its stretches, joints, raceways and sections added up.
 */
import { compareSizes } from '../../electrical/sizes.ts';
import type { PlannedOption, PlannedRun } from '../plan-types.ts';
import {
  ABOVE_GRADE_FT,
  type BuriedSpan,
  divisionsOf,
  type Joint,
  jointsOf,
  type Stretch,
  type Way,
} from '../takeoff/way.ts';
import { type ConductorSize, isDitch } from '../vocabulary.ts';
import { type Choice, choiceAt, isOneSection, type Sized, type Space } from './choices.ts';
import {
  asOneSection,
  jointPart,
  type Lie,
  type Parts,
  type Place,
  sectionPart,
  segmentPart,
  stretchPart,
} from './parts.ts';
import { add, type Tally } from './tally.ts';

/** A circuit as the search sees it: what may be chosen, and what does not depend on the choice. */
export interface RunModel {
  space: Space;
  /** The run as far as it is known before anything is chosen. */
  bare: PlannedRun;
  /** Where its pieces meet and its two ends; one more than there are pieces. */
  places: Place[];
  /** The ditch that each piece lies in, or none. */
  ditchOf: (number | undefined)[];
  /** A tail of no length that is all there is: a circuit that ends where it begins. */
  nowhere: boolean;
  /** How often it divides on the way to its chargers. */
  divisions: number;
  stubs: Map<string, PlannedRun>;
}

/** A run before anything is chosen for it, so that the take-off can be asked for its parts. */
function bareRun({ circuit }: Space): PlannedRun {
  const { name, role, from, to, loadA, continuousA, ocpdA, poles, breaker, neutral, separateNeutral } = circuit;
  return {
    ...{ name, role, from, to, loadA, continuousA, ocpdA, poles, breaker, neutral, separateNeutral },
    ...(circuit.disconnect && { disconnect: circuit.disconnect }),
    ...(circuit.otherUse !== undefined && { otherUse: circuit.otherUse }),
    lengthFt: 0,
    conductor: { metal: 'copper', size: '14', ampacityA: 0 },
    groundSize: '14',
    terminations: [],
    legs: circuit.legs.map((leg) => ({ leg, method: 'pvc', insulation: 'thwn-2', because: [], others: [] })),
    dropPercent: 0,
    dropV: 0,
    sections: [],
    chargers: circuit.chargers,
  };
}

/** The model of a circuit; `plan` says where it begins and ends. */
export function runModel(space: Space, plan: PlannedOption, ditches: readonly (readonly number[])[]): RunModel {
  const { circuit, pieces } = space;
  const bare = bareRun(space);
  const nowhere = circuit.legs.length === 0 && (circuit.tail?.lengthFt ?? 0) <= 0;
  const stretches = pieces.map(({ laid }): Stretch => {
    const { placed } = laid;
    const { lengthFt = 0, place = 'dry-exposed' } = circuit.tail ?? {};
    const how = {
      method: 'pvc' as const,
      conduit: undefined,
      existing: false,
      section: undefined,
      words: '',
      riseFt: 0,
    };
    return placed
      ? { ...how, leg: placed.leg, stated: placed.stated, kind: placed.stated.kind, lengthFt: 1, place: placed.place }
      : { ...how, leg: undefined, stated: undefined, kind: 'tail', lengthFt, place };
  });
  return {
    space,
    bare,
    places: nowhere ? [] : placesOf(plan, space, stretches),
    divisions: divisionsOf(plan, bare),
    ditchOf: pieces.map(({ laid }) => {
      const at = ditches.findIndex((legs) => laid.placed !== undefined && legs.includes(laid.placed.leg));
      return at < 0 ? undefined : at;
    }),
    nowhere,
    stubs: new Map(),
  };
}

function placesOf(plan: PlannedOption, space: Space, stretches: Stretch[]): Place[] {
  const bare = bareRun(space);
  const divisions = divisionsOf(plan, bare);
  return jointsOf(plan, withTail(bare, space), stretches).map(({ at, wall, leavesHouse }) => {
    return { at, wall, leavesHouse, isRunEnd: at === stretches.length, divisions };
  });
}

/** A run with the way to its outlet, whatever that is laid in. */
export function withTail(bare: PlannedRun, { circuit: { tail } }: Space): PlannedRun {
  if (!tail) return bare;
  return {
    ...bare,
    tail: { lengthFt: tail.lengthFt, place: tail.place, method: 'pvc', insulation: 'thwn-2', because: [] },
  };
}

/** The run as what lands at its end. */
export function runStub(model: RunModel, { metal, size }: Pick<Sized, 'metal' | 'size'>): PlannedRun {
  const text = `${metal} ${size}`;
  const known = model.stubs.get(text);
  if (known) return known;
  const neutral = model.space.circuit.neutral ? { neutralSize: size } : {};
  const stub = { ...model.bare, conductor: { metal, size, ampacityA: 0 }, ...neutral };
  model.stubs.set(text, stub);
  return stub;
}

/** From which piece to which one section goes on, both included. */
interface Reach {
  from: number;
  to: number;
}

function reachesOf(path: readonly Choice[]): Reach[] {
  const reaches: Reach[] = [];
  path.forEach((choice, at) => {
    const last = reaches.at(-1);
    const before = path[at - 1];
    if (last && before && isOneSection(before, choice)) last.to = at;
    else reaches.push({ from: at, to: at });
  });
  return reaches;
}

/**
 * The path with the ground of each section figured from the smallest size that would do over all of it; nothing where
 * that is not sold.
 */
export function settledPath({ space }: RunModel, path: readonly Choice[]): Choice[] | undefined {
  const settled: Choice[] = [];
  for (const { from, to } of reachesOf(path)) {
    const some = path.slice(from, to + 1);
    const fromSize = some.reduce<ConductorSize | undefined>(
      (largest, { leastSize }) => (largest && compareSizes(leastSize, largest) <= 0 ? largest : leastSize),
      undefined,
    );
    if (!fromSize) return undefined;
    for (const loose of some) {
      const piece = space.pieces[loose.at];
      const { method, wiring, phase } = loose;
      const { metal, size } = loose.section;
      const isSettled = loose.fromSize === fromSize || piece === undefined;
      const choice = isSettled ? loose : choiceAt(space, { piece, method, wiring, phase, metal, size, fromSize });
      if (!choice) return undefined;
      settled.push(choice);
    }
  }
  return settled;
}

/** Is raceway opened between two pieces, by a box, an entry or a change of raceway? */
export function isOpenedBetween(before: Choice | undefined, after: Choice | undefined, place: Place): boolean {
  if (!before || !after || !isOneSection(before, after) || place.leavesHouse) return true;
  if (before.stretch.existing || after.stretch.existing || !before.conduit || !after.conduit) return true;
  return before.conduit.type !== after.conduit.type || before.conduit.tradeSize !== after.conduit.tradeSize;
}

interface Laid {
  parts: Parts;
  model: RunModel;
  run: PlannedRun;
  path: readonly Choice[];
  /** Inches of cover of each ditch. */
  coversIn: readonly number[];
}

/** Adds what a run takes to a tally. Its path is settled. @returns how many splices it has, and its walls of masonry */
export function tallyRun(laid: Laid, tally: Tally): { splices: number; walls: boolean[]; aluminumEnds: number } {
  const { parts, model, run, path } = laid;
  const walls: boolean[] = [];
  const reaches = reachesOf(path);
  if (!model.nowhere) {
    path.forEach((choice, at) => {
      add(tally, stretchPart(parts, run, choice, lieOf(laid, at)));
    });
    for (const place of model.places) {
      const [before, after] = [path[place.at - 1], path[place.at]];
      const part = jointPart(parts, run, place, { before, after, coverIn: climbIn(laid, place.at) });
      add(tally, part);
      if (part.cored !== undefined) walls.push(part.cored);
    }
    addSegments(laid, tally);
  }
  reaches.forEach((reach, at) => {
    addSection(laid, { ...reach, isFirst: at === 0 }, tally);
  });
  return { splices: reaches.length - 1, walls, aluminumEnds: aluminumEndsOf(path, reaches) };
}

/** Ends and splices at which aluminum lands on either side. */
function aluminumEndsOf(path: readonly Choice[], reaches: readonly Reach[]): number {
  const isAluminum = (at: number) => path[at]?.section.metal === 'aluminum';
  const splices = reaches.slice(1).filter(({ from }) => isAluminum(from - 1) || isAluminum(from));
  return splices.length + Number(isAluminum(0)) + Number(isAluminum(path.length - 1));
}

/** How a piece lies: where it comes up out of the ground. */
export function lieOf({ model, coversIn }: Pick<Laid, 'model' | 'coversIn'>, at: number): Lie {
  const { ditchOf, space } = model;
  const ditch = ditchOf[at];
  const buried = ditch !== undefined;
  const before = space.pieces[at - 1]?.laid.placed?.stated.kind;
  const comesOut = before !== undefined && (isDitch(before) || before === 'bore');
  return {
    coverIn: buried ? (coversIn[ditch] ?? 0) : 0,
    rises: buried && ditchOf[at - 1] !== ditch,
    falls: buried && ditchOf[at + 1] !== ditch,
    isFirst: !buried && (at === 0 || comesOut),
  };
}

/** The cover of the ditch that begins or ends before a piece, in inches; 0 where none does. */
function climbIn({ model: { ditchOf }, coversIn }: Laid, at: number): number {
  const [before, after] = [ditchOf[at - 1], ditchOf[at]];
  if (before === after) return 0;
  return Math.max(before === undefined ? 0 : (coversIn[before] ?? 0), after === undefined ? 0 : (coversIn[after] ?? 0));
}

const coversText = ({ model, coversIn }: Laid, { from, to }: Reach) =>
  [...new Set(model.ditchOf.slice(from, to + 1))]
    .map((ditch) => (ditch === undefined ? '' : coversIn[ditch]))
    .join('/');

function addSegments(laid: Laid, tally: Tally): void {
  const { parts, model, run, path } = laid;
  for (let from = 0; from < path.length; from += 1) {
    const conduit = path[from]?.conduit;
    if (!conduit || path[from]?.stretch.existing) continue;
    let to = from;
    for (let place = model.places[to + 1]; place; place = model.places[to + 1]) {
      if (isOpenedBetween(path[to], path[to + 1], place)) break;
      to += 1;
    }
    const start = from;
    const text = `${run.name} ${start}-${to} ${conduit.type} ${conduit.tradeSize} ${path[to]?.id} ${coversText(laid, { from, to })}`;
    add(
      tally,
      segmentPart(parts, text, () => ({ way: wayOf(laid), from: start })),
    );
    from = to;
  }
}

function addSection(laid: Laid, reach: Reach & { isFirst: boolean }, tally: Tally): void {
  const { parts, run, path, model } = laid;
  const { from, to, isFirst } = reach;
  const first = path[from];
  if (!first) return;
  const methods = path.slice(from, to + 1).map(({ method }) => method);
  const text = `${run.name} ${from}-${to} ${first.id} ${methods.join(' ')} ${coversText(laid, reach)}`;
  add(
    tally,
    sectionPart(parts, text, () => {
      const way = wayOf(laid);
      const section = way.stretches[from]?.section ?? first.section;
      const itself = model.nowhere ? { ...way, run: { ...run, sections: [section] } } : way;
      return { way: itself, section, isFirst };
    }),
  );
}

/** The way of a run as the take-off has it, without words. */
function wayOf({ model, run, path, coversIn }: Laid): Way {
  const stretches = model.nowhere
    ? []
    : reachesOf(path).flatMap(({ from, to }) => {
        const some = path.slice(from, to + 1);
        const [first] = some;
        const own = some.map(({ stretch }) => stretch);
        return first ? asOneSection(own, { ...first.section }) : own;
      });
  const joints = model.places.map(({ at, wall, leavesHouse }): Joint => {
    const [before, after] = [stretches[at - 1], stretches[at]];
    const splice = before !== undefined && after !== undefined && before.section !== after.section;
    return { at, wall, leavesHouse, before, after, splice, legs: [] };
  });
  return { run, stretches, joints, spans: spansOf(model, coversIn), divisions: model.divisions };
}

function spansOf({ ditchOf }: RunModel, coversIn: readonly number[]): BuriedSpan[] {
  const spans: BuriedSpan[] = [];
  ditchOf.forEach((ditch, at) => {
    if (ditch === undefined) return;
    const last = spans.at(-1);
    if (last?.to === at - 1 && ditchOf[at - 1] === ditch) last.to = at;
    else {
      const coverIn = coversIn[ditch] ?? 0;
      spans.push({ from: at, to: at, coverIn, verticalFt: coverIn / 12 + ABOVE_GRADE_FT });
    }
  });
  return spans;
}
