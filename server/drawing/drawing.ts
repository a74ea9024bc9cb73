import type { HatchName } from './hatches.ts';

/**
 * What a mark is drawn in. `ink` to `paper` are the sheet's own; `route` to `excavation` are the uniform colors by
 * which underground lines are marked (APWA), `caution` and `stop` the safety colors.
 */
export const TONES = [
  'ink',
  'grey',
  'faint',
  'shade',
  'paper',
  'route',
  'gas',
  'communications',
  'water',
  'sewer',
  'irrigation',
  'excavation',
  'caution',
  'stop',
] as const;
export type Tone = (typeof TONES)[number];

/** A point in points (1/72 in) from the upper left corner, y down. */
export type Point = [xPt: number, yPt: number];

/**
 * One stroke, filled shape or text. Of a line `weight` is its breadth in points, of an area that of its outline in ink
 * (0: none), of a text the font's weight, 400 or 600. An area covers what was drawn before it. A text stands on its
 * one point, the base line. `legs` are the legs of the route that it belongs to, by index.
 */
export interface Mark {
  kind: 'line' | 'area' | 'text';
  points: Point[];
  text?: string;
  sizePt?: number;
  anchor?: 'start' | 'middle' | 'end';
  weight: number;
  hatch?: HatchName;
  tone: Tone;
  legs: number[];
}

/** A drawing as plain data: the page and the paper draw the same marks, in this order. */
export interface Drawing {
  title: string;
  altText: string;
  widthPt: number;
  heightPt: number;
  marks: Mark[];
}

interface Stroke {
  points: Point[];
  tone?: Tone;
  weightPt?: number;
  legs?: readonly number[];
}

/** A stroke through points, half a point of ink unless stated. */
export function line({ points, tone = 'ink', weightPt = 0.5, legs = [] }: Stroke): Mark {
  return { kind: 'line', points: points.map(rounded), weight: weightPt, tone, legs: [...legs] };
}

interface Fill extends Stroke {
  hatch?: HatchName;
}

/** A closed shape, filled with its tone or hatched in it; without outline unless `weightPt` is stated. */
export function area({ points, tone = 'grey', weightPt = 0, hatch, legs = [] }: Fill): Mark {
  return {
    kind: 'area',
    points: points.map(rounded),
    weight: weightPt,
    ...(hatch && { hatch }),
    tone,
    legs: [...legs],
  };
}

/** A rectangle's corners from two of them that lie opposite. */
export function box([x0, y0]: Point, [x1, y1]: Point): Point[] {
  return [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
  ];
}

/** A circle as a polygon of 16 corners. */
export function circle([x, y]: Point, radiusPt: number): Point[] {
  return Array.from({ length: 16 }, (_, at): Point => {
    const angle = (at * Math.PI) / 8;
    return [x + radiusPt * Math.cos(angle), y + radiusPt * Math.sin(angle)];
  });
}

interface Words {
  at: Point;
  text: string;
  sizePt?: number;
  anchor?: 'start' | 'middle' | 'end';
  weight?: 400 | 600;
  tone?: Tone;
  legs?: readonly number[];
}

/** The least size of letters on a drawing, in points, so that a print can be read at arm's length. */
export const LETTER_PT = 9;

/** A line of text on its base line. */
export function text({
  at,
  text: words,
  sizePt = LETTER_PT,
  anchor = 'start',
  weight = 400,
  tone = 'ink',
  legs = [],
}: Words): Mark {
  return { kind: 'text', points: [rounded(at)], text: words, sizePt, anchor, weight, tone, legs: [...legs] };
}

/** Strokes and gaps of a broken line, each as a mark of its own. */
export function dashed(stroke: Stroke & { dashPt: number; gapPt: number }): Mark[] {
  const marks: Mark[] = [];
  for (const [at, from] of stroke.points.slice(0, -1).entries()) {
    const to = stroke.points[at + 1] ?? from;
    const lengthPt = Math.hypot(to[0] - from[0], to[1] - from[1]);
    const between = (distancePt: number): Point => [
      from[0] + ((to[0] - from[0]) * distancePt) / lengthPt,
      from[1] + ((to[1] - from[1]) * distancePt) / lengthPt,
    ];
    for (let start = 0; start < lengthPt; start += stroke.dashPt + stroke.gapPt) {
      const end = Math.min(start + stroke.dashPt, lengthPt);
      marks.push(line({ ...stroke, points: [between(start), between(end)] }));
    }
  }
  return marks;
}

/** Hundredths of a point are finer than any printer, and print the same everywhere. */
function rounded([x, y]: Point): Point {
  return [Math.round(x * 100) / 100 + 0, Math.round(y * 100) / 100 + 0];
}
