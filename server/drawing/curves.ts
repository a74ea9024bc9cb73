import { apart, axisBelow, cutTo, ptOf, roundSteps, type Scale } from './charts.ts';
import { area, circle, type Drawing, dashed, LETTER_PT, line, type Mark, type Point, text } from './drawing.ts';
import { textWidthPt } from './font-advances.ts';
import { wholeDollars } from './wording.ts';

/** Totals of options over something that grows: feet of the longest ditch, or amperes of charging. */
export interface CurvesInput {
  title: string;
  /** What stands below the axis, such as `longest trench, ft`. */
  axisWords: string;
  points: readonly { at: number; totals: Readonly<Record<string, number>> }[];
  options: readonly { id: string; label: string }[];
  /** What the job itself has, where it is one of the points: a thin line marks it. */
  own?: number;
  /** Where two curves cross: a ring with its words above, where there is room for them. */
  crossings?: readonly { at: number; totalCents: number; mark: string }[];
  widthPt: number;
}

const PLOT_PT = 104;
const TOP_PT = 12;
const BELOW_PT = 30;
const MONEY_PT = 46;
/** Labels at the ends of the curves take at most this share of the breadth. */
const LABEL_SHARE = 0.3;
/** Strokes that tell curves apart without color: unbroken, long dashes, short dashes, dots; then the same in grey. */
const DASHES = [undefined, [9, 3], [4, 2.5], [1.4, 2.2]] as const;

/** Curves of price, each named at its end; an option that cannot be built somewhere leaves that stretch out. */
export function curvesDrawing(input: CurvesInput): Drawing {
  const { points, options, widthPt, axisWords, title } = input;
  const shown = options.filter(({ id }) => points.some(({ totals }) => totals[id] !== undefined));
  const atEnd = shown.filter(({ id }) => points.at(-1)?.totals[id] !== undefined);
  const labelPt = Math.min(
    widthPt * LABEL_SHARE,
    Math.max(0, ...atEnd.map(({ label }) => textWidthPt(label, { sizePt: LETTER_PT, weight: 400 }))) + 2,
  );
  const x = scaleOf(
    points.map(({ at }) => at),
    { fromPt: MONEY_PT, toPt: widthPt - labelPt - 10, margin: 0 },
  );
  const money = points.flatMap(({ totals }) => shown.flatMap(({ id }) => totals[id] ?? []));
  const y = scaleOf(money, { fromPt: TOP_PT + PLOT_PT, toPt: TOP_PT, margin: 0.08 });
  return {
    title,
    altText: curvesInWords(input, shown),
    widthPt,
    heightPt: TOP_PT + PLOT_PT + BELOW_PT,
    marks: [
      ...moneyLines(y, x),
      ...ownLine(input.own, x),
      ...shown.flatMap(({ id }, nth) => curve({ id, nth, points, x, y })),
      ...crossingMarks(input.crossings ?? [], { x, y }),
      ...endLabels({ shown, points, x, y, labelPt }),
      ...axisBelow({
        scale: x,
        y: TOP_PT + PLOT_PT,
        ticks: ticksOf(
          points.map(({ at }) => at),
          x,
        ).map((value) => ({ value, words: String(value) })),
      }),
      text({ at: [(x.fromPt + x.toPt) / 2, TOP_PT + PLOT_PT + 25], text: axisWords, anchor: 'middle', tone: 'ink' }),
    ],
  };
}

function scaleOf(
  values: readonly number[],
  { fromPt, toPt, margin }: { fromPt: number; toPt: number; margin: number },
): Scale {
  const [least, most] = [Math.min(...values), Math.max(...values)];
  const spare = Math.max(most - least, most * 0.02, 1) * margin;
  return { fromValue: least - spare, toValue: most + spare, fromPt, toPt };
}

/** The points themselves, those left out that would stand on each other. */
function ticksOf(values: readonly number[], x: Scale): number[] {
  const kept: number[] = [];
  for (const value of [...values].sort((a, b) => b - a)) {
    const last = kept.at(-1);
    if (last === undefined || ptOf(x, last) - ptOf(x, value) > 20) kept.push(value);
  }
  return kept;
}

function moneyLines(y: Scale, x: Scale): Mark[] {
  return roundSteps({ from: y.fromValue, to: y.toValue, most: 4 }).flatMap((cents) => {
    const atY = ptOf(y, cents);
    return [
      line({
        points: [
          [x.fromPt, atY],
          [x.toPt, atY],
        ],
        tone: 'faint',
        weightPt: 0.4,
      }),
      text({ at: [x.fromPt - 5, atY + 3], text: wholeDollars(cents), anchor: 'end' }),
    ];
  });
}

function ownLine(own: number | undefined, x: Scale): Mark[] {
  if (own === undefined || own < x.fromValue || own > x.toValue) return [];
  const atX = ptOf(x, own);
  const words = 'as stated';
  const left = atX + textWidthPt(words, { sizePt: LETTER_PT, weight: 400 }) + 3 > x.toPt;
  return [
    ...dashed({
      points: [
        [atX, TOP_PT],
        [atX, TOP_PT + PLOT_PT],
      ],
      tone: 'grey',
      weightPt: 0.5,
      dashPt: 3,
      gapPt: 2,
    }),
    text({ at: [left ? atX - 3 : atX + 3, TOP_PT - 3], text: words, anchor: left ? 'end' : 'start' }),
  ];
}

const RING_PT = 3.2;
const ASIDE_PT = 6;

/** A ring at each crossing; words stand above or below it, unless they would stand on others or leave the plot. */
function crossingMarks(crossings: NonNullable<CurvesInput['crossings']>, { x, y }: { x: Scale; y: Scale }): Mark[] {
  const taken: { x: number; y: number; halfPt: number }[] = [];
  return crossings.flatMap(({ at, totalCents, mark }) => {
    const [atX, atY] = [ptOf(x, at), ptOf(y, totalCents)];
    const ring = line({ points: [...circle([atX, atY], RING_PT), [atX + RING_PT, atY]], tone: 'ink', weightPt: 0.9 });
    const halfPt = textWidthPt(mark, { sizePt: LETTER_PT, weight: 600 }) / 2;
    const isFree = (wordsY: number) =>
      wordsY - LETTER_PT > TOP_PT &&
      wordsY < TOP_PT + PLOT_PT - 2 &&
      atX - halfPt > x.fromPt &&
      atX + halfPt < x.toPt &&
      taken.every(
        (other) => Math.abs(other.x - atX) > other.halfPt + halfPt + 3 || Math.abs(other.y - wordsY) > LETTER_PT,
      );
    const wordsY = [atY - ASIDE_PT, atY + ASIDE_PT + LETTER_PT].find(isFree);
    if (wordsY === undefined) return [ring];
    taken.push({ x: atX, y: wordsY, halfPt });
    return [ring, text({ at: [atX, wordsY], text: mark, anchor: 'middle', weight: 600 })];
  });
}

interface CurveInput {
  id: string;
  nth: number;
  points: CurvesInput['points'];
  x: Scale;
  y: Scale;
}

function curve({ id, nth, points, x, y }: CurveInput): Mark[] {
  const stretches: Point[][] = [[]];
  for (const { at, totals } of points) {
    const cents = totals[id];
    if (cents === undefined) stretches.push([]);
    else stretches.at(-1)?.push([ptOf(x, at), ptOf(y, cents)]);
  }
  const dash = DASHES[nth % DASHES.length];
  const tone = nth < DASHES.length ? 'ink' : 'grey';
  return stretches.flatMap((stretch) => {
    const [first] = stretch;
    if (!first) return [];
    const dots = stretch.map((point) => area({ points: circle(point, 1.3), tone }));
    if (stretch.length === 1) return dots;
    if (!dash) return [line({ points: stretch, tone, weightPt: 1.2 }), ...dots];
    return [...dashed({ points: stretch, tone, weightPt: 1.2, dashPt: dash[0], gapPt: dash[1] }), ...dots];
  });
}

interface Labels {
  shown: CurvesInput['options'];
  points: CurvesInput['points'];
  x: Scale;
  y: Scale;
  labelPt: number;
}

/** Each curve's name: at the right edge, apart from the others, or above its last point where it ends before. */
function endLabels({ shown, points, x, y, labelPt }: Labels): Mark[] {
  const ends = shown.map(({ id, label }) => {
    const last = points.findLast(({ totals }) => totals[id] !== undefined);
    return { label, endX: ptOf(x, last?.at ?? 0), endY: ptOf(y, last?.totals[id] ?? 0) };
  });
  const isWhole = ({ endX }: { endX: number }) => endX >= x.toPt - 1;
  const whole = ends.filter(isWhole);
  const ys = apart(
    whole.map(({ endY }) => endY),
    { leastPt: LETTER_PT + 1.5, topPt: TOP_PT, bottomPt: TOP_PT + PLOT_PT },
  );
  const early = ends.filter((end) => !isWhole(end));
  return [
    ...early.map(({ label, endX, endY }) =>
      text({ at: [endX, endY - 6], text: cutTo(label, endX - x.fromPt), anchor: 'end' }),
    ),
    ...whole.flatMap(({ label, endX, endY }, nth) => {
      const labelY = ys[nth] ?? endY;
      const points: Point[] = [
        [endX + 2.5, endY],
        [x.toPt + 7, labelY],
      ];
      return [
        line({ points, tone: 'faint', weightPt: 0.5 }),
        text({ at: [x.toPt + 9, labelY + 3], text: cutTo(label, labelPt) }),
      ];
    }),
  ];
}

function curvesInWords(
  { title, points, axisWords, crossings = [] }: CurvesInput,
  shown: CurvesInput['options'],
): string {
  const each = shown.map(({ id, label }) => {
    const known = points.filter(({ totals }) => totals[id] !== undefined);
    return `${label}: ${known.map(({ at, totals }) => `${at}: ${wholeDollars(totals[id] ?? 0)}`).join(', ')}`;
  });
  const crossed = crossings.length > 0 ? ` Lines cross at about ${crossings.map(({ mark }) => mark).join(', ')}.` : '';
  return `${title}, by ${axisWords}. ${each.join('. ')}.${crossed}`;
}
