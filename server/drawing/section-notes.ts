import type { LegCosts } from '../estimate/leg-costs.ts';
import { area, box, LETTER_PT, line, type Mark, text } from './drawing.ts';
import { textWidthPt } from './font-advances.ts';
import type { LegLabel } from './leg-labels.ts';
import type { Profile } from './profile.ts';
import { roundBelow } from './skyline.ts';
import { knownMoney, number } from './wording.ts';

const LINE_PT = 11.5;
/** The scale bar takes at most so many points. */
const SCALE_PT = 110;

interface Placed {
  marks: Mark[];
  bottomY: number;
}

/** A bar of four fields in feet, ink and paper in turn. */
export function scaleBar(
  { ptPerFtAlong }: Profile,
  { topY, leftX }: { topY: number; leftX: number },
): Placed & { rightX: number } {
  const wholeFt = Math.max(1, roundBelow(SCALE_PT / ptPerFtAlong));
  const fieldPt = (wholeFt * ptPerFtAlong) / 4;
  const y = topY + 3;
  const fields = [0, 1, 2, 3].map((nth) =>
    area({
      points: box([leftX + nth * fieldPt, y], [leftX + (nth + 1) * fieldPt, y + 3.5]),
      tone: nth % 2 === 0 ? 'ink' : 'paper',
      weightPt: 0.5,
    }),
  );
  const words = `${number(wholeFt)} ft`;
  const rightX = leftX + 4 * fieldPt;
  const marks = [
    ...fields,
    text({ at: [leftX, y + 14], text: '0' }),
    text({ at: [rightX, y + 14], text: words, anchor: fieldPt * 4 > 40 ? 'end' : 'start' }),
  ];
  const wordsPt = textWidthPt(words, { sizePt: LETTER_PT, weight: 400 });
  return { marks, bottomY: y + 17, rightX: fieldPt * 4 > 40 ? rightX : rightX + wordsPt };
}

interface Notes {
  exaggeration: number;
  costs: LegCosts;
  isWithoutMoney: boolean;
  /** Is anything run? Else the outlet that is there is used. */
  isRun: boolean;
  /** About what is laid beside the run and where it turns; empty where there is nothing to say. */
  beside: string;
  leftX: number;
  rightX: number;
  topY: number;
}

/** Where there is no run. */
export const NOTHING_RUN = 'Nothing new is run: the outlet that is there is used.';

/** What one must know to read the drawing. */
export function notesOf({ exaggeration, costs, isWithoutMoney, isRun, beside, leftX, rightX, topY }: Notes): Placed {
  const more = knownMoney({ amountCents: costs.wholeJobCents, complete: costs.wholeJobComplete });
  const sentences = [
    ...(isRun ? [] : [NOTHING_RUN]),
    ...(costs.legs.length > 0
      ? [
          `Lengths are to scale, heights × ${number(exaggeration, 1)}; panel and parking place are not.`,
          ...(isWithoutMoney
            ? []
            : [
                'Blocks: cost a foot over length, so their areas are money; before markup, overhead, profit and tax.',
                `Both ends and the whole job: ${more} besides.`,
              ]),
          ...(beside === '' ? [] : [beside]),
        ]
      : []),
  ];
  const lines = wrapped(sentences.join(' '), rightX - leftX);
  const marks = lines.map((words, nth) => text({ at: [leftX, topY + 8 + nth * LINE_PT], text: words, tone: 'ink' }));
  return { marks, bottomY: topY + 8 + (lines.length - 1) * LINE_PT + 3 };
}

/** Breaks a text into lines that are no broader than a number of points. */
export function wrapped(words: string, widthPt: number): string[] {
  const lines: string[] = [];
  for (const word of words.split(' ')) {
    const longer = lines.length > 0 ? `${lines.at(-1)} ${word}` : word;
    const fits = textWidthPt(longer, { sizePt: LETTER_PT, weight: 400 }) <= widthPt;
    if (lines.length > 0 && fits) lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return lines;
}

/** Where numbers stand for the legs, what the numbers stand for: in columns, reading down. */
export function legendOf(
  labels: readonly LegLabel[],
  { topY, leftX, rightX }: { topY: number; leftX: number; rightX: number },
): Placed {
  const entries = labels.map(({ index, lines }) => ({ index, words: lines.join(', ') }));
  const widest = Math.max(...entries.map(({ words }) => textWidthPt(words, { sizePt: LETTER_PT, weight: 400 }))) + 14;
  const columns = Math.max(1, Math.floor((rightX - leftX) / widest));
  const rows = Math.ceil(entries.length / columns);
  const marks = entries.map(({ index, words }, nth) =>
    text({
      at: [leftX + Math.floor(nth / rows) * widest, topY + 12 + (nth % rows) * LINE_PT],
      text: words,
      legs: [index],
    }),
  );
  return {
    marks: [
      line({
        points: [
          [leftX, topY],
          [rightX, topY],
        ],
      }),
      ...marks,
    ],
    bottomY: topY + 12 + rows * LINE_PT,
  };
}
