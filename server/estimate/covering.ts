/*
 * What is counted or poured: sticks, bags, boxes of staples. Any packages together that hold at least what is taken.
 */

/** A package of so many units, in whole cents. */
export interface CoverOffer {
  quantity: number;
  priceCents: number;
}
export interface CoverPlan {
  buy: { offer: number; count: number }[];
  costCents: number;
  leftOver: number;
}

/** Quantities are compared in whole ten-thousandths of a unit. */
const SCALE = 10_000;
/** How far a search may go; ours, reached only with dozens of packages of nearly one unit price. */
const MOST_STEPS = 200_000;

interface Package {
  offer: number;
  size: number;
  price: number;
}
interface Best {
  cost: number;
  counts: number[];
  steps: number;
}

/**
 * The cheapest packages that cover a quantity, each bought whole. Exact: the packages with the best unit price are
 * tried first, and a way is left as soon as the rest at that unit price is no cheaper than the best found.
 * @param quantity  units, more than 0
 * @returns         nothing where no package is offered
 */
export function cheapestCover({
  quantity,
  offers,
}: {
  quantity: number;
  offers: readonly CoverOffer[];
}): CoverPlan | undefined {
  const packages = offers
    .map(
      ({ quantity: size, priceCents }, offer): Package => ({
        offer,
        size: Math.round(size * SCALE),
        price: priceCents,
      }),
    )
    .sort((a, b) => a.price / a.size - b.price / b.size || a.offer - b.offer);
  if (packages.length === 0) return undefined;
  const wanted = Math.round(quantity * SCALE);
  const best: Best = { cost: Number.POSITIVE_INFINITY, counts: [], steps: 0 };
  cover({ packages, best, at: 0, left: wanted, cost: 0, counts: [] });
  const buy = packages
    .flatMap(({ offer }, at) => {
      const count = best.counts[at] ?? 0;
      return count > 0 ? [{ offer, count }] : [];
    })
    .sort((a, b) => a.offer - b.offer);
  const bought = packages.reduce((sum, { size }, at) => sum + size * (best.counts[at] ?? 0), 0);
  return { buy, costCents: best.cost, leftOver: (bought - wanted) / SCALE };
}

interface Step {
  packages: readonly Package[];
  best: Best;
  at: number;
  left: number;
  cost: number;
  counts: number[];
}

function cover({ packages, best, at, left, cost, counts }: Step): void {
  if (left <= 0) {
    if (cost < best.cost) Object.assign(best, { cost, counts });
    return;
  }
  const next = packages[at];
  if (!next || cost + (left * next.price) / next.size >= best.cost) return;
  if (best.steps++ > MOST_STEPS) return;
  for (let count = Math.ceil(left / next.size); count >= 0; count--) {
    const spent = cost + count * next.price;
    if (spent >= best.cost) continue;
    cover({ packages, best, at: at + 1, left: left - count * next.size, cost: spent, counts: [...counts, count] });
  }
}
