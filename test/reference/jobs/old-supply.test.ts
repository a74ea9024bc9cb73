import { checkWorkedJob, type TakeoffByHand } from './worked-job.ts';

/*
 * A detached garage that an old cable of two wires feeds: 20 A for its light and receptacle. A subpanel of 60 A comes
 * beside it. Kept, the old cable is a second supply, which is a stop; removed, its loads move to the subpanel. The feeder
 * goes through 16 ft of tubing in the basement, a block wall, and 40 ft of PVC under a lawn of clay, dug by hand.
 */
const OPTION = {
  feed: 'subpanel',
  metal: 'aluminum',
  chargers: [{ amps: 32, connection: 'hardwired', equipment: 'owned', distanceFt: 8 }],
  subpanel: { ratingA: 60, spaces: 6, feederA: 60 },
};
const DESCRIPTION = {
  title: 'Old supply',
  asOf: '2025-08-01',
  site: {
    building: 'detached',
    service: { ratingA: 200, freeSpaces: 4 },
    existingCircuit: { amps: 20, poles: 1, wires: 2, raceway: 'none', feeds: ['garage light', 'receptacle'] },
    garage: { bays: 1, existing: ['receptacles', 'light'] },
    load: { method: 'measured', peakA: 60, days: 365 },
  },
  route: [
    { kind: 'interior-surface', lengthFt: 16, method: 'emt', through: 'block' },
    { kind: 'lawn-trench', lengthFt: 40, method: 'pvc', soil: 'clay', dig: 'hand' },
  ],
  options: [
    { id: 'kept', label: 'The old cable stays', existingSupply: 'kept', ...OPTION },
    { id: 'removed', label: 'The old cable goes', existingSupply: 'removed', ...OPTION },
  ],
  terms: { overheadBp: 1500, profitBp: 1000 },
};

const KEPT: TakeoffByHand = {
  buildable: false,
  runs: [
    {
      name: 'feeder',
      role: 'feeder',
      lengthFt: 56,
      ocpdA: 60,
      poles: 2,
      breaker: { kind: 'standard', spaces: 2 },
      neutral: true,
      conductor: { metal: 'aluminum', size: '4', ampacityA: 65 },
      groundSize: '8',
      methods: ['emt', 'pvc'],
      tradeSizes: ['1', '1'],
      disconnect: { kind: 'main-breaker', ratingA: 60 },
      dropPercent: 0.7586,
      wire: [
        { use: 'ungrounded', metal: 'aluminum', size: '4', insulation: 'xhhw-2', count: 2, cutLengthFt: 72 },
        { use: 'neutral', metal: 'aluminum', size: '4', insulation: 'xhhw-2', count: 1, cutLengthFt: 72 },
        { use: 'ground', metal: 'aluminum', size: '8', insulation: 'xhhw-2', count: 1, cutLengthFt: 72 },
      ],
      working: `16 + 40 ft. 6 AWG aluminum is 50 A, a standard rating, so not 60 (240.4(B)); 4 AWG is 65 A at 75 °C (Table
310.16). Ground 8 AWG aluminum to 60 A (250.122). Fill: 3 × 0.0814 + 0.0437 = 0.2879 in²: EMT 1 holds 0.346, PVC 40 1 holds
0.333, PVC 80 1 only 0.275, so that the climbs are 1-1/4. Drop at the charger's 32 A: 2 × 56 × 0.508 / 1000 × 32 = 1.820672 V.
Cut: 16 + 40 + 2 × (18 in + 1.5 ft) + 5 ft in each panel. 225.39: a disconnect of 60 A.`,
    },
    {
      name: 'charger',
      role: 'branch-circuit',
      lengthFt: 8,
      ocpdA: 40,
      poles: 2,
      breaker: { kind: 'gfci', spaces: 2 },
      neutral: false,
      conductor: { metal: 'copper', size: '8', ampacityA: 40 },
      groundSize: '10',
      methods: [],
      tradeSizes: [],
      dropPercent: 0.166,
      wire: [{ use: 'cable', metal: 'copper', size: '8', insulation: 'nm-b', count: 1, cutLengthFt: 14 }],
      working: `8 ft along the garage's wall: nonmetallic cable is plainly the cheapest (15 ft at 2.35 against raceway with
three conductors and their pull). 60 °C column: 40 A (334.80). Drop: 2 × 8 × 0.778 / 1000 × 32 = 0.398336 V. Cut: 8 + 5 + 1 ft.`,
    },
  ],
  materials: {
    'emt-1': { taken: 16.8, bought: 20, working: '16 ft × 1.05: two sticks' },
    'emt-coupling-1': { taken: 1, working: 'one joint' },
    'emt-connector-1': { taken: 2, working: 'at the panel, and at the entry body' },
    'emt-strap-1': { taken: 2, working: 'at 3 and 13 ft, 358.30(A)' },
    'pvc-40-1': { taken: 42, bought: 50, working: '40 ft × 1.05; five sticks, each with a bell' },
    'pvc-80-1-1_4': { taken: 6.3, bought: 10, working: '2 × 3 ft where it can be damaged (300.5(D)(4)), × 1.05' },
    'pvc-80-elbow-90-1-1_4': { taken: 2, working: 'up out of the ditch into the entry body, at both ends' },
    'pvc-reducer': { taken: 2, working: '1 to 1-1/4 in below each climb' },
    'pvc-40-strap-1-1_4': { taken: 2, working: 'one a climb' },
    'pvc-40-expansion-1-1_4': { taken: 2, working: 'frost and settling, 300.5(J), 352.44(B)' },
    'pvc-40-lb-1-1_4': { taken: 2, working: 'out of the house, into the garage' },
    'pvc-40-1-1_4': { taken: 2, bought: 10, working: '1 ft through each wall; common practice, no source' },
    'pvc-40-female-adapter-1-1_4': { taken: 1, working: 'takes the thread of the tubing’s connector in the basement' },
    'pvc-40-male-adapter-1-1_4': { taken: 1, working: 'into the subpanel, behind the garage’s wall' },
    'pvc-40-locknut-bushing-1-1_4': { taken: 1, working: 'on that adapter' },
    'duct-seal': { taken: 1, working: 'two entries, a pound for two, 300.5(G), 225.27' },
    'caulk-exterior': { taken: 0.5, bought: 1, working: 'two entries, a tube for four; common practice, no source' },
    'pvc-cement-pint': {
      taken: (4.2 + 0.63 + 0.2 + 2 * (2 + 2 + 2 + 2) + 1 + 1) / 40,
      bought: 1,
      working:
        'joints: a stick each; elbow, reducer, expansion, entry body two each, twice; one of each adapter, whose other side is a thread; 40 a tin',
    },
    'pvc-primer': { taken: (4.2 + 0.63 + 0.2 + 16 + 2) / 40, bought: 1, working: 'as the cement' },
    'pull-string': { taken: 74, working: '16 + 6 ft in the tubing, 40 + 6 + 6 ft in the PVC' },
    'xhhw-2-4-al': { taken: 3 * 74.16, bought: 225, working: '3 × 72 ft × 1.03, three pieces of 75 ft' },
    'xhhw-2-8-al': { taken: 74.16, bought: 75, working: '72 ft × 1.03' },
    'wire-lube': { taken: 248 / 600, bought: 1, working: '4 × 62 ft of raceway' },
    antiox: { taken: 2 / 40, bought: 1, working: 'both ends of the feeder' },
    'tape-color': { taken: 1, working: 'single conductors, and the cable’s white, which is hot: 200.7(C)(1)' },
    'nm-b-8-2-cu': { taken: 14.7, bought: 15, working: '14 ft × 1.05' },
    'cable-connector-nm-3_4': { taken: 2, working: 'both ends' },
    'staples-nm-large': { taken: 3, working: '8 ft: at 1, 5 and 7 ft, 334.30' },
    'breaker-2p-60': { taken: 1, working: 'feeder' },
    'breaker-2p-40-gfci': { taken: 1, working: 'charger in an accessory building' },
    'panel-60a-6sp-mb-indoor': { taken: 1, working: 'main breaker: the disconnect of the building' },
    'ground-bar-kit': { taken: 1, working: 'neutral apart from grounds, 250.32(B)' },
    'ground-rod-8': { taken: 2, working: '250.53(A)(2)' },
    'acorn-clamp': { taken: 2, working: 'one a rod' },
    'bare-6-cu': { taken: 21.63, bought: 22, working: '10 + 6 + 5 ft, × 1.03; 6 AWG: 250.66, 250.64(B)' },
    'intersystem-bond': { taken: 1, working: '250.94' },
    'warning-tape-200': { taken: 40, working: '40 ft; good practice' },
    'topsoil-bag': {
      taken: 80 / 12 / 0.75,
      working: '40 ft × 2 ft × 1 in, 0.75 ft³ a bag; common practice, no source',
    },
    'grass-seed-3lb': { taken: 80 / 600, working: '80 ft², 600 ft² a bag' },
    'anchors-screws': { taken: 1, working: 'a job' },
    labels: { taken: 1, working: 'directories, 408.4(A)' },
  },
  equipment: {
    'rotary-hammer-day': { taken: 1, working: 'one wall of block' },
    'vehicle-mile': { taken: 180, working: 'six trips of 2 × 15 miles' },
  },
  fees: { 'permit-subpanel': { taken: 1, working: 'covers two inspections' } },
  tasks: {
    'conduit-emt-small': { units: 1.6, hours: 1.6 * 0.45, working: '16 ft' },
    'conduit-pvc-small': { units: 4, hours: 4 * 0.3 * 0.7, working: '40 ft, in an open ditch × 0.7' },
    riser: { units: 2, hours: 2 * 0.8, working: 'both ends' },
    'elbow-fit': { units: 2, hours: 2 * 0.2, working: 'both climbs' },
    'fish-line': { units: 2, hours: 2 * 0.4, working: 'tubing and PVC' },
    'wall-entry-masonry': { units: 1, hours: 1.7, working: 'block' },
    'wall-entry-wood': { units: 1, hours: 1, working: 'the garage’s wall; nothing was stated: wood' },
    'pull-4-2': { units: 186, hours: 186 * 0.012, working: '3 × (16 + 40 + 6) ft' },
    'pull-8-6': { units: 62, hours: 62 * 0.009, working: 'ground' },
    'terminate-4-2': { units: 1, hours: 0.16, working: 'neutral in the main panel' },
    'terminate-8-6': { units: 1, hours: 0.11, working: 'ground in the main panel' },
    'terminate-12-10': { units: 1, hours: 0.06, working: 'ground of the charger in the subpanel' },
    'panel-cover': { units: 1, hours: 0.35, working: 'main panel' },
    'breaker-2p-small': { units: 2, hours: 2 * 0.4, working: '60 A and 40 A' },
    'breaker-gfci-add': { units: 1, hours: 0.1, working: 'charger' },
    'subpanel-mount-60': { units: 1, hours: 2.3, working: '60 A, 6 spaces' },
    'cable-to-outlet': { units: 8, hours: 8 * 0.05, working: '8 ft' },
    'charger-mount': { units: 1, hours: 1, working: 'one' },
    'charger-app': { units: 1, hours: 0.4, working: 'one' },
    'ground-rods': { units: 1, hours: 1.2, working: 'one pair' },
    'bond-run': { units: 21, hours: 21 * 0.025, working: '10 + 6 + 5 ft' },
    'locate-call': { units: 1, hours: 0.25, working: '811' },
    'hand-dig-clay': {
      units: (40 * 20) / 24,
      hours: ((40 * 20) / 24) * 0.12,
      working:
        '18 in of cover (Table 300.5(A)) and 2 in for a raceway of 1.3 in: 20 in deep, where the hours are for 24',
    },
    backfill: { units: (40 * 20) / 24, hours: ((40 * 20) / 24) * 0.05, working: 'as dug' },
    'warning-tape': { units: 40, hours: 40 * 0.002, working: '40 ft' },
    'lawn-restore': { units: 40, hours: 40 * 0.03, working: '40 ft' },
    'layout-route': { units: 1, hours: 0.5, working: 'a job' },
    'test-energize': { units: 2, hours: 2 * 0.3, working: 'feeder and charger' },
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
  workingDays: { days: 5, working: '28.652 h on site, 8 h of trips: 36.652 h' },
  grounding: {
    electrodes: [{ kind: 'rod', count: 2 }],
    conductorSize: '6',
    working: '250.32(A); 4 AWG aluminum takes 8 AWG copper (250.66), 6 AWG where it lies open (250.64(B))',
  },
  visits: { work: 5, 'trench-inspection': 1, 'final-inspection': 1 },
  waits: { 'locate buried lines': 3 },
  findings: [
    ['one-supply', 'stop', 'a second supply of the building: 225.30'],
    ['old-supply-ground', 'caution', 'two wires bring no equipment ground: 250.32(B)'],
    ['outdoor-ground-fault', 'caution', 'wired on 40 A in an accessory building: 210.8(F)'],
    ['feeder-load', 'ok', '1.25 × 32 A = 40 A of 60 A'],
    ['cover', 'ok', '18 in'],
    ['service-capacity', 'ok', '75 + 40 A of 200 A'],
  ],
};

const REMOVED: TakeoffByHand = {
  ...KEPT,
  buildable: true,
  materials: {
    ...KEPT.materials,
    'breaker-1p-20-gfci': { taken: 1, working: 'the old loads, on ground-fault protection: 210.8(A)(2)' },
    'refeed-parts': { taken: 1, working: 'one circuit joined to the subpanel' },
    'breaker-filler': { taken: 1, working: 'one space of the main panel is left open: 408.7' },
    'cable-end-cap': { taken: 2, working: 'the old cable stays in the ground, both ends capped' },
  },
  equipment: KEPT.equipment,
  tasks: {
    ...KEPT.tasks,
    'supply-disconnect': { units: 1, hours: 1, working: 'off, proved dead, taken off at both ends' },
    'cap-and-label': { units: 2, hours: 2 * 0.15, working: 'two ends' },
    'refeed-circuit': { units: 1, hours: 1.3, working: 'one circuit, joined and tested' },
  },
  workingDays: { days: 5, working: '31.252 h on site, 8 h of trips: 39.252 h, five days of 8 h' },
  visits: KEPT.visits,
  findings: [
    ['one-supply', 'note', 'one supply is left'],
    ['old-loads', 'note', 'moved to the subpanel'],
    ['outdoor-ground-fault', 'caution', 'wired on 40 A in an accessory building: 210.8(F)'],
    ['feeder-load', 'ok', '40 A and a general circuit of 1,500 VA on one leg, 12.5 A: 52.5 A of 60 A'],
    ['service-capacity', 'ok', '75 + 40 + 12.5 A of 200 A'],
  ],
};

checkWorkedJob('an old supply kept, and removed', DESCRIPTION, { kept: KEPT, removed: REMOVED });
