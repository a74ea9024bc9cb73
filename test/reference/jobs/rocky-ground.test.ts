import { checkWorkedJob, type TakeoffByHand } from './worked-job.ts';

/*
 * From the basement through a wall of poured concrete, under a rocky lawn with a gas and a water line across it, and under a
 * gravel drive where 24 in of cover are asked for: one continuous ditch, which keeps its deepest cover. PVC conduit with
 * climbs of schedule 80, a charger of 40 A outside on the far wall. The lines' tolerance zones are dug by hand.
 */
const DESCRIPTION = {
  title: 'Rocky ground',
  asOf: '2025-08-01',
  site: {
    building: 'attached',
    service: { ratingA: 200, freeSpaces: 6 },
    load: { method: 'measured', peakA: 60, days: 365 },
  },
  route: [
    { kind: 'interior-surface', lengthFt: 12, method: 'emt', through: 'poured-concrete' },
    {
      kind: 'lawn-trench',
      lengthFt: 35,
      method: 'pvc',
      soil: 'rocky',
      dig: 'trencher',
      crossings: [{ what: 'gas' }, { what: 'water' }],
    },
    {
      kind: 'gravel-trench',
      lengthFt: 18,
      method: 'pvc',
      soil: 'rocky',
      dig: 'trencher',
      traffic: 'vehicle',
      coverIn: 24,
    },
  ],
  options: [
    {
      id: 'a',
      label: 'Hardwired, 40 A',
      feed: 'dedicated-circuit',
      chargers: [{ amps: 40, connection: 'hardwired', equipment: 'owned', distanceFt: 4, outdoors: true }],
    },
  ],
  terms: { overheadBp: 1500, profitBp: 1000 },
};

/** Joints: sticks; elbows, expansion fittings, reducers and the entry body two each; one of the female adapter, one at the charger. */
const GLUED = 5.565 + 1.155 + 0.1 + 2 * (3 + 2 + 2 + 1) + 1 + 1;

const BY_HAND: TakeoffByHand = {
  buildable: true,
  runs: [
    {
      name: 'charger',
      role: 'branch-circuit',
      lengthFt: 69,
      ocpdA: 50,
      poles: 2,
      breaker: { kind: 'gfci', spaces: 2 },
      neutral: false,
      conductor: { metal: 'copper', size: '8', ampacityA: 50 },
      groundSize: '10',
      methods: ['emt', 'pvc', 'pvc'],
      tradeSizes: ['1/2', '1/2', '1/2'],
      dropPercent: 1.7894,
      wire: [
        { use: 'ungrounded', metal: 'copper', size: '8', insulation: 'thwn-2', count: 2, cutLengthFt: 82 },
        { use: 'ground', metal: 'copper', size: '10', insulation: 'thwn-2', count: 1, cutLengthFt: 82 },
      ],
      working: `12 + 35 + 18 + 4 ft. 1.25 × 40 = 50 A; 8 AWG at 75 °C: 50 A. Outdoors, 50 A: 210.8(F). Fill 2 × 0.0366 + 0.0211 =
0.0943 in²: EMT 1/2 holds 0.122, PVC 40 1/2 0.114, PVC 80 1/2 only 0.087, so that the climbs are 3/4. Drop: 2 × 69 × 0.778 /
1000 × 40 = 4.29456 V. Cut: 69 + 2 × (24 in + 1.5 ft) + 5 + 1 ft.`,
    },
  ],
  materials: {
    'emt-1_2': { taken: 12.6, bought: 20, working: '12 ft × 1.05: two sticks' },
    'emt-coupling-1_2': { taken: 1, working: 'one joint' },
    'emt-connector-1_2': { taken: 2, working: 'panel and entry body' },
    'emt-strap-1_2': { taken: 2, working: 'within 3 ft of both ends, 358.30(A)' },
    'pvc-40-1_2': { taken: 55.65, bought: 60, working: '(35 + 18) ft × 1.05: six sticks' },
    'pvc-80-3_4': {
      taken: 11.55,
      bought: 20,
      working:
        '2 × 3.5 ft of climb, and the 4 ft to the charger that a car may strike (352.10(K)), × 1.05; 1/2 in holds too little',
    },
    'pvc-80-elbow-90-3_4': { taken: 3, working: 'one into the entry body; two where it comes up and goes on' },
    'pvc-reducer': { taken: 2, working: '1/2 to 3/4 below both climbs' },
    'pvc-40-expansion-3_4': { taken: 2, working: 'one a climb, 300.5(J); 4 ft on the wall change by 0.16 in: none' },
    'pvc-40-strap-3_4': { taken: 3, working: 'one a climb; on the wall within 3 ft of the charger, 352.30' },
    'pvc-40-box-adapter-3_4': { taken: 1, working: 'at the charger' },
    'pvc-40-lb-3_4': { taken: 1, working: 'out of the house' },
    'pvc-40-3_4': { taken: 1, bought: 10, working: '1 ft through the wall' },
    'pvc-40-female-adapter-3_4': { taken: 1, working: 'takes the thread of the tubing’s connector inside' },
    'duct-seal': { taken: 0.5, bought: 1, working: 'one entry' },
    'caulk-exterior': { taken: 0.25, bought: 1, working: 'one entry' },
    'pvc-cement-pint': { taken: GLUED / 40, bought: 1, working: '40 joints a tin' },
    'pvc-primer': { taken: GLUED / 40, bought: 1, working: 'as the cement' },
    'pull-string': { taken: 88, working: '12 + 6 ft, and 53 + 7 + 4 + 6 ft' },
    'thwn-2-8-cu': { taken: 2 * 84.46, bought: 170, working: '2 × 82 ft × 1.03, two pieces of 85 ft by the foot' },
    'thwn-2-10-cu': { taken: 84.46, bought: 85, working: '82 ft × 1.03; 85 × 0.50 is less than a coil of 100 ft' },
    'wire-lube': { taken: 228 / 600, bought: 1, working: '3 × 76 ft' },
    'tape-color': { taken: 1, working: 'single conductors' },
    'breaker-2p-50-gfci': { taken: 1, working: 'one circuit' },
    sand: {
      taken: (53 * 10 * 4) / 144,
      bought: 27,
      working:
        '53 ft × 10 in × 4 in: rock breaks out wider than the chain; 300.5(F); common practice, no source. 30 bags of 0.5 ft³ are $180, a yard delivered $140',
    },
    'warning-tape-200': { taken: 53, working: '53 ft' },
    'topsoil-bag': { taken: (35 * 3) / 12 / 0.75, working: '35 ft × 3 ft × 1 in' },
    'grass-seed-3lb': { taken: 105 / 600, working: '105 ft²' },
    gravel: {
      taken: (18 * 3 * 0.5) / 12,
      bought: 2.5,
      working: '18 ft × 3 ft × 1/2 in; common practice, no source. Five bags of 0.5 ft³',
    },
    'anchors-screws': { taken: 1, working: 'a job' },
    labels: { taken: 1, working: '408.4(A)' },
  },
  equipment: {
    'rotary-hammer-day': { taken: 1, working: 'one wall of concrete; 3/4 in is not cored' },
    'trencher-walk-day': { taken: 1, working: '45 ft at 25 in, 100 ft a day in rock; common practice, no source' },
    'delivery-one-way': { taken: 2, working: 'brought and fetched' },
    'plate-compactor-day': { taken: 1, working: '53 ft' },
    'vehicle-mile': { taken: 180, working: 'six trips' },
  },
  fees: { 'permit-circuit': { taken: 1, working: 'covers two inspections; gas and water are marked for nothing' } },
  tasks: {
    'conduit-emt-small': { units: 1.2, hours: 1.2 * 0.45, working: '12 ft' },
    'conduit-pvc-small': {
      units: 5.7,
      hours: 5.3 * 0.3 * 0.7 + 0.4 * 0.3,
      working: '53 ft in the ditch, 4 ft on the wall',
    },
    riser: { units: 2, hours: 2 * 0.8, working: 'both ends' },
    'elbow-fit': { units: 3, hours: 3 * 0.2, working: 'three' },
    'fish-line': { units: 2, hours: 2 * 0.4, working: 'tubing and PVC: 90 + 180 degrees of bends, no pull point' },
    'wall-entry-masonry': { units: 1, hours: 1.7, working: 'poured concrete' },
    'pull-8-6': { units: 152, hours: 152 * 0.009, working: '2 × (12 + 53 + 7 + 4) ft' },
    'pull-12-10': { units: 76, hours: 76 * 0.006, working: '76 ft' },
    'terminate-12-10': { units: 1, hours: 0.06, working: 'ground in the panel' },
    'panel-cover': { units: 1, hours: 0.35, working: 'main panel' },
    'breaker-2p-small': { units: 1, hours: 0.4, working: '50 A' },
    'breaker-gfci-add': { units: 1, hours: 0.1, working: 'outdoors' },
    'charger-mount': { units: 1, hours: 1, working: 'one' },
    'charger-app': { units: 1, hours: 0.4, working: 'one' },
    'locate-call': { units: 1, hours: 0.25, working: '811' },
    'pothole-utility': { units: 2, hours: 2, working: 'gas and water, exposed by hand before the machine comes near' },
    'trencher-setup': { units: 1, hours: 1.8, working: 'one day' },
    'trencher-rocky': {
      units: (45 * 25) / 24,
      hours: ((45 * 25) / 24) * 0.05,
      working: '53 ft less 2 × 4 ft; 24 in of cover and 1 in of raceway: 25 in, where the hours are for 24',
    },
    'hand-dig-rocky': {
      units: (8 * 25) / 24,
      hours: ((8 * 25) / 24) * 0.2,
      working: '2 ft on both sides of each mark: the tolerance zone of most states, from memory',
    },
    'bedding-sand': { units: 53, hours: 53 * 0.02, working: '53 ft' },
    'backfill-machine': { units: (53 * 25) / 24, hours: ((53 * 25) / 24) * 0.02, working: 'as dug' },
    'warning-tape': { units: 53, hours: 53 * 0.002, working: '53 ft' },
    'lawn-restore': { units: 35, hours: 35 * 0.03, working: '35 ft' },
    'gravel-restore': { units: 18, hours: 18 * 0.03, working: '18 ft' },
    'layout-route': { units: 1, hours: 0.5, working: 'a job' },
    'test-energize': { units: 1, hours: 0.3, working: 'one run' },
    cleanup: { units: 1, hours: 0.5, working: 'a job' },
    'load-calc-permit': { units: 1, hours: 1, working: 'a job' },
    'inspection-meet': { units: 2, hours: 2 * 0.8, working: 'open ditch, final' },
    'mobilise-first': { units: 1, hours: 0.5, working: 'first trip' },
    'mobilise-return': { units: 5, hours: 5 * 0.3, working: 'six trips' },
    drive: {
      units: 6,
      hours: 6,
      working:
        'five days and the final inspection; the open ditch is seen on the morning of a day of work; common practice, no source',
    },
  },
  workingDays: { days: 5, working: '26.428 h on site, 8 h of trips: 34.428 h' },
  visits: { work: 5, 'trench-inspection': 1, 'final-inspection': 1 },
  waits: { 'locate buried lines': 3 },
  findings: [
    [
      'cover',
      'ok',
      '18 in by the table under lawn and under a dwelling’s drive; 24 in were asked for, in the whole ditch',
    ],
    ['outdoor-ground-fault', 'caution', 'wired on 50 A outdoors: 210.8(F)'],
    ['bends-pvc', 'ok', '270 of 360 degrees'],
    ['service-capacity', 'ok', '75 + 50 A of 200 A'],
    ['voltage-drop', 'ok', '1.79 %'],
  ],
};

checkWorkedJob('rocky ground with marked lines across', DESCRIPTION, { a: BY_HAND });
