/*
 * Which packages hold lengths that may not be spliced, at the least cost: cut out of coils or by the foot. Prices in
 * whole cents, lengths in feet.
 */
import { firstGuess } from './cutting/guess.ts';
import { cuttingJob, type LengthOffer, PARTS_OF_A_FOOT } from './cutting/job.ts';
import type { Cutting } from './cutting/plan.ts';
import { cheapestCutting } from './cutting/search.ts';
import { cheapestOfFew } from './cutting/small-job.ts';

export type { LengthOffer };

/** Ours: some milliseconds. A job that takes longer is one of many pieces. */
const MOST_STEPS_OF_FEW = 20_000;

/** What is bought of one offer. By the foot `count` is in feet; `pieces` are what is cut of each coil, or each cut. */
export interface LengthPurchase {
  offer: number;
  count: number;
  pieces: number[][];
}
export interface CutPlan {
  buy: LengthPurchase[];
  costCents: number;
  leftOverFt: number;
  /** Is the cost proved to be the least? False only where the search was cut short. */
  proven: boolean;
}

/**
 * The cheapest way to cut pieces that may not be spliced. What is sold by the foot is cut in whole feet, piece by piece.
 * Exact: a search that is quick for few pieces, then one with a bound that holds for many, which begins where that ended.
 * @param pieces  lengths in feet, all more than 0
 * @returns       nothing where a piece is longer than every coil and none is sold by the foot
 */
export function cheapestPackages({
  pieces,
  offers,
}: {
  pieces: readonly number[];
  offers: readonly LengthOffer[];
}): CutPlan | undefined {
  const job = cuttingJob(pieces, offers);
  if (!job) return undefined;
  const few = cheapestOfFew(job, { guess: firstGuess(job), mostSteps: MOST_STEPS_OF_FEW });
  const { best: cutting, proven } = few.proven ? few : cheapestCutting(job, few.best);
  const buy = offers.flatMap((offer, at) => purchaseOf({ offer, at, cutting, lengths: job.lengths }) ?? []);
  const boughtFt = sum(buy.map(({ offer, count }) => count * (offers[offer]?.lengthFt ?? 1)));
  return {
    buy,
    costCents: cutting.cents,
    leftOverFt: Math.round((boughtFt - sum(pieces)) * PARTS_OF_A_FOOT) / PARTS_OF_A_FOOT,
    proven,
  };
}

const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);

function purchaseOf({
  offer,
  at,
  cutting,
  lengths,
}: {
  offer: LengthOffer;
  at: number;
  cutting: Cutting;
  lengths: readonly number[];
}): LengthPurchase | undefined {
  const cuts = cutting.cuts
    .filter((cut) => cut.offer === at)
    .map(({ counts }) => counts.flatMap((count, of) => Array<number>(count).fill(lengths[of] ?? 0)));
  if (cuts.length === 0) return undefined;
  const feet = sum(cuts.map(([piece = 0]) => Math.ceil(piece / PARTS_OF_A_FOOT)));
  return {
    offer: at,
    count: offer.lengthFt === null ? feet : cuts.length,
    pieces: cuts.map((cut) => cut.map((piece) => piece / PARTS_OF_A_FOOT)),
  };
}
