/*
 * Branch and bound. The bound is what the pieces are worth (worths.ts). Where few plans are left between it and the best
 * one, all are looked at (finish.ts); else the problem is split, first by how many coils of a kind are bought, then by
 * what is cut along with the longest piece.
 */
import { finish } from './finish.ts';
import { guessByWorths } from './guess.ts';
import type { CuttingJob } from './job.ts';
import type { Cut, Cutting } from './plan.ts';
import { type Way, waysOf } from './ways.ts';
import { type Fill, type Left, PARTS_OF_A_CENT, type Worths, worthsOf } from './worths.ts';

/** How far a search may go; beyond it the best plan so far is taken. Ours: up to a second or so. */
const MOST_STEPS = 1_000_000;
/** Ours: how far all plans are looked at before a problem is split. */
const MOST_WAY_STEPS = 20_000;
const MOST_FINISH_STEPS = 100_000;
/** Plans that lose this share are looked at first. Ours. */
const FIRST_LOSS = 0.005;
/** Fewer than this of a coil more or less than a whole number is a whole number. */
const NEARLY = 1e-2;

interface Search {
  job: CuttingJob;
  best: Cutting;
  fills: Fill[];
  work: { steps: number };
}
interface State extends Left {
  spent: number;
  cuts: Cut[];
}

/**
 * The cheapest cutting.
 * @param guess  a plan to beat
 * @returns      `proven`: is none cheaper? False only where the search was cut short
 */
export function cheapestCutting(job: CuttingJob, guess: Cutting): { best: Cutting; proven: boolean } {
  const search: Search = { job, best: guess, fills: [], work: { steps: 0 } };
  const pieces = job.counts.reduce((total, count) => total + count, 0);
  const ranges = job.coils.map(() => ({ least: 0, most: pieces }));
  const { worths } = worthsOf(job, { counts: job.counts, ranges }, { tooDear: guess.cents, ...search });
  const better = guessByWorths(job, worths);
  if (better.cents < search.best.cents) search.best = better;
  branch(search, { counts: job.counts, ranges, spent: 0, cuts: [] });
  return { best: search.best, proven: search.work.steps <= MOST_STEPS };
}

function branch(search: Search, state: State): void {
  const { job, work } = search;
  const { counts, ranges, spent, cuts } = state;
  if (counts.every((count) => count === 0)) {
    if (spent < search.best.cents) search.best = { cents: spent, cuts };
    return;
  }
  if (work.steps > MOST_STEPS) return;
  const worths = worthsOf(job, state, { tooDear: search.best.cents, fills: search.fills, work });
  if (mayLose(search, { state, worths }) < 0 || finished(search, { state, worths })) return;
  const uneven = mostUneven(worths.coils, ranges);
  if (uneven !== undefined) {
    const coils = Math.floor((worths.coils[uneven] ?? 0) + NEARLY);
    const limited = (range: Partial<{ least: number; most: number }>) =>
      ranges.map((one, coil) => (coil === uneven ? { ...one, ...range } : one));
    branch(search, { ...state, ranges: limited({ least: coils + 1 }) });
    branch(search, { ...state, ranges: limited({ most: coils }) });
    return;
  }
  const longest = counts.findIndex((count) => count > 0);
  const { ways } = waysOf(job, state, {
    worths,
    mayLose: mayLose(search, { state, worths }),
    steps: MOST_STEPS - work.steps,
  });
  if (!ways) work.steps = MOST_STEPS + 1;
  for (const way of ways?.[longest] ?? []) {
    if (way.loss > mayLose(search, { state, worths })) return;
    branch(search, afterCut(state, way));
  }
}

function afterCut({ counts, ranges, spent, cuts }: State, way: Way): State {
  const cut = cutOf(way, counts.length);
  return {
    counts: counts.map((count, at) => count - (cut.counts[at] ?? 0)),
    ranges: ranges.map((range, at) =>
      at === way.coil ? { least: Math.max(0, range.least - 1), most: range.most - 1 } : range,
    ),
    spent: spent + way.cents,
    cuts: [...cuts, cut],
  };
}

function cutOf({ offer, at, counts }: Way, kinds: number): Cut {
  const held = Array<number>(kinds).fill(0);
  at.forEach((one, of) => {
    held[one] = counts[of] ?? 0;
  });
  return { offer, counts: held };
}

interface Node {
  state: State;
  worths: Worths;
}

/** What a plan that costs less than the best one may lose, in thousandths of a cent: a whole cent less where costs are. */
function mayLose({ job, best }: Pick<Search, 'job' | 'best'>, { state, worths }: Node): number {
  const most = (best.cents - state.spent) * PARTS_OF_A_CENT;
  return most - worths.least - (job.wholeCents ? PARTS_OF_A_CENT : 1);
}

/** Looks at all plans, where they are few: first at those that lose little, then at those that may lose twice that. */
function finished(search: Search, node: Node): boolean {
  for (let lose = Math.max(PARTS_OF_A_CENT, node.worths.least * FIRST_LOSS); ; lose *= 2) {
    if (!finishedWithin(search, { node, lose: Math.min(lose, mayLose(search, node)) })) return false;
    if (lose >= mayLose(search, node)) return true;
  }
}

/** Looks at all plans that lose so much at the most; could it? */
function finishedWithin(search: Search, { node, lose }: { node: Node; lose: number }): boolean {
  const { job, work } = search;
  const { state, worths } = node;
  const listed = waysOf(job, state, { worths, mayLose: lose, steps: MOST_WAY_STEPS });
  work.steps += listed.steps;
  if (!listed.ways) return false;
  const { best, complete, steps } = finish(state.counts, {
    ways: listed.ways,
    below: search.best.cents - state.spent,
    mayLose: (below) => Math.min(lose, mayLose({ job, best: { cents: below + state.spent, cuts: [] } }, node)),
    steps: MOST_FINISH_STEPS,
  });
  work.steps += steps >> 3;
  if (best) {
    const cuts = best.ways.map((way) => cutOf(way, state.counts.length));
    search.best = { cents: state.spent + best.cents, cuts: [...state.cuts, ...cuts] };
  }
  return complete;
}

/** The kind of coil whose number is the farthest from whole, of those that may be as many as that and one more. */
function mostUneven(coils: readonly number[], ranges: Left['ranges']): number | undefined {
  const away = coils.map((count, coil) => {
    const { least = 0, most = 0 } = ranges[coil] ?? {};
    const whole = Math.floor(count + NEARLY);
    return least <= whole && whole < most ? Math.min(Math.max(0, count - whole), whole + 1 - count) : 0;
  });
  const most = Math.max(0, ...away);
  return most > NEARLY ? away.indexOf(most) : undefined;
}
