import { z } from 'zod';
import { ampacity } from '../electrical/ampacity.ts';
import type { RuleKey } from '../electrical/citations.ts';
import { ENTIRE_DWELLING, smallestConductor } from '../electrical/conductor.ts';
import { conduitFill, FILL_INSULATIONS, smallestConduit } from '../electrical/conduit-fill.ts';
import type { Insulation } from '../electrical/insulations.ts';
import { CONTINUOUS_FACTOR, smallConductorLimitA } from '../electrical/overcurrent.ts';
import { CONDUCTOR_SIZES, type ConductorSize, RACEWAY_TYPES, sizeInWords } from '../electrical/sizes.ts';
import { ADVISED_DROP_PERCENT, DROP_CONDUITS, DROP_METHODS, dropOrSize } from '../electrical/voltage-drop.ts';
import { flag, oneOf, oneOfNumbers, quantity } from '../estimate/description/fields.ts';
import { closed } from '../estimate/input-problems.ts';
import { calculation, said } from './calculation.ts';
import { answerInWords } from './field-words.ts';
import {
  ambientC,
  amperes,
  currentCarrying,
  edition,
  feet,
  insulation,
  listOfSome,
  measure,
  metal,
  ratingC,
  size,
  sizeFound,
  tradeSize,
  volts,
} from './fields.ts';

/** Table 310.16 is printed for this temperature, in °C. */
const TABLE_AMBIENT_C = 30;
/** Where a cable's own article keeps it below its insulation's column. */
const CABLE_COLUMNS: Partial<Record<Insulation, RuleKey>> = {
  'nm-b': 'nm-b-column',
  'uf-b': 'uf-b-column',
  ser: 'ser-column',
};

const ConductorInput = closed({
  loadA: amperes(),
  continuous: flag().default(false),
  ocpdA: amperes().optional(),
  metal: metal(),
  insulation: insulation(),
  terminalsC: ratingC().default(75),
  ambientC: ambientC(),
  currentCarrying: currentCarrying(3),
  supplies: oneOf(['branch', 'feeder', 'entire-dwelling']).default('branch'),
  edition: edition(),
});

/** Only the rules that had a say: those of the supply, the cable, the heat, the company and the smallest sizes. */
function conductorRules(input: z.output<typeof ConductorInput>, chosen: ConductorSize): RuleKey[] {
  const isBranch = input.supplies === 'branch';
  const cableColumn = CABLE_COLUMNS[input.insulation];
  const isSmall = smallConductorLimitA({ metal: input.metal, size: chosen }) !== undefined;
  return [
    ...(input.continuous ? [isBranch ? ('continuous-load' as const) : ('feeder-continuous-load' as const)] : []),
    'standard-ratings',
    isBranch ? 'two-ampacity-tests' : 'feeder-conductors',
    'conductor-ampacity',
    ...(input.ambientC === TABLE_AMBIENT_C ? [] : (['ambient-correction'] as const)),
    ...(input.currentCarrying > 3 ? (['conductor-adjustment'] as const) : []),
    'terminal-column',
    ...(cableColumn === undefined ? [] : [cableColumn]),
    ...(input.supplies === 'entire-dwelling' ? (['rule-83-percent'] as const) : []),
    isSmall ? 'small-conductors' : 'next-size-up',
    'equipment-ground',
  ];
}

const conductor = calculation({
  name: 'conductor',
  title: 'Smallest conductor',
  decides: 'The smallest conductor and its overcurrent device for a load, with the ground that belongs to it.',
  input: ConductorInput,
  result: z.strictObject({
    ocpdA: measure,
    size: sizeFound,
    ampacityA: measure,
    tableA: measure,
    columnC: ratingC(),
    groundSize: sizeFound,
  }),
  example: { loadA: 48, continuous: true, metal: 'copper', insulation: 'thwn-2' },
  answer: (input) => {
    const answer = smallestConductor(input);
    const { ocpdA, size: chosen, ampacityA, tableA, columnC, groundSize } = answer;
    const neededA = input.loadA * (input.continuous ? CONTINUOUS_FACTOR : 1);
    const company = input.currentCarrying > 3 ? `, ${input.currentCarrying} current-carrying conductors together` : '';
    return {
      result: { ocpdA, size: chosen, ampacityA, tableA, columnC, groundSize },
      because: [
        input.continuous
          ? `${input.loadA} A may last three hours or more: 125 % of it, ${said(neededA)} A, counts.`
          : `${input.loadA} A counts as it is: it does not last three hours.`,
        `The device is ${ocpdA} A, a standard rating.`,
        `${sizeInWords(chosen)} ${input.metal} starts at ${said(tableA)} A; ${input.ambientC} °C around it${company}, and the ${columnC} °C column that it ends at, leave ${said(ampacityA)} A.`,
        ...(input.supplies === 'entire-dwelling' && ampacityA < ocpdA
          ? [
              `It supplies an entire dwelling: 83 % of ${ocpdA} A, ${said(ENTIRE_DWELLING.share * ocpdA)} A, are enough.`,
            ]
          : []),
        `Behind ${ocpdA} A the copper ground is ${sizeInWords(groundSize)}.`,
      ],
      rules: conductorRules(input, chosen),
    };
  },
});

const ampacityOf = calculation({
  name: 'ampacity',
  title: 'Ampacity',
  decides: 'How many amperes a conductor may carry after temperature, company and terminals.',
  input: closed({
    metal: metal(),
    size: size(),
    insulationC: ratingC(),
    terminalsC: ratingC().optional(),
    ambientC: ambientC(),
    currentCarrying: currentCarrying(3),
    edition: edition(),
  }).transform((input) => ({ ...input, terminalsC: input.terminalsC ?? input.insulationC })),
  result: z.strictObject({
    ampacityA: measure,
    tableA: measure,
    factors: z.strictObject({ ambient: measure, adjustment: measure }),
  }),
  example: { metal: 'copper', size: '6', insulationC: 90, terminalsC: 75, ambientC: 40 },
  answer: (input) => {
    const { ampacityA, tableA, columnA, factors } = ampacity(input);
    return {
      result: { ampacityA, tableA, factors },
      because: [
        `${sizeInWords(input.size)} ${input.metal} in the ${input.insulationC} °C column: ${tableA} A.`,
        `Times ${factors.ambient} for ${input.ambientC} °C, times ${factors.adjustment} for ${input.currentCarrying} current-carrying conductors: ${said(tableA * factors.ambient * factors.adjustment)} A.`,
        `The terminals' ${input.terminalsC} °C column allows ${columnA} A at most: ${said(ampacityA)} A it is.`,
      ],
      rules: ['conductor-ampacity', 'ambient-correction', 'conductor-adjustment', 'terminal-column'],
    };
  },
});

/** Where the resistance of each method is printed; a K factor is the trade's own. */
const DROP_TABLES = {
  'dc-resistance': ['conductor-properties'],
  'k-factor': [],
  impedance: ['conductor-impedance'],
} as const satisfies Record<string, readonly RuleKey[]>;

const voltageDropOf = calculation({
  name: 'voltage-drop',
  title: 'Voltage drop',
  decides: 'The volts lost on the way, or the smallest size that keeps a limit.',
  input: closed({
    voltageV: volts(),
    phases: oneOfNumbers([1, 3], 'phases').default(1),
    currentA: amperes(),
    lengthFt: feet().meta({ title: 'Length, one way' }),
    metal: metal(),
    size: size().optional(),
    method: oneOf(DROP_METHODS),
    kFactor: quantity({ unit: 'ohm-circular mils per foot', least: 1, most: 100 }).optional(),
    conduit: oneOf(DROP_CONDUITS).default('pvc'),
    powerFactor: quantity({ unit: 'power factor', least: 0.01, most: 1 }).default(0.85),
    parallel: quantity({ unit: 'conductors in parallel', whole: true, least: 1, most: 20 }).default(1),
    maxPercent: quantity({ unit: 'percent', least: 0.001, most: 100 }).optional(),
    edition: edition(),
  }).superRefine((input, context) => {
    if (input.size !== undefined || input.maxPercent !== undefined) return;
    context.addIssue({
      code: 'custom',
      path: ['size'],
      message: `must be one of ${CONDUCTOR_SIZES.join(', ')}, or left out where maxPercent asks for the size; both are missing`,
    });
  }),
  result: z.strictObject({ dropV: measure, percent: measure, endV: measure, size: sizeFound }),
  example: { voltageV: 240, currentA: 48, lengthFt: 97, metal: 'copper', size: '6', method: 'dc-resistance' },
  answer: (input) => {
    const { dropV, percent, endV, size: chosen } = dropOrSize(input);
    const by = answerInWords('method', input.method);
    return {
      result: { dropV, percent, endV, size: chosen },
      because: [
        `${input.currentA} A over ${input.lengthFt} ft one way in ${sizeInWords(chosen)} ${input.metal}, by ${by}: ${said(dropV)} V.`,
        endV < 0
          ? `That is more than the ${input.voltageV} V there are: such a circuit cannot carry ${input.currentA} A.`
          : `That is ${said(percent)} % of ${input.voltageV} V; ${said(endV)} V are left at the end.`,
        ...(input.size === undefined
          ? [
              `${sizeInWords(chosen)} is the smallest that keeps ${input.maxPercent} %. Whether it carries the load is another question: ask for the conductor too.`,
            ]
          : []),
        `The code advises ${ADVISED_DROP_PERCENT.each} % for a feeder or a branch circuit and ${ADVISED_DROP_PERCENT.together} % for both; it does not demand it.`,
      ],
      rules: ['voltage-drop', 'feeder-voltage-drop', ...DROP_TABLES[input.method]],
    };
  },
});

const conduitFillOf = calculation({
  name: 'conduit-fill',
  title: 'Conduit fill',
  decides: 'The smallest raceway that the conductors may fill, or how full the one given is.',
  input: closed({
    type: oneOf(RACEWAY_TYPES),
    conductors: listOfSome(
      closed({
        insulation: oneOf(FILL_INSULATIONS),
        size: size(),
        count: quantity({ unit: 'conductors', whole: true, least: 1, most: 200 }),
      }),
      40,
      'kinds of conductor',
    ),
    tradeSize: tradeSize().optional(),
    edition: edition(),
  }),
  result: z.strictObject({
    tradeSize: tradeSize(),
    areaIn2: measure,
    limitIn2: measure,
    fillPercent: measure,
    fits: z.boolean(),
  }),
  example: {
    type: 'pvc-40',
    conductors: [
      { insulation: 'thwn-2', size: '6', count: 3 },
      { insulation: 'thwn-2', size: '10', count: 1 },
    ],
  },
  answer: (input) => {
    const { tradeSize: given, ...wanted } = input;
    const fill = given === undefined ? smallestConduit(wanted) : conduitFill({ ...wanted, tradeSize: given });
    const { tradeSize, areaIn2, limitIn2, fillPercent, fits } = fill;
    const conductors = input.conductors.reduce((sum, kind) => sum + kind.count, 0);
    return {
      result: { tradeSize, areaIn2, limitIn2, fillPercent, fits },
      because: [
        `${conductors} conductors, grounds counted, take ${areaIn2.toFixed(4)} in².`,
        `${tradeSize} in ${answerInWords('type', input.type)} may be filled to ${limitIn2.toFixed(4)} in²: ${fits ? 'they fit' : 'they do not fit'}, at ${said(fillPercent)} % of its inside.`,
      ],
      rules: ['conduit-fill'],
    };
  },
});

/** Wire and raceway, by NEC Chapter 3 and 9. */
export const WIRE_CALCULATIONS = [conductor, ampacityOf, voltageDropOf, conduitFillOf];
