import type { Estimate, EstimateOption, Finding, Line, Run } from '../../server/estimate/answer.ts';
import { readDescription } from '../../server/estimate/description.ts';
import type { LineClass, Scope } from '../../server/estimate/vocabulary.ts';

/*
 * An invented household and an estimate written by hand, for the drawings and the papers. Nobody computed it with the
 * program: quantities and prices are made up, amounts and totals follow from them by the arithmetic written here.
 */

export const DESCRIPTION = readDescription({
  title: 'Workshop behind the Quince Court house',
  asOf: '2026-04-14',
  site: {
    building: 'detached',
    yearBuilt: 1964,
    service: { ratingA: 200, freeSpaces: 6 },
    load: { method: 'measured', peakA: 71, days: 365 },
  },
  route: [
    { kind: 'joists', lengthFt: 22, through: 'block' },
    { kind: 'under-deck', lengthFt: 9 },
    {
      kind: 'lawn-trench',
      lengthFt: { low: 31, likely: 36, high: 44 },
      soil: 'clay',
      crossings: [{ what: 'gas' }, { what: 'irrigation', count: 2 }],
    },
    { kind: 'planting-bed', lengthFt: 8, soil: 'roots', crossings: [{ what: 'tree-root-zone' }] },
    { kind: 'concrete-cut', lengthFt: 5, thicknessIn: 4 },
    { kind: 'gravel-trench', lengthFt: 17, traffic: 'vehicle' },
  ],
  options: [
    {
      id: 'circuit-32',
      label: 'One circuit, 32 A',
      feed: 'dedicated-circuit',
      chargers: [{ amps: 32, connection: 'hardwired', equipment: 'buy' }],
    },
    {
      id: 'circuit-48',
      label: 'One circuit, 48 A',
      feed: 'dedicated-circuit',
      chargers: [{ amps: 48, connection: 'hardwired', equipment: 'buy' }],
    },
    {
      id: 'panel-90',
      label: 'Panel in the workshop, 90 A',
      feed: 'subpanel',
      chargers: [{ amps: 48, connection: 'hardwired', equipment: 'buy' }],
      subpanel: {
        ratingA: 100,
        spaces: 12,
        feederA: 90,
        otherCircuits: [{ use: 'workshop receptacles', amps: 20, poles: 1 }],
      },
    },
  ],
  driving: { cars: [{ milesPerDay: 41, parkedHours: 11, maxA: 48 }], later: 1 },
  terms: { markup: { materialBp: 1500 }, overheadBp: 1000, profitBp: 1000, contingencyBp: 500, taxBp: 600 },
});

type Row = [
  key: string,
  description: string,
  lineClass: LineClass,
  scope: Scope,
  quantity: number,
  unit: string,
  unitPriceCents: number,
  legs: number[],
  pack?: { size: number; unit: string; taken: number },
];

/** The cents of quantity × price, in whole numbers: both have at most 4 decimals. */
function product(quantity: number, unitPriceCents: number): number {
  return Math.round((Math.round(quantity * 10_000) * Math.round(unitPriceCents * 10_000)) / 100_000_000);
}

function lineOf([key, description, lineClass, scope, quantity, unit, unitPriceCents, legs, pack]: Row): Line {
  const amountCents = product(quantity, unitPriceCents);
  const taken = pack?.taken ?? quantity;
  return {
    key,
    description,
    class: lineClass,
    scope,
    quantity,
    unit,
    unitPriceCents,
    amountCents,
    lowCents: Math.floor(amountCents * 0.85),
    highCents: Math.ceil(amountCents * 1.3),
    ...(pack && { package: { size: pack.size, unit: pack.unit } }),
    taken,
    takenUnit: pack?.unit ?? unit,
    leftOver: pack ? quantity * pack.size - taken : 0,
    ...(lineClass === 'labor' && { hours: quantity }),
    legs,
    priced: true,
    stale: false,
    because: ['made up for the tests'],
  };
}

const OUTSIDE = [1, 2, 3, 4, 5];
const DITCH = [2, 3, 4, 5];
const ALL = [0, 1, 2, 3, 4, 5];

/** What the feed with a panel takes; the two circuits take parts of it. */
const ROWS: Row[] = [
  ['breaker-90-2', 'Breaker, 90 A, two poles', 'material', 'breaker', 1, 'each', 7450, []],
  ['breaker-60-2', 'Breaker, 60 A, two poles', 'material', 'breaker', 1, 'each', 3180, []],
  ['panel-100-12', 'Panel with main breaker, 100 A, 12 spaces', 'material', 'panel', 1, 'each', 13_900, []],
  ['task-panel-mount', 'Mount and connect the panel', 'labor', 'panel', 3.5, 'h', 9500, []],
  ['task-breaker', 'Install breakers', 'labor', 'breaker', 0.8, 'h', 9500, []],
  [
    'mhf-2-2-4-6-al',
    'Feeder cable 2-2-4-6, aluminum',
    'material',
    'wire',
    118,
    'ft',
    412,
    ALL,
    { size: 1, unit: 'ft', taken: 117.4 },
  ],
  [
    'thwn-2-6-cu',
    'THWN-2 6 AWG, copper',
    'material',
    'wire',
    60,
    'ft',
    98.25,
    [5],
    { size: 1, unit: 'ft', taken: 56.1 },
  ],
  ['task-pull-inside', 'Pull cable through bored joists', 'labor', 'wire', 2.64, 'h', 9500, [0]],
  ['task-pull-outside', 'Pull conductors in conduit', 'labor', 'wire', 3.1, 'h', 9500, OUTSIDE],
  [
    'pvc-40-1-1_2',
    'PVC conduit 1-1/2 in, Schedule 40',
    'material',
    'conduit',
    9,
    'each',
    1985,
    DITCH,
    { size: 10, unit: 'ft', taken: 81.3 },
  ],
  [
    'pvc-80-1-1_2',
    'PVC conduit 1-1/2 in, Schedule 80',
    'material',
    'conduit',
    2,
    'each',
    2890,
    OUTSIDE,
    { size: 10, unit: 'ft', taken: 13.5 },
  ],
  ['pvc-elbow-1-1_2', 'PVC elbow 1-1/2 in, 90°', 'material', 'conduit', 4, 'each', 620, DITCH],
  ['pvc-lb-1-1_2', 'PVC pull elbow LB 1-1/2 in', 'material', 'conduit', 2, 'each', 1340, [1]],
  ['pvc-expansion-1-1_2', 'Expansion fitting 1-1/2 in', 'material', 'conduit', 2, 'each', 2215, [1, 5]],
  ['strap-1-1_2', 'Straps, 1-1/2 in', 'material', 'conduit', 12, 'each', 86, [1]],
  ['cement-8oz', 'Solvent cement, 8 oz', 'material', 'conduit', 1, 'each', 899, OUTSIDE],
  ['task-conduit', 'Lay conduit in the ditch', 'labor', 'conduit', 4.62, 'h', 9500, DITCH],
  ['task-conduit-deck', 'Fasten conduit below the deck', 'labor', 'conduit', 1.08, 'h', 9500, [1]],
  ['box-8x8x4', 'Junction box 8 × 8 × 4 in, outdoors', 'material', 'boxes', 1, 'each', 3650, [1]],
  ['task-box', 'Set junction box, make splices', 'labor', 'boxes', 1.5, 'h', 9500, [1]],
  ['task-bore-wall', 'Bore through a block wall', 'labor', 'boxes', 0.75, 'h', 9500, [0]],
  ['task-dig-lawn', 'Trench in clay, 18 in cover', 'labor', 'trench', 9.36, 'h', 6200, [2]],
  ['task-dig-bed', 'Dig by hand in roots, 18 in cover', 'labor', 'trench', 3.2, 'h', 6200, [3]],
  ['task-dig-gravel', 'Trench below gravel, 24 in cover', 'labor', 'trench', 4.25, 'h', 6200, [5]],
  ['task-hand-crossing', 'Expose crossings by hand', 'labor', 'trench', 2.25, 'h', 6200, [2]],
  ['tape-warning', 'Warning tape', 'material', 'trench', 1, 'each', 1450, DITCH, { size: 500, unit: 'ft', taken: 66 }],
  ['rental-trencher-day', 'Trencher, day', 'equipment', 'trench', 1, 'day', 18_900, [2, 5]],
  ['task-saw-cut', 'Saw cut and break out concrete', 'labor', 'hard-surface', 2.9, 'h', 6200, [4]],
  ['rental-saw-day', 'Walk-behind saw, day', 'equipment', 'hard-surface', 1, 'day', 9800, [4]],
  ['concrete-80lb', 'Concrete mix, 80 lb bag', 'material', 'restoration', 3, 'each', 645, [4]],
  ['task-pour', 'Place and finish concrete', 'labor', 'restoration', 1.75, 'h', 6200, [4]],
  ['seed-5lb', 'Grass seed, 5 lb', 'material', 'restoration', 1, 'each', 2399, [2]],
  ['task-restore', 'Fill, compact, restore the surface', 'labor', 'restoration', 4.8, 'h', 6200, DITCH],
  ['rod-5_8-8', 'Ground rod 5/8 in × 8 ft', 'material', 'grounding', 2, 'each', 2140, []],
  ['wire-bare-6', 'Bare copper 6 AWG', 'material', 'grounding', 20, 'ft', 142, [], { size: 1, unit: 'ft', taken: 18 }],
  ['task-rods', 'Drive rods and connect', 'labor', 'grounding', 1.6, 'h', 9500, []],
  ['charger-48', 'Charger, 48 A, hardwired', 'material', 'charger', 1, 'each', 54_900, []],
  ['task-charger', 'Mount, connect and set the charger', 'labor', 'charger', 1.75, 'h', 9500, []],
  ['permit-electrical', 'Electrical permit', 'fee', 'permit', 1, 'each', 18_500, []],
  ['travel-mile', 'Travel', 'equipment', 'travel', 120, 'mile', 67, []],
];

const TERMS = { materialBp: 1500, overheadBp: 1000, profitBp: 1000, contingencyBp: 500, taxBp: 600 };
const share = (cents: number, bp: number) => Math.round((cents * bp) / 10_000);

function totalsOf(lines: readonly Line[]): EstimateOption['totals'] {
  const sum = (lineClass: LineClass) =>
    lines.filter((line) => line.class === lineClass).reduce((total, { amountCents }) => total + amountCents, 0);
  const [materialCents, laborCents, equipmentCents, feeCents] = [
    sum('material'),
    sum('labor'),
    sum('equipment'),
    sum('fee'),
  ];
  const costCents = materialCents + laborCents + equipmentCents + feeCents;
  const markupCents = share(materialCents, TERMS.materialBp);
  const overheadCents = share(costCents, TERMS.overheadBp);
  const subtotalCents = costCents + markupCents + overheadCents;
  const contingencyCents = share(subtotalCents, TERMS.contingencyBp);
  const profitCents = share(subtotalCents + contingencyCents, TERMS.profitBp);
  const taxCents = share(materialCents, TERMS.taxBp);
  const totalCents = subtotalCents + contingencyCents + profitCents + taxCents;
  return {
    materialCents,
    laborCents,
    equipmentCents,
    feeCents,
    costCents,
    markupCents,
    overheadCents,
    contingencyCents,
    profitCents,
    discountCents: 0,
    taxCents,
    totalCents,
    incentiveCents: 0,
    netCents: totalCents,
  };
}

const cite = (article: string) => ({ code: 'NEC', edition: '2023' as const, article });

const FINDINGS: Finding[] = [
  {
    rule: 'line-crossing',
    severity: 'caution',
    message:
      'The ditch crosses a gas line. Have it marked, expose it by hand and keep at least 12 in away from it, or more where the gas company asks for it.',
    numbers: { count: 1 },
    leg: 2,
  },
  {
    rule: 'cover-depth',
    severity: 'ok',
    message: '18 in of cover; at least 18 in is required here.',
    citation: cite('300.5(A)'),
    numbers: { coverIn: 18, leastIn: 18 },
    leg: 2,
  },
  {
    rule: 'cover-depth',
    severity: 'ok',
    message: '24 in of cover; at least 24 in is required under a driveway here.',
    citation: cite('300.5(A)'),
    numbers: { coverIn: 24, leastIn: 24 },
    leg: 5,
  },
  {
    rule: 'conduit-fill',
    severity: 'ok',
    message: 'The conduit is filled to 27.4 %; 40 % is allowed.',
    citation: cite('Chapter 9, Table 1'),
    numbers: { fillPercent: 27.4 },
    leg: 2,
  },
  {
    rule: 'voltage-drop',
    severity: 'ok',
    message: 'Voltage drops by 1.9 % to the charger; 3 % was asked for.',
    citation: cite('210.19, Informational Note'),
    numbers: { dropPercent: 1.9 },
  },
  {
    rule: 'through-not-stated',
    severity: 'note',
    message: 'What the route passes from under the deck into the ground is not stated; a wood frame was assumed.',
    numbers: {},
    leg: 1,
  },
  {
    rule: 'service-capacity',
    severity: 'ok',
    message: 'The service carries it: 161 A of 200 A by the strictest reading.',
    citation: cite('220.87'),
    numbers: { withA: 161 },
  },
  {
    rule: 'feeder-disconnect',
    severity: 'ok',
    message: 'The panel in the second building has a main breaker as its disconnect.',
    citation: cite('225.31'),
    numbers: {},
  },
];

function runOf(over: Partial<Run>): Run {
  return {
    name: 'charger',
    role: 'branch-circuit',
    from: 'main panel',
    to: 'charger',
    lengthFt: 97,
    lengthRangeFt: { low: 92, high: 105 },
    loadA: 48,
    continuousA: 48,
    ocpdA: 60,
    poles: 2,
    breaker: { ocpdA: 60, poles: 2, spaces: 2, kind: 'standard', because: ['125 % of 48 A'] },
    neutral: false,
    separateNeutral: false,
    conductor: { metal: 'copper', size: '6', ampacityA: 65 },
    groundSize: '10',
    terminations: [{ at: 'charger', metal: 'copper', size: '6', compound: false }],
    wire: [
      { use: 'cable', metal: 'copper', size: '6', insulation: 'nm-b', count: 1, cutLengthFt: 29, legs: [0] },
      {
        use: 'ungrounded',
        metal: 'copper',
        size: '6',
        insulation: 'thwn-2',
        count: 2,
        cutLengthFt: 88.5,
        legs: OUTSIDE,
      },
      { use: 'ground', metal: 'copper', size: '10', insulation: 'thwn-2', count: 1, cutLengthFt: 88.5, legs: OUTSIDE },
    ],
    legs: ALL.map((leg) => ({
      leg,
      method: leg === 0 ? 'nm-b' : 'pvc',
      insulation: leg === 0 ? 'nm-b' : 'thwn-2',
      ...(leg > 0 && {
        conduit: { type: leg === 1 ? 'pvc-80' : 'pvc-40', tradeSize: '1', fillPercent: 27.4 } as const,
      }),
      ...(leg > 1 && { coverIn: leg === 5 ? 24 : 18 }),
      because: ['made up for the tests'],
      others: [],
    })),
    dropPercent: 1.9,
    dropV: 4.56,
    runnersUp: [],
    proof: { proven: true, gapCents: 0 },
    ...over,
  };
}

const FEEDER = runOf({
  name: 'feeder',
  role: 'feeder',
  to: 'subpanel',
  loadA: 68,
  ocpdA: 90,
  breaker: { ocpdA: 90, poles: 2, spaces: 2, kind: 'standard', because: ['stated'] },
  neutral: true,
  separateNeutral: true,
  disconnect: { at: 'workshop', ratingA: 100, kind: 'main-breaker', because: ['a second building'] },
  conductor: { metal: 'aluminum', size: '2', ampacityA: 90 },
  neutralSize: '4',
  groundSize: '6',
  wire: [
    { use: 'ungrounded', metal: 'aluminum', size: '2', insulation: 'xhhw-2', count: 2, cutLengthFt: 117.4, legs: ALL },
    { use: 'neutral', metal: 'aluminum', size: '4', insulation: 'xhhw-2', count: 1, cutLengthFt: 117.4, legs: ALL },
    { use: 'ground', metal: 'aluminum', size: '6', insulation: 'xhhw-2', count: 1, cutLengthFt: 117.4, legs: ALL },
  ],
  legs: runOf({}).legs.map((leg) => ({
    ...leg,
    method: leg.leg === 0 ? 'ser' : 'pvc',
    insulation: leg.leg === 0 ? 'ser' : 'xhhw-2',
    ...(leg.conduit && { conduit: { ...leg.conduit, tradeSize: '1-1/2' as const } }),
  })),
});

interface Made {
  id: string;
  label: string;
  rows: Row[];
  runs: Run[];
  amps: number;
  findings: Finding[];
}

function optionOf({ id, label, rows, runs, amps, findings }: Made): EstimateOption {
  const lines = rows.map(lineOf);
  const totals = totalsOf(lines);
  const hours = lines.reduce((sum, line) => sum + (line.hours ?? 0), 0);
  const charging = {
    kW: (amps * 240) / 1000,
    milesPerHour: (amps * 240 * 0.9 * 3.5) / 1000,
    hoursForDailyMiles: 41 / ((amps * 240 * 0.9 * 3.5) / 1000),
    coversDailyMiles: true,
  };
  return {
    id,
    label,
    complete: lines.every(({ priced }) => priced),
    buildable: !findings.some(({ severity }) => severity === 'stop'),
    runs,
    ...(runs.some(({ role }) => role === 'feeder') && {
      grounding: {
        electrodes: [{ kind: 'rod', count: 2 }],
        conductorSize: '6' as const,
        because: ['a second building'],
      },
    }),
    dropPercent: 1.9,
    lines,
    labor: {
      hours,
      workingDays: Math.ceil(hours / 8),
      ownerHours: 0,
      tasks: [],
      visits: [
        { why: 'trench-inspection', days: 1, because: ['before the ditch is filled'] },
        { why: 'final-inspection', days: 1, because: ['before it is used'] },
      ],
    },
    schedule: [
      { step: 'locate', workDays: 0, waitDays: 3, because: ['lines are marked before digging'] },
      { step: 'permit', workDays: 0, waitDays: 10, because: ['made up for the tests'] },
      { step: 'work', workDays: Math.ceil(hours / 8), waitDays: 0, because: ['hours of the crew'] },
      { step: 'cure', workDays: 0, waitDays: 3, because: ['concrete hardens'] },
    ],
    totals,
    range: {
      p10Cents: Math.round(totals.totalCents * 0.88),
      p50Cents: Math.round(totals.totalCents * 1.04),
      p90Cents: Math.round(totals.totalCents * 1.31),
      likelyCents: totals.totalCents,
      because: ['half of all cases lie higher than likely prices add up to'],
      shape: { fromCents: totals.totalCents, stepCents: 10_000, shares: [0.25, 0.5, 0.25] },
      drivers: [
        { name: 'ground conditions', lowCents: totals.totalCents - 32_000, highCents: totals.totalCents + 88_000 },
        { name: 'crew productivity', lowCents: totals.totalCents - 41_000, highCents: totals.totalCents + 52_000 },
      ],
      chances: [{ name: 'rock', chance: 0.1, addsCents: 74_000, because: 'rock where nobody has dug' }],
    },
    charging: { together: charging, perCharger: [{ ...charging, limitedBy: 'charger' }] },
    service: {
      method: 'measured',
      demandA: 88.75,
      addedA: 60,
      withA: 148.75,
      spareA: 51.25,
      fits: 'yes',
      readings: [{ method: '220.87', reading: 'the charger in full, at 125 %', withA: 148.75, fits: true }],
      remedies: [],
    },
    findings,
  };
}

const forCircuit = (row: Row) =>
  !['panel', 'grounding'].includes(row[3]) && !['breaker-90-2', 'mhf-2-2-4-6-al'].includes(row[0]);

export const CIRCUIT_32 = optionOf({
  id: 'circuit-32',
  label: 'One circuit, 32 A',
  amps: 32,
  rows: ROWS.filter(forCircuit).map(
    (row): Row =>
      row[0] === 'charger-48'
        ? ['charger-32', 'Charger, 32 A, hardwired', 'material', 'charger', 1, 'each', 41_900, []]
        : row,
  ),
  runs: [
    runOf({
      loadA: 32,
      continuousA: 32,
      ocpdA: 40,
      breaker: { ocpdA: 40, poles: 2, spaces: 2, kind: 'standard', because: ['125 % of 32 A'] },
      conductor: { metal: 'copper', size: '8', ampacityA: 40 },
    }),
  ],
  findings: FINDINGS.filter(({ rule }) => rule !== 'feeder-disconnect'),
});
export const CIRCUIT_48 = optionOf({
  id: 'circuit-48',
  label: 'One circuit, 48 A',
  amps: 48,
  rows: ROWS.filter(forCircuit),
  runs: [runOf({})],
  findings: [
    ...FINDINGS.filter(({ rule }) => rule !== 'feeder-disconnect'),
    {
      rule: 'cable-ampacity',
      severity: 'stop',
      message:
        'NM-B 6 AWG carries 55 A, less than the 60 A that 48 A of charging asks for. Choose 4 AWG, or another method for this leg.',
      citation: cite('334.80'),
      numbers: { ampacityA: 55, neededA: 60 },
      leg: 0,
    },
  ],
});
export const PANEL_90 = optionOf({
  id: 'panel-90',
  label: 'Panel in the workshop, 90 A',
  amps: 48,
  rows: ROWS,
  runs: [
    FEEDER,
    runOf({
      from: 'subpanel',
      lengthFt: 6,
      legs: [],
      wire: [
        { use: 'ungrounded', metal: 'copper', size: '6', insulation: 'thwn-2', count: 2, cutLengthFt: 11, legs: [] },
      ],
    }),
  ],
  findings: FINDINGS,
});

/** The whole answer: three options, one of which may not be built as stated. */
export const ESTIMATE: Estimate = {
  description: DESCRIPTION,
  bookRevision: 14,
  complete: true,
  notices: [
    'Not a permit, not a design by a licensed person and not an approval. The local code and the authority having jurisdiction (AHJ) decide.',
    'Call 811 and wait for the marks before any digging.',
    'Switch the power off and test that it is off before any cover is opened.',
  ],
  options: [CIRCUIT_32, CIRCUIT_48, PANEL_90],
  bids: [],
  comparison: {
    cheapest: 'circuit-32',
    rows: [
      { option: 'circuit-32', buildable: true, differenceCents: 0, buys: [] },
      {
        option: 'circuit-48',
        buildable: false,
        differenceCents: CIRCUIT_48.totals.totalCents - CIRCUIT_32.totals.totalCents,
        buys: ['charges 3.8 kW faster, 36 miles of range an hour'],
      },
      {
        option: 'panel-90',
        buildable: true,
        differenceCents: PANEL_90.totals.totalCents - CIRCUIT_32.totals.totalCents,
        buys: [
          'charges 3.8 kW faster, 36 miles of range an hour',
          'a panel at the parking place, 90 A, with 10 of 12 spaces left for later',
        ],
      },
    ],
  },
};
