import type { PlacedCharger } from '../description.ts';
import type { Outlet, PlannedOption } from '../plan-types.ts';
import { boxItself, endBox } from './boxes.ts';
import { type Demands, joined, named, shown, work } from './demand.ts';
import { sharesWithEarlier } from './load-management.ts';

/** Chargers as shops sell them, by their amperes. */
const CHARGER_SIZES_A = [16, 24, 32, 40, 48, 80] as const;
const CORD_SIZES_A = [12, 16] as const;
/** A bag of 80 lb makes 0.6 ft³; a footing of 12 in across and 30 in deep takes π/4 × 2.5 ft³. Common practice, no source. */
const BAG_FT3 = 0.6;
const FOOTING_FT3 = (Math.PI / 4) * 2.5;

/** A receptacle by what is bought with it: device, box and cover indoors and out. */
interface Fittings {
  device: string;
  box: string;
  cover: string;
}

type ReceptacleKind = Exclude<Outlet['connection'], 'hardwired' | 'light'>;

const FIFTY = {
  indoors: { box: 'box-2gang-nm', cover: 'plate-14-50' },
  outdoors: { box: 'box-wp-2gang', cover: 'cover-inuse-2g-50a' },
};
const SMALL = {
  indoors: { box: 'box-1gang-nm', cover: 'plate-1gang' },
  outdoors: { box: 'box-wp-1gang', cover: 'cover-inuse-1g' },
};

const RECEPTACLES: Record<ReceptacleKind, { indoors: Fittings; outdoors: Fittings; task: string }> = {
  'receptacle-14-50': fittings('rec-14-50-ind', 'rec-14-50-ind', FIFTY, 'receptacle-50'),
  'receptacle-6-50': fittings('rec-6-50-ind', 'rec-6-50-ind', FIFTY, 'receptacle-50'),
  'receptacle-5-15': fittings('rec-5-15-spec', 'rec-5-15-gfci-wr', SMALL, 'receptacle-120'),
  'receptacle-5-20': fittings('rec-5-20-spec', 'rec-5-20-gfci-wr', SMALL, 'receptacle-120'),
  'receptacle-120': fittings('rec-5-20', 'rec-5-20-gfci-wr', SMALL, 'receptacle-120'),
};

function fittings(indoors: string, outdoors: string, around: typeof FIFTY, task: string) {
  return { indoors: { device: indoors, ...around.indoors }, outdoors: { device: outdoors, ...around.outdoors }, task };
}

/** Outlets, chargers and what they hang on. */
export function outletDemands(plan: PlannedOption): Demands {
  const { option } = plan;
  const built = option.feed === 'existing-receptacle' ? replacedOutlets(plan) : plan.outlets;
  return joined([
    ...built.filter((outlet) => !isBehindSplitter(plan, outlet)).map((outlet) => outletItself(plan, outlet)),
    ...unendedRuns(plan).map((name) => blankEnd(plan, name, plan.runs.find((run) => run.name === name)?.otherUse)),
    ...option.chargers.map((charger, at) => chargerItself(plan, charger, at)),
  ]);
}

/** Chargers that plug in on a shared circuit hang on a splitter at the first receptacle. */
function isBehindSplitter(plan: PlannedOption, { charger, connection }: Outlet): boolean {
  return connection !== 'hardwired' && charger !== undefined && sharesWithEarlier(plan, charger);
}

/** The receptacle that is there is only touched where it is replaced. */
function replacedOutlets({ option }: PlannedOption): Outlet[] {
  const [charger] = option.chargers;
  const { receptacle } = option;
  if (!charger || !receptacle?.replace || charger.connection === 'hardwired') return [];
  return [{ run: '', charger: 0, connection: charger.connection, outdoors: receptacle.outdoors }];
}

/** Branch circuits that no outlet of the plan ends: they end in a covered box. */
function unendedRuns({ runs, outlets }: PlannedOption): string[] {
  const ended = new Set(outlets.map(({ run }) => run));
  return runs.filter(({ role, name }) => role === 'branch-circuit' && !ended.has(name)).map(({ name }) => name);
}

function outletItself(plan: PlannedOption, outlet: Outlet): Demands {
  const { connection, outdoors, run } = outlet;
  if (connection === 'light') return light(run);
  if (connection !== 'hardwired')
    return receptacle({ kind: connection, outdoors, run, inRaceway: endsInRaceway(plan, run) });
  const charger = outlet.charger === undefined ? undefined : plan.option.chargers[outlet.charger];
  // What is hardwired takes its conductors itself; where nothing is hung yet, a covered box keeps them.
  return charger?.equipment === 'none' ? blankEnd(plan, run, 'a charger later') : joined([]);
}

/** Does raceway come to the outlet? Then its box takes raceway, too. */
function endsInRaceway({ runs }: PlannedOption, name: string): boolean {
  const run = runs.find((one) => one.name === name);
  const last = run?.tail ?? run?.legs.at(-1);
  return last?.conduit !== undefined;
}

interface ReceptacleParts {
  kind: ReceptacleKind;
  outdoors: boolean;
  run: string;
  inRaceway: boolean;
}

function receptacle({ kind, outdoors, run, inRaceway }: ReceptacleParts): Demands {
  const { task, ...both } = RECEPTACLES[kind];
  const { device, ...around } = outdoors ? both.outdoors : both.indoors;
  const { box, cover } = !outdoors && inRaceway ? steelBox(kind) : around;
  const words = kind === 'receptacle-120' ? '120 V receptacle' : `${kind.replace('receptacle-', '')} receptacle`;
  const because = `${words}${outdoors ? ', out of doors' : ''}${run ? `, on ${run}` : ''}`;
  const scope = 'outlet';
  return joined([
    named({ name: device, description: words, scope, quantity: 1, because }),
    named({ name: box, description: `box for a ${words}`, scope: 'boxes', quantity: 1, because }),
    named({ name: cover, description: `cover for a ${words}`, scope, quantity: 1, because }),
    work({ task, scope, quantity: 1, because }),
    work({ task: 'receptacle-outdoor-add', scope, quantity: outdoors ? 1 : 0, because }),
  ]);
}

/** Box and cover indoors where raceway comes in. */
function steelBox(kind: ReceptacleKind): Pick<Fittings, 'box' | 'cover'> {
  const isLarge = kind === 'receptacle-14-50' || kind === 'receptacle-6-50';
  return isLarge
    ? { box: 'box-411-square', cover: 'cover-4in-raised-1450' }
    : { box: 'box-4in-square-deep', cover: 'plate-1gang' };
}

function light(run: string): Demands {
  const because = `light with its switch, on ${run}`;
  const scope = 'outlet';
  return joined([
    named({ name: 'light-garage', description: 'surface light', scope, quantity: 1, because }),
    named({ name: 'switch-1p', description: 'single-pole switch', scope, quantity: 1, because }),
    named({
      name: 'box-1gang-nm',
      description: 'one-gang box',
      scope: 'boxes',
      quantity: 2,
      because: `${because}: a box each`,
    }),
    named({ name: 'plate-1gang', description: 'one-gang plate', scope, quantity: 1, because }),
    work({ task: 'light-point', scope, quantity: 1, because }),
  ]);
}

function blankEnd(plan: PlannedOption, name: string, use: string | undefined): Demands {
  const run = plan.runs.find((one) => one.name === name);
  if (!run) return joined([]);
  const outdoors = plan.outlets.some((outlet) => outlet.run === name && outlet.outdoors);
  const last = run.tail ?? run.legs.at(-1);
  const box = endBox(run, last?.conduit, { inside: !outdoors });
  return boxItself(box, 1, [], `${name} ends in a covered box${use ? `, for ${use}` : ''}`);
}

/** What a charger is set to; `largest` has become the load of its circuit. */
function amperesOf(plan: PlannedOption, charger: PlacedCharger, at: number): number {
  if (charger.amps !== 'largest') return charger.amps;
  const run = plan.runs.find(({ chargers }) => chargers.includes(at));
  return run ? run.loadA / Math.max(1, run.chargers.length) : 0;
}

function chargerItself(plan: PlannedOption, charger: PlacedCharger, at: number): Demands {
  const { equipment, mount } = charger;
  const amps = amperesOf(plan, charger, at);
  const words = `charger of ${shown(amps)} A, ${equipment === 'buy' ? 'bought' : 'already owned'}`;
  const mounted =
    equipment === 'none'
      ? []
      : [bought({ charger, amps, shares: sharesWithEarlier(plan, at) }, words), mounting(charger, words)];
  return joined([...mounted, mount === 'wall' ? joined([]) : stand(plan, mount)]);
}

interface Bought {
  charger: PlacedCharger;
  amps: number;
  /** Does it share the circuit of another, and must understand it? */
  shares: boolean;
}

/** The most that a charger which shares by a link to another is sold for, in amperes. Common practice, no source. */
const SHARING_A = 48;

function bought({ charger: { equipment, connection }, amps, shares }: Bought, because: string): Demands {
  if (equipment !== 'buy') return joined([]);
  if (shares && connection === 'hardwired' && amps <= SHARING_A) {
    const name = 'charger-48-pair-sharing';
    const description = 'charger 48 A that shares a circuit with another';
    return named({ name, description, scope: 'charger', quantity: 1, because: [because, 'shares the circuit'] });
  }
  const isCord = connection === 'receptacle-5-15' || connection === 'receptacle-5-20';
  const sizes: readonly number[] = isCord ? CORD_SIZES_A : CHARGER_SIZES_A;
  const sold = sizes.find((size) => size >= amps) ?? sizes.at(-1);
  const name = isCord ? `charger-l1-${sold}` : `charger-${sold}`;
  return named({ name, description: `charger ${sold} A`, scope: 'charger', quantity: 1, because });
}

/** What is hardwired is mounted and terminated; what plugs in is hung up and plugged in. */
function mounting({ connection }: PlacedCharger, because: string): Demands {
  const scope = 'charger';
  const task = connection === 'hardwired' ? 'charger-mount' : 'charger-hang';
  return joined([
    work({ task, scope, quantity: 1, because }),
    work({ task: 'charger-app', scope, quantity: 1, because: 'network set-up, and showing the owner how it works' }),
  ]);
}

/** A post or pedestal: on the slab that is there, else on a footing of its own. */
function stand({ route }: PlannedOption, mount: 'post' | 'pedestal'): Demands {
  const scope = 'charger';
  const onSlab = mount === 'pedestal' && route.at(-1)?.stated.kind === 'concrete-cut';
  const because = onSlab ? 'set on the slab' : `${mount} on a footing 12 in across and 30 in deep`;
  const name = mount === 'post' ? 'bollard' : 'pedestal';
  return joined([
    named({ name, description: mount === 'post' ? 'steel post' : 'charger pedestal', scope, quantity: 1, because }),
    named({
      name: 'concrete-80',
      description: 'concrete mix, bag of 80 lb',
      scope,
      quantity: onSlab ? 0 : FOOTING_FT3 / BAG_FT3,
      because: `${because}: ${shown(FOOTING_FT3)} ft³, ${BAG_FT3} ft³ a bag`,
    }),
    work({ task: onSlab ? 'charger-pedestal' : 'footing-pedestal', scope, quantity: 1, because }),
  ]);
}
