/*
 * Which packages hold lengths that may not be spliced, at the least cost: cut out of coils or by the foot. Prices in
 * whole cents, lengths in feet.
 */

/** A coil of so many feet at the price of the coil, or sold by the foot (`null`) at the price of a foot. */
export interface LengthOffer {
  lengthFt: number | null;
  priceCents: number;
}
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

/** Lengths are compared in whole millionths of a foot, so that no sum of pieces misses a coil by binary dust. */
const MICRO = 1_000_000;
/** How far a search may go; beyond it the best plan so far is taken. Ours: some tens of milliseconds. */
const MOST_STEPS = 400_000;
/** How finely the bound looks at lengths: so many steps over the whole. */
const BOUND_STEPS = 2_000;

interface Coil {
  offer: number;
  length: number;
  price: number;
}
interface Cut {
  /** The offer by the foot, or a coil. */
  offer: number;
  pieces: number[];
}
interface Search {
  /** Distinct lengths, longest first, in millionths of a foot. */
  lengths: number[];
  coils: Coil[];
  byFoot?: { offer: number; price: number };
  atLeast: (length: number) => number;
  best: { cost: number; cuts: Cut[] };
  seen: Map<string, number>;
  steps: number;
}

/**
 * The cheapest way to cut pieces that may not be spliced. What is sold by the foot is cut in whole feet, piece by piece.
 * Exact: branch and bound over what each coil holds, longest piece first.
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
  const micro = pieces.map((feet) => Math.round(feet * MICRO)).sort((a, b) => b - a);
  const search = searchFor(micro, offers);
  const longest = micro[0] ?? 0;
  if (!search.byFoot && !search.coils.some(({ length }) => length >= longest)) return undefined;
  const counts = search.lengths.map((length) => micro.filter((piece) => piece === length).length);
  search.best = firstGuess(search, micro);
  branch(search, { counts, left: sum(micro), cost: 0, cuts: [] });
  return cutPlan({ search, pieces, offers });
}

function searchFor(micro: readonly number[], offers: readonly LengthOffer[]): Search {
  const coils: Coil[] = [];
  let byFoot: Search['byFoot'];
  offers.forEach(({ lengthFt, priceCents }, offer) => {
    if (lengthFt !== null) coils.push({ offer, length: Math.round(lengthFt * MICRO), price: priceCents });
    else if (!byFoot || priceCents < byFoot.price) byFoot = { offer, price: priceCents };
  });
  const useful = coils.filter((coil) => !coils.some((other) => other !== coil && beats(other, coil)));
  return {
    lengths: [...new Set(micro)],
    coils: useful.sort((a, b) => a.price / a.length - b.price / b.length || a.offer - b.offer),
    ...(byFoot && { byFoot }),
    atLeast: coveringBound({ total: sum(micro), coils: useful, perFootCents: byFoot?.price }),
    best: { cost: Number.POSITIVE_INFINITY, cuts: [] },
    seen: new Map(),
    steps: 0,
  };
}

/** Is another coil as long for no more money? Equal ones: the first stated. */
function beats(other: Coil, coil: Coil): boolean {
  if (other.length < coil.length || other.price > coil.price) return false;
  return other.length > coil.length || other.price < coil.price || other.offer < coil.offer;
}

/**
 * The least that any offers of a given length in all can cost, whatever the pieces: a covering knapsack over the
 * length, coarser for very long jobs. Coils count a little longer and what is asked a little shorter than they are.
 */
function coveringBound({
  total,
  coils,
  perFootCents,
}: {
  total: number;
  coils: readonly Coil[];
  perFootCents: number | undefined;
}): (length: number) => number {
  const step = Math.max(MICRO, Math.ceil(total / BOUND_STEPS));
  const perStep = perFootCents === undefined ? Number.POSITIVE_INFINITY : (perFootCents * step) / MICRO;
  const least = [0];
  for (let at = 1; at <= Math.floor(total / step); at++) {
    let cents = (least[at - 1] ?? 0) + perStep;
    for (const { length, price } of coils) {
      cents = Math.min(cents, (least[Math.max(0, at - Math.ceil(length / step))] ?? 0) + price);
    }
    least.push(cents);
  }
  return (length) => least[Math.floor(length / step)] ?? 0;
}

const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
const footCents = (length: number, perFoot: number) => Math.ceil(length / MICRO) * perFoot;

/** A plan to beat: longest piece first, each into the coil already open, by the foot or into a new coil of one kind. */
function firstGuess(search: Search, micro: readonly number[]): Search['best'] {
  const guesses = [...search.coils, undefined].flatMap((coil) => guessWith({ search, micro, coil }) ?? []);
  return guesses.reduce((best, guess) => (guess.cost < best.cost ? guess : best), search.best);
}

function guessWith({
  search: { byFoot },
  micro,
  coil,
}: {
  search: Search;
  micro: readonly number[];
  coil: Coil | undefined;
}): Search['best'] | undefined {
  const open: { room: number; cut: Cut }[] = [];
  const cuts: Cut[] = [];
  let cost = 0;
  for (const piece of micro) {
    const into = open.find(({ room }) => room >= piece);
    if (into) {
      into.room -= piece;
      into.cut.pieces.push(piece);
      continue;
    }
    const newCoil = coil && coil.length >= piece ? coil : undefined;
    if (byFoot && (!newCoil || footCents(piece, byFoot.price) <= newCoil.price / 2)) {
      cost += footCents(piece, byFoot.price);
      cuts.push({ offer: byFoot.offer, pieces: [piece] });
    } else if (newCoil) {
      const cut = { offer: newCoil.offer, pieces: [piece] };
      cost += newCoil.price;
      cuts.push(cut);
      open.push({ room: newCoil.length - piece, cut });
    } else return undefined;
  }
  return { cost, cuts };
}

interface Branch {
  /** How many of each length are not cut yet. */
  counts: number[];
  left: number;
  cost: number;
  cuts: Cut[];
}

/** Cuts the longest piece that is left in every way that could still be cheaper, and goes on with the rest. */
function branch(search: Search, { counts, left, cost, cuts }: Branch): void {
  const longest = counts.findIndex((count) => count > 0);
  if (longest < 0) {
    if (cost < search.best.cost) search.best = { cost, cuts };
    return;
  }
  if (cost + search.atLeast(left) >= search.best.cost || search.steps++ > MOST_STEPS) return;
  const state = counts.join();
  if ((search.seen.get(state) ?? Number.POSITIVE_INFINITY) <= cost) return;
  search.seen.set(state, cost);
  const piece = search.lengths[longest] ?? 0;
  if (search.byFoot) {
    const rest = counts.with(longest, (counts[longest] ?? 0) - 1);
    const cut = { offer: search.byFoot.offer, pieces: [piece] };
    const spent = cost + footCents(piece, search.byFoot.price);
    branch(search, { counts: rest, left: left - piece, cost: spent, cuts: [...cuts, cut] });
  }
  for (const coil of search.coils) {
    if (coil.length < piece) continue;
    const spent = cost + coil.price;
    if (spent + search.atLeast(Math.max(0, left - coil.length)) >= search.best.cost) continue;
    for (const fill of fills(search, { counts, longest, room: coil.length })) {
      const rest = counts.map((count, at) => count - (fill[at] ?? 0));
      const held = fill.flatMap((count, at) => Array<number>(count).fill(search.lengths[at] ?? 0));
      branch(search, {
        counts: rest,
        left: left - sum(held),
        cost: spent,
        cuts: [...cuts, { offer: coil.offer, pieces: held }],
      });
    }
  }
}

/** All ways to fill a coil that hold the longest piece and leave no room for another one: less in it saves nothing. */
function* fills(
  search: Search,
  { counts, longest, room }: { counts: readonly number[]; longest: number; room: number },
): Generator<number[]> {
  const { lengths } = search;
  const fill = counts.map(() => 0);
  const fits = (at: number, space: number) => Math.min(counts[at] ?? 0, Math.floor(space / (lengths[at] ?? 1)));
  function* from(at: number, space: number): Generator<number[]> {
    if (search.steps++ > MOST_STEPS) return;
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

function cutPlan({
  search,
  pieces,
  offers,
}: {
  search: Search;
  pieces: readonly number[];
  offers: readonly LengthOffer[];
}): CutPlan {
  const buy = offers.flatMap((offer, at): LengthPurchase[] => {
    const cuts = search.best.cuts.filter((cut) => cut.offer === at).map((cut) => cut.pieces);
    if (cuts.length === 0) return [];
    const feet = sum(cuts.map(([piece = 0]) => Math.ceil(piece / MICRO)));
    const count = offer.lengthFt === null ? feet : cuts.length;
    return [{ offer: at, count, pieces: cuts.map((cut) => cut.map((piece) => piece / MICRO)) }];
  });
  const boughtFt = sum(buy.map(({ offer, count }) => count * (offers[offer]?.lengthFt ?? 1)));
  return {
    buy,
    costCents: search.best.cost,
    leftOverFt: Math.round((boughtFt - sum(pieces)) * MICRO) / MICRO,
    proven: search.steps <= MOST_STEPS,
  };
}
