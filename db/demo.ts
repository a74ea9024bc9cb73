/**
 * The project that a fresh data folder opens with: an invented household that shows what the tool is for. A carport
 * behind the house, six kinds of ground on the way, one car now and perhaps a second one, and three ways to feed it.
 */
export const DEMO_PROJECT = {
  title: 'Carport behind the Alder Row house',
  description: {
    title: 'Carport behind the Alder Row house',
    site: {
      building: 'outdoor',
      yearBuilt: 1971,
      service: { ratingA: 150, freeSpaces: 5 },
      load: {
        method: 'listed',
        floorAreaFt2: 1740,
        appliances: [
          { name: 'range', va: 9600, kind: 'range' },
          { name: 'dryer', va: 5000, kind: 'dryer' },
          { name: 'dishwasher', va: 1200 },
          { name: 'disposer', va: 700, kind: 'motor' },
        ],
        heating: { kind: 'none', va: 0 },
        cooling: { va: 3360 },
      },
    },
    route: [
      { kind: 'joists', lengthFt: 19, through: 'block' },
      { kind: 'exterior-wall', lengthFt: 7 },
      {
        kind: 'lawn-trench',
        lengthFt: { low: 24, likely: 27, high: 32 },
        soil: 'clay',
        crossings: [{ what: 'irrigation' }],
      },
      { kind: 'planting-bed', lengthFt: 11, soil: 'roots' },
      { kind: 'concrete-cut', lengthFt: 5, thicknessIn: 4 },
      { kind: 'gravel-trench', lengthFt: 13 },
    ],
    options: [
      {
        id: 'circuit-32',
        label: 'One circuit, 32 A',
        feed: 'dedicated-circuit',
        chargers: [{ amps: 32, connection: 'hardwired', equipment: 'buy', mount: 'post', distanceFt: 4 }],
      },
      {
        id: 'circuit-48',
        label: 'One circuit, 48 A',
        feed: 'dedicated-circuit',
        chargers: [{ amps: 48, connection: 'hardwired', equipment: 'buy', mount: 'post', distanceFt: 4 }],
      },
      {
        id: 'panel-80',
        label: 'Panel at the carport, 80 A',
        feed: 'subpanel',
        chargers: [{ amps: 48, connection: 'hardwired', equipment: 'buy', mount: 'post', distanceFt: 4 }],
        subpanel: {
          ratingA: 100,
          spaces: 12,
          feederA: 80,
          mainBreaker: true,
          enclosure: 'outdoor',
          otherCircuits: [{ use: 'carport receptacle', amps: 20, poles: 1, lengthFt: 10, build: true }],
        },
      },
    ],
    driving: { cars: [{ milesPerDay: 38, parkedHours: 10, maxA: 48 }], later: 1 },
    terms: {
      markup: { materialBp: 1500 },
      overheadBp: 1000,
      profitBp: 1000,
      taxBp: 600,
    },
  },
} as const;
