import type { EstimateOption } from './answer.ts';
import { beyondSoldFindings } from './beyond-sold.ts';
import { cheapestCandidate } from './candidates.ts';
import { chargingOf } from './charging-of.ts';
import type { Description, DescriptionOption } from './description.ts';
import { laterOf } from './later.ts';
import type { PlannedOption } from './plan-types.ts';
import type { Book } from './price-book.ts';
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

/** As `estimateOption`, for one description and book; options that are equal to the letter are planned once. */
export function estimatesOnce(description: Description, book: Book): EstimateChanged {
  const known = new Map<string, OptionEstimate>();
  return (option) => {
    const key = JSON.stringify(option);
    const found = known.get(key) ?? estimateOption({ description, option, book });
    known.set(key, found);
    return found;
  };
}

/** One option: its least-cost plan, taken off and priced. A finding `stop` leaves its lines, to show the difference. */
export function estimateOption({
  description,
  option,
  book,
}: {
  description: Description;
  option: DescriptionOption;
  book: Book;
}): OptionEstimate {
  const { plan, runs, lines, labor, totals } = cheapestCandidate({ description, option, book });
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
