import { isDitch } from '../estimate/vocabulary.ts';
import { area, box, dashed, line, type Mark, type Point } from './drawing.ts';
import type { HatchName } from './hatches.ts';
import type { Stretch } from './profile.ts';
import { at, type Frame, yOf } from './sheet-frame.ts';

/** How far the hatch of the ground reaches below what is drawn in it, in feet. */
const BELOW_FT = 0.9;
/** A slab, in points at least, or its hatch could not be told. */
const LEAST_SLAB_PT = 4.5;
const TUFT_PT = 7;

/** How deep the hatched ground reaches, in feet, for the deepest of these stretches. */
export function groundDepthFt(stretches: readonly Stretch[]): number {
  return Math.max(1, ...stretches.map(({ routeFt }) => -routeFt)) + BELOW_FT;
}

/** The ground of one outdoor stretch: earth, ditch, and what covers it. */
export function groundOf(stretch: Stretch, { frame, depthFt }: { frame: Frame; depthFt: number }): Mark[] {
  return [
    ...earth({ x0: stretch.x0, x1: stretch.x1, hatch: soilOf(stretch), legs: [stretch.index] }, { frame, depthFt }),
    ...(isDitch(stretch.leg.kind) ? ditch(stretch, frame) : []),
    ...surface(stretch, frame),
    ...(stretch.leg.kind === 'bore' ? boreHole(stretch, frame) : []),
  ];
}

interface Ground {
  x0: number;
  x1: number;
  hatch: HatchName;
  legs?: readonly number[];
}

/** Hatched earth below the ground line, without a lower edge: nobody knows where it ends. */
export function earth(
  { x0, x1, hatch, legs = [] }: Ground,
  { frame, depthFt }: { frame: Frame; depthFt: number },
): Mark[] {
  return [area({ points: box(at(frame, x0, 0), at(frame, x1, -depthFt)), hatch, tone: 'grey', legs })];
}

function soilOf({ leg }: Stretch): HatchName {
  if (leg.soil?.includes('rocky')) return 'rock';
  return leg.soil?.includes('clay') ? 'clay' : 'earth';
}

/** The excavation that is proposed: filled again, its edge broken. */
function ditch({ x0, x1, routeFt, index }: Stretch, frame: Frame): Mark[] {
  const bottomFt = routeFt - 0.25;
  const edge: Point[] = [at(frame, x0, 0), at(frame, x0, bottomFt), at(frame, x1, bottomFt), at(frame, x1, 0)];
  return [
    area({ points: edge, hatch: 'backfill', tone: 'grey', legs: [index] }),
    ...dashed({
      points: [at(frame, x0, bottomFt), at(frame, x1, bottomFt)],
      tone: 'excavation',
      weightPt: 0.75,
      dashPt: 4,
      gapPt: 2.5,
      legs: [index],
    }),
  ];
}

function boreHole({ x0, x1, routeFt, index }: Stretch, frame: Frame): Mark[] {
  return [routeFt + 0.35, routeFt - 0.35].flatMap((heightFt) =>
    dashed({
      points: [at(frame, x0, heightFt), at(frame, x1, heightFt)],
      tone: 'excavation',
      weightPt: 0.75,
      dashPt: 4,
      gapPt: 2.5,
      legs: [index],
    }),
  );
}

function surface(stretch: Stretch, frame: Frame): Mark[] {
  const { leg, index, x0, x1 } = stretch;
  const groundLine = line({ points: [at(frame, x0, 0), at(frame, x1, 0)], weightPt: 1, legs: [index] });
  switch (leg.kind) {
    case 'lawn-trench':
    case 'overhead-span':
      return [groundLine, ...grass(stretch, frame)];
    case 'planting-bed':
      return [groundLine, ...plants(stretch, frame)];
    case 'gravel-trench':
      return [layer(stretch, { frame, thicknessIn: 6, hatch: 'gravel' }), groundLine];
    case 'concrete-cut':
      return [layer(stretch, { frame, thicknessIn: leg.thicknessIn ?? 4, hatch: 'concrete' }), groundLine];
    case 'asphalt-cut':
      return [layer(stretch, { frame, thicknessIn: leg.thicknessIn ?? 4, hatch: 'asphalt' }), groundLine];
    case 'pavers-lift':
      return pavers(stretch, frame);
    case 'under-deck':
      return [groundLine, ...deck(stretch, frame)];
    case 'exterior-wall':
      return [...wallBehind(stretch, frame), groundLine];
    default:
      return [groundLine];
  }
}

interface Layer {
  frame: Frame;
  thicknessIn: number;
  hatch: HatchName;
}

function layer({ x0, x1, index }: Stretch, { frame, thicknessIn, hatch }: Layer): Mark {
  const thicknessPt = Math.max(LEAST_SLAB_PT, (thicknessIn / 12) * frame.ptPerFtUp);
  const points = box([x0, frame.groundY], [x1, frame.groundY + thicknessPt]);
  return area({ points, hatch, tone: 'ink', weightPt: 0.5, legs: [index] });
}

/** Abscissas that share a length evenly, about so many points apart, away from both ends. */
function evenly({ x0, x1 }: { x0: number; x1: number }, aboutPt: number): number[] {
  const count = Math.max(1, Math.floor((x1 - x0) / aboutPt));
  return Array.from({ length: count }, (_, index) => x0 + ((x1 - x0) * (index + 0.5)) / count);
}

function grass(stretch: Stretch, { groundY }: Frame): Mark[] {
  return evenly(stretch, TUFT_PT).flatMap((x) =>
    [-1.6, 0, 1.6].map((lean) =>
      line({
        points: [
          [x, groundY],
          [x + lean, groundY - 3.2],
        ],
        tone: 'grey',
        weightPt: 0.4,
        legs: [stretch.index],
      }),
    ),
  );
}

function plants(stretch: Stretch, { groundY }: Frame): Mark[] {
  return evenly(stretch, 12).flatMap((x, nth) => {
    const tallPt = nth % 2 === 0 ? 9 : 6.5;
    const leaf = (lean: number, upPt: number): Mark =>
      line({
        points: [
          [x, groundY],
          [x + lean * 0.4, groundY - upPt * 0.7],
          [x + lean, groundY - upPt],
        ],
        tone: 'grey',
        weightPt: 0.5,
        legs: [stretch.index],
      });
    return [
      leaf(-3.5, tallPt * 0.7),
      leaf(0, tallPt),
      leaf(3.5, tallPt * 0.7),
      leaf(-1.5, tallPt * 0.9),
      leaf(1.8, tallPt * 0.85),
    ];
  });
}

function pavers(stretch: Stretch, { groundY }: Frame): Mark[] {
  const stones = evenly(stretch, 7);
  const halfPt = (stretch.x1 - stretch.x0) / stones.length / 2;
  return [
    layerOfSand(stretch, groundY),
    ...stones.map((x) =>
      area({
        points: box([x - halfPt + 0.4, groundY], [x + halfPt - 0.4, groundY + LEAST_SLAB_PT]),
        tone: 'paper',
        weightPt: 0.6,
        legs: [stretch.index],
      }),
    ),
  ];
}

function layerOfSand({ x0, x1, index }: Stretch, groundY: number): Mark {
  const points = box([x0, groundY], [x1, groundY + LEAST_SLAB_PT + 2.5]);
  return area({ points, hatch: 'backfill', tone: 'grey', legs: [index] });
}

/** Boards on joists and posts, over the route that hangs below them. */
function deck(stretch: Stretch, frame: Frame): Mark[] {
  const legs = [stretch.index];
  const boardsY = yOf(frame, 2.75);
  const joistsY = yOf(frame, 2.1);
  const posts = evenly(stretch, 46).flatMap((x) => [
    area({ points: box([x - 1.6, joistsY], [x + 1.6, frame.groundY + 5]), tone: 'paper', weightPt: 0.5, legs }),
    area({
      points: box([x - 4, frame.groundY + 2], [x + 4, frame.groundY + 9]),
      hatch: 'concrete',
      tone: 'ink',
      weightPt: 0.5,
      legs,
    }),
  ]);
  const railY = yOf(frame, 5.6);
  const rail = [
    line({
      points: [
        [stretch.x0, railY],
        [stretch.x1, railY],
      ],
      tone: 'grey',
      weightPt: 0.7,
      legs,
    }),
    ...evenly(stretch, 5).map((x) =>
      line({
        points: [
          [x, railY],
          [x, boardsY],
        ],
        tone: 'faint',
        weightPt: 0.5,
        legs,
      }),
    ),
  ];
  return [
    ...rail,
    ...posts,
    area({ points: box([stretch.x0, boardsY], [stretch.x1, joistsY]), tone: 'paper', weightPt: 0.5, legs }),
    area({
      points: box([stretch.x0, boardsY - 2], [stretch.x1, boardsY]),
      hatch: 'wood',
      tone: 'ink',
      weightPt: 0.6,
      legs,
    }),
  ];
}

/** The house's wall seen from outside, which the route is fixed to. */
function wallBehind({ x0, x1, index }: Stretch, frame: Frame): Mark[] {
  const topY = yOf(frame, frame.houseTopFt);
  return [
    area({ points: box([x0, topY], [x1, yOf(frame, 0.8)]), hatch: 'siding', tone: 'grey', legs: [index] }),
    area({
      points: box([x0, yOf(frame, 0.8)], [x1, frame.groundY]),
      hatch: 'backfill',
      tone: 'grey',
      weightPt: 0.4,
      legs: [index],
    }),
    line({
      points: [
        [x1, topY],
        [x1, frame.groundY],
      ],
      weightPt: 0.6,
      legs: [index],
    }),
  ];
}
