import type { LegCost } from '../estimate/leg-costs.ts';
import { area, box, line, type Mark, text } from './drawing.ts';
import type { Stretch } from './profile.ts';
import { wholeDollars } from './wording.ts';

/** How high the dearest foot stands, in points. */
export const SKYLINE_PT = 32;

interface Block {
  stretch: Stretch;
  cost: LegCost;
  /** Cents per foot of this leg. */
  centsPerFt: number;
}

/** Cost per foot over the length of each leg, so that areas are money. */
export interface Skyline {
  blocks: Block[];
  ptPerCent: number;
}

/** Scales the skyline to the dearest foot of the route. */
export function skylineOf(stretches: readonly Stretch[], costs: readonly LegCost[]): Skyline {
  const blocks = stretches.flatMap((stretch): Block[] => {
    const cost = costs[stretch.index];
    return cost ? [{ stretch, cost, centsPerFt: cost.amountCents / stretch.lengthFt }] : [];
  });
  const dearest = Math.max(0, ...blocks.map(({ centsPerFt }) => centsPerFt));
  return { blocks, ptPerCent: dearest > 0 ? SKYLINE_PT / dearest : 0 };
}

/** The height of a leg's block in points. */
export function blockHeightPt({ blocks, ptPerCent }: Skyline, index: number): number {
  return (blocks.find(({ stretch }) => stretch.index === index)?.centsPerFt ?? 0) * ptPerCent;
}

/** The blocks on their base line, and the scale of their height at the left. */
export function skylineMarks(
  skyline: Skyline,
  { baseY, leftX, rightX }: { baseY: number; leftX: number; rightX: number },
): Mark[] {
  if (skyline.blocks.length === 0) return [];
  const blocks = skyline.blocks.map(({ stretch }) =>
    area({
      points: box([stretch.x0, baseY - blockHeightPt(skyline, stretch.index)], [stretch.x1, baseY]),
      tone: 'shade',
      weightPt: 0.5,
      legs: [stretch.index],
    }),
  );
  return [
    ...blocks,
    line({
      points: [
        [leftX, baseY],
        [rightX, baseY],
      ],
      weightPt: 0.75,
    }),
    ...scaleOf(skyline, { baseY, leftX }),
  ];
}

/** A round sum per foot, marked at its height. */
function scaleOf({ ptPerCent }: Skyline, { baseY, leftX }: { baseY: number; leftX: number }): Mark[] {
  if (ptPerCent === 0) return [];
  const stepCents = roundBelow(SKYLINE_PT / ptPerCent);
  const y = baseY - stepCents * ptPerCent;
  const words = stepCents >= 100 ? wholeDollars(stepCents) : `${stepCents}¢`;
  return [
    line({
      points: [
        [leftX - 6, y],
        [leftX - 2, y],
      ],
    }),
    line({
      points: [
        [leftX - 4, y],
        [leftX - 4, baseY],
      ],
    }),
    text({ at: [leftX - 9, Math.min(y + 3, baseY - 12)], text: words, anchor: 'end' }),
    text({ at: [leftX - 9, Math.min(y + 13, baseY - 2)], text: 'a foot', anchor: 'end' }),
  ];
}

/** The largest of 1, 2, 5, 10, 20, … that is not above a number. */
export function roundBelow(most: number): number {
  const ten = 10 ** Math.floor(Math.log10(most));
  return [5, 2, 1].map((digit) => digit * ten).find((round) => round <= most) ?? ten;
}
