import { readDescription } from '../../../server/estimate/description.ts';
import { planCandidates } from '../../../server/estimate/plan/plan.ts';
import type { PlannedOption } from '../../../server/estimate/plan-types.ts';
import type { Book, PriceItem, Spec } from '../../../server/estimate/price-book.ts';
import { bookOf } from '../../../server/estimate/price-book.ts';
import type { ConductorSize, WiringMethod } from '../../../server/estimate/vocabulary.ts';

/** An item that answers a spec; its price is of no account to the planner. */
function item(spec: Spec, at: number): PriceItem {
  return {
    key: `item-${String(at).padStart(4, '0')}`,
    kind: 'price',
    description: 'an item of the test shop',
    class: 'material',
    scope: 'other',
    category: 'test',
    unit: 'ft',
    low: 100,
    likely: 120,
    high: 150,
    spec,
    offers: [],
    date: '2026-01-01',
    region: 'nowhere',
    source: 'invented for the test',
    available: true,
    revision: 1,
  };
}

const CABLES: [
  form: 'nm-b' | 'uf-b' | 'ser' | 'mhf',
  metal: 'copper' | 'aluminum',
  conductors: 2 | 3,
  sizes: ConductorSize[],
][] = [
  ['nm-b', 'copper', 2, ['14', '12', '10', '8', '6']],
  ['nm-b', 'copper', 3, ['14', '12', '10', '8', '6', '4', '2']],
  ['uf-b', 'copper', 2, ['14', '12', '10', '8', '6']],
  ['uf-b', 'copper', 3, ['14', '12', '10', '8', '6', '4']],
  ['ser', 'aluminum', 3, ['8', '6', '4', '2', '1', '1/0', '2/0', '3/0', '4/0']],
  ['mhf', 'aluminum', 3, ['6', '4', '2', '1', '1/0', '2/0', '4/0']],
];
const SINGLES: [insulation: 'thwn-2' | 'xhhw-2' | 'use-2', metal: 'copper' | 'aluminum', sizes: ConductorSize[]][] = [
  ['thwn-2', 'copper', ['14', '12', '10', '8', '6', '4', '3', '2', '1', '1/0', '2/0', '3/0', '4/0', '250']],
  ['xhhw-2', 'aluminum', ['8', '6', '4', '3', '2', '1', '1/0', '2/0', '3/0', '4/0', '250']],
  ['use-2', 'aluminum', ['6', '4', '2', '1', '1/0', '2/0', '3/0', '4/0']],
];
const RACEWAYS = ['1/2', '3/4', '1', '1-1/4', '1-1/2', '2', '2-1/2', '3'] as const;
const PANELS = [60, 100, 125, 200];
const BREAKERS = [15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200];
/** Two-pole ground-fault breakers that shops sell. Common practice, no source. */
const GROUND_FAULT_BREAKERS = [15, 20, 30, 40, 50, 60];

/** What a shop of the trade sells: no 4/2 cable, no 3 AWG aluminum cable, no UF-B above 4 AWG. */
export const SHOP_SPECS: Spec[] = [
  ...CABLES.flatMap(([form, metal, conductors, sizes]) =>
    sizes.map((size): Spec => ({ is: 'cable', form, metal, size, conductors })),
  ),
  ...SINGLES.flatMap(([insulation, metal, sizes]) =>
    sizes.map((size): Spec => ({ is: 'conductor', insulation, metal, size })),
  ),
  ...(['pvc-40', 'pvc-80', 'emt', 'rmc'] as const).flatMap((type) =>
    RACEWAYS.map((tradeSize): Spec => ({ is: 'raceway', type, tradeSize })),
  ),
  ...PANELS.flatMap((ratingA) =>
    (['indoor', 'outdoor'] as const).flatMap((enclosure) =>
      [true, false].flatMap((mainBreaker) =>
        [8, 12].map((spaces): Spec => ({ is: 'panel', ratingA, spaces, enclosure, mainBreaker })),
      ),
    ),
  ),
  ...([1, 2] as const).flatMap((poles) => [
    ...BREAKERS.map((ratingA): Spec => ({ is: 'breaker', ratingA, poles, gfci: false })),
    ...GROUND_FAULT_BREAKERS.map((ratingA): Spec => ({ is: 'breaker', ratingA, poles, gfci: true })),
  ]),
];

/** A price book that sells so much. */
export function shopOf(specs: readonly Spec[]): Book {
  return bookOf(specs.map(item), 1);
}

/** The usual shop. */
export const SHOP = shopOf(SHOP_SPECS);

/** What a household says that is not usual. */
export interface Parts {
  site?: Record<string, unknown>;
  route?: unknown;
  option?: Record<string, unknown>;
  rest?: Record<string, unknown>;
}

/** A household of our own: 200 A, little drawn, a car to charge at the end of the route with 32 A, wired, by one circuit. */
export function household({ site = {}, route = '20 joists', option = {}, rest = {} }: Parts = {}) {
  const description = readDescription({
    title: 'A household for tests',
    site: {
      building: 'attached',
      service: { ratingA: 200, freeSpaces: 6 },
      load: { method: 'measured', peakA: 60, days: 365 },
      ...site,
    },
    route,
    options: [
      {
        id: 'a',
        label: 'a',
        feed: 'dedicated-circuit',
        chargers: [{ amps: 32, connection: 'hardwired', equipment: 'owned', distanceFt: 4 }],
        ...option,
      },
    ],
    ...rest,
  });
  const [first] = description.options;
  if (!first) throw new Error('The household has one option.');
  return { description, option: first };
}

/** The plans that the usual shop allows for a household. */
export function plansFor(parts: Parts): PlannedOption[] {
  const { description, option } = household(parts);
  return planCandidates(description, option, SHOP);
}

/** The plan whose run that follows the route takes these methods, leg by leg. */
export function planBy(parts: Parts, ...methods: WiringMethod[]): PlannedOption {
  const plans = plansFor(parts);
  const found = plans.find(({ runs }) => runs[0]?.legs.map(({ method }) => method).join() === methods.join());
  const seen = plans.map(({ runs }) => runs[0]?.legs.map(({ method }) => method).join(' ')).join('; ');
  if (!found) throw new Error(`No plan takes ${methods.join(', ')}; there are: ${seen}`);
  return found;
}

/** The run that follows the route. */
export function firstRun({ runs }: PlannedOption) {
  const [run] = runs;
  if (!run) throw new Error('The plan has no run.');
  return run;
}

/** One charger that is wired, 6 ft from the end of the route. */
export const wired = (amps: number, more: Record<string, unknown> = {}) => ({
  chargers: [{ amps, connection: 'hardwired', equipment: 'owned', distanceFt: 6, ...more }],
});
/** What forbids a plan. */
export const stopsOf = (plan: PlannedOption) => plan.findings.filter(({ severity }) => severity === 'stop');
