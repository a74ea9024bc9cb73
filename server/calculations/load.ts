import { z } from 'zod';
import { charging, DEFAULT_EFFICIENCY, DEFAULT_MILES_PER_KWH } from '../electrical/charging.ts';
import type { RuleKey } from '../electrical/citations.ts';
import {
  type Demand,
  LEAST_MEASURED_DAYS,
  LOAD_METHODS,
  type LoadMethod,
  serviceLoad,
} from '../electrical/service-load.ts';
import { oneOf, quantity } from '../estimate/description/fields.ts';
import { ListedLoad } from '../estimate/description/site.ts';
import { closed, shown } from '../estimate/input-problems.ts';
import { calculation, said } from './calculation.ts';
import { amperes, edition, measure, voltAmperes, volts } from './fields.ts';

const CHARGER_READINGS = ['full', 'in-tier'] as const;
const methodOf = (input: unknown) =>
  typeof input === 'object' && input !== null && 'method' in input ? input.method : undefined;

const against = {
  serviceA: amperes(),
  addedVA: voltAmperes().default(0),
  chargerVA: voltAmperes().default(0),
  chargerReading: oneOf(CHARGER_READINGS).default('full'),
  edition: edition(),
};
const { method: _listed, ...listedFields } = ListedLoad.shape;
const listed = <const Method extends LoadMethod>(method: Method) =>
  closed({ method: z.literal(method), ...listedFields, ...against });

const RULES_OF: Record<LoadMethod, readonly RuleKey[]> = {
  standard: [
    'load-standard',
    'standard-lighting',
    'standard-circuits',
    'standard-appliances',
    'standard-dryer',
    'standard-range',
    'noncoincident',
  ],
  'new-dwelling': ['optional-new-dwelling'],
  'existing-dwelling': ['optional-existing-a'],
  measured: ['measured-demand'],
};

/** The articles of a method; 220.83 has two, by whether heating or cooling is added. */
function rulesOf(input: { method: LoadMethod; addingHeatOrCooling?: boolean }): readonly RuleKey[] {
  const addsClimate = input.method === 'existing-dwelling' && input.addingHeatOrCooling === true;
  return addsClimate ? ['optional-existing-b'] : RULES_OF[input.method];
}

const demandOf = ({ demandVA, demandA, fits }: Demand) => ({ demandVA, demandA, fits });

const serviceLoadOf = calculation({
  name: 'service-load',
  title: 'Service load',
  decides: 'What the service carries by one of the four methods, and whether it has room.',
  input: z.discriminatedUnion(
    'method',
    [
      listed('standard'),
      listed('new-dwelling'),
      listed('existing-dwelling'),
      closed({
        method: z.literal('measured'),
        peakA: quantity({ unit: 'amperes', least: 0, most: 5000 }),
        days: quantity({ unit: 'days', whole: true, least: LEAST_MEASURED_DAYS, most: 3660 }),
        ...against,
      }),
    ],
    { error: ({ input }) => `must be one of ${LOAD_METHODS.join(', ')}, not ${shown(methodOf(input))}` },
  ),
  result: z.strictObject({
    demandVA: measure,
    demandA: measure,
    spareA: measure,
    fits: z.boolean(),
    steps: z.array(z.strictObject({ name: z.string(), va: measure })),
    otherReading: z.strictObject({ demandVA: measure, demandA: measure, fits: z.boolean() }).optional(),
  }),
  example: {
    method: 'existing-dwelling',
    floorAreaFt2: 1800,
    appliances: [
      { name: 'range', va: 11_000, kind: 'range' },
      { name: 'dryer', va: 5500, kind: 'dryer' },
      { name: 'water heater', va: 4500 },
    ],
    cooling: { va: 4800 },
    serviceA: 150,
    chargerVA: 7680,
  },
  answer: (input) => {
    const { demandVA, demandA, spareA, fits, steps, otherReading, notes } = serviceLoad(input);
    return {
      result: { demandVA, demandA, spareA, fits, steps, ...(otherReading && { otherReading: demandOf(otherReading) }) },
      because: [
        ...steps.map(({ name, va }) => `${name}: ${said(va)} VA`),
        `${said(demandVA)} VA at 240 V are ${said(demandA)} A of ${input.serviceA} A: ${fits ? `${said(spareA)} A are left` : `${said(-spareA)} A too much`}.`,
        ...(otherReading
          ? [
              `Read the other way (the charger ${otherReading.reading === 'in-tier' ? 'inside the tier' : 'in full'}) it is ${said(otherReading.demandA)} A; the AHJ decides which reading holds.`,
            ]
          : []),
        ...notes,
      ],
      rules: [...rulesOf(input), ...(input.chargerVA > 0 ? (['evse-load'] as const) : [])],
    };
  },
});

const chargingOf = calculation({
  name: 'charging',
  title: 'Charging speed',
  decides: 'How fast a car charges, and whether its parked hours cover its daily miles.',
  input: closed({
    amps: amperes(),
    voltageV: volts().default(240),
    milesPerKwh: quantity({ unit: 'miles per kWh', least: 0.01, most: 20 }).default(DEFAULT_MILES_PER_KWH),
    efficiency: quantity({ unit: 'parts of one', least: 0.01, most: 1 }).default(DEFAULT_EFFICIENCY),
    milesPerDay: quantity({ unit: 'miles', least: 0, most: 1000 }).optional(),
    parkedHours: quantity({ unit: 'hours', least: 0.01, most: 24 }).optional(),
  }),
  result: z.strictObject({
    kW: measure,
    milesPerHour: measure,
    hoursForDailyMiles: measure.optional(),
    coversDailyMiles: z.boolean().optional(),
  }),
  example: { amps: 32, milesPerDay: 40, parkedHours: 10 },
  answer: (input) => {
    const answer = charging(input);
    return {
      result: { ...answer },
      because: [
        `${input.amps} A at ${input.voltageV} V are ${said(answer.kW)} kW.`,
        `At ${input.milesPerKwh} miles a kWh, ${said(input.efficiency * 100)} % of it reaching the battery: ${said(answer.milesPerHour)} miles of range an hour.`,
        ...(answer.hoursForDailyMiles === undefined
          ? []
          : [`${input.milesPerDay} miles take ${said(answer.hoursForDailyMiles)} hours.`]),
        ...(answer.coversDailyMiles === undefined
          ? []
          : [
              answer.coversDailyMiles
                ? `${input.parkedHours} parked hours are enough.`
                : `${input.parkedHours} parked hours are not enough.`,
            ]),
      ],
      rules: [],
    };
  },
});

/** Loads and charging, by NEC Article 220 and arithmetic. */
export const LOAD_CALCULATIONS = [serviceLoadOf, chargingOf];
