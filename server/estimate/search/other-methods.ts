/*
 * What a leg would cost in another method: the run is searched anew with that method on that leg, all else as it may be,
 * and the plan that this gives is priced in full.
 */
import type { WiringMethod } from '../vocabulary.ts';
import { keepsDrop } from './families.ts';
import type { Layers } from './layers.ts';
import { costOfChoice, type PlanCost } from './option-model.ts';
import { type RunWay, takeWay, type Ways, waysThrough } from './paths.ts';
import { layersOfRun } from './run-lists.ts';
import type { Found } from './search.ts';

/** A method that a leg does not have, with what the option's cost would be; nothing where none can be bought that carries the circuit. */
export interface OtherCost {
  run: number;
  leg: number;
  method: WiringMethod;
  cents: number | undefined;
}

/** Longer routes are not searched anew leg by leg: what was priced on the way is known of them. */
const MOST_PIECES = 12;
/** Metals and sizes that are looked at for one method, the one that was chosen first. */
const MOST_SIZES = 3;
/** Ways that are tried where the first cannot be bought as a whole. */
const MOST_WAYS = 4;

/** Finds what each lawful method that was not chosen would cost, leg by leg. */
export function otherCosts(found: Found): OtherCost[] {
  const { search } = found;
  return search.model.runs.flatMap(({ space }, run) =>
    space.pieces.flatMap(({ at, methods, laid }) => {
      const leg = laid.placed?.leg;
      const chosen = found.priced[0]?.chosen[run]?.path[at]?.method;
      if (leg === undefined || chosen === undefined) return [];
      const others = methods.filter((method) => method !== chosen);
      return others.map((method) => ({ run, leg, method, cents: costWith(found, { run, piece: at, method }) }));
    }),
  );
}

interface Wish {
  run: number;
  piece: number;
  method: WiringMethod;
}

function costWith(found: Found, wish: Wish): number | undefined {
  const priced = found.priced.filter(({ chosen, cost }) => {
    return cost.unpriced === 0 && chosen[wish.run]?.path[wish.piece]?.method === wish.method;
  });
  const known = priced.map(({ cost }) => cost.cents);
  const { model } = found.search;
  const isShort = (model.runs[wish.run]?.space.pieces.length ?? 0) <= MOST_PIECES;
  const costs = known.length > 0 || !isShort ? known : searchedCosts(found, wish);
  return costs.length > 0 ? Math.min(...costs) : undefined;
}

/** Prices the best way that has the method on the leg, in the chosen metal and size, or in the next one that has it. */
function searchedCosts({ search, priced }: Found, { run, piece, method }: Wish): number[] {
  const best = priced[0]?.chosen ?? [];
  const own = best[run]?.sized;
  const sizes = (search.sizes[run] ?? [])
    .filter(({ choices }) => choices[piece]?.some((choice) => choice.method === method))
    .filter((sized) =>
      keepsDrop(
        search,
        best.map((way, at) => (at === run ? sized : way.sized)),
      ),
    )
    .sort((a, b) => Number(b === own) - Number(a === own) || a.order - b.order);
  for (const sized of sizes.slice(0, MOST_SIZES)) {
    const costs = layersOfRun(search, run, sized).flatMap((layers) => {
      return firstCost(waysThrough(sized, onlyWith(layers, { piece, method }), search), (way) =>
        costOfChoice(search.model, best.with(run, way)),
      );
    });
    if (costs.length > 0) return costs;
  }
  return [];
}

/** The cost of the first way that can be bought as a whole; nothing where none of the first few can. */
function firstCost(ways: Ways, costOf: (way: RunWay) => PlanCost | undefined): number[] {
  for (let tried = 0; tried < MOST_WAYS; tried += 1) {
    const way = takeWay(ways);
    if (!way) return [];
    const cost = costOf(way);
    if (cost && cost.unpriced === 0) return [cost.cents];
  }
  return [];
}

/** The layers of a run in which one piece has one method. */
function onlyWith(layers: Layers, { piece, method }: Omit<Wish, 'run'>): Layers {
  const isSo = (at: number, node: number) => at !== piece || layers.nodes[at]?.[node]?.choice.method === method;
  const last = layers.nodes.length - 1;
  return {
    ...layers,
    step: (at, from, to) => (isSo(at, from) && isSo(at + 1, to) ? layers.step(at, from, to) : Number.POSITIVE_INFINITY),
    startCents: (to) => (isSo(0, to) ? layers.startCents(to) : Number.POSITIVE_INFINITY),
    endCents: (from) => (isSo(last, from) ? layers.endCents(from) : Number.POSITIVE_INFINITY),
  };
}
