import type { Labor, Line, Run, Totals } from './answer.ts';
import type { Description, DescriptionOption } from './description.ts';
import { priceTakeoff } from './lines.ts';
import { MINIMUM_CHARGE } from './minimum-charge.ts';
import { toFourDecimals } from './money.ts';
import { type ChosenCircuit, familiarPlans, type OpenedOption, openOption, planBy } from './plan/plan.ts';
import type { PlannedOption, PlannedRun } from './plan-types.ts';
import type { Book } from './price-book.ts';
import { layingOf } from './search/laying.ts';
import { costOfPlan, modelOf } from './search/option-model.ts';
import { type OtherCost, otherCosts } from './search/other-methods.ts';
import type { Effort } from './search/preparing.ts';
import { type Found, type PricedChoice, searchOption } from './search/search.ts';
import { routeText, workshopFor } from './search/workshop.ts';
import { takeoffOf } from './takeoff/takeoff.ts';
import { totalsOf } from './totals.ts';

/** A plan with its lines and what it costs. */
interface PricedPlan {
  plan: PlannedOption;
  lines: Line[];
  labor: Omit<Labor, 'visits'>;
  totals: Totals;
  wire: Record<string, Run['wire']>;
  /** Σ lines and what the owner's hours are weighed at: what the choice is made by. */
  weighedCents: number;
}

type OtherMethod = Run['legs'][number]['others'][number];

/** How many runners-up an answer names. */
const MOST_RUNNERS_UP = 3;

interface OptionInput {
  description: Description;
  option: DescriptionOption;
  book: Book;
  /** `compare` for an option that is only held against a stated one. */
  effort?: Effort;
}

/** What a search found that does not depend on words, terms of payment or the other options. */
export interface Choice {
  chosen: ChosenCircuit[];
  /** Where the search was given up, a plan that a crew would think of first may be cheaper. */
  isFamiliarCheaper: boolean;
  proof: Run['proof'];
  runnersUp: Run['runnersUp'];
  others: OtherCost[];
}

/**
 * The legal plan with the least cost: Σ lines at likely prices and lengths plus owner hours; markup, overhead, profit and
 * tax never choose. Where no plan of the option can be bought and built, the familiar one with the fewest stops.
 */
export function cheapestCandidate({ description, option, book, effort = 'prove' }: OptionInput) {
  const opened = openOption(description, option, book);
  const choice = isSearchable(opened) ? choiceFor({ description, option, book, effort }, opened) : undefined;
  if (!choice) return familiar(opened);
  const found = pricePlan(planBy(opened, choice.chosen), book);
  const usual = choice.isFamiliarCheaper ? cheaperFamiliar(opened, found) : undefined;
  if (usual) {
    const gapCents = usual.weighedCents - (found.weighedCents - choice.proof.gapCents);
    return shown(usual, { proof: { proven: false, gapCents }, runnersUp: [], others: [] });
  }
  return shown(found, choice);
}

/** Searches once for options that are equal but for their names, along one route of one site and terms. */
function choiceFor(
  { description, option, book, effort = 'prove' }: OptionInput,
  opened: Required<OpenedOption>,
): Choice | undefined {
  const { choices } = workshopFor(book, description);
  const { id: _id, label: _label, ...asked } = option;
  const key = `${JSON.stringify(asked)} ${routeText(description)}`;
  const known = choices.get(`prove ${key}`) ?? choices.get(`${effort} ${key}`);
  if (known !== undefined) return known ?? undefined;
  const found = searchOption(modelOf(opened), effort) ?? searchOption(modelOf(opened, { opensFinishes: true }), effort);
  const choice = found && choiceOf(found, opened, effort);
  choices.set(`${effort} ${key}`, choice ?? null);
  return choice;
}

function choiceOf(found: Found, opened: OpenedOption, effort: Effort): Choice | undefined {
  const [best, ...others] = found.priced;
  if (!best) return undefined;
  const { model } = found.search;
  const chosen = best.chosen.map((way, run) => ({ laying: layingOf(model, run, way), size: way.sized.size }));
  const isCheaper =
    effort === 'prove' &&
    !found.proof.proven &&
    isFamiliarCheaper(found, { best, plan: planBy(opened, chosen), opened });
  return {
    chosen,
    isFamiliarCheaper: isCheaper,
    proof: found.proof,
    runnersUp: others
      .slice(0, MOST_RUNNERS_UP)
      .map((other) => ({ summary: summaryOf(found, other), amountCents: other.cost.costCents })),
    others: (effort === 'prove' ? otherCosts(found) : []).map((other) => ({
      ...other,
      ...(other.cents !== undefined && { cents: other.cents - best.cost.cents }),
    })),
  };
}

/** Is a familiar plan cheaper than the one that was found? By numbers alone, since most often none is. */
function isFamiliarCheaper(
  { search: { model } }: Found,
  { best: { cost }, plan: found, opened }: { best: PricedChoice; plan: PlannedOption; opened: OpenedOption },
): boolean {
  const weighed = familiarPlans(opened).map((plan, order) => {
    const { cents, unpriced } = costOfPlan(model, plan);
    return { plan, order, weighedCents: cents, unpriced };
  });
  const [best] = weighed.sort(byCost);
  if (!best || best.weighedCents >= cost.cents || best.unpriced > 0) return false;
  return keepsAsWell(best.plan, { than: found, opened });
}

/** Is a plan lawful, and does it keep the drop as well as another one? */
function keepsAsWell(plan: PlannedOption, { than, opened }: { than: PlannedOption; opened: OpenedOption }): boolean {
  const isLawful = !plan.findings.some(({ severity }) => severity === 'stop');
  return isLawful && plan.dropPercent <= Math.max(opened.job.option.maxDropPercent, than.dropPercent);
}

/** A familiar plan that is lawful, keeps the drop as well and costs less: it may be where a long search was given up. */
function cheaperFamiliar(opened: OpenedOption, { plan, weighedCents }: PricedPlan): PricedPlan | undefined {
  const best = cheapestFamiliar(opened);
  const isCheaper = best.weighedCents < weighedCents && unpricedLines(best) === 0;
  return isCheaper && keepsAsWell(best.plan, { than: plan, opened }) ? best : undefined;
}

/** Does anything run along a route or from a panel, so that there is something to choose? */
function isSearchable(opened: OpenedOption): opened is Required<OpenedOption> {
  return opened.circuits !== undefined && opened.circuits.arriving.length > 0;
}

function pricePlan(plan: PlannedOption, book: Book): PricedPlan {
  const takeoff = takeoffOf(plan);
  const { lines, labor } = priceTakeoff({ takeoff, plan, book });
  const totals = totalsOf(lines, plan.description);
  const ownerCents = Math.round(labor.ownerHours * plan.description.terms.ownerHourCents);
  const madeUpCents = lines.reduce((sum, { key, amountCents }) => sum + (key === MINIMUM_CHARGE ? amountCents : 0), 0);
  const weighedCents = totals.costCents - madeUpCents + ownerCents;
  return { plan, lines, labor, totals, wire: takeoff.wire, weighedCents };
}

/** The cheapest of the familiar plans: what is shown where nothing may be built, or nothing is run. */
function familiar(opened: OpenedOption) {
  const best = cheapestFamiliar(opened);
  return shown(best, { proof: { proven: false, gapCents: best.weighedCents }, runnersUp: [], others: [] });
}

function cheapestFamiliar(opened: OpenedOption): PricedPlan {
  const priced = familiarPlans(opened).map((plan, order): PricedPlan & Ranked => {
    const one = pricePlan(plan, opened.job.book);
    return { ...one, order, unpriced: unpricedLines(one) };
  });
  const [best] = priced.sort(byCost);
  if (!best) throw new Error('The planner gave no plan.');
  return best;
}

type Reasons = Pick<Choice, 'proof' | 'runnersUp' | 'others'>;

function shown({ plan, lines, labor, totals, wire }: PricedPlan, reasons: Reasons) {
  return { plan, lines, labor, totals, runs: plan.runs.map((run, at) => printed({ run, at, wire, reasons })) };
}

interface Ranked {
  weighedCents: number;
  /** A plan with lines that have no price looks cheaper than it is: one that is priced whole comes first. */
  unpriced: number;
  order: number;
}

function byCost(a: Ranked, b: Ranked): number {
  return a.unpriced - b.unpriced || a.weighedCents - b.weighedCents || a.order - b.order;
}

const unpricedLines = ({ lines }: PricedPlan) => lines.filter((line) => !line.priced).length;

/** What sets a plan apart, in a line: metal, size and methods of each run. */
function summaryOf({ search }: Found, { chosen }: PricedChoice): string {
  return chosen
    .map((way, run) => {
      const { methods, tail } = layingOf(search.model, run, way);
      const named = [...new Set([...methods, ...(tail ? [tail] : [])])];
      const { circuit, metal, size, begins } = way.sized;
      const first = begins ? `${begins.size} ${begins.metal}, then ` : '';
      return `${circuit.name}: ${first}${size} ${metal} in ${named.join(', ')}`;
    })
    .join('; ');
}

/** A run as the answer prints it: without what only the take-off needs, with what other methods would cost. */
function printed({
  run,
  at,
  wire,
  reasons: { proof, runnersUp, others },
}: {
  run: PlannedRun;
  at: number;
  wire: PricedPlan['wire'];
  reasons: Reasons;
}): Run {
  const { sections: _sections, tail: _tail, chargers: _chargers, otherUse: _otherUse, ...about } = run;
  const conductor = { ...run.conductor, ampacityA: toFourDecimals(run.conductor.ampacityA) };
  const legs = run.legs.map((leg) => ({
    ...leg,
    others: leg.others.map((other) => {
      const cost = others.find((one) => one.run === at && one.leg === leg.leg && one.method === other.method);
      return cost ? withCost(other, cost) : other;
    }),
  }));
  return { ...about, legs, conductor, wire: wire[run.name] ?? [], runnersUp, proof };
}

/** Says of a lawful method what it would cost more, or that nobody sells it in a size that does. */
function withCost(other: OtherMethod, { cents }: OtherCost): OtherMethod {
  if (cents === undefined && other.forbiddenBy) return other;
  const { forbiddenBy: _atThisSize, ...lawful } = other; // in another size or metal it is not
  if (cents === undefined) return { ...lawful, because: 'Lawful here, but nothing of it is sold that would do.' };
  if (cents < 0) return other.forbiddenBy ? { ...lawful, because: 'Lawful here as well.' } : other; // found after a search that was given up: the gap says so
  return { ...lawful, moreCents: cents, because: 'Lawful here as well; the rest planned anew around it.' };
}
