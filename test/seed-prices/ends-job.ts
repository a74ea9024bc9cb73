import { LEG_FIELDS, type LegKind } from '../../server/estimate/vocabulary.ts';

type Stated = Record<string, unknown>;
export type Feed = 'existing-receptacle' | 'dedicated-circuit' | 'subpanel';

/** Kinds of leg that together have a use for every field of a leg. */
const ROUTE_KINDS = ['concrete-cut', 'joists', 'existing-raceway'] as const satisfies readonly LegKind[];

/** The leg of the whole job at which a field of a leg matters. */
export function legWith(name: string): number {
  const at = ROUTE_KINDS.findIndex((kind) => (LEG_FIELDS[kind] as readonly string[]).includes(name));
  return Math.max(0, at);
}

/** An invented job with one option, in which nothing that may be stated is left out. */
export function wholeJob({ feed, load }: { feed: Feed; load: 'measured' | 'listed' }): Stated {
  return {
    title: 'A job that says everything',
    asOf: '2025-08-01',
    site: wholeSite(load),
    route: wholeRoute(),
    options: [wholeOption(feed)],
    extras: [
      {
        description: 'more',
        class: 'material',
        quantity: 2,
        unit: 'each',
        unitPriceCents: 0,
        highCents: 500,
        hours: 1,
      },
    ],
    driving: {
      cars: [{ milesPerDay: 40, milesPerKwh: 3.5, parkedHours: 10, maxA: 48 }],
      later: 1,
      electricityCentsPerKwh: 16,
    },
    terms: wholeTerms(),
    purchase: { loan: { annualRateBp: 650, years: 30 } },
    bids: [
      {
        from: 'A bidder',
        optionId: 'a',
        totalCents: 250_000,
        covers: ['wire', 'breaker'],
        offers: { ocpdA: 60, metal: 'copper', size: '6', method: 'pvc', amps: 40, gfci: true, panelA: 100 },
      },
    ],
  };
}

function wholeSite(load: 'measured' | 'listed'): Stated {
  return {
    building: 'detached',
    yearBuilt: 1975,
    hazards: ['plaster'],
    service: {
      ratingA: 200,
      freeSpaces: 6,
      panelBusA: 225,
      backfeedA: 20,
      panel: { kind: 'service-equipment', state: 'current' },
    },
    existingSupply: 'removed',
    existingCircuit: { amps: 20, poles: 1, wires: 3, raceway: 'pvc', tradeSize: '3/4', feeds: ['receptacles'] },
    garage: { bays: 1, existing: ['light'] },
    permit: { feeCents: 9000, inspections: 3 },
    load: load === 'measured' ? { method: 'measured', peakA: 40, days: 365 } : listedLoad(),
    ambientC: 30,
    temperatureSwingF: 100,
    code: { minimumCoverIn: 18 },
  };
}

function listedLoad(): Stated {
  return {
    method: 'listed',
    floorAreaFt2: 1800,
    smallApplianceCircuits: 2,
    laundryCircuits: 1,
    appliances: [{ name: 'dryer', va: 5000, kind: 'dryer' }],
    heating: { kind: 'heat-pump', va: 4000, supplementalVA: 5000, units: 1 },
    cooling: { va: 3000 },
  };
}

function wholeRoute(): Stated[] {
  const [slab, joists, raceway] = ROUTE_KINDS;
  return [
    {
      kind: slab,
      lengthFt: { low: 10, likely: 12, high: 15 },
      riseFt: 2,
      soil: ['clay'],
      crossings: [{ what: 'gas', count: 1 }],
      coverIn: 24,
      thicknessIn: 4,
      widthIn: 12,
      bendsDeg: 90,
      ambientC: 30,
    },
    { kind: joists, lengthFt: 20 },
    {
      kind: raceway,
      lengthFt: 20,
      type: 'pvc-40',
      tradeSize: '2',
      occupiedBy: [{ insulation: 'thwn-2', size: '12', count: 2 }],
    },
  ];
}

function wholeOption(feed: Feed): Stated {
  const charger = { nameplateA: 48, distanceFt: 6, cordFt: 20, group: 'one', equipment: 'buy' };
  return {
    id: 'a',
    label: 'One way',
    feed,
    maxDropPercent: 3,
    chargers: [
      feed === 'existing-receptacle'
        ? { ...charger, amps: 12, nameplateA: 12, connection: 'receptacle-5-15' }
        : { ...charger, amps: 32, connection: 'hardwired' },
    ],
    ...(feed === 'existing-receptacle' && {
      receptacle: { circuitA: 20, sharedWith: ['a freezer'], gfci: true, grounded: true },
    }),
    loadManagement: { kind: 'service-monitor', maxA: 48, houseLimitA: 160 },
    ...(feed === 'subpanel' && {
      subpanel: {
        ratingA: 125,
        spaces: 12,
        feederA: 100,
        otherCircuits: [{ use: 'tools', amps: 30, poles: 2, lengthFt: 20, build: true }],
      },
    }),
    serviceUpgrade: { toA: 200, supply: 'overhead', meter: 'keep', relocateFt: 5 },
    spareConduit: { toA: 60 },
    dataConduit: { tradeSize: '1' },
  };
}

function wholeTerms(): Stated {
  return {
    ownerDoes: ['restoration'],
    ownerHourCents: 1500,
    crew: [{ rate: 'rate-electrician', count: 1 }],
    crewSize: 1,
    hoursPerDay: 8,
    travel: { minutesEachWay: 30, milesEachWay: 15 },
    minimumCents: 35_000,
    makeup: { panelFt: 5, boxFt: 1, outletFt: 1, wastePercent: { cable: 5, conductor: 3, conduit: 5 } },
    markup: { materialBp: 1500, laborBp: 500, equipmentBp: 1000, feeBp: 100 },
    overheadBp: 1000,
    profitBp: 1000,
    contingencyBp: 500,
    discountCents: 5000,
    taxBp: 700,
    taxOn: ['material', 'labor'],
    incentives: [{ name: 'A grant', kind: 'percent', cents: 0, bp: 3000, capCents: 100_000, of: ['material'] }],
  };
}
