import { maySharedCircuitCharge } from '../../electrical/charging-circuit.ts';
import type { ServiceCheck } from '../answer.ts';
import { is120V } from '../plan/charger-load.ts';
import { type AtPanel, serviceWorkOf, soldServiceRatingsA } from '../plan/service-upgrade.ts';
import type { PlannedOption } from '../plan-types.ts';
import type { Book } from '../price-book.ts';
import type { Chance } from '../vocabulary.ts';

/** Something that may be so, where nobody has looked: what the option then takes, and the item that says how often. */
export interface Fact {
  name: Chance;
  /** Of facts of one group that are all so only the first is built: a new service has its panel with it. */
  group: string;
  /** Why it may be so, to be read aloud. */
  because: string;
  /** The item of the price book, of kind `factor`, that says how often it is so. */
  bookName: string;
  /** The same plan, as it is built then. */
  plan: PlannedOption;
}

/** An option as it was planned, what its service check says, and the plan that gives its charger a circuit of its own. */
export interface PlannedCase {
  plan: PlannedOption;
  book: Book;
  fits: ServiceCheck['fits'];
  /** For an outlet that is there: the option with a circuit of its own instead, where that can be built. */
  ownCircuit?: PlannedOption | undefined;
}

type Upgrade = NonNullable<PlannedOption['option']['serviceUpgrade']>;

/**
 * What may be otherwise than the likeliest case that lines and totals show, for each field that is stated as not known.
 * The plan stays: what it takes besides is added, or what is likeliest is put otherwise.
 */
export function factsOf(at: PlannedCase): Fact[] {
  return [
    ...newService(at),
    ...failingPanel(at),
    ...fullPanel(at),
    ...upgradeFacts(at),
    ...hazardFacts(at),
    ...blockedWall(at),
    ...slabFacts(at),
    ...outletFacts(at),
  ];
}

function withUpgrade({ plan, book }: PlannedCase, serviceUpgrade: Upgrade): PlannedOption {
  const option = { ...plan.option, serviceUpgrade };
  const { serviceWork: _before, ...rest } = plan;
  const at: AtPanel = { description: plan.description, option, book };
  return { ...rest, option, ...serviceWorkOf(at) };
}

/** Services of this rating and below are often too small for charging; larger ones seldom. Common practice, no source. */
const SMALL_SERVICE_A = 100;
const MIDDLE_SERVICE_A = 175;
/** What a service is mostly made larger to, in amperes. Common practice, no source. */
const USUAL_NEW_A = 200;

/** A service that may not carry the charger: its load or rating is not known, or it depends on how the AHJ counts. */
function newService(at: PlannedCase): Fact[] {
  const { plan, fits } = at;
  const { serviceUpgrade, loadManagement, roughInOnly, feed } = plan.option;
  const isSpared = serviceUpgrade || loadManagement?.kind === 'service-monitor' || roughInOnly;
  if (isSpared || feed === 'existing-receptacle' || (fits !== 'unknown' && fits !== 'depends')) return [];
  const { ratingA } = plan.description.site.service;
  const toA = soldServiceRatingsA(at.book).find((soldA) => soldA >= USUAL_NEW_A && soldA > (ratingA ?? 0));
  if (toA === undefined) return [];
  const why =
    fits === 'depends' ? 'the AHJ may count the charger in full' : 'what the service has left for it is not known';
  return [
    {
      name: 'new-service',
      group: 'panel',
      because: `A new service of ${toA} A, for ${why}`,
      bookName: fits === 'depends' ? 'chance-new-service-reading' : `chance-new-service-${bandOf(ratingA)}`,
      plan: withUpgrade(at, { toA, supply: null, meter: null, panel: 'replace', relocateFt: 0 }),
    },
  ];
}

function bandOf(ratingA: number | null): string {
  if (ratingA === null) return 'unknown-rating';
  if (ratingA <= SMALL_SERVICE_A) return 'small';
  return ratingA <= MIDDLE_SERVICE_A ? 'middle' : 'large';
}

/** Fuse panels were mostly set before this year; panels that are known to fail mostly within these. Common practice, no source. */
const FUSES_UNTIL = 1965;
const FAILING = { from: 1950, until: 1990 };

/** A panel whose kind or state nobody has seen: it may have to be replaced before anything is connected. */
function failingPanel(at: PlannedCase): Fact[] {
  const { option, description } = at.plan;
  const { panel, ratingA } = description.site.service;
  if (!panel || option.serviceUpgrade?.panel === 'replace') return [];
  const toA = soldServiceRatingsA(at.book).find((soldA) => soldA >= (ratingA ?? USUAL_NEW_A));
  if (toA === undefined) return [];
  const replaced = withUpgrade(at, { toA, supply: null, meter: 'keep', panel: 'replace', relocateFt: 0 });
  const { yearBuilt } = description.site;
  const isOld = yearBuilt !== undefined && yearBuilt < FUSES_UNTIL;
  const mayFail = yearBuilt !== undefined && yearBuilt >= FAILING.from && yearBuilt <= FAILING.until;
  const fact = (name: Chance, why: string, bookName: string): Fact => ({
    name,
    group: 'panel',
    because: `A main panel of ${toA} A instead of the old one, which ${why}`,
    bookName,
    plan: replaced,
  });
  const takesBreaker = !description.site.start && option.feed !== 'existing-receptacle';
  return [
    ...(panel.state === null
      ? [
          fact(
            'panel-known-to-fail',
            'may be of a kind that is known to fail',
            `chance-panel-known-to-fail${mayFail ? '-1950-1990' : ''}`,
          ),
        ]
      : []),
    ...(panel.kind === null && takesBreaker
      ? [fact('panel-with-fuses', 'may have fuses', `chance-panel-with-fuses${isOld ? '-before-1965' : ''}`)]
      : []),
  ];
}

/** A panel whose free spaces nobody has counted: there may be none. */
function fullPanel({ plan }: PlannedCase): Fact[] {
  const { description, option, serviceWork } = plan;
  const { site } = description;
  const isNew = !site.start && (serviceWork?.panels.length ?? 0) > 0;
  const freeSpaces = site.start ? site.start.freeSpaces : site.service.freeSpaces;
  if (freeSpaces !== null || isNew || option.feed === 'existing-receptacle') return [];
  const full = site.start
    ? { ...site, start: { ...site.start, freeSpaces: 0 } }
    : { ...site, service: { ...site.service, freeSpaces: 0 } };
  return [
    {
      name: 'panel-full',
      group: 'panel',
      because: `Room made in a full ${site.start ? 'subpanel' : 'panel'} by tandem breakers, whose free spaces nobody has counted`,
      bookName: 'chance-panel-full',
      plan: { ...plan, description: { ...description, site: full } },
    },
  ];
}

/** A stated upgrade whose supply or meter is not known: the case that is less likely than the one that is priced. */
function upgradeFacts(at: PlannedCase): Fact[] {
  const { serviceUpgrade } = at.plan.option;
  const { serviceWork } = at.plan;
  if (!serviceUpgrade || !serviceWork) return [];
  const otherSupply = serviceWork.supply === 'overhead' ? 'underground' : 'overhead';
  const year = at.plan.description.site.yearBuilt === undefined ? '-unknown-year' : '';
  const supply: Fact = {
    name: `${otherSupply}-service`,
    group: 'supply',
    because: `The service comes ${otherSupply}, and not ${serviceWork.supply} as is likelier`,
    bookName: `chance-${otherSupply}-service${year}`,
    plan: withUpgrade(at, { ...serviceUpgrade, supply: otherSupply }),
  };
  const meter: Fact = {
    name: 'meter-kept',
    group: 'meter',
    because: 'The socket of the meter may stay',
    bookName: 'chance-meter-kept',
    plan: withUpgrade(at, { ...serviceUpgrade, meter: 'keep' }),
  };
  return [
    ...(serviceUpgrade.supply === null && serviceWork.kind === 'upgrade' ? [supply] : []),
    ...(serviceUpgrade.meter === null && serviceWork.replacesMeter ? [meter] : []),
  ];
}

/** Bands of years that the book tells chances for. Lead paint: as the survey has them; else common practice, no source. */
const BANDS = {
  'lead-paint': [
    { before: 1940, name: 'before-1940' },
    { before: 1960, name: '1940-1959' },
    { before: 1978, name: '1960-1977' },
  ],
  asbestos: [{ before: 1985, name: 'before-1985' }],
  plaster: [
    { before: 1950, name: 'before-1950' },
    { before: 1960, name: '1950-1959' },
  ],
} as const;
const HAZARD_WORDS = {
  'lead-paint': 'Lead paint, where surfaces are opened',
  asbestos: 'Asbestos, where surfaces are opened',
  plaster: 'Plaster on lath, which is slower to fish behind and to make good',
} as const;

/** Materials in the house that nobody has looked for. None where the house is too young for them, or is being built. */
function hazardFacts({ plan }: PlannedCase): Fact[] {
  const { description } = plan;
  const { site } = description;
  if (site.hazards !== null || site.work === 'new-construction') return [];
  const { yearBuilt } = site;
  return (['lead-paint', 'asbestos', 'plaster'] as const).flatMap((name): Fact[] => {
    const band = yearBuilt === undefined ? 'unknown-year' : BANDS[name].find(({ before }) => yearBuilt < before)?.name;
    if (band === undefined) return [];
    return [
      {
        name,
        group: name,
        because: HAZARD_WORDS[name],
        bookName: `chance-${name}-${band}`,
        plan: { ...plan, description: { ...description, site: { ...site, hazards: [name] } } },
      },
    ];
  });
}

/** Is the framing of some leg closed, so that nobody sees what stands in the way? */
function isFinished({ route, description }: PlannedOption): boolean {
  const isClosed = ({ stated }: PlannedOption['route'][number]) => /^finished-/.test(stated.kind);
  return description.site.work === 'retrofit' && route.some(isClosed);
}

/**
 * What stands behind a finished wall or ceiling is not seen before it is opened: fire blocks, pipes or ducts make fishing
 * and patching slower, by the same factor of the book as plaster does. In walls of plaster it is in that factor already.
 */
function blockedWall({ plan }: PlannedCase): Fact[] {
  const { description } = plan;
  const { site } = description;
  const hazards = site.hazards ?? [];
  if (!isFinished(plan) || hazards.includes('plaster')) return [];
  return [
    {
      name: 'blocked-wall',
      group: 'plaster',
      because: 'Fire blocks, pipes or ducts behind a finish, which are not seen before it is opened',
      bookName: 'chance-blocked-wall',
      plan: { ...plan, description: { ...description, site: { ...site, hazards: [...hazards, 'plaster'] } } },
    },
  ];
}

/** Steel in slabs that nobody knows of, in all of them alike: one house, one builder. Bars first, for they cost most. */
function slabFacts({ plan }: PlannedCase): Fact[] {
  const isUnknown = plan.route.some(({ stated }) => stated.reinforcement === null);
  if (!isUnknown) return [];
  return (['rebar', 'mesh'] as const).map((reinforcement) => ({
    name: `slab-${reinforcement}`,
    group: 'slab',
    because: reinforcement === 'rebar' ? 'Bars of steel in the slab' : 'Wire mesh in the slab',
    bookName: `chance-slab-${reinforcement}`,
    plan: {
      ...plan,
      route: plan.route.map((leg) =>
        leg.stated.reinforcement === null ? { ...leg, stated: { ...leg.stated, reinforcement } } : leg,
      ),
    },
  }));
}

/** Receptacles of houses before this year often have no equipment ground. Common practice, no source. */
const GROUNDED_SINCE = 1965;

/**
 * What an outlet that is there may be short of so that its charger needs a circuit of its own, where nobody knows:
 * a ground, or a circuit to itself where the code asks for one. 120 V charging within 80 % of its circuit may share it.
 */
export function outletShortages({
  option: { receptacle, chargers },
  description,
}: Pick<PlannedOption, 'option' | 'description'>): Chance[] {
  if (!receptacle) return [];
  const { edition } = description.site.code;
  const mayShare = chargers.every((charger) =>
    maySharedCircuitCharge({
      amps: charger.amps,
      voltageV: is120V(charger) ? 120 : 240,
      ocpdA: receptacle.circuitA,
      edition,
    }),
  );
  return [
    ...(receptacle.sharedWith === null && !mayShare ? (['shared-circuit'] as const) : []),
    ...(receptacle.grounded === null ? (['no-ground'] as const) : []),
  ];
}

/** What an outlet that is there may lack: it is replaced, or the charger gets a circuit of its own. */
function outletFacts({ plan, ownCircuit }: PlannedCase): Fact[] {
  const { receptacle } = plan.option;
  if (!receptacle) return [];
  const { yearBuilt } = plan.description.site;
  const isOld = yearBuilt !== undefined && yearBuilt < GROUNDED_SINCE;
  const shortages = outletShortages(plan);
  const own = (name: Chance, why: string, bookName: string): Fact[] =>
    ownCircuit && shortages.includes(name)
      ? [{ name, group: 'outlet', because: `A circuit of its own, for ${why}`, bookName, plan: ownCircuit }]
      : [];
  const replaced: Fact = {
    name: 'no-ground-fault-protection',
    group: 'outlet',
    because: 'The receptacle replaced by one with ground-fault protection, which it may lack',
    bookName: 'chance-no-ground-fault-protection',
    plan: { ...plan, option: { ...plan.option, receptacle: { ...receptacle, replace: true } } },
  };
  return [
    ...own('shared-circuit', 'the outlet may share its circuit', 'chance-shared-circuit'),
    ...own('no-ground', 'the outlet may have no ground', `chance-no-ground${isOld ? '-before-1965' : ''}`),
    ...(receptacle.gfci === null && !receptacle.replace ? [replaced] : []),
  ];
}
