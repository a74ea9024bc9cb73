import type { RacewayType, TradeSize } from '../vocabulary.ts';
import { type Demands, joined, materials, work } from './demand.ts';
import { laidAs } from './risers.ts';
import type { Segment } from './segments.ts';
import { tradeSizeIn } from './sizes.ts';
import {
  type Conduit,
  enclosuresPassed,
  isInside,
  isOpened,
  type Joint,
  legsOf,
  type Stretch,
  type Way,
} from './way.ts';

/** What each raceway is called on a list. */
export const TYPE_NAMES: Record<RacewayType, string> = {
  'pvc-40': 'PVC schedule 40 conduit',
  'pvc-80': 'PVC schedule 80 conduit',
  emt: 'EMT',
  rmc: 'rigid metal conduit',
};

/** Is it PVC, of either schedule? Its fittings are the same. */
export const isPvc = (type: RacewayType): type is 'pvc-40' | 'pvc-80' => type === 'pvc-40' || type === 'pvc-80';

/** What each end of a segment enters by. An entry body through the wall takes PVC and rigid conduit as it is. */
export function segmentEnds(way: Way, segment: Segment): Demands {
  const last = segment.to === way.stretches.length - 1 ? 1 + 2 * enclosuresPassed(way) : 1;
  const ends = [
    { joint: way.joints[segment.from], stretch: segment.stretches[0], count: 1 },
    { joint: way.joints[segment.to + 1], stretch: segment.stretches.at(-1), count: last },
  ];
  return joined(
    ends.map(({ joint, stretch, count }) =>
      joint && stretch ? racewayEnd({ way, joint, stretch, count }) : joined([]),
    ),
  );
}

interface EndParts {
  way: Way;
  joint: Joint;
  stretch: Stretch & { conduit: Conduit };
  /** One, and two more for each enclosure that the run goes in and out of before it. */
  count: number;
}

/** What raceway enters a box, a panel or an entry by. */
export function racewayEnd({ way, joint, stretch, count }: EndParts): Demands {
  const { type, tradeSize } = laidAs(way, stretch);
  const other = joint.before === stretch ? joint.after : joint.before;
  const piece = endPiece({ joint, type, tradeSize, inside: isInside(stretch.place), other });
  const legs = legsOf([stretch]);
  const fitting = (name: string, because: string) =>
    materials({
      spec: { is: 'fitting', type: isPvc(type) ? 'pvc-40' : type, tradeSize, piece: name },
      description: `${TYPE_NAMES[type]} ${tradeSize} in ${name}`,
      scope: 'conduit',
      quantity: count,
      legs,
      because,
    });
  if (!piece)
    return goesOnInPvc(type, joint, other) ? joined([fitting('bushing-grounding', BONDED), bonding(legs)]) : joined([]);
  const nut = piece === 'male-adapter' ? Array.from({ length: count }, () => lockNut(tradeSize, stretch)) : [];
  return joined([
    fitting(piece, piece === 'coupling' ? 'joins the sleeve out of the ground' : endWords(count)),
    ...nut,
  ]);
}

/** Why steel is bonded where no box of steel does it. NEC 250.86. */
const BONDED = 'bonds the steel to the ground of the run where PVC goes on';

/** Does steel raceway end at an entry body behind which PVC goes on, so that nothing there bonds it? */
function goesOnInPvc(type: RacewayType, { leavesHouse }: Joint, other: Stretch | undefined): boolean {
  return type === 'rmc' && leavesHouse && other?.conduit !== undefined && isPvc(other.conduit.type);
}

/** A short conductor from the bushing to the ground of the run. */
function bonding(legs: number[]): Demands {
  return work({ task: 'terminate-12-10', scope: 'conduit', unit: 'termination', quantity: 1, legs, because: BONDED });
}

function endWords(count: number): string {
  return `an end at a box or panel${count > 1 ? `, and ${count - 1} in and out of what it passes before` : ''}`;
}

function endPiece({
  joint,
  type,
  tradeSize,
  inside,
  other,
}: {
  joint: Joint;
  type: RacewayType;
  tradeSize: TradeSize;
  inside: boolean;
  other: Stretch | undefined;
}): string | undefined {
  if (type === 'emt') return inside ? 'connector' : 'connector-rt';
  if (joint.leavesHouse) return undefined;
  if (type === 'rmc') return inside ? 'locknut-bushing' : 'hub';
  const joinsSleeve = other !== undefined && !joint.splice && isOpened(other) && !other.conduit;
  if (joinsSleeve) return 'coupling';
  return tradeSizeIn(tradeSize) <= 2 ? 'box-adapter' : 'male-adapter';
}

/** A locknut and bushing on the thread of an adapter. */
function lockNut(tradeSize: TradeSize, stretch: Stretch): Demands {
  return materials({
    spec: { is: 'fitting', type: 'pvc-40', tradeSize, piece: 'locknut-bushing' },
    description: `locknut and bushing ${tradeSize} in`,
    scope: 'conduit',
    quantity: 1,
    legs: legsOf([stretch]),
    because: 'on the thread of an adapter',
  });
}
