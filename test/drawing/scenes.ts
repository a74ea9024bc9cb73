import { curvesDrawing } from '../../server/drawing/curves.ts';
import type { Drawing } from '../../server/drawing/drawing.ts';
import { planViewDrawing } from '../../server/drawing/plan-view.ts';
import { driversDrawing, shapeDrawing } from '../../server/drawing/range-charts.ts';
import { sectionDrawing } from '../../server/drawing/section.ts';
import type { EstimateOption } from '../../server/estimate/answer.ts';
import { type Leg, readDescription } from '../../server/estimate/description.ts';
import { CIRCUIT_48, DESCRIPTION, PANEL_90 } from '../report/fixture.ts';

/** Legs as the program reads them. */
export function readRoute(legs: readonly object[]): Leg[] {
  return readDescription({
    title: 'A route to draw',
    site: { building: 'outdoor', service: { ratingA: 200, freeSpaces: 4 }, load: { method: 'unknown' } },
    route: legs,
    options: [
      {
        id: 'circuit',
        label: 'One circuit',
        feed: 'dedicated-circuit',
        chargers: [{ amps: 32, connection: 'hardwired', equipment: 'buy' }],
      },
    ],
  }).route;
}

/** The hand-made option without a plan of its legs, its lines dealt out over a route of so many. */
export function optionOver(legs: number): EstimateOption {
  return {
    ...CIRCUIT_48,
    findings: [],
    runs: CIRCUIT_48.runs.map((run) => ({ ...run, legs: [] })),
    lines: CIRCUIT_48.lines.map((line, nth) => ({ ...line, legs: nth % 7 === 0 ? [] : [nth % legs] })),
  };
}

const SCENES: Record<
  string,
  { legs: object[]; building: 'attached' | 'detached' | 'outdoor'; mount?: 'post' | 'wall' }
> = {
  'attic-overhead': {
    building: 'detached',
    legs: [
      { kind: 'finished-wall', lengthFt: 6 },
      { kind: 'attic', lengthFt: 30 },
      { kind: 'exterior-wall', lengthFt: 12 },
      { kind: 'overhead-span', lengthFt: 40 },
      { kind: 'interior-surface', lengthFt: 9 },
    ],
  },
  'crawlspace-hard-surfaces': {
    building: 'outdoor',
    mount: 'post',
    legs: [
      { kind: 'crawlspace', lengthFt: 31, through: 'brick' },
      { kind: 'asphalt-cut', lengthFt: 18, crossings: [{ what: 'water' }, { what: 'sewer' }] },
      { kind: 'pavers-lift', lengthFt: 14 },
      { kind: 'bore', lengthFt: 20, crossings: [{ what: 'communications' }, { what: 'private-electric' }] },
      { kind: 'lawn-trench', lengthFt: 25, soil: 'rocky' },
    ],
  },
  'short-attached': {
    building: 'attached',
    legs: [
      { kind: 'finished-ceiling', lengthFt: 3 },
      { kind: 'interior-surface', lengthFt: 4 },
    ],
  },
  'many-legs': {
    building: 'outdoor',
    legs: Array.from({ length: 24 }, (_, nth) => ({
      kind: ['joists', 'lawn-trench', 'gravel-trench', 'concrete-cut'][nth < 4 ? 0 : nth % 4],
      lengthFt: 2 + ((nth * 7) % 11),
      crossings: nth > 4 && nth % 3 === 0 ? [{ what: 'water' }] : [],
    })),
  },
};

/** Charts of made-up figures: curves that coincide, cross and end early; causes; a distribution with two humps. */
function charts(): Record<string, Drawing> {
  const options = [
    { id: 'a', label: 'One circuit, 32 A' },
    { id: 'b', label: 'One circuit, 48 A' },
    { id: 'c', label: 'A panel at the carport with room for a second car, 80 A' },
  ];
  const points = [
    { at: 16, totals: { a: 531_600, b: 531_600, c: 726_100 } },
    { at: 24, totals: { a: 551_300, b: 551_300, c: 737_500 } },
    { at: 32, totals: { a: 586_200, b: 586_200, c: 751_400 } },
    { at: 48, totals: { a: 628_200, b: 628_200, c: 764_700 } },
    { at: 80, totals: { a: 806_300, b: 806_300 } },
  ];
  const shares = [0.01, 0.06, 0.16, 0.2, 0.14, 0.06, 0.02, 0.03, 0.09, 0.13, 0.07, 0.03];
  return {
    'curves-amperes': curvesDrawing({
      title: 'The price by amperes',
      axisWords: 'set to, A',
      points,
      options,
      own: 32,
      widthPt: 513,
    }),
    'curves-lying': curvesDrawing({
      title: 'The price by amperes',
      axisWords: 'set to, A',
      points,
      options,
      widthPt: 693,
    }),
    'curves-crossing': curvesDrawing({
      title: 'The price by distance',
      axisWords: 'length of the longest trench, ft',
      points: [
        { at: 20, totals: { a: 431_600, c: 626_100 } },
        { at: 40, totals: { a: 531_600, c: 656_100 } },
        { at: 80, totals: { a: 786_200, c: 751_400 } },
        { at: 120, totals: { a: 1_006_300, c: 864_700 } },
      ],
      options,
      own: 40,
      crossings: [{ at: 71.2, totalCents: 730_500, mark: '71 ft' }],
      widthPt: 513,
    }),
    'drivers-letter': driversDrawing({
      title: 'What moves it most',
      totalCents: 831_500,
      drivers: [
        { name: 'all other labor', lowCents: 745_300, highCents: 972_200 },
        {
          name: 'labor of digging and surfaces, and a name that is far too long to stand here',
          lowCents: 808_000,
          highCents: 880_400,
        },
        { name: 'lead paint', lowCents: 831_500, highCents: 862_300 },
      ],
      widthPt: 513,
    }),
    'shape-two-humps': shapeDrawing({
      title: 'How often the total lies where',
      shape: { fromCents: 600_000, stepCents: 50_000, shares },
      p10Cents: 690_000,
      p50Cents: 790_000,
      p90Cents: 1_110_000,
      likelyCents: 760_000,
      widthPt: 513,
    }),
  };
}

/** Drawings that are kept as golden files, by name. */
export function scenes(): Record<string, Drawing> {
  const title = 'A section to look at';
  const made = Object.entries(SCENES).map(([name, { legs, building, mount = 'wall' }]) => [
    name,
    sectionDrawing({ title, option: optionOver(legs.length), route: readRoute(legs), building, mount, widthPt: 509 }),
  ]);
  const { route } = DESCRIPTION;
  return {
    ...Object.fromEntries(made),
    ...charts(),
    'panel-letter': sectionDrawing({ title, option: PANEL_90, route, building: 'detached', widthPt: 513 }),
    'circuit-screen': sectionDrawing({ title, option: CIRCUIT_48, route, building: 'detached', widthPt: 960 }),
    'rises-bends-conduits': sectionDrawing({
      title,
      option: PANEL_90,
      route: route.map((leg, at) => ({ ...leg, ...(at < 2 && { riseFt: 4 + at }), ...(at === 3 && { bendsDeg: 90 }) })),
      building: 'detached',
      emptyRaceways: ['spare', 'data'],
      widthPt: 513,
    }),
    'crew-letter': sectionDrawing({
      title,
      option: PANEL_90,
      route,
      building: 'detached',
      isWithoutMoney: true,
      widthPt: 513,
    }),
    'plan-view': planViewDrawing({ title, route, building: 'detached', widthPt: 693 }),
    'plan-view-hard-surfaces': planViewDrawing({
      title,
      route: readRoute(SCENES['crawlspace-hard-surfaces']?.legs ?? []),
      building: 'outdoor',
      widthPt: 513,
    }),
    'nothing-run': sectionDrawing({
      title,
      option: { ...optionOver(1), runs: [] },
      route: [],
      building: 'outdoor',
      widthPt: 509,
    }),
  };
}
