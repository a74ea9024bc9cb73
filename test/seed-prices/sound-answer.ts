import { Estimate, type EstimateOption } from '../../server/estimate/answer.ts';
import { estimate, type Parts } from '../../server/estimate/estimate.ts';
import { readDescription, seededBook } from '../estimate/reading.ts';

const book = seededBook();

/** Rules that say: what this takes is larger, or smaller, than anything of its kind that is sold or that the tables have. */
const BEYOND = ['conductor-not-sold', 'conductor-too-small', 'conduit-not-sold', 'breaker-not-sold', 'panel-not-sold'];

/**
 * Cautions and stops that rest on no article of the code: what is sold or priced, whose charge something is, where
 * something lies, what a license or a laboratory is for, and what the terms mean.
 */
const WITHOUT_ARTICLE = [
  ...BEYOND,
  ...['billed-rate-counts-twice', 'cost-without-overhead', 'unknown-rate', 'chance-left-out', 'chance-name'],
  ...['service-lateral', 'later', 'old-supply-unplaced'],
  ...['empty-raceway', 'opened-finish', 'hazard', 'spare-conduit'],
];

/** Cautions that ask for what nobody has looked at; where they are stops, something is known, and it rests on an article. */
const UNSEEN = ['service-supply', 'panel-kind', 'panel-state'];

/** What the starting price book makes of a job. */
export function answerOf(job: unknown, parts: Parts = 'core') {
  return estimate(readDescription(job), book, { parts });
}

/**
 * What is wrong with an answer, in words: a number that is none, or a line without a price where nothing says that the
 * thing is beyond what is sold, or a caution or a stop that names no article though it rests on one. Empty where all is well.
 */
export function faultsOf(answer: ReturnType<typeof answerOf>): string[] {
  return [
    ...notNumbers(answer, 'answer'),
    ...answer.options.flatMap((option) => [...unexplained(option), ...uncited(option)]),
  ];
}

/** What the schema of an answer refuses; it looks at everything, and takes as long as the estimate. */
export function misshapen(answer: ReturnType<typeof answerOf>): string[] {
  const { error } = Estimate.safeParse(answer);
  return (error?.issues ?? []).map(({ path, message }) => `${path.join('.')}: ${message}`);
}

function notNumbers(value: unknown, path: string): string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [`${path} is ${value}`];
  if (value === null || typeof value !== 'object') return [];
  return Object.entries(value).flatMap(([name, inner]) => notNumbers(inner, `${path}.${name}`));
}

function unexplained({ id, complete, findings, lines }: EstimateOption): string[] {
  const isExplained = findings.some(({ severity, rule }) => severity === 'stop' && BEYOND.includes(rule));
  if (complete || isExplained) return [];
  return lines
    .filter(({ priced }) => !priced)
    .map(({ key, because }) => `${id} has no price of ${key}: ${because.at(-1)}`);
}

function uncited({ id, findings }: EstimateOption): string[] {
  return findings
    .filter(({ severity, citation }) => (severity === 'caution' || severity === 'stop') && !citation)
    .filter(({ rule, severity }) => {
      return !WITHOUT_ARTICLE.includes(rule) && !(severity === 'caution' && UNSEEN.includes(rule));
    })
    .map(({ rule, message }) => `${id} names no article for ${rule}: ${message}`);
}
