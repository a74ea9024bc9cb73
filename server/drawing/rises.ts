import { area, line, type Mark } from './drawing.ts';
import type { Profile, Stretch } from './profile.ts';
import { at, type Frame, yOf } from './sheet-frame.ts';

/** A rise shorter than this on the sheet is drawn this long all the same, so that it is seen. In points. */
const LEAST_PT = 8;
/** Room above the highest that is drawn. */
const MARGIN_FT = 0.4;

/**
 * Where a leg climbs or falls at its end by a height that the kinds of the legs do not show: a stroke of the run with an
 * arrow, to the section's scale as far as the sheet reaches. How many feet they are stands with the leg's length.
 */
export function riseMarks({ stretches }: Profile, frame: Frame): Mark[] {
  return stretches.flatMap((stretch) => ((stretch.leg.riseFt ?? 0) > 0 ? riseOf(stretch, frame) : []));
}

function riseOf({ x1, routeFt, index, leg }: Stretch, frame: Frame): Mark[] {
  const leastFt = LEAST_PT / frame.ptPerFtUp;
  const topFt = Math.min(frame.topFt - MARGIN_FT, routeFt + Math.max(leg.riseFt ?? 0, leastFt));
  const y = yOf(frame, topFt);
  return [
    line({ points: [at(frame, x1, routeFt), [x1, y]], tone: 'route', weightPt: 1.8, legs: [index] }),
    area({
      points: [
        [x1 - 2.6, y + 1],
        [x1 + 2.6, y + 1],
        [x1, y - 4],
      ],
      tone: 'route',
      legs: [index],
    }),
  ];
}
