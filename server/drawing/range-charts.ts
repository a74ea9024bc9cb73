import { axisBelow, bar, cutTo, ptOf, roundSteps, type Scale } from './charts.ts';
import { type Drawing, LETTER_PT, line, type Mark, text } from './drawing.ts';
import { textWidthPt } from './font-advances.ts';
import { wholeDollars } from './wording.ts';

/** What moves a total, by name, with what the total is when that alone is low or high. Whole cents. */
export interface DriversInput {
  title: string;
  totalCents: number;
  drivers: readonly { name: string; lowCents: number; highCents: number }[];
  widthPt: number;
}

const ROW_PT = 14;
const BAR_PT = 7;
const TOP_PT = 4;
const AXIS_PT = 18;
/** What the ends of a bar take when they are written. */
const ENDS_PT = 92;

/** Each cause as a bar from its low to its high total, the likely total as a line through all. */
export function driversDrawing({ title, totalCents, drivers, widthPt }: DriversInput): Drawing {
  const namesPt = Math.min(
    widthPt * 0.36,
    Math.max(0, ...drivers.map(({ name }) => textWidthPt(name, { sizePt: LETTER_PT, weight: 400 }))) + 2,
  );
  const ends = drivers.flatMap(({ lowCents, highCents }) => [lowCents, highCents]);
  const least = Math.min(totalCents, ...ends);
  const most = Math.max(totalCents, ...ends);
  const spare = Math.max(1, most - least) * 0.06;
  const scale: Scale = {
    fromValue: least - spare,
    toValue: most + spare,
    fromPt: namesPt + 10,
    toPt: widthPt - ENDS_PT - 8,
  };
  const bottomY = TOP_PT + drivers.length * ROW_PT;
  return {
    title,
    altText: `${title}. ${drivers.map(({ name, lowCents, highCents }) => `${name}: ${wholeDollars(lowCents)} to ${wholeDollars(highCents)}`).join('; ')}. The likely total is ${wholeDollars(totalCents)}.`,
    widthPt,
    heightPt: bottomY + AXIS_PT,
    marks: [
      ...drivers.flatMap((driver, nth) =>
        driverRow(driver, { scale, y: TOP_PT + nth * ROW_PT, namesPt, rightX: widthPt }),
      ),
      line({
        points: [
          [ptOf(scale, totalCents), TOP_PT - 2],
          [ptOf(scale, totalCents), bottomY],
        ],
        weightPt: 0.75,
      }),
      ...axisBelow({ scale, y: bottomY, ticks: moneyTicks(scale, 6) }),
    ],
  };
}

function driverRow(
  { name, lowCents, highCents }: DriversInput['drivers'][number],
  { scale, y, namesPt, rightX }: { scale: Scale; y: number; namesPt: number; rightX: number },
): Mark[] {
  return [
    text({ at: [namesPt, y + 8.5], text: cutTo(name, namesPt), anchor: 'end' }),
    bar({ fromX: ptOf(scale, lowCents), toX: ptOf(scale, highCents), y: y + 2, heightPt: BAR_PT, tone: 'shade' }),
    text({ at: [rightX, y + 8.5], text: `${wholeDollars(lowCents)} to ${wholeDollars(highCents)}`, anchor: 'end' }),
  ];
}

function moneyTicks(scale: Scale, most: number): { value: number; words: string }[] {
  const steps = roundSteps({ from: scale.fromValue, to: scale.toValue, most });
  return steps.map((value) => ({ value, words: wholeDollars(value) }));
}

/** How often a total lies where: bars of one width, shares of all draws; and the points that are written beside. */
export interface ShapeInput {
  title: string;
  shape: { fromCents: number; stepCents: number; shares: readonly number[] };
  p10Cents: number;
  p50Cents: number;
  p90Cents: number;
  likelyCents: number;
  widthPt: number;
}

const SHAPE_PT = 54;
/** Room for the words over the bars. */
const WORDS_PT = 13;
/** Bars so rare that they only stretch the drawing are left out at both ends. */
const RAREST_SHARE = 0.0005;

/** The distribution as it was drawn: two humps stay two humps. A line for the middle, a bracket from p10 to p90. */
export function shapeDrawing(input: ShapeInput): Drawing {
  const { title, shape, widthPt, p10Cents, p50Cents, p90Cents, likelyCents } = input;
  const first = Math.max(
    0,
    shape.shares.findIndex((share) => share > RAREST_SHARE),
  );
  const last = Math.max(
    first,
    shape.shares.findLastIndex((share) => share > RAREST_SHARE),
  );
  const edge = (nth: number) => shape.fromCents + nth * shape.stepCents;
  const scale: Scale = {
    fromValue: Math.min(edge(first), p10Cents, likelyCents),
    toValue: Math.max(edge(last + 1), p90Cents, likelyCents),
    fromPt: 22,
    toPt: widthPt - 22,
  };
  const baseY = WORDS_PT + SHAPE_PT;
  const tallest = Math.max(...shape.shares, Number.MIN_VALUE);
  const bars = shape.shares.flatMap((share, nth): Mark[] => {
    if (nth < first || nth > last || share === 0) return [];
    const heightPt = (share / tallest) * (SHAPE_PT - 4);
    const [fromX, toX] = [ptOf(scale, edge(nth)), ptOf(scale, edge(nth + 1))];
    return [bar({ fromX, toX, y: baseY - heightPt, heightPt, tone: 'shade' })];
  });
  return {
    title,
    altText: `${title}: one in ten below ${wholeDollars(p10Cents)}, half below ${wholeDollars(p50Cents)}, one in ten above ${wholeDollars(p90Cents)}; the likely prices add up to ${wholeDollars(likelyCents)}.`,
    widthPt,
    heightPt: baseY + AXIS_PT,
    marks: [
      ...bars,
      ...percentileMarks({
        p10X: ptOf(scale, p10Cents),
        p50X: ptOf(scale, p50Cents),
        p90X: ptOf(scale, p90Cents),
        baseY,
        widthPt,
      }),
      ...axisBelow({ scale, y: baseY, ticks: moneyTicks(scale, 7) }),
    ],
  };
}

interface Percentiles {
  p10X: number;
  p50X: number;
  p90X: number;
  baseY: number;
  widthPt: number;
}

const PERCENTILE_WORDS = { p10: '1 in 10 below', p50: 'half', p90: '1 in 10 above' } as const;
/** Least distance between two of those words, in points. */
const BETWEEN_WORDS_PT = 5;

/** Three strokes down to the axis, with words that stay on the sheet and apart from each other. */
function percentileMarks({ p10X, p50X, p90X, baseY, widthPt }: Percentiles): Mark[] {
  const widthOf = (words: string) => textWidthPt(words, { sizePt: LETTER_PT, weight: 400 });
  const { p10, p50, p90 } = PERCENTILE_WORDS;
  const p10From = Math.max(0, p10X + 2 - widthOf(p10));
  const leastP50 = p10From + widthOf(p10) + BETWEEN_WORDS_PT;
  const p50From = Math.max(leastP50, p50X - widthOf(p50) / 2);
  const leastP90 = p50From + widthOf(p50) + BETWEEN_WORDS_PT;
  const p90From = Math.min(Math.max(leastP90, p90X - 2), widthPt - widthOf(p90));
  const p50At = Math.min(p50From, p90From - BETWEEN_WORDS_PT - widthOf(p50));
  const words = [
    { at: Math.min(p10From, p50At - BETWEEN_WORDS_PT - widthOf(p10)), words: p10 },
    { at: p50At, words: p50 },
    { at: p90From, words: p90 },
  ];
  return [
    ...[p10X, p50X, p90X].map((x) =>
      line({
        points: [
          [x, WORDS_PT - 2],
          [x, baseY],
        ],
        weightPt: 0.75,
      }),
    ),
    ...words.map(({ at, words: said }) => text({ at: [at, WORDS_PT - 5], text: said })),
  ];
}
