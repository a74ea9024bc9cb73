import { checkWorkedJob, type TakeoffByHand } from './worked-job.ts';

/*
 * A 200 A panel in the basement, on the other side of the garage wall: 6 ft along a joist, through the fire-rated wall,
 * 4 ft on to a hardwired charger of 32 A that the household owns. The method is left to the planner: over 10 ft indoors
 * nonmetallic cable is plainly the cheapest. Prices of a joist cable against any conduit: the starting book.
 */
const DESCRIPTION = {
  title: 'Short attached garage',
  asOf: '2025-08-01',
  site: {
    building: 'attached',
    yearBuilt: 1994,
    hazards: [],
    service: { ratingA: 200, freeSpaces: 6 },
    load: { method: 'measured', peakA: 60, days: 365 },
  },
  route: [{ kind: 'joists', lengthFt: 6, across: false, through: 'fire-rated' }],
  options: [
    {
      id: 'a',
      label: 'Hardwired, 32 A',
      feed: 'dedicated-circuit',
      chargers: [{ amps: 32, connection: 'hardwired', equipment: 'owned', distanceFt: 4 }],
    },
  ],
};

const BY_HAND: TakeoffByHand = {
  buildable: true,
  runs: [
    {
      name: 'charger',
      role: 'branch-circuit',
      lengthFt: 10,
      ocpdA: 40,
      poles: 2,
      breaker: { kind: 'gfci', spaces: 2 },
      neutral: false,
      conductor: { metal: 'copper', size: '8', ampacityA: 40 },
      groundSize: '10',
      methods: ['nm-b'],
      tradeSizes: [null],
      dropPercent: 0.2075,
      wire: [{ use: 'cable', metal: 'copper', size: '8', insulation: 'nm-b', count: 1, cutLengthFt: 16 }],
      working: `6 ft + 4 ft. 1.25 × 32 A = 40 A (NEC 625.41, 210.20(A)). 8 AWG in the 60 °C column: 40 A (334.80, Table
310.16). Ground 10 AWG to 60 A (Table 250.122). Ground-fault protection: an outlet of a dwelling on 50 A or less in a
garage, 210.8(F) of 2023; the height of its floor is not stated, so the safe side. Drop: 2 × 10 ft × 0.778 Ω/kft × 32 A =
0.49792 V of 240 V (Chapter 9 Table 8). Cut: 10 ft + 5 ft in the panel + 1 ft at the outlet (makeup of the terms).`,
    },
  ],
  materials: {
    'nm-b-8-2-cu': {
      taken: 16.8,
      bought: 17,
      working: '16 ft × 1.05 (waste of the terms); cut by the foot in whole feet',
    },
    'breaker-2p-40-gfci': { taken: 1, working: 'one circuit' },
    'cable-connector-nm-3_4': { taken: 2, working: 'a clamp at panel and charger, NEC 312.5(C)' },
    'staples-nm-large': {
      taken: 4,
      bought: 25,
      working:
        'each stretch is held within 12 in of both its ends, also at the wall, and every 4.5 ft (334.30): 6 ft at 1 and 5 ft, 4 ft at 1 and 3 ft',
    },
    'firestop-putty': { taken: 1, working: 'one cable through a fire-rated wall, 300.21' },
    'anchors-screws': { taken: 1, working: 'one assortment a job; common practice, no source' },
    labels: { taken: 1, working: 'circuit directory, 408.4(A)' },
    'tape-color': { taken: 1, working: 'the white wire of a two-wire cable is a hot one here: 200.7(C)(1)' },
  },
  equipment: { 'vehicle-mile': { taken: 90, working: 'three trips, 15 miles each way (terms)' } },
  fees: { 'permit-circuit': { taken: 1, working: 'one circuit' } },
  tasks: {
    'mobilise-first': { units: 1, hours: 0.5, working: 'first trip' },
    'mobilise-return': { units: 2, hours: 0.6, working: 'the second day, and the final inspection' },
    drive: { units: 3, hours: 3, working: 'three trips of 2 × 30 min' },
    'layout-route': { units: 1, hours: 0.5, working: 'a job' },
    'load-calc-permit': { units: 1, hours: 1, working: 'a job' },
    'inspection-meet': { units: 1, hours: 0.8, working: 'final' },
    'panel-cover': { units: 1, hours: 0.35, working: 'one panel is opened' },
    'breaker-2p-small': { units: 1, hours: 0.4, working: '40 A' },
    'breaker-gfci-add': { units: 1, hours: 0.1, working: 'ground-fault kind' },
    'cable-open-8-6': { units: 6, hours: 6 * 0.024, working: '6 ft stapled along the joist' },
    'drill-joist-large': { units: 1, hours: 0.055, working: 'a hole through a framed wall from inside to inside' },
    'terminate-12-10': {
      units: 1,
      hours: 0.06,
      working: 'the ground on its bar; the breaker’s task lands the two hot wires',
    },
    'cable-to-outlet': { units: 4, hours: 4 * 0.05, working: '4 ft on the garage wall' },
    'charger-mount': { units: 1, hours: 1, working: 'mounted, terminated, commissioned' },
    'charger-app': { units: 1, hours: 0.4, working: 'shown to the owner' },
    cleanup: { units: 1, hours: 0.5, working: 'a job' },
    'test-energize': { units: 1, hours: 0.3, working: 'one run' },
  },
  workingDays: {
    days: 2,
    working: `All person-hours ÷ 8 h, up; papers, drives and the inspection count: 5.809 + 0.5 + 0.3 + 2 = 8.609 h in one day are
too many; 5.809 + 0.5 + 0.6 + 3 = 9.909 h take two.`,
  },
  visits: { work: 2, 'final-inspection': 1 },
  findings: [
    ['outdoor-ground-fault', 'caution', '210.8(F): the height of the garage’s floor is not stated'],
    ['cost-without-overhead', 'caution', 'the terms state neither overhead nor profit'],
    ['service-capacity', 'ok', '1.25 × 60 A + 40 A = 115 A of 200 A, NEC 220.87 and 220.57'],
    ['continuous-load', 'ok', '625.42'],
  ],
};

checkWorkedJob('a short attached garage in nonmetallic cable', DESCRIPTION, { a: BY_HAND });
