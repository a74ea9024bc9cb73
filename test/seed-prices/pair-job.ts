import { CROSSINGS, LINE_CLASSES, SCOPES, SOILS } from '../../server/estimate/vocabulary.ts';
import type { Row } from './all-pairs.ts';
import { HAZARDS, UNSTATED } from './pair-fields.ts';

type Stated = Record<string, unknown>;

/** The fields that a row states, under the names that the description has for them. */
function stated(row: Row, names: Record<string, string>): Stated {
  const pairs = Object.entries(names).map(([name, from]) => [name, row[from]] as const);
  return Object.fromEntries(pairs.filter(([, value]) => value !== undefined && value !== UNSTATED));
}

/** The words of a list that a row says yes to. */
const wordsOf = (row: Row, name: string, words: readonly string[]) =>
  words.filter((word) => row[`${name}.${word}`] === true);

/** A job as a row of values describes it: an invented household with one option. */
export function jobOf(row: Row): Stated {
  return {
    title: 'One of many jobs',
    asOf: '2025-08-01',
    site: siteOf(row),
    route: [legOf(row), ...nextLegOf(row)],
    options: [optionOf(row)],
    extras: extrasOf(row),
    terms: termsOf(row),
  };
}

function siteOf(row: Row): Stated {
  return {
    ...stated(row, { work: 'work', building: 'building', yearBuilt: 'yearBuilt', existingSupply: 'existingSupply' }),
    hazards: row.hazardsKnown ? wordsOf(row, 'hazard', HAZARDS) : null,
    service: {
      ...stated(row, { ratingA: 'ratingA', freeSpaces: 'freeSpaces', backfeedA: 'backfeedA' }),
      ...(row.panelKind !== UNSTATED && { panel: { kind: row.panelKind, state: row.panelState } }),
    },
    ...(row.start === true && {
      start: { freeSpaces: 6, ...stated(row, { feederA: 'start.feederA', terminalsC: 'start.terminalsC' }) },
    }),
    ...(row.existingCircuit === true && { existingCircuit: existingCircuitOf(row) }),
    garage: { bays: 2, existing: wordsOf(row, 'garage', ['receptacles', 'light']) },
    permit: stated(row, { byOwner: 'permit.byOwner', rightOfWay: 'permit.rightOfWay', feeCents: 'permit.feeCents' }),
    load: loadOf(row),
    code: stated(row, {
      edition: 'edition',
      nonmetallicCable: 'nonmetallicCable',
      terminalsC: 'terminalsC',
      chargerReading: 'chargerReading',
    }),
  };
}

function existingCircuitOf(row: Row): Stated {
  return {
    ...stated(row, {
      amps: 'existingCircuit.amps',
      poles: 'existingCircuit.poles',
      wires: 'existingCircuit.wires',
      raceway: 'existingCircuit.raceway',
    }),
    ...(row['existingCircuit.raceway'] !== 'none' && { tradeSize: '1' }),
    feeds: ['receptacles in the garage'],
  };
}

function loadOf(row: Row): Stated {
  if (row.load === 'unknown') return { method: 'unknown' };
  if (row.load === 'measured') return { method: 'measured', peakA: 40, days: 365 };
  return {
    method: 'listed',
    floorAreaFt2: 1800,
    appliances: [{ name: 'something large', va: 5000, kind: row.appliance }],
    heating: {
      kind: row.heating,
      va: row.heating === 'none' ? 0 : 6000,
      ...(row.heating === 'separate-units' && { units: 4 }),
    },
    cooling: { va: 3000 },
    addingHeatOrCooling: row.addingHeatOrCooling,
  };
}

const PLAIN_LEG_FIELDS = Object.fromEntries(
  ['kind', 'method', 'through', 'across', 'headroom', 'dig', 'traffic', 'coverIn', 'restore', 'thicknessIn']
    .concat(['replace', 'finish', 'reinforcement', 'type', 'tradeSize', 'place'])
    .map((name) => [name, name]),
);

function legOf(row: Row): Stated {
  const soil = wordsOf(row, 'soil', SOILS);
  const crossings = wordsOf(row, 'crossing', CROSSINGS).map((what) => ({ what }));
  const insulation = row.occupiedBy;
  return {
    ...stated(row, PLAIN_LEG_FIELDS),
    lengthFt: row.lengthFt === 'guessed' ? { low: 20, likely: 30, high: 45 } : row.lengthFt,
    ...(soil.length > 0 && { soil }),
    ...(crossings.length > 0 && { crossings }),
    ...(insulation !== undefined && insulation !== UNSTATED && { occupiedBy: [{ insulation, size: '12', count: 3 }] }),
  };
}

const nextLegOf = (row: Row) => (row.nextLeg === UNSTATED ? [] : [{ kind: row.nextLeg, lengthFt: 15 }]);

function optionOf(row: Row): Stated {
  return {
    id: 'a',
    label: 'One way',
    ...stated(row, { feed: 'feed', existingSupply: 'ownExistingSupply', metal: 'metal', roughInOnly: 'roughInOnly' }),
    chargers: chargersOf(row),
    ...(row.feed === 'existing-receptacle' && { receptacle: receptacleOf(row) }),
    ...(row.loadManagement !== UNSTATED && { loadManagement: { kind: row.loadManagement, maxA: 48 } }),
    ...(row.feed === 'subpanel' && { subpanel: subpanelOf(row) }),
    ...(row.serviceUpgrade === true && {
      serviceUpgrade: stated(row, {
        toA: 'toA',
        supply: 'supply',
        meter: 'meter',
        panel: 'upgradedPanel',
        relocateFt: 'relocateFt',
      }),
    }),
    ...(row.spareToA !== UNSTATED && { spareConduit: { toA: row.spareToA } }),
    ...(row.dataTradeSize !== UNSTATED && { dataConduit: { tradeSize: row.dataTradeSize } }),
  };
}

/** Amperes that suit a connection: a plug gives no more than 80 % of its circuit for hours. NEC 210.23, 625.42. */
const AMPS: Record<string, Record<string, number>> = {
  'receptacle-5-15': { least: 6, usual: 12, most: 12 },
  'receptacle-5-20': { least: 6, usual: 12, most: 16 },
  'receptacle-6-50': { least: 16, usual: 32, most: 40 },
  'receptacle-14-50': { least: 16, usual: 32, most: 40 },
  hardwired: { least: 12, usual: 48, most: 80 },
};

function chargersOf(row: Row): Stated[] {
  const names = ['setting', 'connection', 'equipment', 'terminals', 'largestSize', 'mount', 'outdoors'];
  const suited = AMPS[String(row.connection)] ?? {};
  const charger = {
    ...stated(row, Object.fromEntries(names.map((name) => [name, name]))),
    amps: row.amps === 'largest' ? 'largest' : suited[String(row.amps)],
  };
  if (row.otherCharger === UNSTATED) return [charger];
  const other = { ...charger, amps: row.amps === 'largest' ? 'largest' : suited.least };
  return row.otherCharger === 'own circuit'
    ? [charger, other]
    : [charger, other].map((one) => ({ ...one, group: 'both' }));
}

function receptacleOf(row: Row): Stated {
  const shared: Record<string, unknown> = { nothing: [], 'a freezer': ['a freezer'] };
  return {
    ...stated(row, { circuitA: 'circuitA', gfci: 'gfci', grounded: 'grounded', outdoors: 'receptacleOutdoors' }),
    replace: row.replaceReceptacle,
    sharedWith: row.sharedWith === null ? null : shared[String(row.sharedWith)],
  };
}

function subpanelOf(row: Row): Stated {
  const other = stated(row, {
    poles: 'otherPoles',
    amps: 'otherA',
    continuous: 'otherContinuous',
    build: 'otherBuild',
  });
  return {
    ...stated(row, {
      ratingA: 'panelA',
      spaces: 'spaces',
      feederA: 'feederA',
      mainBreaker: 'mainBreaker',
      enclosure: 'enclosure',
    }),
    otherCircuits: other.poles === undefined ? [] : [{ use: 'receptacles', ...other }],
  };
}

/** One thing more of every scope, all of one class. */
function extrasOf(row: Row): Stated[] {
  const extra = {
    class: row.extraClass,
    description: 'Something more',
    quantity: 2,
    unit: 'each',
    unitPriceCents: 1500,
  };
  return SCOPES.map((scope) => ({ ...extra, scope }));
}

function termsOf(row: Row): Stated {
  const amount = row.incentive === 'fixed' ? { cents: 20_000 } : { bp: 3000 };
  return {
    ...stated(row, {
      who: 'who',
      laborRate: 'laborRate',
      laborRateIs: 'laborRateIs',
      offcuts: 'offcuts',
      profitOn: 'profitOn',
      taxBase: 'taxBase',
    }),
    ownerDoes: wordsOf(row, 'ownerDoes', SCOPES),
    ...(row.crew !== UNSTATED && {
      crew: [
        { rate: 'rate-electrician', count: 1 },
        { rate: 'rate-helper', count: 1 },
      ],
    }),
    markup: { materialBp: 1500, equipmentBp: 1000 },
    profitBp: 800,
    taxBp: 700,
    taxOn: wordsOf(row, 'taxOn', LINE_CLASSES),
    incentives: [{ name: 'A grant', kind: row.incentive, ...amount, of: ['material'], certain: row.certain }],
  };
}
