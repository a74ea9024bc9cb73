import type { EstimateOption, Run, RunLeg } from '../../estimate/answer.ts';
import type { Leg } from '../../estimate/description/leg.ts';
import type { Row } from '../table.ts';
import {
  capital,
  citationInWords,
  feet,
  guessedFeet,
  LEG_WORDS,
  legNumbers,
  moreOrLess,
  sentence,
  wiringMethod,
} from '../wording.ts';
import type { Passage } from './passage.ts';

/** Of each run: how each leg is built and why, and for each method that was not taken the rule or the money against it. */
export function planByLeg({ runs }: EstimateOption, route: readonly Leg[]): Passage[] {
  const routed = runs.filter(({ legs }) => legs.length > 0);
  if (routed.length === 0) return [];
  const isPriced = routed.some(({ legs }) => legs.some(({ others }) => others.some(hasMoney)));
  return [
    {
      title: 'Why it is built so, leg by leg',
      sentences: isPriced
        ? ['Money is what the whole option would cost more with that method there, the rest planned anew around it.']
        : [],
      columns: [
        { head: 'Leg', widthPt: 86 },
        { head: 'Built as', widthPt: 92 },
        { head: 'Why', share: 1, set: 'small' },
        { head: 'Instead of it', share: 1.2, set: 'small' },
      ],
      rows: routed.flatMap((run) => [
        ...(routed.length > 1 ? [{ kind: 'group' as const, cells: [runInWords(run), ''] }] : []),
        ...alike(run.legs).map((legs) => legRow(legs, route)),
      ]),
      list: forbiddenInWords(routed.flatMap(({ legs }) => legs)),
    },
  ];
}

function hasMoney({ moreCents }: Other): boolean {
  return moreCents !== undefined;
}

/** Each rule that forbids a method somewhere, once, with the legs where it does. */
function forbiddenInWords(legs: readonly RunLeg[]): string[] {
  const legsOf = new Map<string, number[]>();
  for (const { leg, others } of legs) {
    for (const { forbiddenBy, because } of others) {
      if (!forbiddenBy) continue;
      const said = `${because.replace(/\.$/, '')} (${citationInWords(forbiddenBy)}).`;
      legsOf.set(said, [...(legsOf.get(said) ?? []), leg]);
    }
  }
  return [...legsOf].map(([said, at]) => `${new Set(at).size === 1 ? 'Leg' : 'Legs'} ${legNumbers(at)}: ${said}`);
}

/** A run with its ends: `feeder, main panel to subpanel, 97 ft`; a length that depends on guessed legs with its ends. */
export function runInWords({ name, from, to, lengthFt, lengthRangeFt }: Run): string {
  const length = lengthRangeFt ? guessedFeet({ ...lengthRangeFt, likely: lengthFt }) : feet(lengthFt);
  return `${capital(name)}, ${from} to ${to}, ${length}`;
}

/** Legs that are built alike for the same reasons and with the same choice, said once, where the first of them stands. */
function alike(legs: readonly RunLeg[]): RunLeg[][] {
  const groups = new Map<string, RunLeg[]>();
  for (const leg of legs) {
    const { leg: _leg, ...said } = leg;
    const key = JSON.stringify(said);
    groups.set(key, [...(groups.get(key) ?? []), leg]);
  }
  return [...groups.values()];
}

function legRow(legs: readonly RunLeg[], route: readonly Leg[]): Row {
  const [first] = legs;
  if (!first) return { cells: [] };
  const kinds = [...new Set(legs.flatMap(({ leg }) => (route[leg] ? [LEG_WORDS[route[leg].kind]] : [])))];
  return {
    cells: [
      `${legNumbers(legs.map(({ leg }) => leg))}  ${kinds.join(', ')}`,
      builtAs(first),
      first.because.map(sentence).join(' '),
      othersInWords(first.others).join(' '),
    ],
  };
}

function builtAs(leg: RunLeg): string {
  const { conduit, coverIn, insulation } = leg;
  return [
    wiringMethod(leg),
    ...(conduit ? [`${insulation.toUpperCase()}, filled to ${Math.round(conduit.fillPercent)} %`] : []),
    ...(coverIn === undefined ? [] : [`${coverIn} in of cover`]),
  ].join('; ');
}

type Other = RunLeg['others'][number];

/**
 * The ways that were not taken, in sentences: those that would do with their money, then those that are lawful but not
 * planned with the reason, then the forbidden ones, whose rules stand in a list of their own.
 */
export function othersInWords(others: readonly Other[]): string[] {
  const lawful = others.filter(({ forbiddenBy }) => forbiddenBy === undefined);
  const forbidden = others.filter(({ forbiddenBy }) => forbiddenBy !== undefined).map(wiringMethod);
  const unpriced = lawful.filter((other) => !hasMoney(other));
  const reasons = [...new Set(unpriced.map(({ because }) => because))];
  return [
    ...lawful
      .filter(hasMoney)
      .map(({ moreCents = 0, ...other }) => `${capital(wiringMethod(other))}: ${moreOrLess(moreCents)}.`),
    ...reasons.map((reason) => {
      const methods = unpriced.filter(({ because }) => because === reason).map(wiringMethod);
      return `${capital(methods.join(', '))}: ${sentence(reason).charAt(0).toLowerCase()}${sentence(reason).slice(1)}`;
    }),
    ...(forbidden.length > 0 ? [`Forbidden here: ${forbidden.join(', ')}.`] : []),
  ];
}
