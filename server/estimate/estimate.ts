import type { Estimate, EstimateOption } from './answer.ts';
import { bidsOf } from './bids.ts';
import { boreProposals } from './bore-instead.ts';
import { budgetOf } from './budget.ts';
import { type TryChanged, trying } from './changed-option.ts';
import { compare } from './comparison.ts';
import { crossingsOf } from './crossings.ts';
import { byAmps, byDistance } from './curves.ts';
import type { Description } from './description.ts';
import { noticesOf } from './notices.ts';
import { nowOrLater } from './now-or-later.ts';
import { changedOptions, estimateOption, type OptionEstimate } from './option-estimate.ts';
import type { Book } from './price-book.ts';
import { regionalBook, withRegionReasons } from './regional-book.ts';
import { pricedRemedies } from './remedies.ts';
import { stepsOf } from './steps.ts';
import { ownCircuitOf, uncertaintyOf } from './uncertainty.ts';

/** `core` leaves out what takes many draws or many plans: range, unknowns, budget, the place of bids, steps, differences of remedies, price by distance and amperes. */
export type Parts = 'core' | 'all';

/**
 * What the described job takes and costs: description → plan → take-off → purchases → lines → totals → comparison.
 * Pure: the same description and book give the same answer, to the byte.
 * @param description  read by `readDescription`, with `asOf` filled in; nothing here knows the clock
 * @param kept         the price book at one revision; it is priced at its region's factors
 * @throws {InputError} when a discount takes the price below 0
 */
export function estimate(description: Description, kept: Book, { parts = 'all' }: { parts?: Parts } = {}): Estimate {
  const book = regionalBook(kept);
  const planned = description.options.map((option) => estimateOption({ description, option, book }));
  const tryChanged = trying(changedOptions({ description, book }, planned));
  const isCore = parts === 'core';
  const options = planned.map((one) => (isCore ? one.answer : wholeOption(one, { description, book, tryChanged })));
  const around = isCore ? {} : comparedAround(planned, { description, book, tryChanged });
  return {
    description,
    bookRevision: book.revision,
    complete: options.every(({ complete }) => complete),
    notices: noticesOf(description),
    options: options.map((option) => ({ ...option, lines: withRegionReasons(option.lines, book) })),
    bids: bidsOf(description, planned, options),
    comparison: { ...compare(planned, description), ...around },
  };
}

interface WholeInput {
  description: Description;
  book: Book;
  tryChanged: TryChanged;
}

/** Of the comparison, what is planned anew: price by distance and by amperes, where they cross, and now against later. */
function comparedAround(planned: readonly OptionEstimate[], input: WholeInput): Partial<Estimate['comparison']> {
  const { description, tryChanged } = input;
  const curves = { byDistance: byDistance(description, tryChanged), byAmps: byAmps(planned, tryChanged) };
  return {
    ...curves,
    crossings: crossingsOf(curves, description.options),
    nowOrLater: nowOrLater(planned, input),
  };
}

/** An option with what takes many draws, and with what is planned anew around it. */
function wholeOption(one: OptionEstimate, { description, book, tryChanged }: WholeInput): EstimateOption {
  const { answer } = one;
  const ownCircuit = ownCircuitOf(one, description, tryChanged);
  const { range, unknowns, findings } = uncertaintyOf({ one, ownCircuit, description, book });
  const budget = budgetOf({ option: answer, range, unknowns, description });
  return {
    ...answer,
    range,
    unknowns,
    ...(budget && { budget }),
    steps: stepsOf(one, tryChanged),
    service: { ...answer.service, remedies: pricedRemedies(one, book, tryChanged) },
    findings: [...answer.findings, ...boreProposals(one, description, tryChanged), ...findings],
  };
}

/** The description with the day that ages are judged on: the one stated, or today's. */
export function withAsOf(description: Description, today: string): Description {
  return { ...description, asOf: description.asOf ?? today };
}
