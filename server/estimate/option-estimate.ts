import type { EstimateOption } from './answer.ts';
import { beyondSoldFindings } from './beyond-sold.ts';
import { cheapestCandidate } from './candidates.ts';
import { chargingOf } from './charging-of.ts';
import { crewFindings } from './crew-findings.ts';
import type { Description, DescriptionOption } from './description.ts';
import { laterOf } from './later.ts';
import type { PlannedOption } from './plan-types.ts';
import type { Book } from './price-book.ts';
import type { Effort } from './search/preparing.ts';
import { checkService } from './service.ts';
import { runFindings } from './takeoff/run-findings.ts';
import { scheduleOf, visitsOf } from './takeoff/schedule.ts';
import { takeoffOf } from './takeoff/takeoff.ts';
import { termsFindings } from './terms-findings.ts';

/** An option as the answer shows it, without what takes many draws or many plans, and the plan behind it. */
export interface OptionEstimate {
  answer: EstimateOption;
  plan: PlannedOption;
}

/** Estimates an option of one description by one price book: a stated one, or a stated one that was changed. */
export type EstimateChanged = (option: DescriptionOption) => OptionEstimate;

/**
 * Estimates changed options of one description by one book, to be held against the stated ones: options that are equal to
 * the letter are planned once, and none is searched until it is proved.
 * @param stated  the description's own options, in its order
 */
export function changedOptions(
  { description, book }: { description: Description; book: Book },
  stated: readonly OptionEstimate[],
): EstimateChanged {
  const own = description.options.flatMap((option, at) => {
    const estimated = stated[at];
    return estimated ? [[JSON.stringify(option), estimated] as const] : [];
  });
  const known = new Map<string, OptionEstimate>(own);
  return (option) => {
    const key = JSON.stringify(option);
    const found = known.get(key) ?? estimateOption({ description, option, book, effort: 'compare' });
    known.set(key, found);
    return found;
  };
}

/** One option: its least-cost plan, taken off and priced. A finding `stop` leaves its lines, to show the difference. */
export function estimateOption({
  description,
  option,
  book,
  effort = 'prove',
}: {
  description: Description;
  option: DescriptionOption;
  book: Book;
  effort?: Effort;
}): OptionEstimate {
  const { plan, runs, lines, labor, totals } = cheapestCandidate({ description, option, book, effort });
  const service = checkService({ description, option: plan.option, book });
  const { later, findings: laterFindings } = laterOf(plan, book);
  const complete = lines.every(({ priced }) => priced);
  const findings = [
    ...plan.findings,
    ...(complete ? [] : beyondSoldFindings(takeoffOf(plan).materials, book)),
    ...runFindings(plan),
    ...service.findings,
    ...laterFindings,
    ...termsFindings(description, book),
    ...crewFindings(lines, description, book),
  ];
  const charging = chargingOf(plan);
  const answer: EstimateOption = {
    id: option.id,
    label: option.label,
    complete,
    buildable: !findings.some(({ severity }) => severity === 'stop'),
    runs,
    ...(later && { later }),
    ...(plan.grounding && { grounding: plan.grounding }),
    dropPercent: plan.dropPercent,
    lines,
    labor: { ...labor, visits: visitsOf(plan, labor.workingDays) },
    schedule: scheduleOf(plan, labor.workingDays),
    totals,
    ...(charging && { charging }),
    service: service.check,
    findings,
  };
  return { answer, plan };
}
