import { type Conduit, isNewRaceway, isOpened, type Joint, type Stretch, type Way } from './way.ts';

/** Raceway of one type and size between two boxes or entries: conductors are pulled through it in one go. */
export interface Segment {
  conduit: Conduit;
  /** Indices into the way's stretches, both included. */
  from: number;
  to: number;
  stretches: (Stretch & { conduit: Conduit })[];
  /** Elbows on its own, outside of the climbs out of the ground. */
  elbows: number;
  /** All bends between its ends, in degrees. */
  bendsDeg: number;
}

/** Is the raceway opened at this joint, by a box, an entry body or an end? */
export function isPullPoint(joint: Joint): boolean {
  const { before, after } = joint;
  if (!before || !after || joint.splice || joint.leavesHouse) return true;
  return !isSameRaceway(before, after);
}

function isSameRaceway(before: Stretch, after: Stretch): boolean {
  if (!isNewRaceway(before) || !isNewRaceway(after)) return false;
  return before.conduit.type === after.conduit.type && before.conduit.tradeSize === after.conduit.tradeSize;
}

/** The stretches of new raceway of a way, cut at boxes and entries. */
export function segmentsOf(way: Way): Segment[] {
  const segments: Segment[] = [];
  way.stretches.forEach((stretch, at) => {
    if (!isNewRaceway(stretch)) return;
    const joint = way.joints[at];
    const last = segments.at(-1);
    if (last?.to === at - 1 && joint && !isPullPoint(joint)) {
      last.to = at;
      last.stretches.push(stretch);
    } else segments.push({ conduit: stretch.conduit, from: at, to: at, stretches: [stretch], elbows: 0, bendsDeg: 0 });
  });
  return segments.map((segment) => ({ ...segment, ...bendsOf(way, segment) }));
}

/**
 * Bends of a segment. An elbow wherever one leg turns into the next above ground (common practice, no source), one for
 * each 90 degrees that a leg states, and two where it climbs out of the ground and goes on: those are the riser's.
 */
function bendsOf(way: Way, { from, to, stretches }: Segment): Pick<Segment, 'elbows' | 'bendsDeg'> {
  const inner = way.joints.slice(from + 1, to + 1);
  const turns = inner.filter(({ before, after }) => before && after && !isOpened(before) && !isOpened(after)).length;
  const statedDeg = stretches.reduce((sum, { stated }) => sum + (stated?.bendsDeg ?? 0), 0);
  const climbs = climbsOf(way).filter(({ at }) => from <= at && at <= to);
  const climbDeg = climbs.reduce((sum, { goesOn }) => sum + (goesOn ? 180 : 90), 0);
  return { elbows: turns + Math.ceil(statedDeg / 90), bendsDeg: turns * 90 + statedDeg + climbDeg };
}

/** One end of a buried span, where it comes up out of the ground. */
export interface Climb {
  /** Index of the buried stretch. */
  at: number;
  stretch: Stretch;
  verticalFt: number;
  coverIn: number;
  /** The joint above it. */
  joint: Joint;
  /** Does raceway of its own kind go on above, so that it must turn once more? */
  goesOn: boolean;
}

/** Every place where a way comes out of the ground. */
export function climbsOf(way: Way): Climb[] {
  return way.spans.flatMap(({ from, to, verticalFt, coverIn }) =>
    [
      { at: from, jointAt: from },
      { at: to, jointAt: to + 1 },
    ].flatMap(({ at, jointAt }) => {
      const stretch = way.stretches[at];
      const joint = way.joints[jointAt];
      if (!stretch || !joint) return [];
      return [{ at, stretch, verticalFt, coverIn, joint, goesOn: !isPullPoint(joint) }];
    }),
  );
}
