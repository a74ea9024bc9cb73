import { area, LETTER_PT, line, type Mark, type Point, text } from './drawing.ts';
import { textWidthPt } from './font-advances.ts';
import { type PlacedLabel, placeLabels } from './label-rows.ts';

/** What is said of one leg, in lines from top to bottom. The last line is its money, where it has any. */
export interface LegLabel {
  index: number;
  lines: readonly string[];
  severity?: 'caution' | 'stop';
  isWithoutMoney?: boolean;
  /** The middle of what the label is about. */
  middleX: number;
}

interface Room {
  leftX: number;
  rightX: number;
}

/** Marks that hang from y 0 down, and how high they are. `numbered`: the words did not fit and need a legend. */
export interface LabelBand {
  heightPt: number;
  numbered: boolean;
  /** Makes the marks: the band's upper edge, and how far down each leg's leader reaches, come in. */
  marksAt: (topY: number, reachY: (index: number) => number) => Mark[];
}

const LINE_PT = 11;
const SIGN_PT = 10.5;
const LEADER_PT = 11;
const BETWEEN_PT = 4;
const GAP_PT = 7;

/** Labels above the legs in at most two rows; where they need more, their numbers stand for them. */
export function labelBand(labels: readonly LegLabel[], room: Room): LabelBand {
  const worded = labels.map((label) => ({ middleX: label.middleX, widthPt: labelWidthPt(label) }));
  const words = placeLabels(worded, { ...room, gapPt: GAP_PT, mostRows: 2 });
  if (words)
    return band({
      labels,
      placed: words,
      linesEach: Math.max(0, ...labels.map(({ lines }) => lines.length)),
      numbered: false,
    });
  const numbers = labels.map((label) => ({ ...label, lines: [String(label.index + 1)], isWithoutMoney: false }));
  const narrow = numbers.map((label) => ({ middleX: label.middleX, widthPt: labelWidthPt(label) }));
  const placed = placeLabels(narrow, { ...room, gapPt: 2, mostRows: 12 });
  if (!placed) throw new RangeError(`${labels.length} legs do not fit on a sheet of ${room.rightX - room.leftX} pt.`);
  return band({ labels: numbers, placed, linesEach: 1, numbered: true });
}

function labelWidthPt(label: LegLabel): number {
  const { lines, severity } = label;
  const widths = lines.map((words, at) => textWidthPt(words, { sizePt: LETTER_PT, weight: weightOf(label, at) }));
  const signPt = severity ? SIGN_PT : 0;
  return Math.max(0, ...widths.map((widthPt, at) => widthPt + (at === 0 ? signPt : 0)));
}

/** The money, or the number that stands for it, is the heavier line. */
function weightOf({ lines, isWithoutMoney = false }: LegLabel, at: number): 400 | 600 {
  return at === lines.length - 1 && !isWithoutMoney ? 600 : 400;
}

interface Placed {
  labels: readonly LegLabel[];
  placed: readonly PlacedLabel[];
  linesEach: number;
  numbered: boolean;
}

function band({ labels, placed, linesEach, numbered }: Placed): LabelBand {
  const rows = Math.max(0, ...placed.map(({ row }) => row)) + 1;
  const rowPt = linesEach * LINE_PT + BETWEEN_PT;
  const heightPt = labels.length === 0 ? 0 : rows * rowPt + LEADER_PT;
  const marksAt: LabelBand['marksAt'] = (topY, reachY) =>
    labels.flatMap((label, at) => {
      const place = placed[at];
      if (!place) return [];
      const rowTopY = (row: number) => topY + row * rowPt;
      return [
        ...wordsOf({ label, place, bottomY: rowTopY(place.row) + linesEach * LINE_PT }),
        leader({ label, place, rowTopY, textPt: linesEach * LINE_PT, foot: [topY + heightPt, reachY(label.index)] }),
      ];
    });
  return { heightPt, numbered, marksAt };
}

function wordsOf({ label, place, bottomY }: { label: LegLabel; place: PlacedLabel; bottomY: number }): Mark[] {
  const { lines, index, severity } = label;
  const legs = [index];
  return lines.flatMap((words, at) => {
    const y = bottomY - (lines.length - 1 - at) * LINE_PT - 2;
    const signed = at === 0 && severity !== undefined;
    const x = place.middleX + (signed ? SIGN_PT / 2 : 0);
    const weight = weightOf(label, at);
    const half = textWidthPt(words, { sizePt: LETTER_PT, weight }) / 2;
    return [
      ...(signed ? warningSign({ at: [x - half - SIGN_PT + 1, y], severity, legs }) : []),
      text({ at: [x, y], text: words, anchor: 'middle', weight, legs }),
    ];
  });
}

/** A triangle for caution, an octagon for stop; the words stand in the findings. */
export function warningSign({
  at: [x, y],
  severity,
  legs,
}: {
  at: Point;
  severity: 'caution' | 'stop';
  legs: readonly number[];
}): Mark[] {
  const shape: Point[] =
    severity === 'caution'
      ? [
          [x, y],
          [x + 3.75, y - 6.8],
          [x + 7.5, y],
        ]
      : [
          [x + 2, y],
          [x, y - 2],
          [x, y - 5],
          [x + 2, y - 7],
          [x + 5, y - 7],
          [x + 7, y - 5],
          [x + 7, y - 2],
          [x + 5, y],
        ];
  const middle = x + (severity === 'caution' ? 3.75 : 3.5);
  return [
    area({ points: shape, tone: severity, weightPt: 0.6, legs }),
    line({
      points: [
        [middle, y - 4.8],
        [middle, y - 2.4],
      ],
      weightPt: 0.9,
      legs,
    }),
    line({
      points: [
        [middle, y - 1.5],
        [middle, y - 0.8],
      ],
      weightPt: 0.9,
      legs,
    }),
  ];
}

interface Leader {
  label: LegLabel;
  place: PlacedLabel;
  rowTopY: (row: number) => number;
  textPt: number;
  /** Where the band ends, and how far down the leader reaches. */
  foot: [bandY: number, reachY: number];
}

/** From below the words, straight down through the rows beneath, over to what it belongs to, and down to it. */
function leader({ label, place, rowTopY, textPt, foot }: Leader): Mark {
  const startY = rowTopY(place.row) + textPt;
  const points: Point[] = [[place.middleX, startY]];
  place.throughX.forEach((x, below) => {
    const row = place.row + 1 + below;
    points.push([x, rowTopY(row)], [x, rowTopY(row) + textPt]);
  });
  points.push([label.middleX, foot[0]], [label.middleX, foot[1]]);
  return line({ points, tone: 'grey', weightPt: 0.4, legs: [label.index] });
}
