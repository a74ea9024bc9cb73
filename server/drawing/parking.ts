import { area, box, circle, line, type Mark, type Point, text } from './drawing.ts';
import { earth } from './ground.ts';
import { at, type Frame, yOf } from './sheet-frame.ts';

/** Where the car is charged. */
export interface Parking {
  building: 'attached' | 'detached' | 'outdoor';
  mount: 'wall' | 'post' | 'pedestal';
  /** Does the route end in a panel, from which the charger is fed? */
  panel: boolean;
  chargers: number;
  /** What stands there, in lines of at most 80 pt. */
  words: readonly string[];
}

/** What the parking place takes beside the route, in points; not to scale. */
export const PARKING_PT = 132;
const PANEL_X = 9;
const CHARGER_X = 33;
const CAR_X = 46;
const CAR_LENGTH_PT = 76;
const CAR_HEIGHT_PT = 24;
const CHARGER_FT = 3.6;
/** Eaves and ridge of a garage, in feet; common make, no source. */
export const EAVE_FT = 7.6;
export const RIDGE_FT = 10.4;

/** The parking place where it stands on the sheet. */
export interface Place {
  parking: Parking;
  frame: Frame;
  /** Where the route ends on the sheet, and how high it is there. */
  x: number;
  routeFt: number;
  /** Where the building that it stands in begins. */
  fromX: number;
  /** Does the last leg run indoors? Then it rises in the wall. */
  inside: boolean;
  /** Is anything run at all? */
  routed: boolean;
  depthFt: number;
}

/** The ground of the parking place, and the building on it. */
export function parkingGround({ parking, frame, x, fromX, depthFt }: Place): Mark[] {
  const x1 = x + PARKING_PT;
  return [
    ...earth({ x0: x, x1, hatch: 'earth' }, { frame, depthFt }),
    ...(isRoofed(parking)
      ? garage({ x0: fromX, x1 }, frame)
      : [line({ points: [at(frame, x, 0), at(frame, x1, 0)], weightPt: 1 })]),
  ];
}

/** What stands on the parking place, over the last of the route: panel, charger, car, and their names. */
export function parkingThings(place: Place): Mark[] {
  const { parking, frame, x } = place;
  const firstY = yOf(frame, CHARGER_FT + 0.2) - 4 - (parking.words.length - 1) * 11;
  return [
    ...support(place),
    ...lastOfRoute(place),
    ...(parking.panel ? panelBox([x + PANEL_X, yOf(frame, CHARGER_FT + 1.2)]) : []),
    ...(parking.chargers > 0 ? charger(place) : []),
    ...car([x + CAR_X, yOf(frame, isRoofed(parking) ? 0.15 : 0)]),
    ...parking.words.map((words, nth) => text({ at: [x + CAR_X + 2, firstY + nth * 11], text: words })),
  ];
}

function isRoofed({ building }: Parking): boolean {
  return building !== 'outdoor';
}

function garage({ x0, x1 }: { x0: number; x1: number }, frame: Frame): Mark[] {
  const eaveFt = EAVE_FT;
  const middle = (x0 + x1) / 2;
  return [
    area({ points: box(at(frame, x0, 0.15), at(frame, x1, -0.4)), hatch: 'concrete', tone: 'ink', weightPt: 0.5 }),
    area({ points: box(at(frame, x1 - 4, eaveFt), at(frame, x1, 0.15)), hatch: 'wood', tone: 'ink', weightPt: 0.6 }),
    line({
      points: [at(frame, x0 - 5, eaveFt - 0.3), at(frame, middle, RIDGE_FT), at(frame, x1 + 5, eaveFt - 0.3)],
      weightPt: 1.2,
    }),
    line({ points: [at(frame, x0, eaveFt), at(frame, x1, eaveFt)], weightPt: 0.5 }),
  ];
}

/** What the charger hangs on: a post or pedestal of its own, or a wall. */
function support({ parking, frame, x }: Place): Mark[] {
  if (parking.chargers === 0 || parking.building !== 'outdoor') return [];
  const postX = x + CHARGER_X;
  if (parking.mount === 'wall') {
    return [
      area({
        points: box(at(frame, postX - 12, 6.2), at(frame, postX + 8, 0)),
        hatch: 'siding',
        tone: 'grey',
        weightPt: 0.5,
      }),
    ];
  }
  const halfPt = parking.mount === 'post' ? 1.8 : 4;
  return [
    area({
      points: box(at(frame, postX - halfPt - 2.5, 0), at(frame, postX + halfPt + 2.5, -1)),
      hatch: 'concrete',
      tone: 'ink',
      weightPt: 0.5,
    }),
    area({
      points: box(at(frame, postX - halfPt, CHARGER_FT + 1.8), at(frame, postX + halfPt, -0.6)),
      tone: 'shade',
      weightPt: 0.5,
    }),
  ];
}

/** From the end of the last leg up to the panel or the charger; red as all of our route. */
function lastOfRoute(place: Place): Mark[] {
  const { parking, frame, x, routeFt, inside } = place;
  const red = (points: Point[]): Mark => line({ points, tone: 'route', weightPt: 1.8 });
  const toX = x + (parking.panel ? PANEL_X + 5 : CHARGER_X);
  const toFt = CHARGER_FT;
  if (!place.routed || (!parking.panel && parking.chargers === 0)) return [];
  const crossFt = inside && routeFt < toFt ? toFt + 0.6 : routeFt;
  const rise = red([at(frame, x, routeFt), at(frame, x, crossFt), at(frame, toX, crossFt), at(frame, toX, toFt)]);
  if (!parking.panel || parking.chargers === 0) return [rise];
  const y = yOf(frame, CHARGER_FT + 0.6);
  return [
    rise,
    red([
      [x + PANEL_X + 10, y],
      [x + CHARGER_X - 4.5, y],
    ]),
  ];
}

/** A panel with its door and two rows of breakers, from its upper left corner. */
export function panelBox([x, y]: Point): Mark[] {
  const rows = [5.5, 8, 10.5, 13];
  return [
    area({ points: box([x, y], [x + 10, y + 17]), tone: 'paper', weightPt: 0.9 }),
    ...rows.flatMap((down) => [
      line({
        points: [
          [x + 2.2, y + down],
          [x + 4.4, y + down],
        ],
        weightPt: 0.6,
      }),
      line({
        points: [
          [x + 5.6, y + down],
          [x + 7.8, y + down],
        ],
        weightPt: 0.6,
      }),
    ]),
  ];
}

/** The charger and its cord to the car. */
function charger({ frame, x }: Place): Mark[] {
  const middle = x + CHARGER_X;
  const y = yOf(frame, CHARGER_FT + 1.2);
  const port: Point = [x + CAR_X + 5, frame.groundY - CAR_HEIGHT_PT * 0.56];
  const from: Point = [middle + 1.5, y + 13];
  const sag: Point = [middle + 5, frame.groundY - 1];
  const cord = Array.from({ length: 11 }, (_, step): Point => {
    const t = step / 10;
    const mix = (a: number, b: number, c: number) => (1 - t) ** 2 * a + 2 * t * (1 - t) * b + t ** 2 * c;
    return [mix(from[0], sag[0], port[0]), mix(from[1], sag[1], port[1])];
  });
  return [
    area({ points: box([middle - 4.5, y], [middle + 4.5, y + 13]), tone: 'paper', weightPt: 0.9 }),
    area({ points: circle([middle, y + 4.5], 1.7), tone: 'ink' }),
    line({ points: cord, weightPt: 1.1 }),
  ];
}

const BODY: readonly Point[] = [
  [0.01, 0.24],
  [0, 0.46],
  [0.03, 0.58],
  [0.2, 0.66],
  [0.27, 0.7],
  [0.37, 0.95],
  [0.45, 1],
  [0.66, 1],
  [0.76, 0.94],
  [0.87, 0.7],
  [0.97, 0.64],
  [1, 0.5],
  [1, 0.26],
  [0.97, 0.2],
  [0.05, 0.2],
];
const WINDOWS: readonly (readonly Point[])[] = [
  [
    [0.32, 0.7],
    [0.395, 0.91],
    [0.53, 0.92],
    [0.53, 0.7],
  ],
  [
    [0.56, 0.7],
    [0.56, 0.92],
    [0.67, 0.91],
    [0.74, 0.87],
    [0.81, 0.7],
  ],
];

/** A car from the side, of no make in particular; its lower left corner is given. Not to scale. */
function car([x, groundY]: Point): Mark[] {
  const place = ([along, up]: Point): Point => [x + along * CAR_LENGTH_PT, groundY - up * CAR_HEIGHT_PT];
  const wheelY = groundY - 5;
  return [
    area({ points: BODY.map(place), tone: 'paper', weightPt: 0.9 }),
    ...WINDOWS.map((corners) => area({ points: corners.map(place), tone: 'shade', weightPt: 0.5 })),
    line({ points: [place([0.545, 0.7]), place([0.545, 0.26])], weightPt: 0.4 }),
    ...[0.19, 0.81].flatMap((along) => [
      area({ points: circle([x + along * CAR_LENGTH_PT, wheelY], 5), tone: 'paper', weightPt: 1.1 }),
      area({ points: circle([x + along * CAR_LENGTH_PT, wheelY], 2.2), tone: 'shade', weightPt: 0.5 }),
    ]),
  ];
}
