import { isPullBox, nominalIn, pullBox } from '../../electrical/boxes.ts';
import type { ConductorSize, TradeSize } from '../vocabulary.ts';
import { shown } from './demand.ts';
import { isUpTo } from './sizes.ts';

/** A box for joints or pulls, as the shop sells it, the blank cover that it still needs, and why it is so large. */
export interface Box {
  name: string;
  description: string;
  needsCover: boolean;
  /** What it holds, in cubic inches; boxes that are sized by their raceways need none. */
  volumeIn3?: number;
  why?: string;
}

/** A box by the distance between two opposite walls, in inches. */
interface WideBox extends Box {
  wideIn: number;
}

const SQUARE: Box = {
  name: 'box-4in-square-deep',
  description: '4 in square steel box, 2-1/8 in deep',
  needsCover: true,
  volumeIn3: 30.3, // NEC Table 314.16(A)
};
const SQUARE_WIDE: Box = {
  name: 'box-411-square',
  description: '4-11/16 in square steel box, 2-1/8 in deep',
  needsCover: true,
  volumeIn3: 42, // NEC Table 314.16(A)
};
const PVC_6: Box = {
  name: 'jbox-pvc-6x6x4',
  description: 'PVC junction box 6 × 6 × 4 in',
  needsCover: false,
  volumeIn3: 5.5 * 5.5 * 3.5, // a quarter inch of wall all around, from memory
};
const RAINPROOF_8: Box = {
  name: 'jbox-steel-8x8x4-3r',
  description: 'steel pull box 8 × 8 × 4 in',
  needsCover: false,
  volumeIn3: 7.5 * 7.5 * 3.5, // taken as a quarter inch less all around; common practice, no source
};
const PVC_8 = wide(8, 'jbox-pvc-8x8x4', 'PVC junction box 8 × 8 × 4 in');
/** From narrow to wide; the last is wide enough for the largest trade size of the code book, 4 in. */
const STEEL: Sold = [
  wide(8, 'jbox-steel-8x8x4-3r', 'steel pull box 8 × 8 × 4 in'),
  wide(12, 'jbox-steel-12x12x6-3r', 'steel pull box 12 × 12 × 6 in'),
  wide(16, 'jbox-steel-16x16x6-3r', 'steel pull box 16 × 16 × 6 in'),
  wide(18, 'jbox-steel-18x18x6-3r', 'steel pull box 18 × 18 × 6 in'),
  wide(24, 'jbox-steel-24x24x8-3r', 'steel pull box 24 × 24 × 8 in'),
  wide(36, 'jbox-steel-36x36x10-3r', 'steel pull box 36 × 36 × 10 in'),
];
const HANDHOLES: Sold = [
  wide(18, 'handhole-12x18', 'handhole 12 × 18 in with cover'),
  wide(30, 'handhole-17x30', 'handhole 17 × 30 in with cover'),
];
type Sold = readonly [WideBox, ...WideBox[]];

function wide(wideIn: number, name: string, description: string): WideBox {
  return { name, description, needsCover: false, wideIn };
}

/**
 * From 4 AWG on a box is never taken smaller, whatever its raceways ask, and from 2/0 AWG on there must be room to bend;
 * inches. Common practice, no source.
 */
const LEAST_IN = { upTo1_0: 8, from2_0: 12 };

interface BoxParts {
  size: ConductorSize;
  entries: readonly TradeSize[];
  inside: boolean;
  pull?: Pull;
  /** Does metal raceway come in? A box of plastic would break its bond: NEC 314.3. */
  isMetal?: boolean;
  /** Do conductors only end here, not joined to others? */
  isEnd?: boolean;
}
type Pull = 'straight' | 'angle-or-splice';

/**
 * Chooses a box for so large a conductor. Up to 6 AWG by volume with room to work (common practice, no source); from 4 AWG
 * on by what enters it, NEC 314.28(A), the next wider one that is sold.
 * @param entries  trade sizes of raceways, sleeves and entry bodies, and for a cable of the raceway that would hold its
 *                 conductors; counted as on one wall, which asks for the most
 * @param pull     whether conductors go straight through; else they turn or are joined
 */
export function boxFor({ size, entries, inside, pull = 'angle-or-splice', ...what }: BoxParts): Box {
  if (!isPullBox(size)) return smallBox({ size, inside, ...what });
  const leastIn = isUpTo(size, '1/0') ? LEAST_IN.upTo1_0 : LEAST_IN.from2_0;
  const neededIn = Math.max(leastIn, pullBox({ pull, entries }).dimensionIn);
  const sold: Sold = inside || neededIn > PVC_8.wideIn ? STEEL : [PVC_8];
  return { ...nextWider(sold, neededIn), ...widthWords(entries, pull) };
}

/** A box for conductors up to 6 AWG. Where they only end, three of them and a ground take 22.5 in³: NEC 314.16(B). */
function smallBox({ size, inside, isMetal = false, isEnd = false }: Omit<BoxParts, 'entries' | 'pull'>): Box {
  if (inside && (isEnd || isUpTo(size, '10'))) return SQUARE;
  if (!isMetal) return PVC_6;
  return inside ? SQUARE_WIDE : RAINPROOF_8;
}

/** Chooses the handhole for a joint in the ground: from 4 AWG on its long side by the same rule. NEC 314.30(A). */
export function handholeFor({ size, entries }: Pick<BoxParts, 'size' | 'entries'>): Box {
  const pull = 'angle-or-splice';
  if (!isPullBox(size)) return nextWider(HANDHOLES, 0);
  return { ...nextWider(HANDHOLES, pullBox({ pull, entries }).dimensionIn), ...widthWords(entries, pull) };
}

function nextWider(sold: Sold, neededIn: number): Box {
  const { name, description, needsCover } = sold.find(({ wideIn }) => wideIn >= neededIn) ?? sold.at(-1) ?? sold[0];
  return { name, description, needsCover };
}

/** How wide the entries ask a box to be, read aloud. */
function widthWords(entries: readonly TradeSize[], pull: Pull): { why?: string } {
  const [largest, ...others] = entries.toSorted((a, b) => nominalIn(b) - nominalIn(a));
  if (largest === undefined) return {};
  const isStraight = pull === 'straight';
  const beside = isStraight ? '' : others.map((other) => ` + ${other} in`).join('');
  const inches = `${isStraight ? 8 : 6} × ${largest} in${beside} = ${shown(pullBox({ pull, entries }).dimensionIn)} in`;
  return {
    why: `at least ${inches} from wall to wall ${isStraight ? 'for a straight pull' : 'where conductors turn or are joined'}`,
  };
}
