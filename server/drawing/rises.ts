import { area, box, LETTER_PT, line, type Mark, text } from './drawing.ts';
import { textWidthPt } from './font-advances.ts';
import type { Profile, Stretch } from './profile.ts';
import { at, type Frame, yOf } from './sheet-frame.ts';
import { feet } from './wording.ts';

/** A rise shorter than this on the sheet is drawn this long all the same, so that it is seen. In points. */
const LEAST_PT = 6;
/** Room above the highest that is drawn. */
const MARGIN_FT = 0.3;

/**
 * Where a leg climbs or falls at its end by a height that the kinds of the legs do not show: the stroke of the run there,
 * its height beside it. Heights are to the section's scale as far as the sheet reaches; the words say them whole.
 */
export function riseMarks({ stretches }: Profile, frame: Frame): Mark[] {
  return stretches.flatMap((stretch, nth) => {
    const isRising = (stretch.leg.riseFt ?? 0) > 0;
    return isRising ? riseOf(stretch, { next: stretches[nth + 1], frame }) : [];
  });
}

function riseOf(stretch: Stretch, { next, frame }: { next: Stretch | undefined; frame: Frame }): Mark[] {
  const { x0, x1, routeFt, index, leg } = stretch;
  const riseFt = leg.riseFt ?? 0;
  const leastFt = LEAST_PT / frame.ptPerFtUp;
  const topFt = Math.min(frame.topFt - MARGIN_FT, routeFt + Math.max(riseFt, leastFt));
  const y = yOf(frame, topFt);
  // The words stand where more room is.
  const isLeft = next !== undefined && next.x1 - next.x0 < x1 - x0;
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
    ...wordsBeside({ x: x1, y: y + 5, words: `${feet(riseFt)} up`, isLeft, index }),
  ];
}

interface Beside {
  x: number;
  y: number;
  words: string;
  isLeft: boolean;
  index: number;
}

/** Words beside the stroke, on a bit of bare paper, so that no hatch runs through them. */
function wordsBeside({ x, y, words, isLeft, index }: Beside): Mark[] {
  const widthPt = textWidthPt(words, { sizePt: LETTER_PT, weight: 400 });
  const fromX = isLeft ? x - 5 - widthPt : x + 5;
  return [
    area({ points: box([fromX - 1, y - 7.5], [fromX + widthPt + 1, y + 2]), tone: 'paper', legs: [index] }),
    text({ at: [fromX, y], text: words, legs: [index] }),
  ];
}
