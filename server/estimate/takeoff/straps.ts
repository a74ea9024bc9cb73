import { supportCount, supportRule } from '../../electrical/supports.ts';
import type { RacewayType } from '../vocabulary.ts';
import { isPullPoint, type Segment } from './segments.ts';
import { isOpened, type Way } from './way.ts';

/** What the code's rules for supports call a raceway. */
const ruleOf = (type: RacewayType) => (type === 'pvc-40' || type === 'pvc-80' ? 'pvc' : type);

/** How far apart straps of a segment may be, and how near to a box the first, in feet. */
export function strapSpacing({ conduit: { type, tradeSize } }: Pick<Segment, 'conduit'>): {
  everyFt: number;
  firstWithinFt: number;
} {
  return supportRule({ method: ruleOf(type), tradeSize });
}

/**
 * Straps of each stretch of a segment; in the ground the soil holds the raceway. Stretches that follow each other above
 * ground are one way to the code, whichever legs they belong to: their straps are counted together and shared out along
 * it. NEC 352.30, 358.30, 344.30.
 * @param feet  of each stretch, as this raceway
 */
export function strapsOf(way: Way, segment: Segment, feet: readonly number[]): number[] {
  const { type, tradeSize } = segment.conduit;
  const straps = feet.map(() => 0);
  for (const { begin, end } of partsAboveGround(segment)) {
    const part = feet.slice(begin, end + 1);
    const lengthFt = part.reduce((sum, ft) => sum + ft, 0);
    const ends = [way.joints[segment.from + begin], way.joints[segment.from + end + 1]];
    const boxes = ends.filter((joint) => joint && isPullPoint(joint)).length as 0 | 1 | 2; // of two ends
    const count = supportCount({ method: ruleOf(type), tradeSize, lengthFt, boxes });
    let alongFt = 0;
    let placed = 0;
    part.forEach((ft, at) => {
      alongFt += ft;
      const upTo = Math.round((count * alongFt) / lengthFt);
      straps[begin + at] = upTo - placed;
      placed = upTo;
    });
  }
  return straps;
}

/** Consecutive stretches of a segment that are not in the ground, by the first and the last of them. */
function partsAboveGround({ stretches }: Segment): { begin: number; end: number }[] {
  const parts: { begin: number; end: number }[] = [];
  stretches.forEach((stretch, at) => {
    if (isOpened(stretch)) return;
    const last = parts.at(-1);
    if (last?.end === at - 1) last.end = at;
    else parts.push({ begin: at, end: at });
  });
  return parts;
}
