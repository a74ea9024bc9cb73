import { pullPointsNeeded } from '../../electrical/bends.ts';
import { largerSize, sizeInWords } from '../../electrical/sizes.ts';
import type { PlannedOption, PlannedRun, Section } from '../plan-types.ts';
import type { ConductorSize, RacewayType, TradeSize } from '../vocabulary.ts';
import { type Box, boxFor, handholeFor } from './box-sizes.ts';
import { counted, type Demands, joined, named, work } from './demand.ts';
import { indoorFactors } from './factors.ts';
import { cableTradeSize, riserTradeSize, sleeveTradeSize } from './risers.ts';
import { type Segment, segmentsOf } from './segments.ts';
import { isUpTo, workClass } from './sizes.ts';
import { type Conduit, isInside, isOpened, type Joint, legsOf, type Stretch, type Way } from './way.ts';
import { conductorCounts } from './wire.ts';

/** Boxes of one run: where conductors are joined, where raceway changes, and where there are more than 360° of bends. */
export function boxDemands({ plan, way }: { plan: PlannedOption; way: Way }): Demands {
  return joined([
    ...way.joints.map((joint) => boxAt({ plan, way, joint })),
    ...segmentsOf(way).map((segment) => boxesAlong({ plan, way, segment })),
    dividingBoxes({ plan, way }),
  ]);
}

/** The box at a joint, if it takes one. */
export function boxAt(parts: JointParts): Demands {
  return parts.joint.splice ? splice(parts) : changeOfRaceway(parts);
}

/** Pull boxes between the ends of a raceway: one for each 360° of bends beyond the first. */
export function boxesAlong({ plan, way, segment }: { plan: PlannedOption; way: Way; segment: Segment }): Demands {
  const count = pullPointsNeeded(segment.bendsDeg);
  if (count <= 0) return joined([]);
  const because = `${Math.round(segment.bendsDeg)}° of bends: no more than 360° between two pull points`;
  return pullBoxes({ plan, way, stretches: segment.stretches, count, because });
}

/** The box itself with its cover. */
export function boxItself(box: Box, count: number, legs: number[], because: string): Demands {
  const { name, description, needsCover, why } = box;
  return joined([
    named({ name, description, scope: 'boxes', quantity: count, legs, because: why ? [because, why] : because }),
    named({
      name: 'blank-cover',
      description: 'blank cover',
      scope: 'boxes',
      quantity: needsCover ? count : 0,
      legs,
      because: `covers the ${description}`,
    }),
  ]);
}

interface JointParts {
  plan: PlannedOption;
  way: Way;
  joint: Joint;
}

const sidesOf = ({ before, after }: Joint): Stretch[] =>
  [before, after].flatMap((stretch) => (stretch ? [stretch] : []));

/** What each side enters a box by: its raceway, which comes out of the ground as a riser; the sleeve of a buried cable; else its cable. */
function entriesOf(way: Way, stretches: readonly Stretch[]): TradeSize[] {
  return stretches.map((stretch) => {
    const { conduit, section, existing } = stretch;
    if (!conduit) return isOpened(stretch) ? sleeveTradeSize(section) : cableTradeSize(section);
    const comesUp = isOpened(stretch) && !existing && conduit.type.startsWith('pvc');
    return comesUp ? riserTradeSize(way, section, conduit.tradeSize) : conduit.tradeSize;
  });
}

/** The largest of some sizes; where nothing is known of them, what the run ends in. */
function largestOf({ run }: Way, sizes: readonly ConductorSize[]): ConductorSize {
  return sizes.length > 0 ? sizes.reduce(largerSize) : run.conductor.size;
}

const sectionsOf = (stretches: readonly Stretch[]): Section[] =>
  stretches.flatMap(({ section }) => (section ? [section] : []));

/** The largest conductor that comes from either side. */
function largestSize(way: Way, stretches: readonly Stretch[]): ConductorSize {
  return largestOf(
    way,
    sectionsOf(stretches).map(({ size }) => size),
  );
}

/** Does metal raceway come in from one of the sides? */
const hasMetal = (sides: readonly { conduit?: { type: RacewayType } | undefined }[]) =>
  sides.some(({ conduit }) => conduit?.type === 'emt' || conduit?.type === 'rmc');

/** The box that a run ends in without being joined to anything: what comes in is its last raceway, or its cable. */
export function endBox(run: PlannedRun, conduit: Conduit | undefined, place: { inside: boolean }): Box {
  const entries = [conduit?.tradeSize ?? cableTradeSize(run.sections.at(-1))];
  const size = run.sections.at(-1)?.size ?? run.conductor.size;
  return boxFor({ size, entries, ...place, isMetal: hasMetal([{ conduit }]), isEnd: true });
}

/** Does a stretch lie in the ground, in a raceway that is there or in ground that is opened for it? */
const isInGround = (stretch: Stretch) =>
  isOpened(stretch) || stretch.place === 'underground' || stretch.place === 'under-slab';

/** The box of a joint: a handhole where both sides lie in the ground. */
export function spliceBox(way: Way, joint: Joint): Box {
  const sides = sidesOf(joint);
  const size = largestSize(way, sides);
  const inside = sides.some(({ place }) => isInside(place));
  const entries = entriesOf(way, sides);
  return sides.every(isInGround)
    ? handholeFor({ size, entries })
    : boxFor({ size, entries, inside, isMetal: hasMetal(sides) });
}

function splice({ plan, way, joint }: JointParts): Demands {
  const sides = sidesOf(joint);
  const { legs } = joint;
  const buried = sides.every(isInGround);
  const inside = sides.some(({ place }) => isInside(place));
  const box = spliceBox(way, joint);
  const because = `joins ${way.run.name} where it changes from ${changeInWords(sides)}`;
  const handhole = {
    task: 'handhole-set',
    scope: 'boxes',
    legs,
    because: 'a joint in the ground stays within reach',
  } as const;
  return joined([
    boxItself(box, 1, legs, because),
    taps(way, sides),
    work({
      task: 'splice-cable',
      scope: 'boxes',
      unit: 'box',
      quantity: 1,
      factors: inside ? indoorFactors(plan) : [],
      legs,
      because,
    }),
    work({ ...handhole, quantity: buried ? 1 : 0 }),
    largeJoints(way, sides),
  ]);
}

/** What changes at a joint: the method, or where it goes on, the conductor; as `6 AWG copper in emt to 2 AWG aluminum in pvc`. */
function changeInWords(sides: readonly Stretch[]): string {
  const conductors = sides.map(({ section }) => section && `${sizeInWords(section.size)} ${section.metal}`);
  const changesConductor = new Set(conductors).size > 1;
  return sides
    .map(({ method }, at) => {
      const conductor = conductors[at];
      return changesConductor && conductor ? `${conductor} in ${method}` : method;
    })
    .join(' to ');
}

/** A box where a circuit of several wired chargers divides, at each of them but the last: one joint for each conductor. */
export function dividingBoxes({ plan, way }: { plan: PlannedOption; way: Way }): Demands {
  const last = way.stretches.at(-1);
  if (way.divisions === 0 || !last) return joined([]);
  const inside = isInside(last.place);
  const [entry = cableTradeSize(last.section)] = entriesOf(way, [last]);
  const entries = [entry, entry, entry]; // in, on, and to the charger
  const box = boxFor({ size: largestSize(way, [last]), entries, inside, isMetal: hasMetal([last]) });
  const because = `${way.run.name} divides, for each of its chargers but the last`;
  const legs = legsOf([last]);
  const joints = Array.from({ length: way.divisions }, () => joined([taps(way, [last]), largeJoints(way, [last])]));
  return joined([
    boxItself(box, way.divisions, legs, because),
    ...joints,
    work({
      task: 'splice-cable',
      scope: 'boxes',
      unit: 'box',
      quantity: way.divisions,
      factors: inside ? indoorFactors(plan) : [],
      legs,
      because,
    }),
  ]);
}

/** What the conductors of a joint are pressed together by: one for each, for the larger of both that it holds. */
function taps(way: Way, sides: readonly Stretch[]): Demands {
  const counts = conductorCounts(way);
  const sections = sectionsOf(sides);
  const size = largestSize(way, sides);
  const neutralSizes = sections.map((section) => section.neutralSize ?? section.size);
  const groundSizes = sections.map(({ groundSize }) => groundSize);
  const sizes = [
    ...Array.from({ length: counts.ungrounded }, () => size),
    ...Array.from({ length: counts.neutral }, () => largestOf(way, neutralSizes)),
    ...(groundSizes.length > 0 ? [groundSizes.reduce(largerSize)] : []),
  ];
  const metal = sections.some((section) => section.metal === 'aluminum') ? 'aluminum' : 'copper';
  const legs = legsOf(sides);
  const perName = new Map<string, number>();
  for (const size of sizes) {
    const name = tapFor(size, metal);
    perName.set(name, (perName.get(name) ?? 0) + 1);
  }
  return joined(
    [...perName].map(([name, quantity]) =>
      named({
        name,
        description: name === 'twist-connectors' ? 'twist-on connectors' : 'insulated mechanical splice connectors',
        scope: 'boxes',
        quantity,
        legs,
        because: `one for each of ${counted(sizes.length, 'conductor')}`,
      }),
    ),
  );
}

/** Twist-on connectors are for small copper; aluminum and what is larger than 10 AWG takes insulated mechanical ones. */
function tapFor(size: ConductorSize, metal: 'copper' | 'aluminum'): string {
  if (metal === 'copper' && isUpTo(size, '10')) return 'twist-connectors';
  if (isUpTo(size, '4')) return 'splice-insulated-tap-6-14';
  return isUpTo(size, '1/0') ? 'splice-insulated-tap-1_0' : 'splice-insulated-tap-4_0';
}

/** Joining 4 AWG and larger takes longer than the task for one cable allows: each conductor counts once more. */
function largeJoints(way: Way, sides: readonly Stretch[]): Demands {
  const size = largestSize(way, sides);
  if (isUpTo(size, '6')) return joined([]);
  const { ungrounded, neutral } = conductorCounts(way);
  return work({
    task: `terminate-${workClass(size)}`,
    scope: 'boxes',
    unit: 'termination',
    quantity: ungrounded + neutral,
    legs: legsOf(sides),
    because: `${sizeInWords(size)} is slow to join: each conductor once more`,
  });
}

/** A box where one raceway turns into another, or into one that is there already, with the conductors going through. */
function changeOfRaceway({ plan, way, joint }: JointParts): Demands {
  const { before, after, leavesHouse } = joint;
  if (!before || !after || leavesHouse || !before.conduit || !after.conduit) return joined([]);
  const same = before.conduit.type === after.conduit.type && before.conduit.tradeSize === after.conduit.tradeSize;
  if (same && before.existing === after.existing) return joined([]);
  const because = `${before.conduit.type} ${before.conduit.tradeSize} in meets ${after.conduit.type} ${after.conduit.tradeSize} in`;
  return pullBoxes({ plan, way, stretches: [before, after], count: 1, because });
}

function pullBoxes({
  plan,
  way,
  stretches,
  count,
  because,
}: {
  plan: PlannedOption;
  way: Way;
  stretches: readonly Stretch[];
  count: number;
  because: string;
}): Demands {
  const legs = legsOf(stretches);
  const inside = stretches.every(({ place }) => isInside(place));
  const entries = entriesOf(way, stretches).slice(0, 2);
  const isMetal = hasMetal(stretches);
  const box = boxFor({ size: largestSize(way, stretches), entries, inside, pull: 'straight', isMetal });
  const factors = inside ? indoorFactors(plan) : [];
  return joined([
    boxItself(box, count, legs, because),
    work({ task: 'pull-box', scope: 'boxes', quantity: count, factors, legs, because }),
  ]);
}
