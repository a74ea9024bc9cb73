import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { PlannedOption, Takeoff } from '../../../server/estimate/plan-types.ts';
import { bookOf } from '../../../server/estimate/price-book.ts';
import { takeoffOf } from '../../../server/estimate/takeoff/takeoff.ts';
import { travelDemands } from '../../../server/estimate/takeoff/travel.ts';
import { isDitch, type RacewayType, type TradeSize } from '../../../server/estimate/vocabulary.ts';
import { seedPrices } from '../../../server/seed-prices.ts';
import { described, laid, planOf, run, section } from './plans.ts';

const book = bookOf(
  seedPrices().map((item) => ({ ...item, revision: 1 })),
  1,
);

/** Everything that the starting price book has no answer for. */
function unanswered({ materials, tasks }: Pick<Takeoff, 'materials' | 'tasks'>): string[] {
  const things = materials.filter(({ spec }) => !book.bySpec(spec)).map(({ spec }) => JSON.stringify(spec));
  const labor = tasks.filter(({ task }) => !book.bySpec({ is: 'task', task })).map(({ task }) => task);
  const factors = tasks.flatMap((task) => task.factors).filter((name) => !book.bySpec({ is: 'other', name }));
  return [...new Set([...things, ...labor, ...factors])];
}

const inside = fc.record({
  kind: fc.constantFrom('joists', 'finished-ceiling', 'finished-wall', 'crawlspace', 'attic', 'interior-surface'),
  lengthFt: fc.integer({ min: 1, max: 90 }),
  across: fc.boolean(),
  through: fc.constantFrom('wood', 'brick', 'stone', 'fire-rated'),
});
const ditch = fc.record({
  kind: fc.constantFrom(
    'lawn-trench',
    'gravel-trench',
    'planting-bed',
    'concrete-cut',
    'asphalt-cut',
    'pavers-lift',
    'bore',
  ),
  lengthFt: fc.integer({ min: 1, max: 120 }),
  soil: fc.uniqueArray(fc.constantFrom('loam', 'clay', 'rocky', 'roots', 'frozen', 'wet'), { minLength: 1 }),
  crossings: fc.array(fc.record({ what: fc.constantFrom('gas', 'irrigation', 'tree-root-zone') }), { maxLength: 2 }),
  dig: fc.constantFrom('auto', 'hand', 'trencher', 'excavator'),
  thicknessIn: fc.constantFrom(3, 4, 6),
  reinforcement: fc.constantFrom('none', 'mesh', 'rebar'),
  finish: fc.constantFrom('plain', 'exposed-aggregate', 'stamped'),
  traffic: fc.constantFrom('foot', 'vehicle'),
});
const raceway = fc.record({
  type: fc.constantFrom<RacewayType>('pvc-40', 'emt', 'rmc'),
  tradeSize: fc.constantFrom<TradeSize>('3/4', '1', '1-1/4', '1-1/2', '2'),
});
const outlet = fc.record({
  connection: fc.constantFrom('receptacle-14-50', 'receptacle-6-50', 'receptacle-5-15', 'receptacle-5-20', 'hardwired'),
  outdoors: fc.boolean(),
});
const house = fc.record({
  work: fc.constantFrom('retrofit', 'new-construction'),
  yearBuilt: fc.constantFrom(1925, 1964, 1994),
  hazards: fc.constantFrom(null, ['plaster']),
  permit: fc.constant({ inspections: 3, rightOfWay: true }),
  service: fc.record({ ratingA: fc.constant(150), freeSpaces: fc.constantFrom(0, 6) }),
});
const job = fc.record({
  inside: fc.array(inside, { minLength: 1, maxLength: 3 }),
  ditch: fc.array(ditch, { maxLength: 3 }),
  raceway: fc.option(raceway),
  outlet,
  house,
  equipment: fc.constantFrom('owned', 'buy', 'none'),
  mount: fc.constantFrom('wall', 'post', 'pedestal'),
  roughInOnly: fc.boolean(),
});
type Job = typeof job extends fc.Arbitrary<infer One> ? One : never;

/** A 40 A circuit: cable of 8 AWG inside and UF-B in the ground, or single conductors in one raceway throughout. */
function planned({ inside, ditch, raceway, outlet, house, equipment, mount, roughInOnly }: Job): PlannedOption {
  const legs = [...inside, ...ditch];
  const description = described({
    site: { ...house, building: 'detached' },
    route: legs,
    option: { roughInOnly },
    charger: { connection: outlet.connection, amps: outlet.connection.includes('5-') ? 12 : 32, equipment, mount },
  });
  const all = legs.map((_, at) => at);
  const buried = all.filter((at) => isDitch((legs[at]?.kind ?? 'joists') as Parameters<typeof isDitch>[0]));
  const cable = (form: 'nm-b' | 'uf-b', some: number[]) =>
    section({ insulation: form, cable: { form, conductors: 3 }, legs: some });
  const below = all.slice(inside.length);
  const sections = raceway
    ? [section({ insulation: 'thwn-2', size: '8', legs: all })]
    : [cable('nm-b', all.slice(0, inside.length)), ...(below.length > 0 ? [cable('uf-b', below)] : [])];
  const conduit = raceway && { ...raceway, fillPercent: 30 };
  const methodOf = (leg: number) => {
    if (!raceway) return leg < inside.length ? 'nm-b' : 'uf-b';
    return raceway.type === 'emt' || raceway.type === 'rmc' ? raceway.type : 'pvc';
  };
  return planOf(description, {
    runs: [
      run({
        sections,
        legs: all.map((leg) => laid(leg, methodOf(leg), { ...(conduit && { conduit }) })),
        neutral: true,
      }),
    ],
    ditches: buried.length > 0 ? [{ legs: buried, coverIn: 24, depthIn: 26 }] : [],
    outlets: [{ run: 'charger', charger: 0, ...outlet }],
    grounding: { electrodes: [{ kind: 'ground rod', count: 2 }], conductorSize: '6', because: [] },
  });
}

it('asks for nothing that the starting price book has not heard of', () => {
  fc.assert(
    fc.property(job, (stated) => {
      const plan = planned(stated);
      expect(unanswered(takeoffOf(plan))).toEqual([]);
      expect(unanswered(travelDemands(plan, 3))).toEqual([]);
    }),
  );
});
