import { legFeet } from '../../../server/estimate/description/leg.ts';
import { type Description, readDescription } from '../../../server/estimate/description.ts';
import type {
  Ditch,
  Place,
  PlacedLeg,
  PlannedOption,
  PlannedRun,
  Section,
  Takeoff,
} from '../../../server/estimate/plan-types.ts';
import type { Spec } from '../../../server/estimate/price-book.ts';

/*
 * Plans made by hand, so that the take-off is checked on its own: what a planner would answer stands in the test.
 */

type Input = Record<string, unknown>;

const SITE: Input = {
  building: 'attached',
  service: { ratingA: 200, freeSpaces: 6 },
  load: { method: 'measured', peakA: 60, days: 365 },
};
const CHARGER: Input = { amps: 32, connection: 'hardwired', equipment: 'owned' };

/** A description with one option; what is not said is a 32 A charger in an attached garage. */
export function described({
  site = {},
  route,
  option = {},
  charger = {},
  terms = {},
}: {
  site?: Input;
  route: Input[];
  option?: Input;
  charger?: Input;
  terms?: Input;
}): Description {
  return readDescription({
    title: 'A house of the tests',
    site: { ...SITE, ...site },
    route,
    options: [{ id: 'a', label: 'A', feed: 'dedicated-circuit', chargers: [{ ...CHARGER, ...charger }], ...option }],
    terms,
  });
}

const PLACES: Record<string, Place> = {
  'interior-surface': 'dry-exposed',
  attic: 'attic',
  'exterior-wall': 'wet-above-ground',
  'under-deck': 'wet-above-ground',
  'lawn-trench': 'underground',
  'gravel-trench': 'underground',
  'planting-bed': 'underground',
  'concrete-cut': 'under-slab',
  'asphalt-cut': 'underground',
  'pavers-lift': 'underground',
  bore: 'underground',
};

/** The route as the planner places it. */
export function placed(description: Description): PlacedLeg[] {
  return description.route.map((stated, leg) => ({
    leg,
    stated,
    feet: legFeet(stated),
    place: stated.place === 'underground' ? 'underground' : (PLACES[stated.kind] ?? 'dry-concealed'),
    ambientC: 30,
  }));
}

/** Copper of 8 AWG with a ground of 10 AWG over some legs. */
export function section(parts: Partial<Section> & Pick<Section, 'insulation' | 'legs'>): Section {
  return { metal: 'copper', size: '8', groundSize: '10', groundMetal: 'copper', tail: false, ...parts };
}

/** A branch circuit of 40 A for a 32 A charger; what is not said. */
export function run(parts: Partial<PlannedRun> & Pick<PlannedRun, 'sections' | 'legs'>): PlannedRun {
  return {
    name: 'charger',
    role: 'branch-circuit',
    from: 'main panel',
    to: 'charger',
    lengthFt: 0,
    loadA: 32,
    continuousA: 32,
    ocpdA: 40,
    poles: 2,
    breaker: { ocpdA: 40, poles: 2, spaces: 2, kind: 'standard', because: [] },
    neutral: false,
    separateNeutral: false,
    conductor: { metal: 'copper', size: '8', ampacityA: 40 },
    groundSize: '10',
    terminations: [],
    dropPercent: 1,
    dropV: 2.4,
    chargers: [0],
    ...parts,
  };
}

/** A leg of a run, laid by a method. */
export function laid(
  leg: number,
  method: PlannedRun['legs'][number]['method'],
  parts: Partial<PlannedRun['legs'][number]> = {},
): PlannedRun['legs'][number] {
  const insulation = method === 'nm-b' || method === 'uf-b' || method === 'ser' ? method : 'thwn-2';
  return { leg, method, insulation, because: [], others: [], ...parts };
}

/** The plan of a description's one option. */
export function planOf(
  description: Description,
  parts: { runs: PlannedRun[]; ditches?: Ditch[] } & Partial<PlannedOption>,
): PlannedOption {
  const [option] = description.options;
  if (!option) throw new Error('A description of the tests has an option.');
  return {
    description,
    option: { ...option, chargers: option.chargers.map((charger) => ({ ...charger, amps: Number(charger.amps) })) },
    route: placed(description),
    ditches: [],
    outlets: [{ run: 'charger', charger: 0, connection: 'hardwired', outdoors: false }],
    dropPercent: 1,
    findings: [],
    ...parts,
  };
}

/** How much of what answers a part of a spec is asked for: pieces count by their feet. */
export function asked({ materials }: Takeoff, wanted: Partial<Record<string, unknown>>): number {
  const answers = (spec: Spec) => Object.entries(wanted).every(([field, value]) => Reflect.get(spec, field) === value);
  const sum = materials
    .filter(({ spec }) => answers(spec))
    .reduce((total, { quantity, pieces = [] }) => total + (quantity ?? pieces.reduce((a, b) => a + b, 0)), 0);
  return Math.round(sum * 10_000) / 10_000;
}

/** How many units of a task are asked for. */
export function tasked({ tasks }: Pick<Takeoff, 'tasks'>, name: string): number {
  const sum = tasks.filter(({ task }) => task === name).reduce((total, { quantity }) => total + quantity, 0);
  return Math.round(sum * 10_000) / 10_000;
}
