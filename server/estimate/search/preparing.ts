/*
 * All that a search needs before the first plan: least prices, the ground, and what every plan has.
 */
import { drillDays, isMasonry } from '../takeoff/walls.ts';
import { ABOVE_GRADE_FT } from '../takeoff/way.ts';
import type { Choice, Sized } from './choices.ts';
import { type Digging, diggingsOf, extremesOf, type GroundBound, groundBound, leastDug } from './ground-bound.ts';
import type { Layers } from './layers.ts';
import { type Days, type LeastPrices, leastOf, leastOfAlways, leastPrices } from './least-price.ts';
import { besideRuns, endDemands, endsText, type OptionModel, type RunChoice } from './option-model.ts';
import { once } from './parts.ts';
import type { Ways } from './paths.ts';
import type { Rates, SegmentRates } from './run-rates.ts';
import { runStub } from './run-tally.ts';
import { lesserOf, partOf, togetherAt } from './tally.ts';

/** Kinds of conductors that another run pays for. */
export type Free = ReadonlySet<number>;

/** Nothing is paid for elsewhere. */
export const NOTHING_FREE: Free = new Set();

/** The ground dug in one way, with the ways through each run where it is. */
export interface Ground {
  digging: Digging;
  bound: GroundBound;
  ways: Map<string, Ways>;
  layers: Map<string, Layers>;
}

/** A search on its way. */
export interface Search {
  effort: Effort;
  /** Of which number of days plans are meant; of any, where it does not say. */
  days: Days | undefined;
  /** Are conductors bounded by lines alone, whatever pieces they are cut in? Quick, and less is proved. */
  isLoose: boolean;
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

/**
 * How far a search goes: until it is proved, or until a few plans were priced. The first one priced is nearly always the
 * cheapest, so that few do where an option is only compared with a stated one.
 */
export type Effort = 'prove' | 'compare';

/** How a search goes about it. */
interface Manner {
  effort: Effort;
  days?: Days;
  isLoose?: boolean;
}

/** All that a search needs before the first plan: least prices, the ground, and what is there always. */
export function prepared(model: OptionModel, sizes: Sized[][], { effort, days, isLoose = false }: Manner): Search {
  const { plan, prices } = model;
  const extremes = extremesOf(model);
  const dug = leastDug(model, extremes).map((demands) => partOf(model.parts.kinds, demands));
  const least = leastPrices(prices, {
    plan,
    mostFt: mostWireFt(model),
    always: togetherAt([model.always, lesserOf(dug)]),
    days,
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
    ...{
      effort,
      days,
      isLoose,
      model,
      sizes,
      least,
      grounds,
      reference,
      alwaysCents: 0,
      endsCents: new Map(),
      wireCents: new Map(),
    },
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
export function settleAlways({ model, least, grounds }: Search): void {
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
    return sized ? runStub(run, sized) : run.bare;
  });
  const paths = chosen.map(({ path }) => path);
  const { others, kinds } = model.parts;
  const part = once(others, `ends ${endsText(runs, paths)}`, () => partOf(kinds, endDemands(model, runs, paths)));
  return leastOf(least, part);
}

/** How much more, or less, a run's end costs than that of the reference. */
export function endsDelta(search: Search, { run, sized, last }: { run: number; sized: Sized; last: Choice }): number {
  const { type, tradeSize } = last.conduit ?? {};
  return once(search.endsCents, `${run} ${sized.metal} ${sized.size} ${type} ${tradeSize}`, () => {
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
