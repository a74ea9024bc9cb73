import { checkWorkedJob, type TakeoffByHand } from './worked-job.ts';

/*
 * Up a wall on its surface, 40 ft through an attic of 55 °C, 8 ft down to the garage and 4 ft on to a hardwired charger
 * of 48 A, all of it in EMT. The heat takes a quarter of what the wire may carry.
 */
const DESCRIPTION = {
  title: 'Attic in heat',
  asOf: '2025-08-01',
  site: {
    building: 'attached',
    yearBuilt: 1994,
    hazards: [],
    service: { ratingA: 200, freeSpaces: 6 },
    load: { method: 'measured', peakA: 60, days: 365 },
  },
  route: [
    { kind: 'interior-surface', lengthFt: 8, method: 'emt' },
    { kind: 'attic', lengthFt: 40, riseFt: 8, ambientC: 55, method: 'emt' },
  ],
  options: [
    {
      id: 'a',
      label: 'Hardwired, 48 A',
      feed: 'dedicated-circuit',
      metal: 'copper',
      chargers: [{ amps: 48, connection: 'hardwired', equipment: 'owned', distanceFt: 4 }],
    },
  ],
};

const BY_HAND: TakeoffByHand = {
  buildable: true,
  runs: [
    {
      name: 'charger',
      role: 'branch-circuit',
      lengthFt: 60,
      ocpdA: 60,
      poles: 2,
      breaker: { kind: 'standard', spaces: 2 },
      neutral: false,
      conductor: { metal: 'copper', size: '6', ampacityA: 57 },
      groundSize: '10',
      methods: ['emt', 'emt'],
      tradeSizes: ['3/4', '3/4'],
      dropPercent: 1.1784,
      wire: [
        { use: 'ungrounded', metal: 'copper', size: '6', insulation: 'thwn-2', count: 2, cutLengthFt: 66 },
        { use: 'ground', metal: 'copper', size: '10', insulation: 'thwn-2', count: 1, cutLengthFt: 66 },
      ],
      working: `8 + 40 + 8 down + 4 ft: a run is as long as its legs, the heights stated for them and the way to its charger. 1.25 × 48 A = 60 A. 6 AWG: 65 A at 75 °C terminals, uncorrected, carries 60 A
(210.19(A)(1)); 75 A at 90 °C × 0.76 for 51 to 55 °C (Table 310.15(B)(1)(1)) = 57 A carries the 48 A themselves, and
60 A is the next standard size above 57 A (240.4(B)). Fill: 2 × 0.0507 + 0.0211 = 0.1225 in²; 40 % of 1/2 in EMT is
0.122: too small by a hair; 3/4 in: 0.213. Ground 10 AWG to 60 A. Drop: 2 × 60 × 0.491 ÷ 1000 × 48 = 2.82816 V, 1.1784 %: current
flows through the 8 ft down like through any other. Cut: 60 + 5 + 1 ft.`,
    },
  ],
  materials: {
    'thwn-2-6-cu': {
      taken: 135.96,
      bought: 136,
      working: '2 × 66 ft × 1.03; two pieces of 68 ft by the foot, $146.88; a coil of 100 ft and 68 ft are more',
    },
    'thwn-2-10-cu': {
      taken: 67.98,
      bought: 68,
      working: '66 ft × 1.03; 68 ft by the foot, $34; a coil of 100 ft is $45',
    },
    'emt-3_4': { taken: 63, bought: 70, working: '60 ft × 1.05; seven sticks' },
    'emt-coupling-3_4': { taken: 6, working: 'between seven sticks' },
    'emt-connector-3_4': { taken: 2, working: 'panel and charger' },
    'emt-strap-3_4': {
      taken: 7,
      working: 'at 3, 13, 23, 33, 43, 53 and 57 ft: 10 ft apart, within 3 ft of each end (358.30(A))',
    },
    'breaker-2p-60': { taken: 1, working: 'one circuit' },
    'anchors-screws': { taken: 1, working: 'one assortment a job; common practice, no source' },
    'tape-color': { taken: 1, working: 'single conductors are marked by their use; common practice, no source' },
    labels: { taken: 1, working: 'circuit directory, 408.4(A)' },
    'pull-string': { taken: 66, bought: 500, working: 'once through 60 ft, 3 ft to hold at each end; one bucket' },
    'wire-lube': { bought: 1, working: 'one pull of more than 50 ft with bends; common practice, no source' },
  },
  equipment: { 'vehicle-mile': { taken: 90, working: 'three trips, 15 miles each way' } },
  fees: { 'permit-circuit': { taken: 1, working: 'one circuit' } },
  tasks: {
    'mobilise-first': { units: 1, hours: 0.5, working: 'first trip' },
    'mobilise-return': { units: 2, hours: 0.6, working: 'second day, final inspection' },
    drive: { units: 3, hours: 3, working: 'three trips of 2 × 30 min' },
    'layout-route': { units: 1, hours: 0.5, working: 'a job' },
    'load-calc-permit': { units: 1, hours: 1, working: 'a job' },
    'inspection-meet': { units: 1, hours: 0.8, working: 'final' },
    'terminate-12-10': { units: 1, hours: 0.06, working: 'the ground in the panel' },
    'panel-cover': { units: 1, hours: 0.35, working: 'one panel is opened' },
    'breaker-2p-small': { units: 1, hours: 0.4, working: '60 A' },
    'conduit-emt-small': {
      units: 6,
      hours: 4.8 * 0.45 * 1.5 + 1.2 * 0.45,
      working: '60 ft by the stick of 10 ft: 40 + 8 ft of the attic’s leg at its factor 1.5, 8 + 4 ft on walls',
    },
    'bend-field-emt': { units: 2, hours: 2 * 0.15, working: 'into the attic and out of it' },
    'fish-line': { units: 1, hours: 0.4, working: 'one run of conduit' },
    'pull-8-6': { units: 120, hours: 120 * 0.009, working: '2 × 60 ft of raceway; makeup is not pulled' },
    'pull-12-10': { units: 60, hours: 60 * 0.006, working: '60 ft of raceway' },
    'charger-mount': { units: 1, hours: 1, working: 'mounted, terminated, commissioned' },
    'charger-app': { units: 1, hours: 0.4, working: 'shown to the owner' },
    cleanup: { units: 1, hours: 0.5, working: 'a job' },
    'test-energize': { units: 1, hours: 0.3, working: 'one run' },
  },
  workingDays: { days: 2, working: 'all person-hours ÷ 8 h, up: 11.23 + 0.5 + 0.6 + 3 = 15.33 h' },
  visits: { work: 2, 'final-inspection': 1 },
  findings: [
    ['cost-without-overhead', 'caution', 'the terms state neither overhead nor profit'],
    ['service-capacity', 'ok', '1.25 × 60 A + 60 A = 135 A of 200 A'],
    ['conductor-ampacity', 'ok', '57 A for 48 A'],
  ],
};

checkWorkedJob('an attic in heat', DESCRIPTION, { a: BY_HAND });
