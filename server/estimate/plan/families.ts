import type { Metal, WiringMethod } from '../vocabulary.ts';
import type { Circuit } from './circuit.ts';
import type { Job } from './job.ts';
import { allowedAt, fixedMethod, isClosed, type Setting, type Spot, settingOf } from './methods.ts';
import { isWet } from './place.ts';
import type { Laying } from './wiring.ts';

/** What every raceway family takes. */
const RACEWAYS = {
  concealed: ['emt', 'rmc'],
  exposed: ['emt', 'rmc'],
  outdoors: ['pvc', 'rmc'],
  ground: ['pvc', 'rmc'],
  span: ['uf-b', 'ser'],
} as const satisfies Record<Setting, readonly WiringMethod[]>;

/**
 * Ways that a crew would lay a circuit, as methods by the setting of a place in order of preference: the first lawful one
 * is taken. `cable` stands for the cables of the metal that are used inside. The search for the least cost looks at every
 * lawful method instead; these are what is shown where nothing may be built.
 */
const FAMILIES: Record<Family, Record<Setting, readonly (WiringMethod | 'cable')[]>> = {
  cable: {
    concealed: ['cable', 'emt', 'rmc'],
    exposed: ['cable', 'emt', 'rmc'],
    outdoors: ['uf-b', 'pvc', 'rmc'],
    ground: ['uf-b', 'pvc', 'rmc'],
    span: ['uf-b', 'ser'],
  },
  'buried-cable-throughout': {
    concealed: ['uf-b', 'emt', 'rmc'],
    exposed: ['uf-b', 'emt', 'rmc'],
    outdoors: ['uf-b', 'pvc', 'rmc'],
    ground: ['uf-b', 'pvc', 'rmc'],
    span: ['uf-b', 'ser'],
  },
  'cable-then-raceway': {
    concealed: ['cable', 'emt', 'rmc'],
    exposed: ['cable', 'emt', 'rmc'],
    outdoors: ['pvc', 'rmc'],
    ground: ['pvc', 'rmc'],
    span: ['uf-b', 'ser'],
  },
  'direct-burial': {
    concealed: ['cable', 'emt', 'rmc'],
    exposed: ['cable', 'emt', 'rmc'],
    outdoors: ['pvc', 'rmc'],
    ground: ['direct-burial', 'pvc', 'rmc'],
    span: ['uf-b', 'ser'],
  },
  'raceway-where-exposed': {
    concealed: ['cable', 'emt', 'rmc'],
    exposed: ['emt', 'rmc'],
    outdoors: ['pvc', 'rmc'],
    ground: ['pvc', 'rmc'],
    span: ['uf-b', 'ser'],
  },
  raceway: RACEWAYS,
  'raceway-opened': RACEWAYS,
};

/** Names of the families. */
export type Family =
  | 'cable'
  | 'buried-cable-throughout'
  | 'cable-then-raceway'
  | 'direct-burial'
  | 'raceway-where-exposed'
  | 'raceway'
  | 'raceway-opened';
/** In the order in which equals are preferred. */
const FAMILY_NAMES = [
  'cable',
  'buried-cable-throughout',
  'cable-then-raceway',
  'direct-burial',
  'raceway-where-exposed',
  'raceway',
] as const;

/** Aluminum is not sold as UF-B: outdoors it goes as service-entrance cable, in the ground as USE-2. */
const IN_ALUMINUM = { 'uf-b': 'ser', cable: 'ser' } as const;
type InsideCable = 'nm-b' | 'ser';

/** A way of laying circuits: a family, and the metal and inside cable that it is done in. */
export interface Way {
  family: Family;
  metal: Metal;
  inside: InsideCable;
}

function preferences({ family, metal, inside }: Way, setting: Setting, closed: boolean): WiringMethod[] {
  const listed = FAMILIES[family][setting];
  const wanted = closed && !listed.includes('cable') ? (['cable', ...listed] as const) : listed;
  return wanted.map((method): WiringMethod => {
    if (metal === 'aluminum' && method === 'uf-b') return setting === 'ground' ? 'direct-burial' : IN_ALUMINUM[method];
    return method === 'cable' ? inside : method;
  });
}

function firstLawful(job: Job, spot: Spot, wanted: readonly WiringMethod[]): WiringMethod {
  return wanted.find((method) => allowedAt(job, spot, method).allowed) ?? wanted[0] ?? 'rmc';
}

/** The tail goes on with the last leg's method where that is lawful there, else with the family's first lawful one. */
function tailMethod(job: Job, { tail }: Circuit, way: Way, last: WiringMethod | undefined): WiringMethod | undefined {
  if (!tail) return undefined;
  if (last === 'direct-burial') return 'pvc'; // what comes up goes on in it, see stretchesOf
  if (last && allowedAt(job, tail, last).allowed) return last;
  return firstLawful(job, tail, preferences(way, settingOf(tail.place), false));
}

/** The methods that a way of laying takes for a circuit: on each leg what is fixed there, else its first lawful one. */
export function layingOf(job: Job, circuit: Circuit, { metal, ...rest }: Way): Laying {
  const way = { ...rest, metal: circuit.metals.includes(metal) ? metal : (circuit.metals[0] ?? metal) };
  const methods = circuit.legs.flatMap((leg) => {
    const placed = job.route[leg];
    if (!placed) return [];
    const wanted = preferences(way, settingOf(placed.place), way.family !== 'raceway-opened' && isClosed(job, placed));
    return fixedMethod(placed) ?? firstLawful(job, placed, wanted);
  });
  const tail = tailMethod(job, circuit, way, methods.at(-1));
  return { methods, metal: way.metal, ...(tail && { tail }) };
}

/** One text for a way of laying, to see that two are the same. */
function signature({ methods, tail, metal }: Laying): string {
  return [metal, ...methods, tail].join(' ');
}

/** Families that an option may take: raceways alone where only raceways are built now; UF-B inside only to spare a splice. */
function familiesOf({ option, route }: Job): readonly Family[] {
  if (option.roughInOnly) return ['raceway'];
  const staysDry = !route.some(({ place }) => isWet(place));
  return staysDry ? FAMILY_NAMES.filter((family) => family !== 'buried-cable-throughout') : FAMILY_NAMES;
}

/** The different ways to lay a circuit: by family, by metal, and by the cable that is used inside. */
export function waysOf(job: Job, circuit: Circuit): Way[] {
  return differentWays(job, circuit, familiesOf(job));
}

/** What is left where no other way is lawful and sold: raceway throughout, finishes opened for it. */
export function lastWays(job: Job, circuit: Circuit): Way[] {
  return differentWays(job, circuit, ['raceway-opened']);
}

function differentWays(job: Job, circuit: Circuit, families: readonly Family[]): Way[] {
  const ways = families.flatMap((family) =>
    circuit.metals.flatMap((metal) => insideCables(metal).map((inside) => ({ family, metal, inside }))),
  );
  const seen = new Set<string>();
  return ways.filter((way) => {
    const text = signature(layingOf(job, circuit, way));
    if (seen.has(text)) return false;
    seen.add(text);
    return true;
  });
}

function insideCables(metal: Metal): readonly InsideCable[] {
  return metal === 'copper' ? ['nm-b', 'ser'] : ['ser'];
}

/** The two ways to lay what goes on from a subpanel: short circuits of copper, in cable or in raceway. */
export function branchWays(job: Job): Way[] {
  const families = job.option.roughInOnly ? (['raceway'] as const) : (['cable', 'raceway'] as const);
  return families.map((family) => ({ family, metal: 'copper', inside: 'nm-b' }));
}
