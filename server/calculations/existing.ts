import { z } from 'zod';
import { circuitCheck } from '../electrical/circuit-check.ts';
import type { RuleKey } from '../electrical/citations.ts';
import { CONNECTIONS } from '../electrical/ev.ts';
import type { Finding } from '../electrical/findings.ts';
import { largestSetting, type SettingLimit } from '../electrical/largest-setting.ts';
import { measuredDemand } from '../electrical/measured-demand.ts';
import { CONTINUOUS_FACTOR } from '../electrical/overcurrent.ts';
import { flag, oneOf, oneOfNumbers, quantity, text } from '../estimate/description/fields.ts';
import { closed } from '../estimate/input-problems.ts';
import { calculation, said } from './calculation.ts';
import {
  ambientC,
  amperes,
  edition,
  Findings,
  feet,
  insulation,
  listOfSome,
  measure,
  metal,
  ratingC,
  size,
  volts,
  whole,
} from './fields.ts';

const LIMIT_IN_WORDS = {
  service: 'what the service has left',
  feeder: 'what the feeder has left',
  breaker: 'the breaker',
  wire: 'the wire',
  car: 'the car',
  charger: 'the largest setting that is looked at',
} as const satisfies Record<SettingLimit, string>;
const LIMITS = ['service', 'feeder', 'breaker', 'wire', 'car', 'charger'] as const satisfies readonly SettingLimit[];

const largestSettingOf = calculation({
  name: 'largest-setting',
  title: 'Largest setting',
  decides: 'The most amperes that wire, breaker, feeder, service and car together allow.',
  input: closed({
    metal: metal(),
    size: size(),
    insulation: insulation(),
    terminalsC: ratingC().default(75),
    ambientC: ambientC(),
    ocpdA: amperes().optional(),
    serviceSpareA: quantity({ unit: 'amperes', least: -5000, most: 5000 }).optional(),
    feederSpareA: quantity({ unit: 'amperes', least: -5000, most: 5000 }).optional(),
    carMaxA: amperes().optional(),
    edition: edition(),
  }),
  result: z.strictObject({ amps: whole, limitedBy: z.enum(LIMITS), ocpdA: measure }),
  example: { metal: 'copper', size: '6', insulation: 'nm-b', ocpdA: 60, carMaxA: 48, serviceSpareA: 70 },
  answer: (input) => {
    const { amps, limitedBy, ocpdA } = largestSetting(input);
    return {
      result: { amps, limitedBy, ocpdA },
      because: [
        amps === 0
          ? `Not even 6 A are lawful: ${LIMIT_IN_WORDS[limitedBy]} allows too little.`
          : `${amps} A: ${LIMIT_IN_WORDS[limitedBy]} allows no more.`,
        ...(amps === 0
          ? []
          : [
              `Charging lasts, so that it takes 125 %, ${said(amps * CONTINUOUS_FACTOR)} A, of breaker, feeder and service: the breaker is ${ocpdA} A.`,
            ]),
      ],
      rules: ['continuous-load', 'ev-continuous-load', 'two-ampacity-tests', 'conductor-ampacity', 'next-size-up'],
    };
  },
});

const circuitCheckOf = calculation({
  name: 'circuit-check',
  title: 'Circuit check',
  decides: 'Whether a circuit that exists, or was offered, may carry a charger, and the most it may be set to.',
  input: closed({
    ocpdA: amperes(),
    metal: metal(),
    size: size(),
    insulation: insulation(),
    wires: oneOfNumbers([2, 3, 4], 'wires'),
    terminalsC: ratingC().default(75),
    lengthFt: feet().optional().meta({ title: 'Length, one way' }),
    amps: quantity({ unit: 'amperes', least: 0.001, most: 200 }),
    connection: oneOf(CONNECTIONS),
    gfci: flag().optional(),
    edition: edition(),
  }),
  result: z.strictObject({ lawful: z.boolean(), findings: Findings, largestSettingA: whole }),
  example: {
    ocpdA: 50,
    metal: 'copper',
    size: '6',
    insulation: 'nm-b',
    wires: 4,
    amps: 40,
    connection: 'receptacle-14-50',
    gfci: true,
  },
  answer: (input) => {
    const { lawful, findings, largestSettingA } = circuitCheck(input);
    return { result: { lawful, findings, largestSettingA }, because: findings.map(inWords), rules: rulesOf(findings) };
  },
});

const measuredDemandOf = calculation({
  name: 'measured-demand',
  title: 'Measured demand',
  decides: "The highest demand of a meter's interval readings, and whether the code lets it stand for the load.",
  input: closed({
    readings: listOfSome(
      closed({ start: text(), kWh: quantity({ unit: 'kilowatt-hours', least: -10_000, most: 10_000 }) }),
      120_000,
      'readings',
    ),
    intervalMinutes: quantity({ unit: 'minutes', least: 0.1, most: 1440 }),
    voltageV: volts().default(240),
    solar: flag().default(false),
    edition: edition(),
  }),
  result: z.strictObject({ peakA: measure, days: whole, usable: z.boolean(), findings: Findings }),
  example: {
    readings: [
      { start: '2026-01-05T17:00', kWh: 1.2 },
      { start: '2026-01-05T17:15', kWh: 2.05 },
      { start: '2026-01-05T17:30', kWh: 1.6 },
    ],
    intervalMinutes: 15,
  },
  answer: (input) => {
    const { peakA, days, usable, findings } = measuredDemand(input);
    return {
      result: { peakA, days, usable, findings },
      because: [`The highest demand is ${said(peakA)} A, over ${days} days.`, ...findings.map(inWords)],
      rules: ['measured-demand'],
    };
  },
});

/** A finding as a sentence, with how grave it is. */
function inWords({ severity, message }: Finding): string {
  return severity === 'ok' ? message : `${severity}: ${message}`;
}

/** The rules that findings rest on; they are named as the citations are. */
function rulesOf(findings: readonly Finding[]): RuleKey[] {
  return findings.filter(({ citation }) => citation !== undefined).map(({ rule }) => rule as RuleKey);
}

/** What exists, turned around: settings, circuits and meters. */
export const EXISTING_CALCULATIONS = [largestSettingOf, circuitCheckOf, measuredDemandOf];
