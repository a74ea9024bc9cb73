import type { Labor, Line, Run, Totals } from './answer.ts';
import type { Description, DescriptionOption } from './description.ts';
import { priceTakeoff } from './lines.ts';
import { toFourDecimals } from './money.ts';
import { planCandidates } from './plan/plan.ts';
import type { PlannedOption, PlannedRun } from './plan-types.ts';
import type { Book } from './price-book.ts';
import { takeoffOf } from './takeoff/takeoff.ts';
import { totalsOf } from './totals.ts';

/** A candidate plan with its lines and what it costs. */
interface PricedPlan {
  plan: PlannedOption;
  lines: Line[];
  labor: Omit<Labor, 'visits'>;
  totals: Totals;
  wire: Record<string, Run['wire']>;
  /** Σ lines and what the owner's hours are weighed at: what the choice is made by. */
  weighedCents: number;
}

/** How many runners-up an answer names. */
const MOST_RUNNERS_UP = 3;

/**
 * The legal plan with the least cost among the candidates: Σ lines at likely prices and lengths plus owner hours;
 * markup, overhead, profit and tax never choose. Equal costs: fewer splices, then copper, then the planner's order.
 */
export function cheapestCandidate({
  description,
  option,
  book,
}: {
  description: Description;
  option: DescriptionOption;
  book: Book;
}) {
  const priced = planCandidates(description, option, book).map((plan) => priceCandidate(plan, book));
  const [best, ...others] = priced.map((candidate, order) => ({ candidate, order })).sort(byCost);
  if (!best) throw new Error(`The planner gave no candidate for option ${option.id}.`);
  const runnersUp = others
    .filter(({ candidate }) => isLawful(candidate.plan))
    .slice(0, MOST_RUNNERS_UP)
    .map(({ candidate }) => ({ summary: summaryOf(candidate.plan), amountCents: candidate.totals.costCents }));
  const { plan, lines, labor, totals, wire } = best.candidate;
  const proof = { proven: false, gapCents: best.candidate.weighedCents };
  return { plan, lines, labor, totals, runs: plan.runs.map((run) => printed({ run, wire, runnersUp, proof })) };
}

function priceCandidate(plan: PlannedOption, book: Book): PricedPlan {
  const takeoff = takeoffOf(plan);
  const { lines, labor } = priceTakeoff({ takeoff, plan, book });
  const totals = totalsOf(lines, plan.description);
  const ownerCents = Math.round(labor.ownerHours * plan.description.terms.ownerHourCents);
  return { plan, lines, labor, totals, wire: takeoff.wire, weighedCents: totals.costCents + ownerCents };
}

interface Ranked {
  candidate: PricedPlan;
  order: number;
}

function byCost(a: Ranked, b: Ranked): number {
  return (
    Number(isLawful(b.candidate.plan)) - Number(isLawful(a.candidate.plan)) ||
    unpriced(a.candidate) - unpriced(b.candidate) ||
    a.candidate.weighedCents - b.candidate.weighedCents ||
    splices(a.candidate.plan) - splices(b.candidate.plan) ||
    aluminumRuns(a.candidate.plan) - aluminumRuns(b.candidate.plan) ||
    a.order - b.order
  );
}

const isLawful = ({ findings }: PlannedOption) => !findings.some(({ severity }) => severity === 'stop');
/** A plan with a line that has no price looks cheaper than it is: one that is priced whole comes first. */
const unpriced = ({ lines }: PricedPlan) => lines.filter((line) => !line.priced).length;
const splices = ({ runs }: PlannedOption) => runs.reduce((sum, run) => sum + Math.max(0, run.sections.length - 1), 0);
const aluminumRuns = ({ runs }: PlannedOption) => runs.filter((run) => run.conductor.metal === 'aluminum').length;

/** What sets a plan apart, in a line: metal, size and methods of each run. */
function summaryOf({ runs }: PlannedOption): string {
  return runs
    .map((run) => {
      const methods = [...new Set([...run.legs, ...(run.tail ? [run.tail] : [])].map(({ method }) => method))];
      return `${run.name}: ${run.conductor.size} ${run.conductor.metal} in ${methods.join(', ')}`;
    })
    .join('; ');
}

/** A run as the answer prints it: without what only the take-off needs. */
function printed({
  run,
  wire,
  runnersUp,
  proof,
}: {
  run: PlannedRun;
  wire: PricedPlan['wire'];
  runnersUp: Run['runnersUp'];
  proof: Run['proof'];
}): Run {
  const { sections: _sections, tail: _tail, chargers: _chargers, otherUse: _otherUse, ...shown } = run;
  const conductor = { ...run.conductor, ampacityA: toFourDecimals(run.conductor.ampacityA) };
  return { ...shown, conductor, wire: wire[run.name] ?? [], runnersUp, proof };
}
