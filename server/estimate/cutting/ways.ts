/*
 * The ways to cut what is left that may still lead to a cheaper plan, each with what it loses: by how much it costs more
 * than what it holds is worth. A plan costs what all is worth and what its cuts lose.
 */
import { heldBy, mostWorth, stockOf } from './fullest.ts';
import type { CuttingJob } from './job.ts';
import { type Left, PARTS_OF_A_CENT, type Worths } from './worths.ts';

/** A coil and what it holds, or a piece by the foot. */
export interface Way {
  offer: number;
  /** Which kind of coil of the job; -1 by the foot. */
  coil: number;
  /** Indices of the lengths that it holds, and how many of each. */
  at: number[];
  counts: number[];
  cents: number;
  /** In thousandths of a cent. */
  loss: number;
}

/**
 * All ways that lose no more than may be lost, by the longest piece that they hold, least loss first. Left out is a coil
 * whose pieces would fit a shorter one or cost no more by the foot: another way is no dearer.
 * @param mayLose  in thousandths of a cent
 * @param steps    how far to look
 * @returns        one list a length of the job, none where that was too far; and how far it looked
 */
export function waysOf(
  job: CuttingJob,
  left: Left,
  { worths, mayLose, steps }: { worths: Worths; mayLose: number; steps: number },
): { ways?: Way[][]; steps: number } {
  const ways = job.lengths.map((_, at) => (left.counts[at] ? byTheFoot(job, { worths, at }) : []));
  const footCents = (at: number) => job.byFoot[at]?.cents ?? Number.POSITIVE_INFINITY;
  let looked = 0;
  const stock = stockOf(job.lengths, { counts: left.counts, worths: worths.worths });
  const fill = stock.at.map(() => 0);
  for (const [coil, { length, cents, offer }] of job.coils.entries()) {
    if (left.ranges[coil]?.most === 0) continue;
    const shorter = job.coils[coil - 1]?.length ?? 0;
    const price = cents * PARTS_OF_A_CENT - (worths.coilWorths[coil] ?? 0);
    const from = (k: number, space: number, worth: number): void => {
      if (looked++ > steps || price - worth - mostWorth(stock, k, space) > mayLose) return;
      if (k < fill.length && space >= (stock.shortestFrom[k] ?? 0)) {
        const each = stock.lengths[k] ?? 1;
        for (let count = Math.min(stock.counts[k] ?? 0, Math.floor(space / each)); count >= 0; count--) {
          fill[k] = count;
          from(k + 1, space - count * each, worth + count * (stock.worths[k] ?? 0));
        }
        fill[k] = 0;
        return;
      }
      if (length - space <= shorter || price - worth > mayLose) return;
      const held = heldBy(stock, fill);
      const feet = held.at.reduce((total, at, of) => total + (held.counts[of] ?? 0) * footCents(at), 0);
      if (feet <= cents) return;
      ways[Math.min(...held.at)]?.push({ offer, coil, ...held, cents, loss: price - worth });
    };
    from(0, length, 0);
    if (looked > steps) return { steps: looked };
  }
  for (const list of ways) list.sort((a, b) => a.loss - b.loss);
  return { ways, steps: looked };
}

function byTheFoot(job: CuttingJob, { worths, at }: { worths: Worths; at: number }): Way[] {
  const foot = job.byFoot[at];
  if (!foot) return [];
  const loss = foot.cents * PARTS_OF_A_CENT - (worths.worths[at] ?? 0);
  return [{ offer: foot.offer, coil: -1, at: [at], counts: [1], cents: foot.cents, loss }];
}
