import type { z } from 'zod';
import type { Estimate, EstimateOption } from './answer.ts';
import { basisPoints, cents, count, listOf, oneOf, quantity, text } from './description/fields.ts';
import type { Description } from './description.ts';
import { closed, InputError, type InputProblem } from './input-problems.ts';
import { shareOfCents, toFourDecimals } from './money.ts';
import { BOUNDS } from './vocabulary.ts';

/** A whole is so many basis points. */
const WHOLE_BP = 10_000;

/** Paid when the quote is accepted: a share of the total, or a sum; 0 of either is no deposit. */
const Deposit = closed({ bp: basisPoints().optional(), cents: cents().optional() }).refine(
  ({ bp, cents: sum }) => (bp === undefined) !== (sum === undefined),
  {
    error: ({ input }) =>
      `must state either bp or cents, not ${(input as { bp?: unknown }).bp === undefined ? 'neither' : 'both'}`,
  },
);

const Customer = closed({
  name: text(),
  address: text().optional(),
  email: text().optional(),
  phone: text().optional(),
});

/** An allowance of nothing would read as a gift. */
const AllowanceCents = quantity({ unit: 'cents', whole: true, least: 1, most: BOUNDS.maxCents });
const ProgressBp = quantity({ unit: 'basis points (100 are one percent)', whole: true, least: 1, most: WHOLE_BP });

const shape = {
  /** The option that is offered, and others that the customer may take instead. */
  optionId: text(),
  alternates: listOf(text(), 11, 'options').default([]),
  validDays: count('days', 1, 365).default(15),
  show: oneOf(['items', 'sum']).default('items'),
  exclusions: listOf(text(), 40, 'exclusions').default([]),
  /** Sums, tax included, that the price holds beside the estimate, for what is not chosen yet. */
  allowances: listOf(closed({ text: text(), cents: AllowanceCents }), 40, 'allowances').default([]),
  assumptions: listOf(text(), 40, 'assumptions').default([]),
  deposit: Deposit.optional(),
  /** Shares of the total that fall due on the way; the rest when the work is done. */
  progress: listOf(closed({ when: text(), bp: ProgressBp }), 20, 'payments').default([]),
  warrantyMonths: count('months', 0, 600).default(12),
  notes: text().optional(),
  revisionOf: text().optional(),
  customer: Customer,
  siteAddress: text().optional(),
  /** The revision of the book that was seen: a quote is refused where the book moved on. */
  bookRevision: count('revisions', 0, Number.MAX_SAFE_INTEGER).optional(),
  startWindow: text().optional(),
};

/** What is stated of a quote when it is issued. */
export const QuoteInput = closed(shape).superRefine((quote, context) => {
  const issue = (path: (string | number)[], message: string) => context.addIssue({ code: 'custom', path, message });
  quote.alternates.forEach((id, at) => {
    const isTwice = id === quote.optionId || quote.alternates.indexOf(id) !== at;
    if (isTwice) issue(['alternates', at], `must be another option, not "${id}" again`);
  });
  const shares = quote.progress.reduce((sum, { bp }) => sum + bp, quote.deposit?.bp ?? 0);
  if (quote.progress.length === 0 || shares <= WHOLE_BP) return;
  issue(['progress'], `must come to at most 100 % with the deposit, not to ${shares / 100} %`);
});
export type QuoteInput = z.output<typeof QuoteInput>;

/** What may be said of a quote that was issued. */
export const QUOTE_STATUSES = ['issued', 'accepted', 'declined', 'withdrawn', 'lapsed'] as const;
export const StatusInput = closed({ status: oneOf(QUOTE_STATUSES) });

/** So many hours are a slip of the keyboard. Ours. */
const MOST_HOURS = 100_000;
const ActualTask = closed({ key: text(), hours: quantity({ unit: 'hours', least: 0, most: MOST_HOURS }) });
/**
 * What a job took: person-hours by task, and its cost in all, without allowances, markup, overhead and profit. A task
 * that was quoted and not needed took 0 hours; one that nobody quoted goes by a key of the price book or by its name.
 */
export const ActualsInput = closed({
  tasks: listOf(ActualTask, 1000, 'tasks'),
  totalCents: cents().optional(),
}).superRefine(({ tasks }, context) => {
  tasks.forEach(({ key }, at) => {
    if (tasks.findIndex((task) => task.key === key) === at) return;
    const message = `must stand once: ${JSON.stringify(key)} was stated before`;
    context.addIssue({ code: 'custom', path: ['tasks', at, 'key'], message });
  });
});
export type ActualsInput = z.output<typeof ActualsInput>;

/** The description with only the options that are offered; bids of others are nobody else's business. */
export function offered(description: Description, { optionId, alternates }: QuoteInput): Description {
  const ids = description.options.map(({ id }) => id);
  const unknown = [
    { path: 'optionId', id: optionId },
    ...alternates.map((id, at) => ({ path: `alternates.${at}`, id })),
  ]
    .filter(({ id }) => !ids.includes(id))
    .map(({ path, id }) => ({ path, message: `must be the id of an option (${ids.join(', ')}), not "${id}"` }));
  if (unknown.length > 0) throw new InputError(unknown);
  const chosen = [optionId, ...alternates];
  const options = chosen.flatMap((id) => description.options.find((option) => option.id === id) ?? []);
  return { ...description, options, bids: [] };
}

/**
 * The option that is quoted, of an estimate of what is offered.
 * @throws {InputError} where an offered option cannot be built or lacks a price, and where a sum is above the total
 */
export function quotable(estimate: Estimate, quote: QuoteInput): EstimateOption {
  const [option] = estimate.options;
  if (!option) throw new InputError([{ path: 'optionId', message: 'must be the id of an option' }]);
  const lacks = estimate.options.flatMap((each, at) => lackOf(each, at === 0 ? 'optionId' : `alternates.${at - 1}`));
  const problems = [...lacks, ...(lacks.length === 0 ? sumsAbove(quotedCents(option, quote), quote) : [])];
  if (problems.length > 0) throw new InputError(problems);
  return option;
}

function lackOf(option: EstimateOption, path: string): InputProblem[] {
  const stops = option.findings.filter(({ severity }) => severity === 'stop').map(({ message }) => message);
  if (!option.buildable) {
    return [{ path, message: `cannot be quoted: "${option.id}" cannot be built. ${stops.join(' ')}`.trim() }];
  }
  const unpriced = option.lines.filter(({ priced }) => !priced).map(({ description }) => description);
  if (unpriced.length === 0) return [];
  const named = [...new Set(unpriced)].join(', ');
  return [{ path, message: `cannot be quoted: "${option.id}" lacks the price of ${named}` }];
}

/** The price that is signed, in whole cents: the total of the estimate and every allowance. */
export function quotedCents(
  { totals }: Pick<EstimateOption, 'totals'>,
  { allowances }: Pick<QuoteInput, 'allowances'>,
): number {
  return allowances.reduce((sum, allowance) => sum + allowance.cents, totals.totalCents);
}

function sumsAbove(priceCents: number, { deposit, progress }: QuoteInput): InputProblem[] {
  const onTheWayCents = progress.reduce((sum, { bp }) => sum + shareOfCents({ cents: priceCents, bp }), 0);
  const mostCents = Math.max(0, priceCents - onTheWayCents);
  const isAbove = deposit?.cents !== undefined && deposit.cents > mostCents;
  const onTheWay = onTheWayCents > 0 ? `, of which ${onTheWayCents} are asked for on the way` : '';
  const tooMuch = `must be at most ${mostCents} cents, not ${deposit?.cents}: the price is ${priceCents}${onTheWay}`;
  const unbound = `must keep the price below ${BOUNDS.maxCents} cents, not make it ${priceCents}`;
  return [
    ...(isAbove ? [{ path: 'deposit.cents', message: tooMuch }] : []),
    ...(priceCents >= BOUNDS.maxCents ? [{ path: 'allowances', message: unbound }] : []),
  ];
}

/** The last day of validity, as YYYY-MM-DD: so many days after the day of issue. */
export function validUntil(issuedOn: string, validDays: number): string {
  const [year = 0, month = 1, dayOfMonth = 1] = issuedOn.split('-').map(Number);
  return new Date(Date.UTC(year, month - 1, dayOfMonth + validDays)).toISOString().slice(0, 10);
}

/** Person-hours by task as quoted, with the labor unit of the book; what the book could not reckon is left out. */
export function quotedTasks({ labor }: EstimateOption): { key: string; hours: number; hoursPerUnit: number }[] {
  const byKey = new Map<string, { key: string; hours: number; hoursPerUnit: number }>();
  for (const { key, hours, hoursPerUnit } of labor.tasks.filter((task) => task.hours > 0)) {
    const before = byKey.get(key)?.hours ?? 0;
    byKey.set(key, { key, hours: toFourDecimals(before + hours), hoursPerUnit });
  }
  return [...byKey.values()];
}

/** A payment of a quote: when it falls due, its share in basis points where one was stated, and whole cents. */
export interface Payment {
  when: string;
  bp?: number;
  cents: number;
}

/** What falls due when: each share rounded once, the rest at the end, so that all of them add up to the total. */
export function paymentsOf(
  totalCents: number,
  { deposit, progress }: Pick<QuoteInput, 'deposit' | 'progress'>,
): Payment[] {
  const share = (when: string, bp: number): Payment => ({ when, bp, cents: shareOfCents({ cents: totalCents, bp }) });
  const atFirst = 'When it is accepted';
  const first: Payment[] = [
    ...(deposit?.bp ? [share(atFirst, deposit.bp)] : []),
    ...(deposit?.cents ? [{ when: atFirst, cents: deposit.cents }] : []),
  ];
  const onTheWay = [...first, ...progress.map(({ when, bp }) => share(when, bp))];
  const restCents = totalCents - onTheWay.reduce((sum, { cents: due }) => sum + due, 0);
  const last = onTheWay.at(-1);
  const isWhole = onTheWay.reduce((sum, { bp = 0 }) => sum + bp, 0) === WHOLE_BP;
  if (restCents === 0) return onTheWay;
  // Shares of the whole, or of very little, may come to a cent too many or too few: the last one makes up for it.
  if (last && (isWhole || restCents < 0)) return [...onTheWay.slice(0, -1), { ...last, cents: last.cents + restCents }];
  return [...onTheWay, { when: 'When the work is done', cents: restCents }];
}
