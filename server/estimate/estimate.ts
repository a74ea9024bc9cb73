import type { Estimate, EstimateOption } from './answer.ts';
import { cheapestCandidate } from './candidates.ts';
import { chargingOf } from './charging-of.ts';
import { compare } from './comparison.ts';
import type { Description, DescriptionOption } from './description.ts';
import { laterOf } from './later.ts';
import { noticesOf } from './notices.ts';
import type { Book } from './price-book.ts';
import { rangeOf } from './range.ts';
import { checkService } from './service.ts';
import { runFindings } from './takeoff/run-findings.ts';
import { scheduleOf, visitsOf } from './takeoff/schedule.ts';
import { termsFindings } from './terms-findings.ts';

/** `core` leaves out what takes many draws or many plans: the range. */
export type Parts = 'core' | 'all';

/**
 * What the described job takes and costs: description → plan → take-off → purchases → lines → totals → comparison.
 * Pure: the same description and book give the same answer, to the byte.
 * @param description  read by `readDescription`, with `asOf` filled in; nothing here knows the clock
 * @param book         the price book at one revision
 * @throws {InputError} when a discount takes the price below 0
 */
export function estimate(description: Description, book: Book, { parts = 'all' }: { parts?: Parts } = {}): Estimate {
  const options = description.options.map((option) => estimateOption({ description, option, book, parts }));
  return {
    description,
    bookRevision: book.revision,
    complete: options.every(({ complete }) => complete),
    notices: noticesOf(description),
    options,
    bids: [],
    comparison: compare(options),
  };
}

interface OptionInput {
  description: Description;
  option: DescriptionOption;
  book: Book;
  parts: Parts;
}

/** One option: its least-cost plan, taken off and priced. A finding `stop` leaves its lines, to show the difference. */
function estimateOption({ description, option, book, parts }: OptionInput): EstimateOption {
  const { plan, runs, lines, labor, totals } = cheapestCandidate({ description, option, book });
  const service = checkService({ description, option: plan.option });
  const { later, findings: laterFindings } = laterOf(plan, book);
  const findings = [
    ...plan.findings,
    ...runFindings(plan),
    ...service.findings,
    ...laterFindings,
    ...termsFindings(description, book),
  ];
  const charging = chargingOf(plan);
  return {
    id: option.id,
    label: option.label,
    complete: lines.every(({ priced }) => priced),
    buildable: !findings.some(({ severity }) => severity === 'stop'),
    runs,
    ...(later && { later }),
    ...(plan.grounding && { grounding: plan.grounding }),
    dropPercent: plan.dropPercent,
    lines,
    labor: { ...labor, visits: visitsOf(plan, labor.workingDays) },
    schedule: scheduleOf(plan, labor.workingDays),
    totals,
    ...(parts === 'all' && { range: rangeOf(lines, totals, description) }),
    ...(charging && { charging }),
    service: service.check,
    findings,
  };
}

/** The description with the day that ages are judged on: the one stated, or today's. */
export function withAsOf(description: Description, today: string): Description {
  return { ...description, asOf: description.asOf ?? today };
}
