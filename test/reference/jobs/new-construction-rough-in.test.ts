import { checkWorkedJob, type TakeoffByHand } from './worked-job.ts';

/*
 * A new house before drywall: 24 ft of EMT along the joists of what will be a ceiling, 6 ft down along a stud, 2 ft to
 * where a charger of 48 A will hang. Raceway, box and pull line now; wire, breaker and charger later.
 */
const DESCRIPTION = {
  title: 'New construction, rough-in',
  asOf: '2025-08-01',
  site: {
    work: 'new-construction',
    building: 'attached',
    yearBuilt: 2025,
    hazards: [],
    service: { ratingA: 200, freeSpaces: 12 },
    load: { method: 'measured', peakA: 60, days: 365 },
  },
  route: [
    { kind: 'finished-ceiling', lengthFt: 24, across: false, method: 'emt' },
    { kind: 'finished-wall', lengthFt: 6, across: false, method: 'emt' },
  ],
  options: [
    {
      id: 'a',
      label: 'Ready for 48 A',
      feed: 'dedicated-circuit',
      metal: 'copper',
      roughInOnly: true,
      chargers: [{ amps: 48, connection: 'hardwired', equipment: 'none', distanceFt: 2 }],
    },
  ],
};

const BY_HAND: TakeoffByHand = {
  buildable: true,
  runs: [
    {
      name: 'charger',
      role: 'branch-circuit',
      lengthFt: 32,
      ocpdA: 60,
      poles: 2,
      breaker: { kind: 'standard', spaces: 2 },
      neutral: false,
      conductor: { metal: 'copper', size: '6', ampacityA: 65 },
      groundSize: '10',
      methods: ['emt', 'emt'],
      tradeSizes: ['3/4', '3/4'],
      dropPercent: 0.6285,
      wire: [
        { use: 'ungrounded', metal: 'copper', size: '6', insulation: 'thwn-2', count: 2, cutLengthFt: 38 },
        { use: 'ground', metal: 'copper', size: '10', insulation: 'thwn-2', count: 1, cutLengthFt: 38 },
      ],
      working: `24 + 6 + 2 ft. What will be pulled is said now. 6 AWG, 65 A at 75 °C. Fill 0.1225 in²: 3/4 in EMT (1/2 in
holds 0.122). Drop: 2 × 32 × 0.491 ÷ 1000 × 48 = 1.508352 V, 0.62848 %. Cut: 32 + 5 + 1 ft.`,
    },
  ],
  materials: {
    'emt-3_4': { taken: 33.6, bought: 40, working: '32 ft × 1.05; four sticks' },
    'emt-coupling-3_4': { taken: 3, working: 'between four sticks' },
    'emt-connector-3_4': { taken: 2, working: 'panel and box' },
    'emt-strap-3_4': {
      taken: 4,
      working: 'at 3, 13, 23 and 29 ft of 32 ft (358.30(A)); the one on the stud is the one within 3 ft of the box',
    },
    'box-4in-square-deep': { taken: 1, working: 'where the charger will hang' },
    'blank-cover': { taken: 1, working: 'over the box, 314.25' },
    'raceway-cap': { taken: 2, working: 'both ends capped' },
    'pull-string': { taken: 38, bought: 500, working: 'once through 32 ft, 3 ft to hold at each end; one bucket' },
    labels: { taken: 1, working: 'both ends labelled' },
    'anchors-screws': { taken: 1, working: 'one assortment a job; common practice, no source' },
  },
  equipment: { 'vehicle-mile': { taken: 60, working: 'two trips, 15 miles each way' } },
  fees: { 'permit-circuit': { taken: 1, working: 'one circuit' } },
  tasks: {
    'mobilise-first': { units: 1, hours: 0.5, working: 'first trip' },
    'mobilise-return': { units: 1, hours: 0.3, working: 'rough inspection' },
    drive: { units: 2, hours: 2, working: 'two trips of 2 × 30 min' },
    'layout-route': { units: 1, hours: 0.5, working: 'a job' },
    'load-calc-permit': { units: 1, hours: 1, working: 'a job' },
    'inspection-meet': { units: 1, hours: 0.8, working: 'rough: what will be covered is seen first' },
    'conduit-emt-small': {
      units: 3.2,
      hours: 3.2 * 0.45 * 0.65,
      working: '32 ft by the stick of 10 ft; open walls, factor 0.65',
    },
    'bend-field-emt': {
      units: 2,
      hours: 0.3,
      working: 'down the stud, and on along the wall; open walls make no bend quicker',
    },
    'fish-line': { units: 1, hours: 0.4, working: 'the pull line; open walls make it no quicker' },
    'cap-and-label': { units: 2, hours: 0.3, working: 'both ends' },
    cleanup: { units: 1, hours: 0.5, working: 'a job' },
  },
  workingDays: {
    days: 1,
    working: 'all person-hours ÷ 8 h, up: 4.736 + 0.5 + 0.3 + 2 = 7.536 h; the panel of a new house has no cover yet',
  },
  visits: { work: 1, 'rough-inspection': 1 },
  findings: [
    ['cost-without-overhead', 'caution', 'the terms state neither overhead nor profit'],
    ['service-capacity', 'ok', '1.25 × 60 A + 60 A = 135 A of 200 A'],
  ],
};

checkWorkedJob('a rough-in in new construction', DESCRIPTION, { a: BY_HAND });
