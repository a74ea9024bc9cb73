import { z } from 'zod';
import { closed, shown } from '../input-problems.ts';
import { BOUNDS, CONDUCTOR_SIZES, CONNECTIONS, FEEDS, METALS, TRADE_SIZES } from '../vocabulary.ts';
import { count, flag, listOf, oneOf, oneOfNumbers, quantity, text } from './fields.ts';
import { EXISTING_SUPPLY } from './site.ts';

const amperes = (least: number, most: number) => quantity({ unit: 'amperes', least, most });
const { minChargingA, maxChargingA } = BOUNDS;

const ChargingA = z.union([amperes(minChargingA, maxChargingA), z.literal('largest')], {
  error: ({ input }) => `must be ${minChargingA} to ${maxChargingA} amperes, or "largest", not ${shown(input)}`,
});

/** A charger: its amperes, how it is connected, and where it hangs. Distances in feet from the end of the route. */
export const Charger = closed({
  amps: ChargingA,
  nameplateA: amperes(minChargingA, 200).optional(),
  setting: oneOf(['label-and-restricted', 'open']).default('label-and-restricted'),
  connection: oneOf(CONNECTIONS),
  equipment: oneOf(['owned', 'buy', 'none']),
  terminals: oneOf(['copper', 'copper-or-aluminum']).default('copper'),
  largestSize: oneOf(CONDUCTOR_SIZES).optional(),
  distanceFt: quantity({ unit: 'feet', least: 0, most: 300 }).default(6),
  mount: oneOf(['wall', 'post', 'pedestal']).default('wall'),
  outdoors: flag().optional(),
  cordFt: quantity({ unit: 'feet', more: 0, most: 50 }).optional(),
  group: text().optional(),
});
export type Charger = z.output<typeof Charger>;

const Receptacle = closed({
  circuitA: amperes(10, 60),
  sharedWith: listOf(text(), 30, 'things on the circuit').nullable(),
  gfci: flag().nullable(),
  grounded: flag().nullable(),
  outdoors: flag().default(false),
  replace: flag().default(false),
});

const LoadManagement = closed({
  kind: oneOf(['shared-circuit', 'service-monitor']),
  maxA: amperes(minChargingA, 400),
  houseLimitA: amperes(10, BOUNDS.maxServiceA).optional(),
});

const OtherCircuit = closed({
  use: text(),
  amps: amperes(10, 200),
  poles: oneOfNumbers([1, 2], 'poles'),
  continuous: flag().default(false),
  lengthFt: quantity({ unit: 'feet', more: 0, most: BOUNDS.legFt }).optional(),
  build: flag().default(false),
});

const Subpanel = closed({
  ratingA: amperes(30, 400),
  spaces: count('spaces', 2, 84),
  feederA: amperes(15, 400).optional(),
  mainBreaker: flag().optional(),
  enclosure: oneOf(['indoor', 'outdoor']).default('indoor'),
  otherCircuits: listOf(OtherCircuit, 42, 'circuits').default([]),
});
export type Subpanel = z.output<typeof Subpanel>;

const ServiceUpgrade = closed({
  toA: amperes(60, BOUNDS.maxServiceA),
  supply: oneOf(['overhead', 'underground']).nullable(),
  meter: oneOf(['keep', 'replace']).nullable(),
  panel: oneOf(['keep', 'replace']).default('replace'),
  relocateFt: quantity({ unit: 'feet', least: 0, most: 300 }).default(0),
});

/** One way of feeding the car. Its route, where it has its own, is read with the description's. */
export const optionShape = {
  id: text(),
  label: text(),
  feed: oneOf(FEEDS),
  existingSupply: oneOf(EXISTING_SUPPLY).optional(),
  metal: oneOf(['auto', ...METALS]).default('auto'),
  maxDropPercent: quantity({ unit: 'percent', more: 0, most: 20 }).default(3),
  chargers: listOf(Charger, BOUNDS.chargers, 'chargers'),
  receptacle: Receptacle.optional(),
  loadManagement: LoadManagement.optional(),
  subpanel: Subpanel.optional(),
  serviceUpgrade: ServiceUpgrade.optional(),
  roughInOnly: flag().default(false),
  spareConduit: closed({ toA: amperes(15, 400) }).optional(),
  dataConduit: closed({ tradeSize: oneOf(TRADE_SIZES).default('3/4') }).optional(),
} as const;
