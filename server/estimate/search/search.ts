/*
 * The search for the least cost: plans in the order of their bound, each priced in full, until the bound passes the best.
 */
import { WIRING_METHODS } from '../vocabulary.ts';
import { leastChangedCents, worthChanging } from './changes.ts';
import type { Sized } from './choices.ts';
import { type Family, familiesOf, floorOf, mostDropOfRun } from './families.ts';
import { emptyHeap, type Heap, leastRank, pop, push } from './heap.ts';
import { type Days, isWithin } from './least-price.ts';
import { costOfChoice, ditchesFor, type OptionModel, type PlanCost } from './option-model.ts';
import type { RunWay } from './paths.ts';
import { type Effort, type Ground, prepared, type Search, settleAlways } from './preparing.ts';
import { costOf } from './prices.ts';
import { kindsOf, listOf, type RunList, wayAt } from './run-lists.ts';
import type { RunModel } from './run-tally.ts';
import { changed, changesOf, sizesOfCircuit } from './sizes.ts';
import { add, emptyTally } from './tally.ts';

/**
 * Plans that are priced in full at most. Of a long route fewer, for speed: its best plan is among the first, and no number
 * of further ones that a user would wait for proves it.
 */
export const MOST_PRICED = 2000;
const FEW_PIECES = 9;
const MOST_PIECES = 1200;

/** Plans that are looked at in all, with those that turn out to be dug in another way than they were bounded for. */
const MOST_TRIED = 4000;

/** Roundings of one line may make a plan cheaper than its bound by so many cents: half a cent of money, and of hours. */
const ROUNDING_CENTS = 0.75;

/** A plan has fewer lines and tasks than that: a bound may lose as many roundings. */
const MOST_LINES = 300;

/** A plan with its cost. */
export interface PricedChoice {
  chosen: RunWay[];
  cost: PlanCost;
  /** What it was thought to weigh at least, in cents: never more than it does. */
  boundCents: number;
}

/** What the search found. */
export interface Found {
  /** Every plan that was priced, the best first. */
  priced: PricedChoice[];
  proof: { proven: boolean; gapCents: number };
  search: Search;
}

interface Combination {
  family: Family;
  at: number[];
  /** Only lists from here on move on, so that no combination comes twice. */
  from: number;
  /** Not looked at yet: its rank is less than that of its first ways. */
  isUnopened?: boolean;
}

/** Plans that are priced to compare; on random jobs the best of them was never 0.1 % dearer than the cheapest of all. */
const MOST_COMPARED = 8;

/** A search with the families that are open, and the plans that were priced in it or in another one of the option. */
interface Going {
  search: Search;
  heap: Heap<Combination>;
  known: Known;
  looked: number;
  tried: number;
}

interface Known {
  priced: PricedChoice[];
  best?: PricedChoice;
  /** A plan comes again for each deeper cover that its ditches might have: it is priced once. */
  seen: Set<string>;
}

/** Searches an option; nothing where no plan of it can be bought and built. */
export function searchOption(model: OptionModel, effort: Effort = 'prove'): Found | undefined {
  const sizes = model.runs.map(sizesOfRun);
  if (sizes.some((some) => some.length === 0)) return undefined;
  const known: Known = { priced: [], seen: new Set() };
  // What a quick search finds first spares the long one most of what is dearer.
  if (effort === 'prove' && !isShort(model)) swept(prepared(model, sizes, { effort: 'compare', isLoose: true }), known);
  const search = prepared(model, sizes, { effort });
  let boundCents = swept(search, known);
  if (!known.best) return undefined;
  const { days } = known.best.cost;
  if (effort === 'prove' && days > 0 && days <= MOST_DAYS && boundCents <= provenEnough(model, known.best.cost.cents)) {
    const some: Days[] = [{ is: 'at-least', days }, ...(days > 1 ? [{ is: 'at-most' as const, days: days - 1 }] : [])];
    const bounds = some.map((one) => swept(prepared(model, sizes, { effort, days: one }), known));
    boundCents = Math.max(boundCents, Math.min(...bounds));
  }
  const { best, priced } = known;
  const proven = best.cost.unpriced === 0 && boundCents >= best.cost.cents;
  const gapCents = proven ? 0 : Math.max(0, Math.ceil(best.cost.cents - boundCents));
  return { priced: priced.sort(byCost), proof: { proven, gapCents }, search };
}

/** Goes through the plans in one metal and size a run, then through those with a change. @returns what is left weighs at least */
function swept(search: Search, known: Known): number {
  const going: Going = { search, heap: emptyHeap(), known, looked: 0, tried: 0 };
  const families = search.grounds.flatMap((ground) => familiesOf(search, ground, search.sizes));
  settleAlways(search);
  open(going, families);
  explore(going, mostPriced(search));
  open(going, changingFamilies(going, families));
  explore(going, 2 * mostPriced(search));
  return boundOf(search, leastRank(going.heap));
}

/** Jobs of more working days are not searched by whole days: one of them is too little of their cost. */
const MOST_DAYS = 100;

/** Where a bound need not be looked for any closer: above the cost, or on a long route within a hundredth of it. */
function provenEnough(model: OptionModel, cents: number): number {
  return isShort(model) ? cents : (1 - WITHIN) * cents;
}

/** How near a long route is proved at least where that can be had, as a share of its cost; ours. */
const WITHIN = 0.01;

const piecesOf = ({ runs }: OptionModel) => runs.reduce((sum, { space }) => sum + space.pieces.length, 0);
const isShort = (model: OptionModel) => piecesOf(model) <= FEW_PIECES;

/** The metals and sizes that go through; where none does, the changes that do. */
function sizesOfRun({ space }: RunModel): Sized[] {
  const through = sizesOfCircuit(space);
  return through.length > 0 ? through : changesOf(space).map((change) => changed(space, change));
}

/** Plans that a search prices at most before it looks at changes, and then as many again. */
function mostPriced({ effort, model }: Search): number {
  if (effort === 'compare') return MOST_COMPARED;
  return (isShort(model) ? MOST_PRICED : Math.ceil(MOST_PIECES / piecesOf(model))) / 2;
}

function open({ heap }: Going, families: readonly Family[]): void {
  for (const family of families) {
    const rank = family.lists.reduce((sum, { leastCents }) => sum + leastCents, family.ground.bound.alwaysCents);
    push(heap, rank, { family, at: family.lists.map(() => 0), from: 0, isUnopened: true });
  }
}

/** Families in which some run changes its metal or size, as far as they may be cheaper than what was found. */
function changingFamilies({ search, known: { best } }: Going, families: readonly Family[]): Family[] {
  const { model, grounds, sizes } = search;
  return grounds.flatMap((ground) => {
    const own = families.filter((family) => family.ground === ground);
    const leasts = model.arriving > 1 ? leastOfTogether(search, own, ground) : leastOfBranches(search, ground);
    const changing = model.runs.map((_, run) => {
      const others = leasts.reduce((sum, cents, at) => sum + (at === run ? 0 : cents), ground.bound.alwaysCents);
      const besideCents = boundOf(search, others);
      const mostCents = best ? best.cost.cents - besideCents : Number.MAX_VALUE;
      return worthChanging(search, ground, { run, mostCents, mostDropPercent: mostDropOfRun(search, run) });
    });
    if (changing.every((some) => some.length === 0)) return [];
    const all = changing.map((some, run) => [
      ...(model.arriving === 1 && run === 0 ? [] : (sizes[run] ?? [])),
      ...some,
    ]);
    return familiesOf(search, ground, all);
  });
}

/** Of runs that all follow the route, each as it is or changed, whichever is less. */
function leastOfTogether(search: Search, families: readonly Family[], ground: Ground): number[] {
  return search.model.runs.map((_, run) => {
    const unchanged = families.flatMap(({ lists }) => (lists[run] ? leastOf(lists[run]) : []));
    return Math.min(leastChangedCents(search, ground, run), ...unchanged);
  });
}

/**
 * Of what hangs on a subpanel, whatever its feeder is: one that loses less leaves the branches all their sizes, and may buy
 * of all their kinds. Nothing for the feeder itself.
 */
function leastOfBranches(search: Search, ground: Ground): number[] {
  return search.sizes.map((sizes, run) => {
    if (run < search.model.arriving) return 0;
    const free = new Set(sizes.flatMap((sized) => [...kindsOf(search, ground, run, sized)]));
    const list = listOf(search, ground, { run, sizes, free });
    return wayAt(search, list, { at: 0, mostCents: Number.POSITIVE_INFINITY })?.cents ?? 0;
  });
}

/** Prices plans in the order of their bounds until that passes the best, or so many were priced. */
function explore(going: Going, most: number): void {
  const { search, heap, known } = going;
  const fewest = leastUnpriced(search);
  const passed = () => {
    const cost = known.best?.cost;
    return cost !== undefined && cost.unpriced <= fewest && boundOf(search, leastRank(heap)) > cost.cents;
  };
  while (heap.items.length > 0 && going.looked < most && going.tried < MOST_TRIED && !passed()) {
    const taken = pop(heap);
    if (!taken) break;
    const next = taken.item;
    if (next.isUnopened) {
      const floor = floorOf(search, next.family);
      if (floor > taken.rank) push(heap, floor, next);
      else pushNext(going, { ...next, isUnopened: false });
      continue;
    }
    price(going, next, taken.rank);
    next.at.forEach((place, list) => {
      if (list < next.from) return;
      pushNext(going, { family: next.family, at: next.at.with(list, place + 1), from: list });
    });
  }
}

/** Lines without a price that every plan has: one with more of them gives way to a dearer one that lacks fewer. */
function leastUnpriced({ model }: Search): number {
  const tally = emptyTally();
  add(tally, model.always);
  return costOf(model.prices, model.plan, tally).unpriced;
}

/** Prices a plan that nobody has priced yet, if its ground is dug in the way that it was bounded for. */
function price(going: Going, next: Combination, rank: number): void {
  const { search, known } = going;
  const { seen } = known;
  const chosen = waysAt(next);
  going.tried += 1;
  const paths = chosen.map(({ path }) => path);
  if (!next.family.ground.bound.isSo(ditchesFor(search.model, paths))) return;
  const text = planText(chosen);
  if (seen.has(text)) return;
  seen.add(text);
  going.looked += 1;
  const cost = costOfChoice(search.model, chosen);
  if (!cost) return;
  const boundCents = isWithin(search.days, cost.days) ? boundOf(search, rank) : 0;
  const one = { chosen, cost, boundCents };
  known.priced.push(one);
  if (!known.best || byCost(one, known.best) < 0) known.best = one;
}

/** What a plan weighs at least whose runs have this bound together. */
function boundOf({ alwaysCents }: Search, runCents: number): number {
  return alwaysCents + runCents - MOST_LINES * ROUNDING_CENTS;
}

/** What sets a plan apart from others of an option. */
function planText(chosen: readonly RunWay[]): string {
  return chosen
    .map(({ sized, path }) => `${sized.order} ${path.map(({ id, phase }) => `${id}${phase}`).join()}`)
    .join(' / ');
}

function waysAt({ family, at }: Combination): RunWay[] {
  return family.lists.flatMap((list, index) => list.taken[at[index] ?? 0] ?? []);
}

function pushNext(going: Going, combination: Combination): void {
  const { search, heap } = going;
  const { family, at } = combination;
  let cents = family.ground.bound.alwaysCents;
  for (const [index, list] of family.lists.entries()) {
    const mostCents = index === 0 ? mostOfFirst(going, family) : Number.POSITIVE_INFINITY;
    const way = wayAt(search, list, { at: at[index] ?? 0, mostCents });
    if (!way) return;
    cents += way.cents;
  }
  push(heap, cents, combination);
}

/**
 * What the run that follows the route may cost at most for its plan to be the cheapest, the others at their least: dearer
 * ways are not kept. Where several runs follow it, their lists are in many families, and nothing is said.
 */
function mostOfFirst({ search, known: { best } }: Going, { ground, lists }: Family): number {
  if (!best || best.cost.unpriced > 0 || search.model.arriving > 1) return Number.POSITIVE_INFINITY;
  const others = lists.slice(1).reduce((sum, list) => sum + leastOf(list), ground.bound.alwaysCents);
  return best.cost.cents - boundOf(search, others);
}

/** What the cheapest way of a list costs at least. */
const leastOf = ({ taken, open }: RunList) => taken[0]?.cents ?? leastRank(open);

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
