import { checkWorkedJob, type TakeoffByHand } from './worked-job.ts';

/*
 * Two chargers of 48 A on pedestals beyond the drive share one circuit of 60 A under load management. PVC all the way: 8 ft
 * along the house, 24 ft of lawn, a bore of 20 ft under the drive, 12 ft of lawn, and 8 ft to the farther pedestal; the
 * nearer one stands at 4 ft, where the circuit divides.
 */
const charger = { amps: 48, connection: 'hardwired', equipment: 'buy', mount: 'pedestal', group: 'A' };
const DESCRIPTION = {
  title: 'Two on a circuit',
  asOf: '2025-08-01',
  site: {
    building: 'outdoor',
    service: { ratingA: 200, freeSpaces: 6 },
    load: { method: 'measured', peakA: 60, days: 365 },
  },
  route: [
    { kind: 'exterior-wall', lengthFt: 8, method: 'pvc' },
    { kind: 'lawn-trench', lengthFt: 24, method: 'pvc' },
    { kind: 'bore', lengthFt: 20, method: 'pvc', traffic: 'vehicle' },
    { kind: 'lawn-trench', lengthFt: 12, method: 'pvc' },
  ],
  options: [
    {
      id: 'a',
      label: 'Two of 48 A share 48 A',
      feed: 'dedicated-circuit',
      chargers: [
        { ...charger, distanceFt: 4 },
        { ...charger, distanceFt: 8 },
      ],
      loadManagement: { kind: 'shared-circuit', maxA: 48 },
    },
  ],
  terms: { overheadBp: 1500, profitBp: 1000 },
};

/** Joints: sticks; elbows, expansion fittings and the entry body two each; five adapters into boxes and one male one. */
const GLUED = 6.82 + 1.47 + 2 * (4 + 4 + 1) + 5 + 1;
/** A footing of 12 in across and 30 in deep, in bags of 0.6 ft³; common practice, no source. */
const FOOTING_BAGS = ((Math.PI / 4) * 2.5) / 0.6;

const BY_HAND: TakeoffByHand = {
  buildable: true,
  runs: [
    {
      name: 'charger',
      role: 'branch-circuit',
      lengthFt: 72,
      ocpdA: 60,
      poles: 2,
      breaker: { kind: 'standard', spaces: 2 },
      neutral: false,
      conductor: { metal: 'copper', size: '6', ampacityA: 65 },
      groundSize: '10',
      methods: ['pvc', 'pvc', 'pvc', 'pvc'],
      tradeSizes: ['3/4', '3/4', '3/4', '3/4'],
      disconnect: { kind: 'non-fused-switch', ratingA: 60 },
      dropPercent: 1.4141,
      wire: [
        { use: 'ungrounded', metal: 'copper', size: '6', insulation: 'thwn-2', count: 2, cutLengthFt: 90 },
        { use: 'ground', metal: 'copper', size: '10', insulation: 'thwn-2', count: 1, cutLengthFt: 90 },
      ],
      working: `8 + 24 + 20 + 12 + 8 ft. The setting of the system is the load: 1.25 × 48 = 60 A (625.42(A)); 6 AWG at 75 °C: 65 A.
Above 50 A: no ground-fault breaker. Fill 2 × 0.0507 + 0.0211 = 0.1225 in²: PVC 40 3/4 holds 0.203, PVC 80 3/4 0.164. Pedestals
are structures: a disconnect (225.31), no rods for one branch circuit with its ground (250.32(A) Exception). Drop: 2 × 72 × 0.491
/ 1000 × 48 = 3.393792 V. Cut: 72 + 2 × (18 in + 1.5 ft) + 5 in the panel + 1 at the farther charger + 2 × 1 at the switch, and
where it divides 1 in and 2 × 1 out of a box, and 1 at the nearer charger: 90 ft.`,
    },
  ],
  materials: {
    'pvc-40-3_4': { taken: 68.2, bought: 70, working: '64 ft × 1.05, and 1 ft through the wall' },
    'pvc-80-3_4': {
      taken: 14.7,
      bought: 20,
      working: '2 × 3 ft of climb, and the 8 ft that lie open where cars park (352.10(K), 300.5(D)(4)), × 1.05',
    },
    'pvc-80-elbow-90-3_4': { taken: 4, working: 'down from the wall and into the ditch, up out of it and on' },
    'pvc-40-expansion-3_4': {
      taken: 4,
      working: 'one a climb; 8 ft of wall and 8 ft at the end change by 8 × 12 × 100 × 3.38e-5 = 0.32 in, 352.44(A)',
    },
    'pvc-40-strap-3_4': {
      taken: 6,
      working: 'one a climb; 8 ft of wall at 3 and 6 ft, and the last 8 ft alike, 352.30',
    },
    'pvc-40-lb-3_4': { taken: 1, working: 'out of the house' },
    'pvc-40-male-adapter-3_4': { taken: 1, working: 'into the panel behind the wall' },
    'pvc-40-locknut-bushing-3_4': { taken: 1, working: 'on it' },
    'pvc-40-box-adapter-3_4': {
      taken: 5,
      working: 'in and out of the switch, in and out of the box, the farther charger',
    },
    'duct-seal': { taken: 0.5, bought: 1, working: 'one entry' },
    'caulk-exterior': { taken: 0.25, bought: 1, working: 'one entry' },
    'pvc-cement-pint': { taken: GLUED / 40, bought: 1, working: '40 joints a tin' },
    'pvc-primer': { taken: GLUED / 40, bought: 1, working: 'as the cement' },
    'pull-string': { taken: 84, working: '72 + 6 ft of climbs + 6 ft to hold' },
    'thwn-2-6-cu': { taken: 185.4, bought: 200, working: '2 × 90 ft × 1.03: two coils of 100 ft are cheapest' },
    'thwn-2-10-cu': { taken: 92.7, bought: 100, working: '90 ft × 1.03: a coil at 45.00, 93 ft at 46.50' },
    'wire-lube': { taken: 234 / 600, bought: 1, working: '3 × 78 ft' },
    'tape-color': { taken: 1, working: 'single conductors' },
    'tape-vinyl': { taken: 1, working: 'over the joints' },
    'breaker-2p-60': { taken: 1, working: 'one circuit' },
    'disc-60-nonfused': { taken: 1, working: '225.31; not below the 60 A of its circuit, 225.39' },
    'jbox-pvc-6x6x4': { taken: 1, working: 'six of 6 AWG and three grounds of 10: 6 × 5 + 2.5 = 32.5 in³, 314.16' },
    'splice-insulated-tap-6-14': { taken: 2, working: 'both hots divide' },
    'twist-connectors': { taken: 1, working: 'and the ground of 10 AWG' },
    'charger-48': { taken: 1, working: 'one' },
    'charger-48-pair-sharing': { taken: 1, working: 'and one that shares with it' },
    pedestal: { taken: 2, working: 'two' },
    'concrete-80': { taken: 2 * FOOTING_BAGS, bought: 7, working: 'two footings' },
    'lm-label': { taken: 1, working: '625.42(A), 750.30(C)' },
    'warning-tape-200': { taken: 36, working: 'over the ditches; none in the bore' },
    'topsoil-bag': { taken: (36 * 2) / 12 / 0.75, working: '36 ft × 2 ft × 1 in' },
    'grass-seed-3lb': { taken: 72 / 600, working: '72 ft²' },
    'anchors-screws': { taken: 1, working: 'a job' },
    labels: { taken: 1, working: '408.4(A)' },
  },
  equipment: {
    'mole-day': { taken: 1, working: '20 ft, 30 ft a day; common practice, no source' },
    'vehicle-mile': { taken: 210, working: 'seven trips' },
  },
  fees: { 'permit-circuit': { taken: 1, working: 'covers two inspections' } },
  tasks: {
    'conduit-pvc-small': {
      units: 7.2,
      hours: 1.6 * 0.3 + 5.6 * 0.3 * 0.7,
      working: '16 ft strapped, 56 ft in the ground',
    },
    riser: { units: 2, hours: 2 * 0.8, working: 'both ends' },
    'elbow-fit': { units: 4, hours: 4 * 0.2, working: 'four: 360 degrees, no pull point' },
    'fish-line': { units: 1, hours: 0.4, working: 'one pull' },
    'wall-entry-wood': { units: 1, hours: 1, working: 'nothing was stated: wood' },
    'pull-8-6': { units: 156, hours: 156 * 0.009, working: '2 × 78 ft' },
    'pull-12-10': { units: 78, hours: 78 * 0.006, working: '78 ft' },
    'terminate-12-10': { units: 1, hours: 0.06, working: 'ground in the panel' },
    'panel-cover': { units: 1, hours: 0.35, working: 'main panel' },
    'breaker-2p-small': { units: 1, hours: 0.4, working: '60 A' },
    disconnect: { units: 1, hours: 1.1, working: 'one' },
    'splice-cable': { units: 1, hours: 1, working: 'the box where it divides' },
    'charger-mount': { units: 2, hours: 2, working: 'two' },
    'charger-app': { units: 2, hours: 2 * 0.4, working: 'two' },
    'footing-pedestal': { units: 2, hours: 2 * 2.5, working: 'two' },
    'lm-set': { units: 1, hours: 0.5, working: 'limit set and locked' },
    'locate-call': { units: 1, hours: 0.25, working: '811' },
    'bore-driveway': { units: 20, hours: 20 * 0.25, working: '20 ft' },
    'hand-dig-loam': {
      units: 36,
      hours: 36 * 0.08,
      working:
        '36 ft, 18 in of cover and 2 in for a raceway of 1.05 in: 20 of 24 in, 30 ft; a pit of 3 ft at each end of the bore',
    },
    backfill: { units: 30, hours: 30 * 0.05, working: 'as dug, without the pits, whose hours hold it' },
    'warning-tape': { units: 36, hours: 36 * 0.002, working: '36 ft' },
    'lawn-restore': { units: 36, hours: 36 * 0.03, working: '36 ft' },
    'layout-route': { units: 1, hours: 0.5, working: 'a job' },
    'test-energize': { units: 1, hours: 0.3, working: 'one run' },
    cleanup: { units: 1, hours: 0.5, working: 'a job' },
    'load-calc-permit': { units: 1, hours: 1, working: 'a job' },
    'inspection-meet': { units: 2, hours: 2 * 0.8, working: 'open ditch, final' },
    'mobilise-first': { units: 1, hours: 0.5, working: 'first trip' },
    'mobilise-return': { units: 6, hours: 6 * 0.3, working: 'seven trips' },
    drive: {
      units: 7,
      hours: 7,
      working:
        'six days and the final inspection; the open ditch is seen on the morning of a day of work; common practice, no source',
    },
  },
  workingDays: { days: 6, working: '33.220 h on site, 9.3 h of trips: 42.520 h' },
  visits: { work: 6, 'trench-inspection': 1, 'final-inspection': 1 },
  waits: { 'locate buried lines': 3 },
  findings: [
    ['load-management', 'ok', 'listed load management lets chargers share: 625.40 Exception'],
    ['one-supply', 'ok', 'one'],
    ['building-disconnect-rating', 'ok', '15 A would do for one circuit, its load asks for 60: 225.39'],
    ['electrode-separate-building', 'ok', '250.32(A) Exception'],
    ['cover', 'ok', '18 in under lawn and under a dwelling’s drive'],
    ['bends-pvc', 'ok', '360 of 360 degrees'],
    ['service-capacity', 'ok', '75 + 60 A of 200 A'],
  ],
};

checkWorkedJob('two chargers on one circuit beyond a drive', DESCRIPTION, { a: BY_HAND });
