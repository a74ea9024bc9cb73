import { area, box, LETTER_PT, line, type Mark, type Point, text } from './drawing.ts';
import { textWidthPt } from './font-advances.ts';

/*
 * What small charts have in common: a scale of round steps, an axis with its words, and labels that keep apart.
 */

/** A stretch of values laid out on a stretch of the sheet. */
export interface Scale {
  fromValue: number;
  toValue: number;
  fromPt: number;
  toPt: number;
}

/** Where a value stands on the sheet, in points. */
export function ptOf({ fromValue, toValue, fromPt, toPt }: Scale, value: number): number {
  const share = toValue === fromValue ? 0.5 : (value - fromValue) / (toValue - fromValue);
  return fromPt + share * (toPt - fromPt);
}

/** Round values at even steps of 1, 2 or 5 times a power of ten that lie between two; at most so many. */
export function roundSteps({ from, to, most }: { from: number; to: number; most: number }): number[] {
  const leastStep = Math.max((to - from) / most, Number.MIN_VALUE);
  const ten = 10 ** Math.floor(Math.log10(leastStep));
  const step = [1, 2, 5, 10].map((digit) => digit * ten).find((one) => one >= leastStep * 0.999) ?? 10 * ten;
  const steps: number[] = [];
  for (let nth = Math.ceil(from / step - 1e-9); nth * step <= to + step * 1e-9; nth += 1) steps.push(nth * step + 0);
  return steps;
}

interface Axis {
  scale: Scale;
  /** Of what is drawn above the axis. */
  y: number;
  ticks: readonly { value: number; words: string }[];
}

/** A horizontal axis with its ticks and the words below them. */
export function axisBelow({ scale, y, ticks }: Axis): Mark[] {
  return [
    line({
      points: [
        [scale.fromPt, y],
        [scale.toPt, y],
      ],
      weightPt: 0.75,
    }),
    ...ticks.flatMap(({ value, words }) => {
      const x = ptOf(scale, value);
      const tick: Point[] = [
        [x, y],
        [x, y + 3],
      ];
      return [line({ points: tick }), text({ at: [x, y + 13], text: words, anchor: 'middle' })];
    }),
  ];
}

/** Moves ordinates apart so that each is at least `leastPt` from the next, none above `topPt`; keeps their order. */
export function apart(
  ys: readonly number[],
  { leastPt, topPt, bottomPt }: { leastPt: number; topPt: number; bottomPt: number },
): number[] {
  const order = ys.map((_, at) => at).sort((a, b) => (ys[a] ?? 0) - (ys[b] ?? 0) || a - b);
  const placed = [...ys];
  let nextPt = topPt;
  for (const at of order) {
    placed[at] = Math.max(placed[at] ?? 0, nextPt);
    nextPt = (placed[at] ?? 0) + leastPt;
  }
  let roomPt = bottomPt;
  for (const at of [...order].reverse()) {
    placed[at] = Math.min(placed[at] ?? 0, roomPt);
    roomPt = (placed[at] ?? 0) - leastPt;
  }
  return placed;
}

/** A text cut to a breadth in points, with an ellipsis where something is left out. */
export function cutTo(words: string, widthPt: number): string {
  const width = (shown: string) => textWidthPt(shown, { sizePt: LETTER_PT, weight: 400 });
  if (width(words) <= widthPt) return words;
  let shown = words;
  while (shown.length > 1 && width(`${shown}…`) > widthPt) shown = shown.slice(0, -1);
  return `${shown.trimEnd()}…`;
}

/** A bar between two abscissas. */
export function bar({
  fromX,
  toX,
  y,
  heightPt,
  tone,
}: {
  fromX: number;
  toX: number;
  y: number;
  heightPt: number;
  tone: 'ink' | 'grey' | 'shade';
}): Mark {
  return area({ points: box([fromX, y], [toX, y + heightPt]), tone, weightPt: tone === 'shade' ? 0.5 : 0 });
}
