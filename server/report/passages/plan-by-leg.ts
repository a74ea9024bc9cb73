import type { Citation, EstimateOption, Run, RunLeg } from '../../estimate/answer.ts';
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
  return [
    {
      title: 'Why it is built so, leg by leg',
      columns: [
        { head: 'Leg', widthPt: 86 },
        { head: 'Built as', widthPt: 92 },
        { head: 'Why', share: 1, set: 'small' },
        { head: 'Instead of it', share: 1.4, set: 'small' },
      ],
      rows: routed.flatMap((run) => [
        ...(routed.length > 1 ? [{ kind: 'group' as const, cells: [runInWords(run), ''] }] : []),
        ...alike(run.legs).map((legs) => legRow(legs, route)),
      ]),
    },
  ];
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

/** The ways that were not taken, in sentences: first those that would do, with their money, then the forbidden ones. */
export function othersInWords(others: readonly Other[]): string[] {
  const lawful = others.filter(({ forbiddenBy }) => forbiddenBy === undefined);
  const priced = lawful.filter(({ moreCents }) => moreCents !== undefined);
  const alsoLawful = lawful.filter(({ moreCents }) => moreCents === undefined).map(wiringMethod);
  return [
    ...priced.map(({ moreCents = 0, ...other }) => `${wiringMethod(other)}: ${moreOrLess(moreCents)}.`),
    ...(alsoLawful.length > 0 ? [`Lawful as well: ${alsoLawful.join(', ')}.`] : []),
    ...others.flatMap(({ forbiddenBy, because }) =>
      forbiddenBy ? [`${withoutStop(because)} (${citationOf(forbiddenBy)}).`] : [],
    ),
  ];
}

function citationOf(citation: Citation): string {
  return citationInWords(citation);
}

function withoutStop(words: string): string {
  return words.replace(/\.$/, '');
}
