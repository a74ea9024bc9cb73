import { z } from 'zod';
import { closed, shown } from '../input-problems.ts';
import { BOUNDS, EDITIONS, TRADE_SIZES } from '../vocabulary.ts';
import { cents, count, flag, listOf, oneOf, oneOfNumbers, quantity, text } from './fields.ts';

const amperes = (least: number, most: number) => quantity({ unit: 'amperes', least, most });
const voltAmperes = () => quantity({ unit: 'volt-amperes', least: 0, most: 1_000_000 });
const freeSpaces = () => count('free spaces', 0, 84).nullable();

const Panel = closed({
  kind: oneOf(['service-equipment', 'fed-from-outside-disconnect', 'fuses', 'split-bus']).nullable(),
  state: oneOf(['current', 'obsolete', 'known-hazard']).nullable(),
});

/** The service and its main panel. Spaces are full-size; a two-pole breaker needs two side by side. */
const Service = closed({
  ratingA: amperes(BOUNDS.minServiceA, BOUNDS.maxServiceA).nullable(),
  freeSpaces: freeSpaces(),
  panelBusA: amperes(BOUNDS.minServiceA, BOUNDS.maxServiceA).optional(),
  backfeedA: amperes(0, BOUNDS.maxServiceA).optional(),
  panel: Panel.optional(),
});

const terminalsC = () => oneOfNumbers([60, 75], 'degrees Celsius');

const Start = closed({
  feederA: amperes(15, BOUNDS.maxServiceA).nullable(),
  freeSpaces: freeSpaces(),
  terminalsC: terminalsC().default(75),
});

const ExistingCircuit = closed({
  amps: amperes(10, 400),
  poles: oneOfNumbers([1, 2], 'poles'),
  wires: oneOfNumbers([2, 3, 4], 'wires'),
  raceway: oneOf(['none', 'pvc', 'emt', 'rmc']),
  tradeSize: oneOf(TRADE_SIZES).optional(),
  feeds: listOf(text(), 20, 'things that it feeds').default([]),
});

const Garage = closed({
  bays: count('bays', 1, 12).default(1),
  existing: listOf(oneOf(['receptacles', 'light']), 2, 'things that are there').default([]),
});

const Permit = closed({
  feeCents: cents().optional(),
  inspections: count('inspections', 0, 12).optional(),
  byOwner: flag().default(false),
  rightOfWay: flag().default(false),
});

const Appliance = closed({
  name: text(),
  va: voltAmperes(),
  kind: oneOf(['fastened', 'range', 'dryer', 'motor']).default('fastened'),
});
const Heating = closed({
  kind: oneOf(['none', 'central-electric', 'separate-units', 'heat-pump', 'thermal-storage']),
  va: voltAmperes(),
  supplementalVA: voltAmperes().optional(),
  units: count('units', 1, 60).optional(),
});

/** What the house draws already, as a list of its appliances. */
export const ListedLoad = closed({
  method: z.literal('listed'),
  floorAreaFt2: quantity({ unit: 'square feet', more: 0, most: 50_000 }),
  smallApplianceCircuits: count('circuits', 0, 20).default(2),
  laundryCircuits: count('circuits', 0, 20).default(1),
  appliances: listOf(Appliance, 60, 'appliances').default([]),
  heating: Heating.default({ kind: 'none', va: 0 }),
  cooling: closed({ va: voltAmperes() }).default({ va: 0 }),
  addingHeatOrCooling: flag().default(false),
});

const Load = z.discriminatedUnion(
  'method',
  [
    closed({ method: z.literal('unknown') }),
    closed({
      method: z.literal('measured'),
      peakA: amperes(0, BOUNDS.maxServiceA),
      days: count('days', 1, 3660),
    }),
    ListedLoad,
  ],
  { error: ({ input }) => `must have a method, one of unknown, measured, listed; it is ${shown(input)}` },
);

const Code = closed({
  edition: oneOf(EDITIONS).default('2023'),
  nonmetallicCable: flag().default(true),
  terminalsC: terminalsC().default(75),
  minimumCoverIn: quantity({ unit: 'inches', least: 0, most: 120 }).optional(),
  chargerReading: oneOf(['full', 'in-tier', 'both']).default('both'),
});

export const EXISTING_SUPPLY = ['none', 'removed', 'kept'] as const;

/** The house: its service, what it draws, where the car parks, and the local rules. */
export const Site = closed({
  work: oneOf(['retrofit', 'new-construction']).default('retrofit'),
  building: oneOf(['attached', 'detached', 'outdoor']),
  yearBuilt: count('the year', 1600, 2100).optional(),
  hazards: listOf(oneOf(['knob-and-tube', 'aluminum-branch', 'asbestos', 'lead-paint', 'plaster']), 5, 'hazards')
    .nullable()
    .default(null),
  service: Service,
  start: Start.optional(),
  existingSupply: oneOf(EXISTING_SUPPLY).default('none'),
  existingCircuit: ExistingCircuit.optional(),
  garage: Garage.optional(),
  permit: Permit.optional(),
  load: Load,
  ambientC: quantity({ unit: 'degrees Celsius', least: -40, most: 80 }).default(30),
  temperatureSwingF: quantity({ unit: 'degrees Fahrenheit', least: 0, most: 250 }).default(100),
  code: Code.prefault({}),
});
export type Site = z.output<typeof Site>;
