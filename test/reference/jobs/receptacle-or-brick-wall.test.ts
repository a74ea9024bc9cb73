import { checkWorkedJob, type TakeoffByHand } from './worked-job.ts';

/*
 * An outdoor receptacle of 20 A and 120 V that is there: it is replaced, and charges at 16 A. Or a charger of 32 A beside it,
 * on a circuit of its own: 7 ft of tubing inside, through the brick wall, 12 ft along it and 5 ft on to the charger.
 */
const DESCRIPTION = {
  title: 'Receptacle or brick wall',
  asOf: '2025-08-01',
  site: {
    building: 'attached',
    service: { ratingA: 200, freeSpaces: 6 },
    load: { method: 'measured', peakA: 60, days: 365 },
  },
  route: [
    { kind: 'interior-surface', lengthFt: 7, method: 'emt', through: 'brick' },
    { kind: 'exterior-wall', lengthFt: 12, method: 'emt' },
  ],
  options: [
    {
      id: 'receptacle',
      label: 'The receptacle that is there',
      feed: 'existing-receptacle',
      chargers: [{ amps: 16, connection: 'receptacle-5-20', equipment: 'owned', outdoors: true }],
      receptacle: { circuitA: 20, sharedWith: [], gfci: false, grounded: true, outdoors: true, replace: true },
    },
    {
      id: 'wall',
      label: 'Hardwired, 32 A',
      feed: 'dedicated-circuit',
      chargers: [{ amps: 32, connection: 'hardwired', equipment: 'buy', distanceFt: 5, outdoors: true }],
    },
  ],
  terms: { overheadBp: 1500, profitBp: 1000 },
};

const RECEPTACLE: TakeoffByHand = {
  buildable: true,
  runs: [],
  materials: {
    'rec-5-20-gfci-wr': { taken: 1, working: 'weather-resistant, ground-fault: 406.9(B)(1), 625.54' },
    'box-wp-1gang': { taken: 1, working: 'old boxes mostly do not take the hood: the safe side; common practice' },
    'cover-inuse-1g': { taken: 1, working: 'extra-duty hood, plug in or out: 406.9(B)(1)' },
  },
  equipment: { 'vehicle-mile': { taken: 60, working: 'two trips' } },
  fees: { 'permit-circuit': { taken: 1, working: 'a new receptacle for charging; some offices ask for none' } },
  tasks: {
    'receptacle-120': { units: 1, hours: 0.5, working: 'one' },
    'receptacle-outdoor-add': { units: 1, hours: 0.25, working: 'hood and seal' },
    'charger-hang': { units: 1, hours: 0.4, working: 'hung up and plugged in' },
    'charger-app': { units: 1, hours: 0.4, working: 'shown to the owner' },
    'test-energize': { units: 1, hours: 0.3, working: 'the new receptacle, its ground and its ground-fault device' },
    cleanup: { units: 1, hours: 0.5, working: 'a job' },
    'load-calc-permit': { units: 1, hours: 1, working: 'a job' },
    'inspection-meet': { units: 1, hours: 0.8, working: 'final' },
    'mobilise-first': { units: 1, hours: 0.5, working: 'first trip' },
    'mobilise-return': { units: 1, hours: 0.3, working: 'final inspection' },
    drive: { units: 2, hours: 2, working: 'two trips' },
  },
  workingDays: { days: 1, working: '4.15 h on site, 2.8 h of trips: 6.95 h' },
  visits: { work: 1, 'final-inspection': 1 },
  findings: [
    ['cord-and-plug-80-percent', 'ok', '16 A of 20 A'],
    ['single-receptacle-rating', 'ok', '20 A on 20 A'],
    ['individual-branch-circuit', 'ok', 'alone on its circuit'],
    ['gfci-ev-receptacle', 'note', 'the new one has it'],
    ['equipment-ground-required', 'ok', 'grounded'],
    ['service-capacity', 'ok', '75 A, and 16 A at 120 V: 10 A with the 125 %'],
  ],
};

const WALL: TakeoffByHand = {
  buildable: true,
  runs: [
    {
      name: 'charger',
      role: 'branch-circuit',
      lengthFt: 24,
      ocpdA: 40,
      poles: 2,
      breaker: { kind: 'gfci', spaces: 2 },
      neutral: false,
      conductor: { metal: 'copper', size: '8', ampacityA: 50 },
      groundSize: '10',
      methods: ['emt', 'emt'],
      tradeSizes: ['1/2', '1/2'],
      dropPercent: 0.4979,
      wire: [
        { use: 'ungrounded', metal: 'copper', size: '8', insulation: 'thwn-2', count: 2, cutLengthFt: 30 },
        { use: 'ground', metal: 'copper', size: '10', insulation: 'thwn-2', count: 1, cutLengthFt: 30 },
      ],
      working: `7 + 12 + 5 ft. 40 A; 8 AWG at 75 °C; outdoors: 210.8(F). Fill 0.0943 of the 0.122 in² of EMT 1/2. Wet-rated
conductors: 300.9. Drop: 2 × 24 × 0.778 / 1000 × 32 = 1.195008 V. Cut: 24 + 5 + 1 ft.`,
    },
  ],
  materials: {
    'emt-1_2': { taken: 26.2, bought: 30, working: '24 ft × 1.05, and 1 ft through the wall' },
    'emt-connector-1_2': { taken: 2, working: 'panel, and the nipple inside' },
    'emt-connector-rt-1_2': { taken: 2, working: 'rain-tight outdoors: entry body and charger, 358.42' },
    'emt-coupling-rt-1_2': { taken: 1, working: '17 ft outdoors: two sticks' },
    'emt-strap-1_2': {
      taken: 5,
      working:
        '7 ft inside at 3 and 4 ft; 17 ft outdoors at 3, 13 and 14 ft or closer: every 10 ft, within 3 ft, 358.30(A)',
    },
    'emt-lb-1_2': { taken: 1, working: 'out of the house' },
    'emt-locknut-bushing-1_2': { taken: 1, working: 'on the nipple' },
    'duct-seal': { taken: 0.5, bought: 1, working: 'between inside and outside, 300.7(A)' },
    'caulk-exterior': { taken: 0.25, bought: 1, working: 'around it' },
    'pull-string': { taken: 36, working: '7 + 6 ft, 17 + 6 ft' },
    'thwn-2-8-cu': { taken: 61.8, bought: 62, working: '2 × 30 ft × 1.03' },
    'thwn-2-10-cu': { taken: 30.9, bought: 31, working: '30 ft × 1.03' },
    'wire-lube': { taken: 72 / 600, bought: 1, working: '3 × 24 ft' },
    'tape-color': { taken: 1, working: 'single conductors' },
    'breaker-2p-40-gfci': { taken: 1, working: 'one circuit' },
    'charger-32': { taken: 1, working: 'bought' },
    'anchors-screws': { taken: 1, working: 'a job' },
    labels: { taken: 1, working: '408.4(A)' },
  },
  equipment: {
    'rotary-hammer-day': { taken: 1, working: 'one wall of brick' },
    'vehicle-mile': { taken: 90, working: 'three trips' },
  },
  fees: { 'permit-circuit': { taken: 1, working: 'one circuit' } },
  tasks: {
    'conduit-emt-small': { units: 2.4, hours: 2.4 * 0.45, working: '24 ft' },
    'bend-field-emt': { units: 1, hours: 0.15, working: 'from the wall to the charger' },
    'fish-line': { units: 2, hours: 2 * 0.4, working: 'inside and outside of the entry body' },
    'wall-entry-masonry': { units: 1, hours: 1.7, working: 'brick' },
    'pull-8-6': { units: 48, hours: 48 * 0.009, working: '2 × 24 ft' },
    'pull-12-10': { units: 24, hours: 24 * 0.006, working: '24 ft' },
    'terminate-12-10': { units: 1, hours: 0.06, working: 'ground in the panel' },
    'panel-cover': { units: 1, hours: 0.35, working: 'main panel' },
    'breaker-2p-small': { units: 1, hours: 0.4, working: '40 A' },
    'breaker-gfci-add': { units: 1, hours: 0.1, working: 'outdoors' },
    'charger-mount': { units: 1, hours: 1, working: 'one' },
    'charger-app': { units: 1, hours: 0.4, working: 'one' },
    'layout-route': { units: 1, hours: 0.5, working: 'a job' },
    'test-energize': { units: 1, hours: 0.3, working: 'one run' },
    cleanup: { units: 1, hours: 0.5, working: 'a job' },
    'load-calc-permit': { units: 1, hours: 1, working: 'a job' },
    'inspection-meet': { units: 1, hours: 0.8, working: 'final' },
    'mobilise-first': { units: 1, hours: 0.5, working: 'first trip' },
    'mobilise-return': { units: 2, hours: 2 * 0.3, working: 'three trips' },
    drive: { units: 3, hours: 3, working: 'two days and the final inspection' },
  },
  workingDays: { days: 2, working: '9.716 h on site, 4.1 h of trips: 13.816 h' },
  visits: { work: 2, 'final-inspection': 1 },
  findings: [
    ['outdoor-ground-fault', 'caution', 'wired on 40 A outdoors: 210.8(F)'],
    ['service-capacity', 'ok', '75 + 40 A of 200 A'],
    ['conduit-fill', 'ok', '31 %'],
    ['voltage-drop', 'ok', '0.50 %'],
  ],
};

checkWorkedJob('a receptacle that is replaced, or tubing through a brick wall', DESCRIPTION, {
  receptacle: RECEPTACLE,
  wall: WALL,
});
