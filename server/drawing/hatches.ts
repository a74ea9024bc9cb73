/** Materials that are told by a drafting hatch. The strokes are ours, after common drafting practice. */
export const HATCH_NAMES = [
  'earth',
  'clay',
  'rock',
  'backfill',
  'gravel',
  'concrete',
  'asphalt',
  'wood',
  'masonry',
  'siding',
] as const;
export type HatchName = (typeof HATCH_NAMES)[number];

/** One tile of a hatch, repeated in both directions. All in points; a stroke is x, y, x, y, a dot x, y and radius. */
export interface Hatch {
  widthPt: number;
  heightPt: number;
  weightPt: number;
  strokes: readonly (readonly [number, number, number, number])[];
  dots: readonly (readonly [number, number, number])[];
}

/** The line patterns, defined once for page and paper. */
export const HATCHES: Readonly<Record<HatchName, Hatch>> = {
  earth: {
    widthPt: 16,
    heightPt: 10,
    weightPt: 0.35,
    strokes: [
      [0, 5, 4, 1],
      [2, 5, 6, 1],
      [4, 5, 8, 1],
      [8, 10, 12, 6],
      [10, 10, 14, 6],
      [12, 10, 16, 6],
    ],
    dots: [],
  },
  clay: {
    widthPt: 9,
    heightPt: 6,
    weightPt: 0.35,
    strokes: [
      [0, 1.5, 5, 1.5],
      [4.5, 4.5, 9, 4.5],
    ],
    dots: [],
  },
  rock: {
    widthPt: 18,
    heightPt: 12,
    weightPt: 0.35,
    strokes: [
      [1, 4, 4, 1],
      [4, 1, 8, 2],
      [8, 2, 8, 5],
      [8, 5, 3, 6],
      [3, 6, 1, 4],
      [10, 9, 12, 6],
      [12, 6, 17, 7],
      [17, 7, 16, 11],
      [16, 11, 11, 11],
      [11, 11, 10, 9],
    ],
    dots: [],
  },
  backfill: {
    widthPt: 10,
    heightPt: 8,
    weightPt: 0.35,
    strokes: [],
    dots: [
      [2, 2, 0.4],
      [7, 6, 0.4],
    ],
  },
  gravel: {
    widthPt: 9,
    heightPt: 6,
    weightPt: 0.35,
    strokes: [
      [1, 2, 2, 0.8],
      [2, 0.8, 3.4, 1.2],
      [3.4, 1.2, 3.2, 2.6],
      [3.2, 2.6, 1, 2],
      [5.5, 4.8, 6.3, 3.6],
      [6.3, 3.6, 7.8, 4],
      [7.8, 4, 7.4, 5.4],
      [7.4, 5.4, 5.5, 4.8],
    ],
    dots: [
      [6, 1.4, 0.4],
      [2, 4.6, 0.4],
    ],
  },
  concrete: {
    widthPt: 11,
    heightPt: 7,
    weightPt: 0.35,
    strokes: [
      [2, 3, 4, 3],
      [4, 3, 3, 1.2],
      [3, 1.2, 2, 3],
      [7.5, 6.2, 9, 6.2],
      [9, 6.2, 8.2, 4.8],
      [8.2, 4.8, 7.5, 6.2],
    ],
    dots: [
      [7, 1.6, 0.35],
      [9.8, 2.8, 0.35],
      [1, 5.4, 0.35],
      [5, 5, 0.35],
    ],
  },
  asphalt: {
    widthPt: 3,
    heightPt: 3,
    weightPt: 0.35,
    strokes: [],
    dots: [
      [0.75, 0.75, 0.5],
      [2.25, 2.25, 0.5],
    ],
  },
  wood: {
    widthPt: 3,
    heightPt: 3,
    weightPt: 0.3,
    strokes: [[0, 3, 3, 0]],
    dots: [],
  },
  masonry: {
    widthPt: 4,
    heightPt: 4,
    weightPt: 0.35,
    strokes: [
      [0, 4, 4, 0],
      [0, 0, 4, 4],
    ],
    dots: [],
  },
  siding: {
    widthPt: 12,
    heightPt: 5,
    weightPt: 0.3,
    strokes: [[0, 4.5, 12, 4.5]],
    dots: [],
  },
};
