/*
 * Metals and sizes of all runs that keep the voltage drop together, each run with the list of its ways.
 */
import type { Sized } from './choices.ts';
import { leastRank, pop, push } from './heap.ts';
import type { OptionModel } from './option-model.ts';
import { once } from './parts.ts';
import { type Ground, NOTHING_FREE, type Search } from './preparing.ts';
import { floorCents } from './run-bound.ts';
import { kindsOf, layersAt, listOf, type RunList } from './run-lists.ts';
import { leastChangedDropPercent } from './sizes.ts';

/** Lists of ways that may be combined: one for each run. */
export interface Family {
  ground: Ground;
  lists: RunList[];
}

/** What a family costs at least, by the pieces of its runs. */
export function floorOf(search: Search, { ground, lists }: Family): number {
  return lists.reduce((sum, list) => {
    for (let first = list.open.items[0]?.item; first && !first.layers; first = list.open.items[0]?.item) {
      pop(list.open);
      const layers = layersAt(search, first);
      push(list.open, floorCents(layers), { ...first, layers });
    }
    return sum + (list.taken[0]?.cents ?? leastRank(list.open));
  }, ground.bound.alwaysCents);
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
 * Percent that may be lost from the start to a charger: what was asked for where some plan keeps it, with a change of
 * metal or size if need be; else the least that one of each throughout loses.
 */
function mostDropPercent({ model, sizes }: Search): number {
  const { arriving, runs, job } = model;
  const { maxDropPercent } = job.option;
  const leastOfRun = sizes.map((some) => Math.min(...some.map(({ dropPercent }) => dropPercent)));
  const beyond = Math.max(0, ...leastOfRun.filter((_, at) => at >= arriving && endsAtCharger(model, at)));
  const least = Math.max(...leastOfRun.slice(0, arriving)) + beyond;
  if (least <= maxDropPercent) return maxDropPercent;
  const withChanges = runs.slice(0, arriving).map(({ space }, at) => {
    return Math.min(leastOfRun[at] ?? 0, leastChangedDropPercent(space));
  });
  return Math.max(...withChanges) + beyond <= maxDropPercent ? maxDropPercent : least;
}

/** Percent that one run may lose at most, the others at their least. */
export function mostDropOfRun(search: Search, run: number): number {
  const { model, sizes } = search;
  const most = mostDropPercent(search) + 1e-9;
  if (run >= model.arriving) return most;
  const branches = sizes.filter((_, at) => at >= model.arriving && endsAtCharger(model, at));
  return most - Math.max(0, ...branches.map((some) => Math.min(...some.map(({ dropPercent }) => dropPercent))));
}

const endsAtCharger = ({ runs }: OptionModel, at: number) => (runs[at]?.space.circuit.chargers.length ?? 0) > 0;

/**
 * Sizes that keep the drop together. Each size of a feeder leaves its branches what it does not lose itself; circuits
 * that come from the start each stand alone.
 */
export function familiesOf(search: Search, ground: Ground, sizes: readonly (readonly Sized[])[]): Family[] {
  const { model } = search;
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
