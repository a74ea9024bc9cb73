import { pullPointsNeeded } from '../../electrical/bends.ts';
import { isPullBox, pullBox } from '../../electrical/boxes.ts';
import { sizeInWords } from '../../electrical/sizes.ts';
import type { PlannedOption } from '../plan-types.ts';
import type { ConductorSize, TradeSize } from '../vocabulary.ts';
import { counted, type Demands, joined, named, work } from './demand.ts';
import { indoorFactors } from './factors.ts';
import { segmentsOf } from './segments.ts';
import { isUpTo, workClass } from './sizes.ts';
import { isInside, isOpened, type Joint, legsOf, type Stretch, type Way } from './way.ts';
import { conductorCounts } from './wire.ts';

/** A box for joints or pulls, as the shop sells it, and the blank cover that it still needs. */
export interface Box {
  name: string;
  description: string;
  needsCover: boolean;
}

const BOXES = {
  square: { name: 'box-4in-square-deep', description: '4 in square steel box, 2-1/8 in deep', needsCover: true },
  pvc6: { name: 'jbox-pvc-6x6x4', description: 'PVC junction box 6 × 6 × 4 in', needsCover: false },
  pvc8: { name: 'jbox-pvc-8x8x4', description: 'PVC junction box 8 × 8 × 4 in', needsCover: false },
  steel8: { name: 'jbox-steel-8x8x4-3r', description: 'steel pull box 8 × 8 × 4 in', needsCover: false },
  steel12: { name: 'jbox-steel-12x12x6-3r', description: 'steel pull box 12 × 12 × 6 in', needsCover: false },
  handhole: { name: 'handhole-12x18', description: 'handhole 12 × 18 in with cover', needsCover: false },
} as const satisfies Record<string, Box>;

/** From 4 AWG on a box is never taken smaller than this, in inches, whatever its raceways ask. Common practice, no source. */
const LEAST_PULL_BOX_IN = 8;

/**
 * Chooses a box for so large a conductor. Up to 6 AWG by volume with room to work (common practice, no source); from 4 AWG
 * on by the raceways that enter it, NEC 314.28(A).
 * @param entries  trade sizes of the raceways on one wall; none where cables enter
 */
export function boxFor({
  size,
  entries,
  inside,
}: {
  size: ConductorSize;
  entries: readonly TradeSize[];
  inside: boolean;
}): Box {
  if (!isPullBox(size)) return isUpTo(size, '10') && inside ? BOXES.square : BOXES.pvc6;
  const { dimensionIn } = pullBox({ pull: 'angle-or-splice', entries });
  const neededIn = Math.max(LEAST_PULL_BOX_IN, dimensionIn);
  if (neededIn > 8 || !isUpTo(size, '1/0')) return BOXES.steel12;
  return inside ? BOXES.steel8 : BOXES.pvc8;
}

/** Boxes of one run: where conductors are joined, where raceway changes, and where there are more than 360° of bends. */
export function boxDemands({ plan, way }: { plan: PlannedOption; way: Way }): Demands {
  return joined([
    ...way.joints.map((joint) => (joint.splice ? splice({ plan, way, joint }) : changeOfRaceway({ plan, way, joint }))),
    ...segmentsOf(way).map((segment) => {
      const count = pullPointsNeeded(segment.bendsDeg);
      const because = `${Math.round(segment.bendsDeg)}° of bends: no more than 360° between two pull points`;
      return pullBoxes({ plan, way, stretches: segment.stretches, count, because });
    }),
  ]);
}

/** The box itself with its cover. */
export function boxItself(box: Box, count: number, legs: number[], because: string): Demands {
  const { name, description, needsCover } = box;
  return joined([
    named({ name, description, scope: 'boxes', quantity: count, legs, because }),
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
const entriesOf = (stretches: readonly Stretch[]) =>
  stretches.flatMap(({ conduit }) => (conduit ? [conduit.tradeSize] : []));

function splice({ plan, way, joint }: JointParts): Demands {
  const sides = sidesOf(joint);
  const { legs } = joint;
  const { size } = way.run.conductor;
  const buried = sides.every(isOpened);
  const inside = sides.some(({ place }) => isInside(place));
  const box = buried ? BOXES.handhole : boxFor({ size, entries: entriesOf(sides), inside });
  const methods = sides.map(({ method }) => method).join(' to ');
  const because = `joins ${way.run.name} where it changes from ${methods}`;
  const handhole = {
    task: 'handhole-set',
    scope: 'boxes',
    legs,
    because: 'a joint in the ground stays within reach',
  } as const;
  return joined([
    boxItself(box, 1, legs, because),
    taps(way, legs),
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
    largeJoints(way, legs),
  ]);
}

/** What the conductors of a joint are pressed together by: one for each. */
function taps(way: Way, legs: number[]): Demands {
  const counts = conductorCounts(way);
  const { groundSize, neutralSize, conductor } = way.run;
  const sizes = [
    ...Array.from({ length: counts.ungrounded }, () => conductor.size),
    ...Array.from({ length: counts.neutral }, () => neutralSize ?? conductor.size),
    groundSize,
  ];
  const perName = new Map<string, number>();
  for (const size of sizes) {
    const name = tapFor(size, conductor.metal);
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
function largeJoints(way: Way, legs: number[]): Demands {
  const { size } = way.run.conductor;
  if (isUpTo(size, '6')) return joined([]);
  const { ungrounded, neutral } = conductorCounts(way);
  return work({
    task: `terminate-${workClass(size)}`,
    scope: 'boxes',
    unit: 'termination',
    quantity: ungrounded + neutral,
    legs,
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
  const entries = entriesOf(stretches).slice(0, 2);
  const box = boxFor({ size: way.run.conductor.size, entries, inside });
  const factors = inside ? indoorFactors(plan) : [];
  return joined([
    boxItself(box, count, legs, because),
    work({ task: 'pull-box', scope: 'boxes', quantity: count, factors, legs, because }),
  ]);
}
