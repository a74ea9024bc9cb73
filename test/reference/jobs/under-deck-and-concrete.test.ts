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
    'thwn-2-10-cu': {
      taken: 39.14,
      bought: 40,
      working: '38 ft × 1.03; 40 ft by the foot, $20; a coil of 50 ft is $25',
    },
    'pvc-40-3_4': { taken: 25.15, bought: 30, working: '(14 + 9) ft × 1.05 and 1 ft through the wall; three sticks' },
    'pvc-80-3_4': {
      taken: 9.45,
      bought: 10,
      working: 'where it may be struck (352.10(K), 300.5(D)(4)): 2 × 3 ft of risers + 3 ft to the charger, × 1.05',
    },
    'pvc-40-strap-3_4': {
      taken: 7,
      working:
        'deck: at 3, 6, 9 and 12 ft, then the riser’s (Table 352.30(B): 3 ft): 4; each riser 1; before the charger 1',
    },
    'pvc-40-expansion-3_4': {
      taken: 3,
      working: 'deck: 14 ft × 100 °F × 0.0406 in = 0.57 in, more than 0.25 in (352.44(A)); each riser 1 (352.44(B))',
    },
    'pvc-80-elbow-90-3_4': {
      taken: 4,
      working: 'each riser: out of the ditch, and on: to the deck, along the wall to the charger',
    },
    'pvc-40-male-adapter-3_4': { taken: 1, working: 'the entry body into the panel' },
    'pvc-40-locknut-bushing-3_4': { taken: 1, working: 'on the adapter' },
    'pvc-40-box-adapter-3_4': { taken: 1, working: 'the charger; it comes with its nut' },
    'pvc-40-lb-3_4': { taken: 1, working: 'out of the wall behind the panel' },
    'pvc-cement-pint': { bought: 1, working: 'a job' },
    'pvc-primer': { bought: 1, working: 'a job' },
    'duct-seal': { bought: 1, working: 'one entry into the house, 300.7(A)' },
    'caulk-exterior': { bought: 1, working: 'around the entry' },
    'wire-lube': { bought: 1, working: 'one pull; common practice, no source' },
    'tape-color': { taken: 1, working: 'single conductors are marked by their use; common practice, no source' },
    'pull-string': { taken: 38, bought: 500, working: '26 + 6 ft, 3 ft to hold at each end; one bucket' },
    'warning-tape-200': { taken: 9, bought: 200, working: 'above 9 ft of conduit; good practice, not code' },
    'breaker-2p-60': { taken: 1, working: 'one circuit' },
    'charger-48': { taken: 1, working: 'bought' },
    'concrete-80': {
      taken: 5.5,
      bought: 6,
      working: '9 × 1 ft × 4 in = 3 ft³, × 1.10 = 3.3 ft³ ÷ 0.60, up; $43.20, eight bags of 60 lb are $44.80',
    },
    'saw-blade-share': { taken: 20, working: '2 × 9 + 2 × 1 ft' },
    gravel: {
      taken: 3,
      bought: 3,
      working: '4 in under the new concrete: 9 ft² × 4 in; six bags; common practice, no source',
    },
    'debris-haul': { bought: 1, working: '3 ft³ of concrete: one small load' },
    'dowels-epoxy': { taken: 18, working: 'both long edges' },
    'anchors-screws': { taken: 1, working: 'one assortment a job; common practice, no source' },
    labels: { taken: 1, working: 'circuit directory, 408.4(A)' },
  },
  equipment: {
    'vehicle-mile': { taken: 120, working: 'four trips, 15 miles each way' },
    'breaker-electric-day': { taken: 1, working: '9 ft² broken out; machines are rented by the day for the whole job' },
    'plate-compactor-day': { taken: 1, working: 'the bed under the slab, by the day' },
    'concrete-saw-walk-day': { taken: 1, working: '20 ft of cut' },
  },
  fees: { 'permit-circuit': { taken: 1, working: 'one circuit' } },
  tasks: {
    'mobilise-first': { units: 1, hours: 0.5, working: 'first trip' },
    'mobilise-return': { units: 3, hours: 0.9, working: 'two more days, the final inspection' },
    drive: {
      units: 4,
      hours: 4,
      working:
        'four trips of 2 × 30 min; the open ditch is seen on the morning of a day of work; common practice, no source',
    },
    'layout-route': { units: 1, hours: 0.5, working: 'a job' },
    'load-calc-permit': { units: 1, hours: 1, working: 'a job' },
    'locate-call': { units: 1, hours: 0.25, working: 'somebody digs' },
    'inspection-meet': { units: 2, hours: 1.6, working: 'open trench, final' },
    'panel-cover': { units: 1, hours: 0.35, working: 'one panel is opened' },
    'breaker-2p-small': { units: 1, hours: 0.4, working: '60 A' },
    'wall-entry-wood': { units: 1, hours: 1, working: 'out of the house' },
    'under-deck': { units: 14, hours: 14 * 0.05, working: 'a task of its own in the book, for cable and conduit' },
    'conduit-pvc-small': {
      units: 1.2,
      hours: 0.3 * 0.3 + 0.9 * 0.3 * 0.7,
      working: '3 ft strapped, 9 ft in an open trench at factor 0.7, by the stick of 10 ft',
    },
    'elbow-fit': { units: 4, hours: 0.8, working: 'four elbows' },
    riser: { units: 2, hours: 1.6, working: 'two' },
    'fish-line': { units: 1, hours: 0.4, working: 'one run of conduit' },
    'pull-8-6': { units: 64, hours: 64 * 0.009, working: '2 × 32 ft of raceway; makeup is not pulled' },
    'terminate-12-10': { units: 1, hours: 0.06, working: 'the ground in the panel' },
    'pull-12-10': { units: 32, hours: 32 * 0.006, working: '32 ft of raceway' },
    'saw-setup': { units: 1, hours: 1.2, working: 'one day' },
    'saw-concrete-4': { units: 20, hours: 20 * 0.018, working: '2 × 9 + 2 × 1 ft' },
    'break-haul-4': { units: 9, hours: 9 * 0.14 * 1.2, working: '9 ft²; mesh, factor 1.2' },
    'hand-dig-loam': {
      units: 6,
      hours: 6 * 0.08,
      working: '18 in + 1.05 in of conduit, dug to 20 in; 4 in of it are slab: 9 ft × 16 ÷ 24 in of the unit',
    },
    backfill: { units: 6, hours: 6 * 0.05, working: 'the same depth' },
    'warning-tape': { units: 9, hours: 9 * 0.002, working: '9 ft' },
    'repour-4': { units: 9, hours: 9 * 0.2, working: '9 ft²' },
    'charger-mount': { units: 1, hours: 1, working: 'mounted, terminated, commissioned' },
    'charger-app': { units: 1, hours: 0.4, working: 'shown to the owner' },
    cleanup: { units: 1, hours: 0.5, working: 'a job' },
    'test-energize': { units: 1, hours: 0.3, working: 'one run' },
  },
  workingDays: {
    days: 3,
    working: `All person-hours ÷ 8 h, up; without travel 1 + 1.6 + 0.5 + 0.25 + 0.35 + 0.4 + 1 + 0.279 + 0.7 + 0.8 + 1.6 + 0.4 + 0.576
+ 0.192 + 0.06 + 1.2 + 0.36 + 1.512 + 0.48 + 0.3 + 0.018 + 1.8 + 1 + 0.4 + 0.5 + 0.3 = 17.577 h; in two days
17.577 + 0.5 + 0.6 + 3 = 21.677 h: too many; in three 17.577 + 0.5 + 0.9 + 4 = 22.977 h.`,
  },
  visits: { work: 3, 'trench-inspection': 1, 'final-inspection': 1 },
  findings: [
    ['cost-without-overhead', 'caution', 'the terms state neither overhead nor profit'],
    ['cover', 'ok', '18 in under a dwelling drive, Table 300.5(A)'],
    ['service-capacity', 'ok', '1.25 × 60 A + 60 A = 135 A of 200 A'],
  ],
};

checkWorkedJob('under a deck and through a slab', DESCRIPTION, { a: BY_HAND });
