import { checkWorkedJob, type TakeoffByHand } from './worked-job.ts';

/*
 * Out through the wood wall behind the panel, 14 ft under a deck, then 9 ft in a strip cut out of a parking slab of
 * 4 in with mesh, dug by hand in loam, up a wall and 3 ft on to a charger of 48 A that is bought. All of it in PVC.
 */
const DESCRIPTION = {
  title: 'Under the deck and through the slab',
  asOf: '2025-08-01',
  site: {
    building: 'outdoor',
    yearBuilt: 1994,
    hazards: [],
    service: { ratingA: 200, freeSpaces: 6 },
    load: { method: 'measured', peakA: 60, days: 365 },
  },
  route: [
    { kind: 'under-deck', lengthFt: 14, method: 'pvc' },
    {
      kind: 'concrete-cut',
      lengthFt: 9,
      thicknessIn: 4,
      widthIn: 12,
      reinforcement: 'mesh',
      traffic: 'vehicle',
      dig: 'hand',
      method: 'pvc',
    },
  ],
  options: [
    {
      id: 'a',
      label: 'Hardwired, 48 A',
      feed: 'dedicated-circuit',
      metal: 'copper',
      chargers: [{ amps: 48, connection: 'hardwired', equipment: 'buy', distanceFt: 3, mount: 'wall' }],
    },
  ],
};

const BY_HAND: TakeoffByHand = {
  buildable: true,
  runs: [
    {
      name: 'charger',
      role: 'branch-circuit',
      lengthFt: 26,
      ocpdA: 60,
      poles: 2,
      breaker: { kind: 'standard', spaces: 2 },
      neutral: false,
      conductor: { metal: 'copper', size: '6', ampacityA: 65 },
      groundSize: '10',
      methods: ['pvc', 'pvc'],
      tradeSizes: ['3/4', '3/4'],
      dropPercent: 0.5106,
      wire: [
        { use: 'ungrounded', metal: 'copper', size: '6', insulation: 'thwn-2', count: 2, cutLengthFt: 38 },
        { use: 'ground', metal: 'copper', size: '10', insulation: 'thwn-2', count: 1, cutLengthFt: 38 },
      ],
      working: `14 + 9 + 3 ft. 60 A; 6 AWG, 65 A at 75 °C. 210.8(F) ends at 50 A. Fill 0.1225 in²: 3/4 in holds 0.203
(schedule 40) and 0.164 (schedule 80), 1/2 in 0.114. Drop: 2 × 26 × 0.491 ÷ 1000 × 48 = 1.225536 V, 0.51064 %. Cover under
a drive of a dwelling: 18 in (Table 300.5(A)). Cut: 26 + 2 × (1.5 + 1.5) at the ends of the ditch + 5 + 1 ft.`,
    },
  ],
  materials: {
    'thwn-2-6-cu': {
      taken: 78.28,
      bought: 80,
      working: '2 × 38 ft × 1.03; two pieces of 40 ft by the foot, $86.40; a coil of 100 ft is $97.20',
    },
    'thwn-2-10-cu-green': {
      taken: 39.14,
      bought: 40,
      working: '38 ft × 1.03; 40 ft by the foot, $20; a coil of 50 ft is $25',
    },
    'pvc-40-3_4': { taken: 24.15, bought: 30, working: '(14 + 9) ft × 1.05; three sticks' },
    'pvc-80-3_4': {
      taken: 9.45,
      bought: 10,
      working: 'where it may be struck (352.10(K), 300.5(D)(4)): 2 × 3 ft of risers + 3 ft to the charger, × 1.05',
    },
    'pvc-40-strap-3_4': {
      taken: 8,
      working: 'deck: 14 ÷ 3 ft, up: 5 (Table 352.30(B)); each riser 1; before the charger 1',
    },
    'pvc-40-expansion-3_4': {
      taken: 3,
      working: 'deck: 14 ft × 100 °F × 0.0406 in = 0.57 in, more than 0.25 in (352.44(A)); each riser 1 (352.44(B))',
    },
    'pvc-40-elbow-90-3_4': { taken: 1, working: 'from the deck down' },
    'pvc-80-elbow-90-3_4': { taken: 2, working: 'at the foot of each riser' },
    'pvc-40-coupling-3_4': { taken: 3, working: 'one an elbow; sticks have a bell end' },
    'pvc-40-male-adapter-3_4': { taken: 2, working: 'panel and charger' },
    'pvc-40-locknut-bushing-3_4': { taken: 2, working: 'one an adapter' },
    'pvc-40-lb-3_4': { taken: 1, working: 'out of the wall behind the panel' },
    'pvc-cement-pint': { taken: 1, working: 'a job' },
    'pvc-primer': { taken: 1, working: 'a job' },
    'duct-seal': { taken: 1, working: 'one entry into the house, 300.7(A)' },
    'caulk-exterior': { taken: 1, working: 'around the entry' },
    'pull-string': { taken: 32, bought: 500, working: '26 + 6 ft; one bucket' },
    'warning-tape-200': { taken: 9, bought: 200, working: 'above 9 ft of conduit; good practice, not code' },
    'breaker-2p-60': { taken: 1, working: 'one circuit' },
    'charger-48': { taken: 1, working: 'bought' },
    'concrete-80': {
      taken: 6,
      working: '9 × 1 ft × 4 in = 3 ft³, × 1.10 = 3.3 ft³ ÷ 0.60, up; $43.20, eight bags of 60 lb are $44.80',
    },
    'saw-blade-share': { taken: 20, working: '2 × 9 + 2 × 1 ft' },
    'debris-haul': { taken: 1, working: '3 ft³ of concrete: one small load' },
    'dowels-epoxy': { taken: 18, working: 'both long edges' },
    'anchors-screws': { taken: 1, working: 'one assortment a job; common practice, no source' },
    labels: { taken: 1, working: 'circuit directory, 408.4(A)' },
  },
  equipment: {
    'vehicle-mile': { taken: 120, working: 'four trips, 15 miles each way' },
    'concrete-saw-walk-day': { taken: 1, working: '20 ft of cut' },
    'breaker-half': { taken: 1, working: '9 ft² broken out in 1.5 h: half a day' },
    'plate-compactor-half': { taken: 1, working: 'the bed under the slab' },
  },
  fees: { 'permit-circuit': { taken: 1, working: 'one circuit' } },
  tasks: {
    'mobilise-first': { units: 1, hours: 0.5, working: 'first trip' },
    'mobilise-return': { units: 3, hours: 0.9, working: 'second day; the open trench; the final inspection' },
    drive: { units: 4, hours: 4, working: 'four trips of 2 × 30 min' },
    'layout-route': { units: 1, hours: 0.5, working: 'a job' },
    'load-calc-permit': { units: 1, hours: 1, working: 'a job' },
    'locate-call': { units: 1, hours: 0.25, working: 'somebody digs' },
    'inspection-meet': { units: 2, hours: 1.6, working: 'open trench, final' },
    'panel-cover': { units: 1, hours: 0.35, working: 'one panel is opened' },
    'breaker-2p-small': { units: 1, hours: 0.4, working: '60 A' },
    'wall-entry-wood': { units: 1, hours: 1, working: 'out of the house' },
    'conduit-pvc-small': {
      units: 2.6,
      hours: 1.7 * 0.3 + 0.9 * 0.3 * 0.7,
      working: '14 + 3 ft strapped, 9 ft in an open trench at factor 0.7, by the stick of 10 ft',
    },
    'elbow-fit': { units: 3, hours: 0.6, working: 'three elbows' },
    riser: { units: 2, hours: 1.6, working: 'two' },
    'fish-line': { units: 1, hours: 0.4, working: 'one run of conduit' },
    'pull-8-6': { units: 76, hours: 76 * 0.009, working: '2 × 38 ft' },
    'pull-12-10': { units: 38, hours: 38 * 0.006, working: '38 ft' },
    'saw-setup': { units: 1, hours: 1.2, working: 'one day' },
    'saw-concrete-4': { units: 20, hours: 20 * 0.018, working: '2 × 9 + 2 × 1 ft' },
    'break-haul-4': { units: 9, hours: 9 * 0.14 * 1.2, working: '9 ft²; mesh, factor 1.2' },
    'hand-dig-loam': {
      units: 9,
      hours: (9 * 0.08 * 15.05) / 24,
      working: '18 in + 1.05 in of conduit − 4 in of slab = 15.05 in deep; the unit is of 24 in',
    },
    backfill: { units: 9, hours: (9 * 0.05 * 15.05) / 24, working: 'the same depth' },
    'warning-tape': { units: 9, hours: 9 * 0.002, working: '9 ft' },
    'repour-4': { units: 9, hours: 9 * 0.2, working: '9 ft²' },
    'charger-mount': { units: 1, hours: 1, working: 'mounted, terminated, commissioned' },
    'charger-app': { units: 1, hours: 0.4, working: 'shown to the owner' },
    cleanup: { units: 1, hours: 0.5, working: 'a job' },
    'test-energize': { units: 1, hours: 0.3, working: 'one run' },
  },
  workingDays: {
    days: 2,
    working: `On site: 0.5 + 0.3 + 0.5 + 0.35 + 0.4 + 1 + 0.699 + 0.6 + 1.6 + 0.4 + 0.684 + 0.228 + 1.2 + 0.36 + 1.512 + 0.4515
+ 0.282 + 0.018 + 1.8 + 1 + 0.4 + 0.5 + 0.3 = 15.08 h: two days.`,
  },
  visits: { work: 2, 'trench-inspection': 1, 'final-inspection': 1 },
  findings: [
    ['cover', 'ok', '18 in under a dwelling drive, Table 300.5(A)'],
    ['service-capacity', 'ok', '1.25 × 60 A + 60 A = 135 A of 200 A'],
  ],
};

checkWorkedJob('under a deck and through a slab', DESCRIPTION, { a: BY_HAND });
