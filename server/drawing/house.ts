import { area, box, line, type Mark, type Point } from './drawing.ts';
import { earth } from './ground.ts';
import type { HatchName } from './hatches.ts';
import { HEIGHT_FT, type Stretch, type Under } from './profile.ts';
import { at, type Frame, yOf } from './sheet-frame.ts';

/** A stretch of a house between two abscissas; without a leg it is the room of the panel or of the car. */
export interface Room {
  x0: number;
  x1: number;
  under: Under;
  stretch?: Stretch;
}

const SLAB_FT = 0.4;
const FOOTING_FT = 2;
const WALL_PT = 5;
/** Joists and studs at 16 in, common practice; thinned out where the scale sets them closer than this, in points. */
const LEAST_SPACING_PT = 5;
const SPACING_FT = 16 / 12;

/** Floor, ceiling and what is below one room, drawn in section. */
export function roomOf(room: Room, scale: { frame: Frame; ptPerFtAlong: number }): Mark[] {
  const legs = room.stretch ? [room.stretch.index] : [];
  const { frame } = scale;
  const below = room.under === 'slab' ? slabFloor(room, frame) : suspendedFloor(room, scale);
  const kind = room.stretch?.leg.kind;
  return [
    ...below,
    ...(kind === 'finished-ceiling' ? [ceilingBoard(room, frame)] : []),
    ...(kind === 'finished-wall' ? studs(room, scale) : []),
    ...(frame.houseTopFt >= HEIGHT_FT.roof && room.stretch?.place !== 'end-building' ? attic(room, scale) : []),
  ].map((mark) => ({ ...mark, legs }));
}

function slabFloor({ x0, x1 }: Room, frame: Frame): Mark[] {
  return [
    ...earth({ x0, x1, hatch: 'earth' }, { frame, depthFt: FOOTING_FT }),
    area({ points: box(at(frame, x0, 0.15), at(frame, x1, -SLAB_FT)), hatch: 'concrete', tone: 'ink', weightPt: 0.5 }),
  ];
}

function suspendedFloor(room: Room, { frame, ptPerFtAlong }: { frame: Frame; ptPerFtAlong: number }): Mark[] {
  const { x0, x1, under, stretch } = room;
  const bottomFt = under === 'basement' ? HEIGHT_FT.basementFloor : HEIGHT_FT.crawlFloor;
  const floor =
    under === 'basement'
      ? [
          area({ points: box(at(frame, x0, bottomFt), at(frame, x1, bottomFt - 1)), hatch: 'earth', tone: 'grey' }),
          area({
            points: box(at(frame, x0, bottomFt), at(frame, x1, bottomFt - SLAB_FT)),
            hatch: 'concrete',
            tone: 'ink',
            weightPt: 0.5,
          }),
        ]
      : [
          area({ points: box(at(frame, x0, bottomFt), at(frame, x1, bottomFt - 1)), hatch: 'earth', tone: 'grey' }),
          line({ points: [at(frame, x0, bottomFt), at(frame, x1, bottomFt)], weightPt: 0.75 }),
        ];
  const across = stretch?.leg.across ?? true;
  return [
    ...floor,
    ...(across ? joistsAcross({ x0, x1 }, { frame, ptPerFtAlong }) : joistsAlong({ x0, x1 }, frame)),
    area({ points: box(at(frame, x0, HEIGHT_FT.floor + 0.1), at(frame, x1, HEIGHT_FT.floor)), tone: 'ink' }),
  ];
}

/** Abscissas of joists or studs, at their own spacing or a multiple of it that can be drawn. */
function spaced({ x0, x1 }: { x0: number; x1: number }, ptPerFtAlong: number): number[] {
  const truePt = SPACING_FT * ptPerFtAlong;
  const stepPt = truePt * Math.max(1, Math.ceil(LEAST_SPACING_PT / truePt));
  const count = Math.max(0, Math.floor((x1 - x0) / stepPt));
  const restPt = (x1 - x0 - count * stepPt) / 2;
  return Array.from({ length: count }, (_, nth) => x0 + restPt + (nth + 0.5) * stepPt);
}

function joistsAcross(between: { x0: number; x1: number }, scale: { frame: Frame; ptPerFtAlong: number }): Mark[] {
  const { frame, ptPerFtAlong } = scale;
  return spaced(between, ptPerFtAlong).map((x) =>
    area({
      points: box(at(frame, x - 0.8, HEIGHT_FT.floor), at(frame, x + 0.8, HEIGHT_FT.joistBottom)),
      hatch: 'wood',
      tone: 'ink',
      weightPt: 0.4,
    }),
  );
}

function joistsAlong({ x0, x1 }: { x0: number; x1: number }, frame: Frame): Mark[] {
  return [HEIGHT_FT.joistBottom].map((heightFt) =>
    line({ points: [at(frame, x0, heightFt), at(frame, x1, heightFt)], weightPt: 0.6 }),
  );
}

function ceilingBoard({ x0, x1 }: Room, frame: Frame): Mark {
  return area({ points: box(at(frame, x0, 0.02), at(frame, x1, -0.18)), tone: 'grey', weightPt: 0.3 });
}

function studs(room: Room, { frame, ptPerFtAlong }: { frame: Frame; ptPerFtAlong: number }): Mark[] {
  const floorFt = room.under === 'slab' ? 0.15 : HEIGHT_FT.floor + 0.1;
  const topFt = Math.min(frame.houseTopFt - 0.3, HEIGHT_FT.atticFloor);
  return spaced(room, ptPerFtAlong).map((x) =>
    area({ points: box(at(frame, x - 0.7, topFt), at(frame, x + 0.7, floorFt)), tone: 'shade', weightPt: 0.3 }),
  );
}

/** Ceiling joists, and the rafters' underside above them. */
function attic(room: Room, { frame, ptPerFtAlong }: { frame: Frame; ptPerFtAlong: number }): Mark[] {
  const { x0, x1 } = room;
  const floorFt = HEIGHT_FT.atticFloor;
  return [
    area({ points: box(at(frame, x0, floorFt), at(frame, x1, floorFt - 0.15)), tone: 'grey' }),
    ...spaced(room, ptPerFtAlong).map((x) =>
      area({
        points: box(at(frame, x - 0.7, floorFt + 0.7), at(frame, x + 0.7, floorFt)),
        hatch: 'wood',
        tone: 'ink',
        weightPt: 0.4,
      }),
    ),
    line({ points: [at(frame, x0, HEIGHT_FT.roof), at(frame, x1, HEIGHT_FT.roof)], weightPt: 1.2 }),
    line({ points: [at(frame, x0, HEIGHT_FT.roof - 0.5), at(frame, x1, HEIGHT_FT.roof - 0.5)], weightPt: 0.4 }),
  ];
}

const WALL_HATCH: Record<string, HatchName> = {
  wood: 'wood',
  stucco: 'wood',
  brick: 'masonry',
  block: 'masonry',
  stone: 'masonry',
  'poured-concrete': 'concrete',
  'fire-rated': 'wood',
};

interface Wall {
  x: number;
  under: Under;
  /** What it is of, where that is stated; a foundation is masonry in any case. */
  through: string | undefined;
  topFt: number;
  legs: readonly number[];
}

/** The wall in which the house ends: foundation, and what stands on it up to the cut. */
export function outerWall({ x, under, through, topFt, legs }: Wall, frame: Frame): Mark[] {
  const bottomFt = {
    basement: HEIGHT_FT.basementFloor - SLAB_FT,
    crawl: HEIGHT_FT.crawlFloor - 0.8,
    slab: -FOOTING_FT,
  }[under];
  const sillFt = under === 'slab' ? 0.3 : HEIGHT_FT.joistBottom;
  const x0 = x - WALL_PT / 2;
  const x1 = x + WALL_PT / 2;
  const above = WALL_HATCH[through ?? 'wood'] ?? 'wood';
  const foundation = above === 'wood' ? 'concrete' : above;
  return [
    area({
      points: box(at(frame, x0, sillFt), at(frame, x1, bottomFt)),
      hatch: foundation,
      tone: 'ink',
      weightPt: 0.6,
      legs,
    }),
    area({
      points: box(at(frame, x0, topFt), at(frame, x1, sillFt)),
      hatch: above,
      tone: 'ink',
      weightPt: 0.6,
      legs,
    }),
  ];
}

/** The line by which a drawing says that what it shows goes on: straight, with a zigzag in its middle. */
export function breakLine(from: Point, to: Point): Mark {
  const along = (share: number, asidePt: number): Point => {
    const dx = to[0] - from[0];
    const dy = to[1] - from[1];
    const lengthPt = Math.hypot(dx, dy) || 1;
    return [from[0] + dx * share - (dy / lengthPt) * asidePt, from[1] + dy * share + (dx / lengthPt) * asidePt];
  };
  const halfShare = Math.min(0.2, 6 / (Math.hypot(to[0] - from[0], to[1] - from[1]) || 1));
  return line({
    points: [
      from,
      along(0.5 - halfShare, 0),
      along(0.5 - halfShare / 3, -4),
      along(0.5 + halfShare / 3, 4),
      along(0.5 + halfShare, 0),
      to,
    ],
    tone: 'grey',
    weightPt: 0.5,
  });
}

/** Where the top of a house is cut, in points, y down. */
export function cutY(frame: Frame): number {
  return yOf(frame, frame.houseTopFt);
}
