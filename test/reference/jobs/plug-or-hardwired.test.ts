import { checkWorkedJob, type TakeoffByHand } from './worked-job.ts';

/*
 * The same way twice: 28 ft across open joists, 10 ft across the joists of a finished ceiling, 3 ft on the garage wall.
 * Once to a 14-50 receptacle for an owned plug-in charger of 40 A, the most that a 50 A receptacle carries for hours;
 * once hardwired at 48 A. Nonmetallic cable is asked for on both legs.
 */
const charger = { equipment: 'owned', distanceFt: 3 };
const DESCRIPTION = {
  title: 'Receptacle or hardwired',
  asOf: '2025-08-01',
  site: {
    building: 'attached',
    yearBuilt: 1994,
    hazards: [],
    service: { ratingA: 200, freeSpaces: 6 },
    load: { method: 'measured', peakA: 60, days: 365 },
  },
  route: [
    { kind: 'joists', lengthFt: 28, across: true, method: 'nm-b' },
    { kind: 'finished-ceiling', lengthFt: 10, across: true, method: 'nm-b' },
  ],
  options: [
    {
      id: 'plug',
      label: '14-50 receptacle, 40 A',
      feed: 'dedicated-circuit',
      chargers: [{ ...charger, amps: 40, connection: 'receptacle-14-50' }],
    },
    {
      id: 'wired',
      label: 'Hardwired, 48 A',
      feed: 'dedicated-circuit',
      chargers: [{ ...charger, amps: 48, connection: 'hardwired' }],
    },
  ],
};

/** What will be hidden is seen on the morning of a day of work; common practice, no source. */
const tripsTo = (days: number): TakeoffByHand['tasks'] => ({
  'mobilise-return': { units: days, hours: days * 0.3, working: `${days - 1} more days of work, the final inspection` },
  drive: { units: days + 1, hours: days + 1, working: 'each trip 2 × 30 min' },
});
const VISITS_AND_PAPERS: TakeoffByHand['tasks'] = {
  'mobilise-first': { units: 1, hours: 0.5, working: 'first trip' },
  'layout-route': { units: 1, hours: 0.5, working: 'a job' },
  'load-calc-permit': { units: 1, hours: 1, working: 'a job' },
  'inspection-meet': {
    units: 2,
    hours: 1.6,
    working: 'rough, before the ceiling is closed (common practice, no source); final',
  },
  'panel-cover': { units: 1, hours: 0.35, working: 'one panel is opened' },
  'breaker-2p-small': { units: 1, hours: 0.4, working: '50 or 60 A' },
  'fish-ceiling': { units: 10, hours: 1, working: '10 ft of finished ceiling' },
  'access-hole-patch': {
    units: 3,
    hours: 2.7,
    working: 'a long bit reaches three joists from one opening, 4 ft: 10 ÷ 4, up; common practice, no source',
  },
  'charger-app': { units: 1, hours: 0.4, working: 'network, and shown to the owner, plugged in or not' },
  'cable-to-outlet': { units: 3, hours: 0.15, working: '3 ft on the wall' },
  cleanup: { units: 1, hours: 0.5, working: 'a job' },
  'test-energize': { units: 1, hours: 0.3, working: 'one run' },
};
const LUMPS: TakeoffByHand['materials'] = {
  'staples-nm-large': {
    taken: 4,
    bought: 25,
    working:
      'bored holes 16 in apart support the cable (334.30(A)), a fished one needs no support (334.30(B)(1)): both ends of the open stretch, both ends of 3 ft on the wall',
  },
  'drywall-patch-kit': { taken: 3, working: 'one an opening' },
  'paint-touchup': { bought: 1, working: 'a quart for three patches; common practice, no source' },
  'nail-plates': {
    taken: 4,
    bought: 10,
    working:
      '300.4(A)(1): of 28 ft ÷ 16 in = 21 and 10 ft ÷ 16 in = 8 holes one in ten comes near an edge: 3 and 1; common practice, no source',
  },
  'anchors-screws': { taken: 1, working: 'one assortment a job; common practice, no source' },
  labels: { taken: 1, working: 'circuit directory, 408.4(A)' },
};

const PLUG: TakeoffByHand = {
  buildable: true,
  runs: [
    {
      name: 'charger',
      role: 'branch-circuit',
      lengthFt: 41,
      ocpdA: 50,
      poles: 2,
      breaker: { kind: 'gfci', spaces: 2 },
      neutral: true,
      conductor: { metal: 'copper', size: '6', ampacityA: 55 },
      groundSize: '10',
      methods: ['nm-b', 'nm-b'],
      tradeSizes: [null, null],
      dropPercent: 0.671,
      wire: [{ use: 'cable', metal: 'copper', size: '6', insulation: 'nm-b', count: 1, cutLengthFt: 47 }],
      working: `28 + 10 + 3 ft. 1.25 × 40 A = 50 A. 6 AWG at 60 °C: 55 A (334.80). The receptacle has a neutral pole: three
wires and ground. Ground-fault protection: 625.54, 210.8(A). Drop: 2 × 41 × 0.491 ÷ 1000 × 40 = 1.61048 V, 0.67103 %.
Cut: 41 + 5 + 1 ft.`,
    },
  ],
  materials: {
    ...LUMPS,
    'nm-b-6-3-cu': {
      taken: 49.35,
      bought: 50,
      working: '47 ft × 1.05; 50 ft by the foot cost what the coil of 50 ft costs',
    },
    'breaker-2p-50-gfci': { taken: 1, working: 'one circuit' },
    'cable-connector-nm-3_4': { taken: 1, working: 'at the panel; the old-work box has clamps of its own' },
    'box-2gang-nm': {
      taken: 1,
      working: '3 × 5.00 + device 2 × 5.00 + clamps 5.00 + ground 2.50 = 32.5 in³ (314.16(B)): two gangs',
    },
    'rec-14-50-ind': {
      taken: 1,
      working: 'a grade that bears hours of 40 A, often plugged; common practice, no source',
    },
    'plate-14-50': { taken: 1, working: 'one' },
  },
  equipment: { 'vehicle-mile': { taken: 90, working: 'three trips, 15 miles each way' } },
  fees: { 'permit-circuit': { taken: 1, working: 'one circuit' } },
  tasks: {
    ...VISITS_AND_PAPERS,
    ...tripsTo(2),
    'breaker-gfci-add': { units: 1, hours: 0.1, working: 'ground-fault kind' },
    'cable-open-8-6': { units: 28, hours: 28 * 0.024, working: '28 ft of open joists' },
    'drill-joist-small': {
      units: 21,
      hours: 21 * 0.035,
      working: '28 ft ÷ 16 in; 6/3 is some 0.75 in thick: a hole of 1 in',
    },
    'receptacle-50': { units: 1, hours: 0.8, working: 'one' },
    'terminate-8-6': { units: 1, hours: 0.11, working: 'the neutral in the panel' },
    'terminate-12-10': { units: 1, hours: 0.06, working: 'the ground in the panel' },
    'charger-hang': { units: 1, hours: 0.4, working: 'hung and plugged in' },
  },
  workingDays: {
    days: 2,
    working: 'all person-hours ÷ 8 h, up: in two days 11.777 + 0.5 + 0.6 + 3 = 15.877 h',
  },
  visits: { work: 2, 'rough-inspection': 1, 'final-inspection': 1 },
  findings: [
    ['cost-without-overhead', 'caution', 'the terms state neither overhead nor profit'],
    ['gfci-ev-receptacle', 'ok', '625.54'],
    ['service-capacity', 'ok', '1.25 × 60 A + 50 A = 125 A of 200 A'],
  ],
};

const WIRED: TakeoffByHand = {
  buildable: true,
  runs: [
    {
      name: 'charger',
      role: 'branch-circuit',
      lengthFt: 41,
      ocpdA: 60,
      poles: 2,
      breaker: { kind: 'standard', spaces: 2 },
      neutral: false,
      conductor: { metal: 'copper', size: '4', ampacityA: 70 },
      groundSize: '8',
      methods: ['nm-b', 'nm-b'],
      tradeSizes: [null, null],
      dropPercent: 0.5051,
      wire: [{ use: 'cable', metal: 'copper', size: '4', insulation: 'nm-b', count: 1, cutLengthFt: 47 }],
      working: `1.25 × 48 A = 60 A; 6 AWG in the 60 °C column is 55 A and no standard size lies between, but the continuous
load must be carried at the terminals: 4 AWG, 70 A. 4/2 is not sold: 4/3, its neutral capped. Its ground is 8 AWG (a
maker’s sheet); 10 AWG would do. 210.8(F) ends at 50 A. Drop: 2 × 41 × 0.308 ÷ 1000 × 48 = 1.212288 V, 0.50512 %.`,
    },
  ],
  materials: {
    ...LUMPS,
    'nm-b-4-3-cu': { taken: 49.35, bought: 50, working: '47 ft × 1.05' },
    'breaker-2p-60': { taken: 1, working: 'one circuit' },
    'cable-connector-nm-3_4': { taken: 2, working: 'panel and charger, 312.5(C)' },
    'tape-vinyl': { taken: 1, working: 'both ends of the unused neutral are capped; common practice, no source' },
  },
  equipment: { 'vehicle-mile': { taken: 120, working: 'four trips, 15 miles each way' } },
  fees: { 'permit-circuit': { taken: 1, working: 'one circuit' } },
  tasks: {
    ...VISITS_AND_PAPERS,
    ...tripsTo(3),
    'cable-open-large': { units: 28, hours: 28 * 0.038, working: '28 ft of open joists' },
    'drill-joist-large': {
      units: 21,
      hours: 21 * 0.055,
      working: '28 ft ÷ 16 in; 4/3 is some 0.85 in thick: tight in a hole of 1 in',
    },
    'terminate-8-6': { units: 1, hours: 0.11, working: 'the ground of 8 AWG in the panel' },
    'charger-mount': { units: 1, hours: 1, working: 'mounted, terminated, commissioned' },
  },
  workingDays: {
    days: 3,
    working:
      'all person-hours ÷ 8 h, up: in two days 12.229 + 0.5 + 0.6 + 3 = 16.329 h: too many; in three 12.229 + 0.5 + 0.9 + 4 = 17.629 h',
  },
  visits: { work: 3, 'rough-inspection': 1, 'final-inspection': 1 },
  findings: [
    ['cost-without-overhead', 'caution', 'the terms state neither overhead nor profit'],
    ['unused-conductor', 'note', 'the neutral of 4/3 serves nothing'],
    ['service-capacity', 'ok', '1.25 × 60 A + 60 A = 135 A of 200 A'],
  ],
};

checkWorkedJob('a 14-50 receptacle against a hardwired charger of 48 A', DESCRIPTION, { plug: PLUG, wired: WIRED });
