import type { JsonObject } from '../../web/json.ts';

const DUG = {
  soil: ['clay', 'roots'],
  crossings: [{ what: 'gas', count: 1 }],
  coverIn: 30,
  dig: 'hand',
  traffic: 'foot',
};
/** Legs that have a use, together, for every field that a leg can state. */
const LEGS: JsonObject[] = [
  { kind: 'joists', lengthFt: 10 },
  {
    kind: 'existing-raceway',
    lengthFt: { low: 8, likely: 10, high: 14 },
    type: 'emt',
    tradeSize: '1',
    place: 'indoor',
    occupiedBy: [{ insulation: 'thwn-2', size: '12', count: 2 }],
  },
  { kind: 'concrete-cut', lengthFt: 10, ...DUG },
];
const CHARGER = { amps: 32, connection: 'hardwired', equipment: 'owned' };

const OPTIONS: JsonObject[] = [
  {
    id: 'circuit',
    label: 'One circuit',
    feed: 'dedicated-circuit',
    chargers: [{ ...CHARGER, nameplateA: 48, largestSize: '6', cordFt: 18, group: 'one' }],
    loadManagement: { kind: 'service-monitor', maxA: 32, houseLimitA: 100 },
    serviceUpgrade: { toA: 400, supply: null, meter: null },
    spareConduit: { toA: 100 },
    dataConduit: { tradeSize: '1' },
    existingSupply: 'removed',
  },
  {
    id: 'panel',
    label: 'A panel',
    feed: 'subpanel',
    route: LEGS,
    chargers: [],
    subpanel: {
      ratingA: 100,
      spaces: 12,
      feederA: 60,
      otherCircuits: [{ use: 'light', amps: 20, poles: 1, lengthFt: 9 }],
    },
  },
  {
    id: 'outlet',
    label: 'The outlet',
    feed: 'existing-receptacle',
    chargers: [{ amps: 12, connection: 'receptacle-5-20', equipment: 'owned' }],
    receptacle: { circuitA: 20, sharedWith: ['a freezer'], gfci: null, grounded: null },
  },
];

const SITE: JsonObject = {
  building: 'detached',
  yearBuilt: 1962,
  hazards: ['plaster'],
  service: { ratingA: 200, freeSpaces: 4, panelBusA: 200, backfeedA: 40, panel: { kind: null, state: null } },
  start: { feederA: 60, freeSpaces: 2 },
  existingSupply: 'kept',
  existingCircuit: { amps: 20, poles: 1, wires: 2, raceway: 'pvc', tradeSize: '1/2', feeds: ['a light'] },
  garage: { bays: 2, existing: ['light'] },
  permit: { feeCents: 12_000, inspections: 2 },
  code: { minimumCoverIn: 24 },
};

const LISTED: JsonObject = {
  method: 'listed',
  floorAreaFt2: 1500,
  appliances: [{ name: 'range', va: 12_000, kind: 'range' }],
  heating: { kind: 'heat-pump', va: 4000, supplementalVA: 5000, units: 1 },
  cooling: { va: 3000 },
};

const REST: JsonObject = {
  asOf: '2026-03-02',
  chances: { plaster: 0.4 },
  extras: [{ description: 'a gate', class: 'material', quantity: 1, unit: 'each', unitPriceCents: 20_000, hours: 1 }],
  driving: { cars: [{ milesPerDay: 40, parkedHours: 10, maxA: 48 }], electricityCentsPerKwh: 15 },
  terms: {
    laborRate: 'rate-electrician',
    crew: [{ rate: 'rate-electrician', count: 1 }],
    incentives: [
      { name: 'a rebate', kind: 'fixed', cents: 50_000, of: ['material'], until: '2026-12-31' },
      { name: 'a credit', kind: 'percent', bp: 3000, capCents: 100_000, of: ['material'] },
    ],
  },
  purchase: { closing: '2026-06-01', loan: { annualRateBp: 650, years: 30 } },
  bids: [{ from: 'a neighbor', optionId: 'circuit', totalCents: 200_000, covers: ['wire'], offers: { ocpdA: 40 } }],
};

/** Sound descriptions that state, together, every field there is: an invented household, its load listed and measured. */
export function everyFieldStated(): JsonObject[] {
  const loads: JsonObject[] = [LISTED, { method: 'measured', peakA: 60, days: 365 }];
  return loads.map((load) => ({
    title: 'Every field of a household',
    site: { ...SITE, load },
    route: LEGS,
    options: OPTIONS,
    ...REST,
  }));
}
