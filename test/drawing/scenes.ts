import type { Drawing } from '../../server/drawing/drawing.ts';
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
    'panel-letter': sectionDrawing({ title, option: PANEL_90, route, building: 'detached', widthPt: 513 }),
    'circuit-screen': sectionDrawing({ title, option: CIRCUIT_48, route, building: 'detached', widthPt: 960 }),
    'nothing-run': sectionDrawing({
      title,
      option: { ...optionOver(1), runs: [] },
      route: [],
      building: 'outdoor',
      widthPt: 509,
    }),
  };
}
