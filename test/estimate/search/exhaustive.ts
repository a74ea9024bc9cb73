/*
 * Every plan of an option, enumerated from the route, the methods that are lawful leg by leg and the sizes that the book
 * sells: nothing is taken from the search's own lists, orders or bounds.
 */
import { priceTakeoff } from '../../../server/estimate/lines.ts';
import type { Circuit } from '../../../server/estimate/plan/circuit.ts';
import { dropAt, layCircuit } from '../../../server/estimate/plan/lay.ts';
import { allowedAt, fixedMethod, isClosed } from '../../../server/estimate/plan/methods.ts';
import { type ChosenCircuit, type OpenedOption, planBy } from '../../../server/estimate/plan/plan.ts';
import { type Beginning, isRaceway, type Laying, stretchesOf } from '../../../server/estimate/plan/wiring.ts';
import type { PlannedOption } from '../../../server/estimate/plan-types.ts';
import type { Book } from '../../../server/estimate/price-book.ts';
import { type Choice, choiceAt } from '../../../server/estimate/search/choices.ts';
import { costOfChoice, type OptionModel, type RunChoice } from '../../../server/estimate/search/option-model.ts';
import { takeoffOf } from '../../../server/estimate/takeoff/takeoff.ts';
import { totalsOf } from '../../../server/estimate/totals.ts';
import {
  type ConductorSize,
  isDitch,
  type Metal,
  WIRING_METHODS,
  type WiringMethod,
} from '../../../server/estimate/vocabulary.ts';
import { soldBy } from './small-shop.ts';

/** What a plan costs by its lines, with what the owner's hours are weighed at. */
export function fullCents(plan: PlannedOption, book: Book): { cents: number; costCents: number; unpriced: number } {
  const { lines, labor } = priceTakeoff({ takeoff: takeoffOf(plan), plan, book });
  const { costCents } = totalsOf(lines, plan.description); // no job of these tests states a least charge
  const ownerCents = Math.round(labor.ownerHours * plan.description.terms.ownerHourCents);
  return { cents: costCents + ownerCents, costCents, unpriced: lines.filter(({ priced }) => !priced).length };
}

/** Every row of one from each list. */
export function* products<Thing>(lists: readonly (readonly Thing[])[]): Generator<Thing[]> {
  const [first, ...rest] = lists;
  if (!first) {
    yield [];
    return;
  }
  for (const thing of first) for (const others of products(rest)) yield [thing, ...others];
}

type Job = OpenedOption['job'];

/** What is opened: finishes for stiff raceway, or nothing. */
export interface Opening {
  opensFinishes: boolean;
}

/** The methods that are lawful on each leg and on the tail, if that has a length. */
function lawfulMethods(job: Job, circuit: Circuit, { opensFinishes }: Opening): WiringMethod[][] {
  const { tail } = circuit;
  const legs = circuit.legs.flatMap((leg) => job.route[leg] ?? []);
  const hasTail = tail !== undefined && (tail.lengthFt > 0 || legs.length === 0);
  // Where only the rough-in is built, a cable is a stop.
  const methods = WIRING_METHODS.filter((method) => !job.option.roughInOnly || isRaceway(method));
  const alongRoute = legs.map((placed) => {
    const fixed = fixedMethod(placed);
    if (fixed) return [fixed];
    const lawful = methods.filter((method) => allowedAt(job, placed, method).allowed);
    // Stiff raceway goes behind a finish only where no cable does.
    const cables = !opensFinishes && isClosed(job, placed) ? lawful.filter((method) => !isRaceway(method)) : [];
    return cables.length > 0 ? cables : lawful;
  });
  return hasTail ? [...alongRoute, methods.filter((method) => allowedAt(job, tail, method).allowed)] : alongRoute;
}

/** Pieces from the start at which a run may change: at every meeting, but for those of two legs in the ground. */
function changePlaces(job: Job, circuit: Circuit, pieces: number): number[] {
  const isDug = (at: number) => {
    const { kind, place } = job.route[circuit.legs[at] ?? -1]?.stated ?? {};
    return (
      kind !== undefined &&
      (isDitch(kind) || kind === 'bore' || (kind === 'existing-raceway' && place === 'underground'))
    );
  };
  return Array.from({ length: pieces }, (_, at) => at).filter((at) => at > 0 && !(isDug(at - 1) && isDug(at)));
}

interface Conductor {
  metal: Metal;
  size: ConductorSize;
}
const isSame = (a: Conductor, b: Conductor) => a.metal === b.metal && a.size === b.size;

/** The metals and sizes of a circuit that the book sells in some form. */
function conductorsFor({ book }: Job, { metals }: Circuit): Conductor[] {
  return soldBy(book).filter(({ metal }) => metals.includes(metal));
}

/** What a run may begin as, at each place where it may change; and that it does not change. */
function beginningsOf(job: Job, circuit: Circuit, pieces: number): (Beginning | undefined)[] {
  const places = circuit.legs.length > 0 ? changePlaces(job, circuit, pieces) : [];
  const conductors = conductorsFor(job, circuit);
  return [undefined, ...places.flatMap((at) => conductors.map((conductor) => ({ pieces: at, ...conductor })))];
}

/** Methods of the pieces as the planner takes them; a tail of no length goes on as the last leg, where that is lawful. */
function asLaid(job: Job, circuit: Circuit, methods: readonly WiringMethod[]): Pick<Laying, 'methods' | 'tail'> {
  const { tail, legs } = circuit;
  if (!tail) return { methods: [...methods] };
  const last = methods[legs.length - 1] === 'direct-burial' ? 'pvc' : methods[legs.length - 1];
  const own = methods[legs.length];
  const goesOn = [...(last ? [last] : []), ...WIRING_METHODS].find((one) => allowedAt(job, tail, one).allowed);
  const method = own ?? goesOn;
  return { methods: methods.slice(0, legs.length), ...(method && { tail: method }) };
}

/** Every way to lay a circuit that is lawful leg by leg, in every size that carries it and that the book sells. */
export function waysToLay(job: Job, circuit: Circuit, opening: Opening): ChosenCircuit[] {
  const lawful = lawfulMethods(job, circuit, opening);
  const ways: ChosenCircuit[] = [];
  for (const methods of products<WiringMethod>(lawful)) {
    const laid = asLaid(job, circuit, methods);
    for (const begins of beginningsOf(job, circuit, lawful.length)) {
      for (const metal of circuit.metals) {
        const laying = { ...laid, metal, ...(begins && { begins }) };
        const { sizes, problem } = layCircuit(job, circuit, laying);
        const sold = problem ? [] : sizes.filter((size) => !begins || !isSame(begins, { metal, size }));
        ways.push(...sold.map((size) => ({ laying, size })));
      }
    }
  }
  return ways;
}

/** A plan's worth: lines without a price come first, for such a plan only looks cheap. */
export interface Worth {
  unpriced: number;
  cents: number;
}
const isBetter = (one: Worth, than: Worth | undefined) =>
  !than || one.unpriced < than.unpriced || (one.unpriced === than.unpriced && one.cents < than.cents);

const stops = ({ findings }: PlannedOption) => findings.filter(({ severity }) => severity === 'stop').length;

/** Do the conductors of the runs go into their raceways? Where they do not in any plan, none may be built. */
const goesIn = ({ findings, runs }: PlannedOption) =>
  !findings.some(({ rule, run, severity }) => {
    const isOfRuns = run === undefined || runs.some(({ name }) => name === run);
    return severity === 'stop' && isOfRuns && (rule === 'conduit-fill' || rule === 'conduit-not-sold');
  });

/**
 * The least cost of all plans of an option with one run, which keep the drop that is asked for; where none does, what one
 * metal and size throughout loses at least is what may be lost. Every one of them laid by the planner and priced by its lines;
 * nothing where none may be built.
 */
export function leastByLines(opened: OpenedOption, opening: Opening): Worth | undefined {
  const { job, circuits } = opened;
  const [arriving] = circuits?.arriving ?? [];
  if (!arriving) return undefined;
  const laid = waysToLay(job, arriving.circuit, opening).map((chosen) => planBy(opened, [chosen]));
  const all = laid.filter(goesIn);
  // What stands in the way of every plan, such as a spare conduit that nobody sells, chooses none of them.
  const fewest = Math.min(...all.map(stops));
  const plans = all.filter((plan) => stops(plan) === fewest);
  const isKept = plans.some(({ dropPercent }) => dropPercent <= job.option.maxDropPercent);
  const unchanged = plans.filter(({ runs }) => runs.every(({ begins }) => !begins));
  const compared = unchanged.length > 0 ? unchanged : plans;
  const leastDrop = Math.min(...compared.map(({ dropPercent }) => dropPercent));
  const mostDrop = isKept ? job.option.maxDropPercent : leastDrop;
  let best: Worth | undefined;
  for (const plan of plans) {
    if (plan.dropPercent > mostDrop) continue;
    const { unpriced, cents } = fullCents(plan, job.book);
    if (isBetter({ unpriced, cents }, best)) best = { unpriced, cents };
  }
  return best;
}

/** A way through one run, with what is lost on it. */
export interface Way extends RunChoice {
  dropPercent: number;
}

/** Every way to lay a run of a model, as numbers: what does not carry the circuit, is not sold or does not fit is left out. */
export function* waysOfRun({ runs, job }: OptionModel, run: number, opening: Opening): Generator<Way> {
  const space = runs[run]?.space;
  if (!space) return;
  const { circuit } = space;
  const lawful = lawfulMethods(job, circuit, opening);
  const conductors = conductorsFor(job, circuit);
  const beginnings = beginningsOf(job, circuit, lawful.length);
  for (const methods of products<WiringMethod>(lawful)) {
    const laid = asLaid(job, circuit, methods);
    const wiringsAt = new Map<number, ReturnType<typeof wiringsOf>>();
    for (const begins of beginnings) {
      const at = begins?.pieces ?? 0;
      const wirings =
        wiringsAt.get(at) ?? wiringsOf(job, circuit, { ...laid, metal: 'copper', ...(begins && { begins }) });
      wiringsAt.set(at, wirings);
      for (const conductor of conductors) {
        if (begins && isSame(begins, conductor)) continue;
        const path: Choice[] = [];
        for (const [index, method] of methods.entries()) {
          const piece = space.pieces[index];
          const wiring = wirings[index];
          const { metal, size } = begins && index < begins.pieces ? begins : conductor;
          if (!piece || !wiring) throw new Error('A run has a piece for each leg and for its tail.');
          const phase = wiring === 'use-2' && isRaceway(method) ? 'carried-in' : 'plain';
          const choice = choiceAt(space, { piece, method, wiring, phase, metal, size, fromSize: size });
          if (!choice) break;
          path.push(choice);
        }
        if (path.length < methods.length) continue;
        const laying = { metal: conductor.metal, ...(begins && { begins }) };
        const dropPercent = dropAt(job, { circuit, laying }, conductor.size).percent;
        const sized = { circuit, ...conductor, ...(begins && { begins }), dropPercent, choices: [], order: 0 };
        yield { sized, path, dropPercent };
      }
    }
  }
}

function wiringsOf(job: Job, circuit: Circuit, laying: Laying) {
  return stretchesOf(circuit, laying, job.route).flatMap(({ wiring, pieces }) => pieces.map(() => wiring));
}

/**
 * The least cost of all plans of an option, its runs in every combination, each priced as a whole; with it how many plans
 * there were. Nothing where none can be bought and built.
 */
export function leastByNumbers(model: OptionModel, opening: Opening): { best?: Worth; plans: number } {
  const { job, runs, arriving } = model;
  const lists = runs.map((_, run) => [...waysOfRun(model, run, opening)]);
  const endsAtCharger = runs.map(({ space }) => space.circuit.chargers.length > 0);
  const dropOf = (ways: readonly Way[]) => {
    const along = ways.slice(0, arriving).map(({ dropPercent }) => dropPercent);
    const beyond = ways.filter((_, run) => run >= arriving && endsAtCharger[run]).map(({ dropPercent }) => dropPercent);
    return Math.max(...along) + Math.max(0, ...beyond);
  };
  let plans = 0;
  const leastWithin = (mostDropPercent: number): Worth | undefined => {
    let best: Worth | undefined;
    for (const ways of products(lists)) {
      if (dropOf(ways) > mostDropPercent + 1e-9) continue;
      const cost = costOfChoice(model, ways);
      if (!cost) continue;
      plans += 1;
      if (isBetter(cost, best)) best = { unpriced: cost.unpriced, cents: cost.cents };
    }
    return best;
  };
  const within = leastWithin(job.option.maxDropPercent);
  if (within) return { best: within, plans };
  const leastOf = (some: readonly Way[][]) => {
    let leastDrop = Number.POSITIVE_INFINITY;
    for (const ways of products(some)) {
      const drop = dropOf(ways);
      if (drop < leastDrop && costOfChoice(model, ways)) leastDrop = drop;
    }
    return leastDrop;
  };
  const unchanged = leastOf(lists.map((ways) => ways.filter(({ sized }) => !sized.begins)));
  const best = leastWithin(Number.isFinite(unchanged) ? unchanged : leastOf(lists));
  return { ...(best && { best }), plans };
}
