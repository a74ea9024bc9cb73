/*
 * Few pieces: the longest one that is left is cut in every way that could still be cheaper, the rest likewise. The bound
 * is what any coils of so many feet in all must cost, whatever the pieces.
 */
import { type Coil, type CuttingJob, PARTS_OF_A_FOOT } from './job.ts';
import type { Cut, Cutting } from './plan.ts';

/** How finely the bound looks at lengths: so many steps over the whole. */
const BOUND_STEPS = 2_000;

interface Search {
  job: CuttingJob;
  /** The least for its length first. */
  coils: readonly Coil[];
  atLeast: (length: number) => number;
  best: Cutting;
  seen: Map<string, number>;
  steps: number;
  mostSteps: number;
}
interface State {
  /** How many of each length are not cut yet. */
  counts: number[];
  left: number;
  cents: number;
  cuts: Cut[];
}

/**
 * The cheapest cutting, or the best one in so many steps.
 * @param guess  a plan to beat
 * @returns      `proven`: is none cheaper? False where the search was cut short
 */
export function cheapestOfFew(
  job: CuttingJob,
  { guess, mostSteps }: { guess: Cutting; mostSteps: number },
): { best: Cutting; proven: boolean } {
  const total = job.lengths.reduce((feet, length, at) => feet + length * (job.counts[at] ?? 0), 0);
  const search: Search = {
    job,
    coils: job.coils.toSorted((a, b) => a.cents / a.length - b.cents / b.length || a.offer - b.offer),
    atLeast: coveringBound(job, total),
    best: guess,
    seen: new Map(),
    steps: 0,
    mostSteps,
  };
  branch(search, { counts: job.counts, left: total, cents: 0, cuts: [] });
  return { best: search.best, proven: search.steps <= mostSteps };
}

/**
 * The least that any offers of a given length in all can cost: a covering knapsack over the length, coarser for very
 * long jobs. Coils count a little longer and what is asked a little shorter than they are.
 */
function coveringBound({ coils, footCents }: CuttingJob, total: number): (length: number) => number {
  const step = Math.max(PARTS_OF_A_FOOT, Math.ceil(total / BOUND_STEPS));
  const perStep = (footCents ?? Number.POSITIVE_INFINITY) * (step / PARTS_OF_A_FOOT);
  const least = [0];
  for (let at = 1; at <= Math.floor(total / step); at++) {
    let cents = (least[at - 1] ?? 0) + perStep;
    for (const { length, cents: price } of coils) {
      cents = Math.min(cents, (least[Math.max(0, at - Math.ceil(length / step))] ?? 0) + price);
    }
    least.push(cents);
  }
  return (length) => least[Math.floor(length / step)] ?? 0;
}

function branch(search: Search, { counts, left, cents, cuts }: State): void {
  const { job, seen } = search;
  const longest = counts.findIndex((count) => count > 0);
  if (longest < 0) {
    if (cents < search.best.cents) search.best = { cents, cuts };
    return;
  }
  if (cents + search.atLeast(left) >= search.best.cents || search.steps++ > search.mostSteps) return;
  const state = counts.join();
  if ((seen.get(state) ?? Number.POSITIVE_INFINITY) <= cents) return;
  seen.set(state, cents);
  const piece = job.lengths[longest] ?? 0;
  const foot = job.byFoot[longest];
  if (foot) {
    const cut = { offer: foot.offer, counts: counts.map((_, at) => (at === longest ? 1 : 0)) };
    const rest = counts.with(longest, (counts[longest] ?? 0) - 1);
    branch(search, { counts: rest, left: left - piece, cents: cents + foot.cents, cuts: [...cuts, cut] });
  }
  for (const coil of search.coils) {
    const spent = cents + coil.cents;
    if (coil.length < piece || spent + search.atLeast(Math.max(0, left - coil.length)) >= search.best.cents) continue;
    for (const fill of fills(search, { counts, longest, room: coil.length })) {
      const rest = counts.map((count, at) => count - (fill[at] ?? 0));
      const held = fill.reduce((feet, count, at) => feet + count * (job.lengths[at] ?? 0), 0);
      const cut = { offer: coil.offer, counts: fill };
      branch(search, { counts: rest, left: left - held, cents: spent, cuts: [...cuts, cut] });
    }
  }
}

/** All ways to fill a coil that hold the longest piece and leave no room for another one: less in it saves nothing. */
function* fills(
  search: Search,
  { counts, longest, room }: { counts: readonly number[]; longest: number; room: number },
): Generator<number[]> {
  const { lengths } = search.job;
  const fill = counts.map(() => 0);
  const fits = (at: number, space: number) => Math.min(counts[at] ?? 0, Math.floor(space / (lengths[at] ?? 1)));
  function* from(at: number, space: number): Generator<number[]> {
    if (search.steps++ > search.mostSteps) return;
    if (at >= lengths.length) {
      const roomy = lengths.some((length, of) => length <= space && (fill[of] ?? 0) < (counts[of] ?? 0));
      if (!roomy) yield [...fill];
      return;
    }
    for (let count = fits(at, space); count >= (at === longest ? 1 : 0); count--) {
      fill[at] = count;
      yield* from(at + 1, space - count * (lengths[at] ?? 0));
    }
    fill[at] = 0;
  }
  yield* from(longest, room);
}
