/*
 * Cuts the longest piece that is left in every way that was listed, and goes on with the rest, as long as not more is
 * lost than may be lost.
 */
import type { Way } from './ways.ts';

export interface Finished {
  cents: number;
  ways: Way[];
}

/**
 * The cheapest plan out of the ways that were listed, if it costs less than `below`.
 * @param mayLose  what a plan of so many cents may lose, in thousandths of a cent
 * @param steps    how far to look
 * @returns        `complete`: were all plans looked at?
 */
export function finish(
  counts: readonly number[],
  {
    ways,
    below,
    mayLose,
    steps,
  }: { ways: readonly Way[][]; below: number; mayLose: (below: number) => number; steps: number },
): { best?: Finished; complete: boolean; steps: number } {
  const left = [...counts];
  const places = placesOf(counts);
  const seen = new Map<number, { spent: number; lost: number }>();
  const chosen: Way[] = [];
  let best: Finished | undefined;
  let most = mayLose(below);
  let looked = 0;
  const from = (first: number, spent: number, lost: number, state: number): void => {
    let longest = first;
    while (longest < left.length && left[longest] === 0) longest++;
    if (longest === left.length) {
      if (spent >= (best?.cents ?? below)) return;
      best = { cents: spent, ways: [...chosen] };
      most = mayLose(spent);
      return;
    }
    if (places) {
      const before = seen.get(state);
      if (before && before.spent <= spent && before.lost <= lost) return;
      seen.set(state, { spent, lost });
    }
    for (const way of ways[longest] ?? []) {
      if (lost + way.loss > most || looked++ > steps) return;
      if (!fits(way, left)) continue;
      let rest = state;
      for (let of = 0; of < way.at.length; of++) {
        const at = way.at[of] ?? 0;
        left[at] = (left[at] ?? 0) - (way.counts[of] ?? 0);
        rest += (way.counts[of] ?? 0) * (places?.[at] ?? 0);
      }
      chosen.push(way);
      from(longest, spent + way.cents, lost + way.loss, rest);
      chosen.pop();
      for (let of = 0; of < way.at.length; of++) {
        const at = way.at[of] ?? 0;
        left[at] = (left[at] ?? 0) + (way.counts[of] ?? 0);
      }
    }
  };
  from(0, 0, 0, 0);
  return { ...(best && { best }), complete: looked <= steps, steps: looked };
}

function fits({ at, counts }: Way, left: readonly number[]): boolean {
  for (let of = 0; of < at.length; of++) if ((counts[of] ?? 0) > (left[at[of] ?? 0] ?? 0)) return false;
  return true;
}

/** Place values that give every state a number of its own; nothing where there are too many states for one. */
function placesOf(counts: readonly number[]): number[] | undefined {
  let place = 1;
  const places = counts.map((count) => {
    const own = place;
    place *= count + 1;
    return own;
  });
  return place <= Number.MAX_SAFE_INTEGER ? places : undefined;
}
