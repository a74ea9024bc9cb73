/*
 * The search for the least cost: plans in the order of their bound, each priced in full, until the bound passes the best.
 */

import { drillDays, isMasonry } from '../takeoff/walls.ts';
import { ABOVE_GRADE_FT } from '../takeoff/way.ts';
import { WIRING_METHODS } from '../vocabulary.ts';
import { type Choice, type Sized, sizesOfCircuit } from './choices.ts';
import { type Digging, diggingsOf, extremesOf, type GroundBound, groundBound, leastDug } from './ground-bound.ts';
import { emptyHeap, type Heap, leastRank, pop, push } from './heap.ts';
import { type LeastPrices, leastOf, leastOfAlways, leastPrices } from './least-price.ts';
import {
  besideRuns,
  costOfChoice,
  ditchesFor,
  endDemands,
  endsText,
  type OptionModel,
  type PlanCost,
  type RunChoice,
} from './option-model.ts';
import { once } from './parts.ts';
import { nextCents, type RunWay, takeWay, type Ways, waysThrough } from './paths.ts';
import {
  floorCents,
  kindsOfWire,
  type Layers,
  layersOf,
  leastWireCents,
  type Rates,
  type RunQuestion,
  type SegmentRates,
} from './run-bound.ts';
import { type RunModel, runStub } from './run-tally.ts';
import { lesserOf, partOf, togetherAt } from './tally.ts';

/**
 * Plans that are priced in full at most. Of a long route fewer, for speed: its best plan is among the first, and no number
 * of further ones that a user would wait for proves it.
 */
export const MOST_PRICED = 2000;
const FEW_PIECES = 12;
const MOST_PIECES = 1200;
/** Plans that are looked at in all, with those that turn out to be dug in another way than they were bounded for. */
const MOST_TRIED = 4000;
/** Roundings of one line may make a plan cheaper than its bound by so many cents: half a cent of money, and of hours. */
const ROUNDING_CENTS = 0.75;
/** A plan has fewer lines and tasks than that: a bound may lose as many roundings. */
const MOST_LINES = 300;

/** Kinds of conductors that another run pays for. */
type Free = ReadonlySet<number>;
const NOTHING_FREE: Free = new Set();

/** A plan with its cost. */
export interface PricedChoice {
  chosen: RunWay[];
  cost: PlanCost;
}

/** What the search found. */
export interface Found {
  /** Every plan that was priced, the best first. */
  priced: PricedChoice[];
  proof: { proven: boolean; gapCents: number };
  search: Search;
}

/** The ground dug in one way, with the ways through each run where it is. */
interface Ground {
  digging: Digging;
  bound: GroundBound;
  ways: Map<string, Ways>;
  layers: Map<string, Layers>;
}

/** A search on its way. */
export interface Search {
  effort: Effort;
  model: OptionModel;
  sizes: Sized[][];
  least: LeastPrices;
  grounds: Ground[];
  /** What every plan costs at least, besides its runs and the ground. */
  alwaysCents: number;
  /** What each run's end adds to that of the first choice, by text. */
  endsCents: Map<string, number>;
  reference: RunChoice[];
  wireCents: Map<string, number>;
  /** Ways through runs that follow no leg: the ground is nothing to them. */
  branchWays: Map<string, Ways>;
  branchLayers: Map<string, Layers>;
  /** Kinds of conductors of a run in a metal and size. */
  kinds: Map<string, Free>;
  mostFt: Map<string, number>;
  rates: Map<string, Rates>;
  segments: Map<string, SegmentRates>;
}

/** Ways of one run over several metals and sizes, in the order of their bound, as far as they were asked for. */
interface RunList {
  taken: RunWay[];
  open: Heap<Opening>;
  /** The least that any of it may cost, known before its layers are. */
  leastCents: number;
}

/** A metal and size of a run, with its ways once somebody asked for them. */
interface Opening {
  run: number;
  sized: Sized;
  ground: Ground;
  free: Free;
  /** Known once it was opened: first what its pieces cost at least, then its ways. */
  layers?: Layers;
  ways?: Ways;
}

/** Lists of ways that may be combined: one for each run. */
interface Family {
  ground: Ground;
  lists: RunList[];
}

interface Combination {
  family: Family;
  at: number[];
  /** Only lists from here on move on, so that no combination comes twice. */
  from: number;
  /** Not looked at yet: its rank is less than that of its first ways. */
  isUnopened?: boolean;
}

/**
 * How far a search goes: until it is proved, or until a few plans were priced. The first one priced is nearly always the
 * cheapest, so that few do where an option is only compared with a stated one.
 */
export type Effort = 'prove' | 'compare';
/** Plans that are priced to compare; on random jobs the best of them was never 0.1 % dearer than the cheapest of all. */
const MOST_COMPARED = 8;

/** Searches an option; nothing where no plan of it can be bought and built. */
export function searchOption(model: OptionModel, effort: Effort = 'prove'): Found | undefined {
  const sizes = model.runs.map(({ space }) => sizesOfCircuit(space));
  if (sizes.some((some) => some.length === 0)) return undefined;
  const search = prepared(model, sizes, effort);
  const heap = emptyHeap<Combination>();
  const families = search.grounds.flatMap((ground) => familiesOf(search, ground));
  settleAlways(search);
  for (const family of families) {
    const rank = family.lists.reduce((sum, { leastCents }) => sum + leastCents, family.ground.bound.alwaysCents);
    push(heap, rank, { family, at: family.lists.map(() => 0), from: 0, isUnopened: true });
  }
  const priced: PricedChoice[] = [];
  let best: PricedChoice | undefined;
  let looked = 0;
  let tried = 0;
  const pieces = model.runs.reduce((sum, { space }) => sum + space.pieces.length, 0);
  const most =
    effort === 'compare' ? MOST_COMPARED : pieces <= FEW_PIECES ? MOST_PRICED : Math.ceil(MOST_PIECES / pieces);
  const passed = () => best !== undefined && boundOf(search, leastRank(heap)) > best.cost.cents;
  while (heap.items.length > 0 && looked < most && tried < MOST_TRIED && !passed()) {
    const taken = pop(heap);
    const next = taken?.item;
    if (!next) break;
    if (next.isUnopened) {
      const floor = floorOf(search, next.family);
      if (floor > (taken?.rank ?? 0)) push(heap, floor, next);
      else pushNext(search, heap, { ...next, isUnopened: false });
      continue;
    }
    const chosen = waysAt(next);
    const isSo = next.family.ground.bound.isSo(
      ditchesFor(
        model,
        chosen.map(({ path }) => path),
      ),
    );
    tried += 1;
    if (isSo) looked += 1;
    const cost = isSo ? costOfChoice(model, chosen) : undefined;
    if (cost) {
      const one = { chosen, cost };
      priced.push(one);
      if (!best || byCost(one, best) < 0) best = one;
    }
    next.at.forEach((place, list) => {
      if (list < next.from) return;
      pushNext(search, heap, { family: next.family, at: next.at.with(list, place + 1), from: list });
    });
  }
  if (!best) return undefined;
  const bound = heap.items.length > 0 ? boundOf(search, leastRank(heap)) : Number.POSITIVE_INFINITY;
  const proven = best.cost.unpriced === 0 && bound > best.cost.cents;
  const gapCents = proven ? 0 : Math.max(0, Math.ceil(best.cost.cents - Math.min(bound, best.cost.cents)));
  return { priced: priced.sort(byCost), proof: { proven, gapCents }, search };
}

/** What a plan weighs at least whose runs have this bound together. */
function boundOf({ alwaysCents }: Search, runCents: number): number {
  return alwaysCents + runCents - MOST_LINES * ROUNDING_CENTS;
}

/** What a family costs at least, by the pieces of its runs. */
function floorOf(search: Search, { ground, lists }: Family): number {
  return lists.reduce((sum, list) => {
    for (let first = list.open.items[0]?.item; first && !first.layers; first = list.open.items[0]?.item) {
      pop(list.open);
      const layers = layersAt(search, first);
      push(list.open, floorCents(layers), { ...first, layers });
    }
    return sum + (list.taken[0]?.cents ?? leastRank(list.open));
  }, ground.bound.alwaysCents);
}

function waysAt({ family, at }: Combination): RunWay[] {
  return family.lists.flatMap((list, index) => list.taken[at[index] ?? 0] ?? []);
}

function pushNext(search: Search, heap: Heap<Combination>, combination: Combination): void {
  let cents = combination.family.ground.bound.alwaysCents;
  for (const [index, list] of combination.family.lists.entries()) {
    const way = wayAt(search, list, combination.at[index] ?? 0);
    if (!way) return;
    cents += way.cents;
  }
  push(heap, cents, combination);
}

function wayAt(search: Search, list: RunList, at: number): RunWay | undefined {
  while (list.taken.length <= at) {
    const opening = pop(list.open)?.item;
    if (!opening) return undefined;
    const { layers, ways } = opening;
    if (ways) {
      const way = takeWay(ways);
      if (way) list.taken.push(way);
      if (Number.isFinite(nextCents(ways))) push(list.open, nextCents(ways), opening);
    } else if (layers) {
      const found = afresh(waysOf(search, opening, layers));
      if (Number.isFinite(nextCents(found))) push(list.open, nextCents(found), { ...opening, ways: found });
    } else {
      const found = layersAt(search, opening);
      push(list.open, floorCents(found), { ...opening, layers: found });
    }
  }
  return list.taken[at];
}

/** All that a search needs before the first plan: least prices, the ground, and what is there always. */
function prepared(model: OptionModel, sizes: Sized[][], effort: Effort): Search {
  const { plan, prices } = model;
  const extremes = extremesOf(model);
  const dug = leastDug(model, extremes).map((demands) => partOf(model.parts.kinds, demands));
  const least = leastPrices(prices, {
    plan,
    mostFt: mostWireFt(model),
    always: togetherAt([model.always, lesserOf(dug)]),
  });
  const grounds = diggingsOf(extremes).map((digging): Ground => {
    const bound = groundBound(model, { least, extremes, digging });
    const shared = model.arriving > 1 ? sharedDigCents(model, bound) : 0;
    return {
      digging,
      bound: { ...bound, alwaysCents: bound.alwaysCents + shared },
      ways: new Map(),
      layers: new Map(),
    };
  });
  const reference = sizes.map(([sized]): RunChoice => ({ sized: sized as Sized, path: lastOnly(sized) }));
  const search: Search = {
    ...{ effort, model, sizes, least, grounds, reference, alwaysCents: 0, endsCents: new Map(), wireCents: new Map() },
    ...{
      branchWays: new Map(),
      branchLayers: new Map(),
      kinds: new Map(),
      mostFt: new Map(),
      rates: new Map(),
      segments: new Map(),
    },
  };
  const { extras, description } = prices;
  search.alwaysCents =
    least.alwaysCents +
    drillCents(search) +
    endsCentsOf(search, reference) +
    leastOf(least, besideRuns(model, model.ditches)) +
    extras.cents +
    extras.ownerHours * description.terms.ownerHourCents -
    1;
  return search;
}

/** The drills that the job's masonry walls are rented for at least: which of them are cored depends on what is chosen. */
function drillCents({ model, least }: Search): number {
  const walls = model.runs.flatMap(({ places }) => places.filter(({ wall }) => isMasonry(wall)));
  const days = walls.map((_, cored) =>
    leastOf(least, partOf(model.parts.kinds, drillDays(walls.map((__, at) => ({ legs: [], cored: at < cored }))))),
  );
  return days.length > 0 ? Math.min(...days) : 0;
}

/** So deep that whatever digging may take is taken. */
const DEEP_IN = 60;

/** What does not depend on any run is known to the cent once it is known what does. */
function settleAlways({ model, least, grounds }: Search): void {
  for (const { bound } of grounds) for (const { leg } of model.plan.route) bound.digCents(leg, DEEP_IN);
  for (const { bound } of grounds) {
    bound.alwaysCents += leastOfAlways(least, [model.always, bound.always]);
  }
}

const lastOnly = (sized: Sized | undefined): Choice[] => sized?.choices.at(-1)?.slice(0, 1) ?? [];

function endsCentsOf(search: Search, chosen: readonly RunChoice[]): number {
  const { model, least } = search;
  const runs = model.runs.map((run, at) => {
    const sized = chosen[at]?.sized;
    return sized ? runStub(run, sized.metal, sized.size, sized.size) : run.bare;
  });
  const paths = chosen.map(({ path }) => path);
  const { others, kinds } = model.parts;
  const part = once(others, `ends ${endsText(runs, paths)}`, () => partOf(kinds, endDemands(model, runs, paths)));
  return leastOf(least, part);
}

/** How much more, or less, a run's end costs than that of the reference. */
function endsDelta(search: Search, { run, sized, last }: { run: number; sized: Sized; last: Choice }): number {
  const { type, tradeSize } = last.conduit ?? {};
  return once(search.endsCents, `${run} ${sized.order} ${type} ${tradeSize}`, () => {
    const changed = search.reference.with(run, { sized, path: [last] });
    return endsCentsOf(search, changed) - endsCentsOf(search, search.reference);
  });
}

/** Where several runs share the ditches: each leg as deep as the shallowest choice for it. */
function sharedDigCents(model: OptionModel, ground: GroundBound): number {
  const depthOf = new Map<number, number>();
  for (const { space } of model.runs) {
    for (const choice of space.choices.values()) {
      if (choice?.stretch.leg === undefined || choice.coverIn === 0) continue;
      const depthIn = choice.coverIn + choice.thickIn;
      depthOf.set(choice.stretch.leg, Math.min(depthIn, depthOf.get(choice.stretch.leg) ?? depthIn));
    }
  }
  return [...depthOf].reduce((sum, [leg, depthIn]) => sum + ground.digCents(leg, depthIn), 0);
}

/** Feet of one kind of cable, and of one kind of conductor, that no plan takes more of: all runs, climbs and makeup. */
function mostWireFt({ runs, job, ditches }: OptionModel): LeastPrices['mostFt'] {
  const { makeup } = job.description.terms;
  const waste = 1 + Math.max(makeup.wastePercent.cable, makeup.wastePercent.conductor) / 100;
  const endsFt = makeup.panelFt + Math.max(makeup.panelFt, makeup.outletFt) + 2 * makeup.boxFt;
  const most = { cable: 0, conductor: 0 };
  for (const { space } of runs) {
    const { pieces, circuit } = space;
    const coversIn = [...space.choices.values()].map((choice) => choice?.coverIn ?? 0);
    const climbsFt =
      circuit.legs.length > 0 ? ditches.length * 2 * (Math.max(0, ...coversIn) / 12 + ABOVE_GRADE_FT) : 0;
    const alongFt = pieces.reduce((sum, { laid: { placed } }) => {
      return sum + (placed ? placed.feet.likely + placed.stated.riseFt : (circuit.tail?.lengthFt ?? 0));
    }, 0);
    const ft = (alongFt + climbsFt + endsFt + 2 * makeup.boxFt * pieces.length) * waste;
    most.cable += ft;
    most.conductor += ft * (circuit.poles + (circuit.neutral ? 1 : 0) + 1);
  }
  return most;
}

interface RunAsked {
  run: number;
  sized: Sized;
  free: Free;
}

/** Asked once: what `mostAlongFt` finds for a run. */
function mostFtOf(search: Search, run: number, wiring: Choice['wiring']): number {
  return once(search.mostFt, `${run} ${wiring}`, () => {
    const one = search.model.runs[run];
    return one ? mostAlongFt(search.model, one, wiring) : 0;
  });
}

/** Feet that all sections of a wiring take together at most, makeup of two sections included, along one run. */
function mostAlongFt(
  { job, ditches }: OptionModel,
  { space, ditchOf, divisions }: RunModel,
  wiring: Choice['wiring'],
): number {
  const { panelFt, boxFt, outletFt } = job.description.terms.makeup;
  const choices = [...space.choices.values()].flatMap((choice) => (choice?.wiring === wiring ? [choice] : []));
  const at = new Set(choices.map((choice) => choice.at));
  const climbFt = Math.max(0, ...choices.map(({ coverIn }) => coverIn)) / 12 + ABOVE_GRADE_FT;
  const dug = ditches.filter((_, ditch) => [...at].some((piece) => ditchOf[piece] === ditch)).length;
  const alongFt = space.pieces
    .filter((piece) => at.has(piece.at))
    .reduce((sum, { laid: { placed } }) => {
      return sum + (placed ? placed.feet.likely + placed.stated.riseFt : (space.circuit.tail?.lengthFt ?? 0));
    }, 0);
  const endsFt = panelFt + Math.max(panelFt, outletFt) + 4 * boxFt + divisions * (3 * boxFt + outletFt);
  return alongFt + 2 * dug * climbFt + endsFt;
}

/** The layers of one run at one metal and size, looked for once; so are its ways. */
function layersAt(search: Search, { ground, ...asked }: Opening): Layers {
  const known = asked.run < search.model.arriving ? ground.layers : search.branchLayers;
  return once(known, askedText(asked), () => layersOf(questionOf(search, ground, asked)));
}

function waysOf(search: Search, { ground, ...asked }: Opening, layers: Layers): Ways {
  const known = asked.run < search.model.arriving ? ground.ways : search.branchWays;
  return once(known, askedText(asked), () => waysThrough(asked.sized, layers));
}

const askedText = ({ run, sized, free }: RunAsked) => `${run} ${sized.order} ${[...free].join()}`;

function questionOf(search: Search, ground: Ground, { run, sized, free }: RunAsked): RunQuestion {
  const { model, least } = search;
  const single = model.arriving <= 1;
  return {
    ...{ parts: model.parts, least, sized, oneCover: single, rates: search.rates, segments: search.segments },
    model: model.runs[run] as RunModel, // asked for runs that there are
    digCents: single ? ground.bound.digCents : () => 0,
    leastCoverIn: (ditch) => model.ditches[ditch]?.coverIn ?? 0,
    allows: single ? ground.bound.allows : () => true,
    endsCents: (last) => endsDelta(search, { run, sized, last }),
    isFirst: single && run === 0,
    free,
    mostFt: (wiring) => {
      const first = single && run > 0 ? model.arriving : 0;
      const last = single && run === 0 ? 0 : model.runs.length - 1;
      let feet = 0;
      for (let one = first; one <= last; one += 1) feet += mostFtOf(search, one, wiring);
      return feet;
    },
  };
}

function bothOf(some: Free, others: Free): Free {
  const both = [...some].filter((kind) => others.has(kind));
  return both.length > 0 ? new Set(both) : NOTHING_FREE;
}

/** Kinds of conductors that a run may buy in a metal and size. */
function kindsOf(search: Search, ground: Ground, run: number, sized: Sized): Free {
  return once(search.kinds, `${run} ${sized.order}`, () =>
    kindsOfWire(questionOf(search, ground, { run, sized, free: NOTHING_FREE })),
  );
}

/** The same ways for a list of its own, which takes them one by one. */
function afresh(ways: Ways): Ways {
  return { ...ways, open: { items: [...ways.open.items], pushed: ways.open.pushed } };
}

function listOf(
  search: Search,
  ground: Ground,
  { run, sizes, free }: { run: number; sizes: readonly Sized[]; free: Free },
): RunList {
  const open = emptyHeap<Opening>();
  const openings = sizes.map((sized): { opening: Opening; wireCents: number } => {
    const own = free.size === 0 ? free : bothOf(free, kindsOf(search, ground, run, sized));
    const asked = { run, sized, free: own };
    return { opening: { ...asked, ground }, wireCents: wireCentsOf(search, ground, asked) };
  });
  const besideCents = search.effort === 'compare' ? besideWire(search, openings) : 0;
  for (const { opening, wireCents } of openings) push(open, wireCents + besideCents, opening);
  return { taken: [], open, leastCents: leastRank(open) };
}

/** The layers of a run in a metal and size, for each way to open the ground. */
export function layersOfRun(search: Search, run: number, sized: Sized): Layers[] {
  return search.grounds.map((ground) => layersAt(search, { run, sized, ground, free: NOTHING_FREE }));
}

/** Do metals and sizes of all runs keep the voltage drop that the search keeps? */
export function keepsDrop(search: Search, sizes: readonly Sized[]): boolean {
  const { model } = search;
  const most = mostDropPercent(search) + 1e-9;
  const arriving = Math.max(0, ...sizes.slice(0, model.arriving).map(({ dropPercent }) => dropPercent));
  const branches = sizes.filter((_, at) => at >= model.arriving && endsAtCharger(model, at));
  return arriving + Math.max(0, ...branches.map(({ dropPercent }) => dropPercent)) <= most;
}

/**
 * What a run costs beside its wire in the size with the cheapest: larger ones hardly cost less. No bound, but it spares to
 * look at sizes that nobody would take where an option is only compared.
 */
function besideWire(search: Search, openings: readonly { opening: Opening; wireCents: number }[]): number {
  const [first] = [...openings].sort((a, b) => a.wireCents - b.wireCents);
  return first ? Math.max(0, floorCents(layersAt(search, first.opening)) - first.wireCents) : 0;
}

/** What the wire costs at least, and what the end of the run adds. */
function wireCentsOf(search: Search, ground: Ground, asked: RunAsked): number {
  const { run, sized, free } = asked;
  return once(search.wireCents, `${run} ${sized.order} ${[...free].join()}`, () => {
    const question = questionOf(search, ground, asked);
    const ends = (sized.choices.at(-1) ?? []).map(question.endsCents);
    return leastWireCents(question) + Math.min(...ends);
  });
}

/** Percent that may be lost from the start to a charger: what was asked for, or the least where nothing keeps that. */
function mostDropPercent({ model, sizes }: Search): number {
  const leastOfRun = sizes.map((some) => Math.min(...some.map(({ dropPercent }) => dropPercent)));
  const arriving = leastOfRun.slice(0, model.arriving);
  const branches = leastOfRun.filter((_, at) => at >= model.arriving && endsAtCharger(model, at));
  const least = Math.max(...arriving) + Math.max(0, ...branches);
  return Math.max(model.job.option.maxDropPercent, least);
}

const endsAtCharger = ({ runs }: OptionModel, at: number) => (runs[at]?.space.circuit.chargers.length ?? 0) > 0;

/**
 * Sizes that keep the drop together. Each size of a feeder leaves its branches what it does not lose itself; circuits
 * that come from the start each stand alone.
 */
function familiesOf(search: Search, ground: Ground): Family[] {
  const { model, sizes } = search;
  const most = mostDropPercent(search) + 1e-9;
  const { arriving } = model;
  if (arriving !== 1 || sizes.length === 1) {
    const keeping = sizes.map((some) => some.filter(({ dropPercent }) => dropPercent <= most));
    return [{ ground, lists: keeping.map((sizes, run) => listOf(search, ground, { run, sizes, free: NOTHING_FREE })) }];
  }
  const branchLists = new Map<string, RunList>();
  return (sizes[0] ?? []).flatMap((feeder): Family[] => {
    if (feeder.dropPercent > most) return [];
    const paid = kindsOf(search, ground, 0, feeder);
    const lists = sizes.slice(1).map((some, index) => {
      const run = index + 1;
      const kept = endsAtCharger(model, run)
        ? some.filter(({ dropPercent }) => feeder.dropPercent + dropPercent <= most)
        : some;
      const own = new Set(kept.flatMap((sized) => [...kindsOf(search, ground, run, sized)]));
      const free = new Set([...paid].filter((kind) => own.has(kind)).sort((a, b) => a - b));
      return once(branchLists, `${run} ${kept.map(({ order }) => order).join()} ${[...free].join()}`, () =>
        listOf(search, ground, { run, sizes: kept, free }),
      );
    });
    return [{ ground, lists: [listOf(search, ground, { run: 0, sizes: [feeder], free: NOTHING_FREE }), ...lists] }];
  });
}

const aluminumRuns = (chosen: readonly RunWay[]) => chosen.filter(({ sized }) => sized.metal === 'aluminum').length;

/** Fewest lines without a price, least cost; of equals fewer splices, then copper, then smaller sizes and the order of methods. */
function byCost(a: PricedChoice, b: PricedChoice): number {
  return (
    a.cost.unpriced - b.cost.unpriced ||
    a.cost.cents - b.cost.cents ||
    a.cost.splices - b.cost.splices ||
    aluminumRuns(a.chosen) - aluminumRuns(b.chosen) ||
    bySizesAndMethods(a.chosen, b.chosen)
  );
}

function bySizesAndMethods(a: readonly RunWay[], b: readonly RunWay[]): number {
  for (const [at, { sized, path }] of a.entries()) {
    const other = b[at];
    if (!other) return 0;
    if (sized.order !== other.sized.order) return sized.order - other.sized.order;
    for (const [piece, { method }] of path.entries()) {
      const than = other.path[piece]?.method ?? method;
      if (than !== method) return WIRING_METHODS.indexOf(method) - WIRING_METHODS.indexOf(than);
    }
  }
  return 0;
}
