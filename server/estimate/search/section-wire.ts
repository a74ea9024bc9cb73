/*
 * What the conductors of one section cost at least: as pieces of their own where nothing else of the option is cut from
 * the same coils, else by the foot at the best price that any plan may get.
 */
import { pricePerFoot } from '../material-lines.ts';
import type { Demands } from '../takeoff/demand.ts';
import { type LeastPrices, leastPerUnit } from './least-price.ts';
import { materialCost } from './prices.ts';
import { partOf } from './tally.ts';

/** Conductors of one kind that run side by side through a section. */
export interface Strand {
  kind: number;
  count: number;
  /** Feet bought for each foot of the section: waste. */
  feetPerFt: number;
  /** All of them, for each foot of the section, where other sections are cut from the same coils. */
  pooledPerFt: number;
}

/** The conductors of a section. */
export type SectionWire = readonly Strand[];

/** Lengths are rounded on the way to the shop, in ten-thousandths of a foot; a bound stays below. */
const ROUNDING_FT = 0.001;

/**
 * Reads the conductors of a section off what the take-off says of a long one; all sections of its wiring together are no
 * longer than `mostFt`.
 */
export function sectionWire(
  least: LeastPrices,
  demands: Demands,
  { lengthFt, mostFt }: { lengthFt: number; mostFt: number },
): SectionWire {
  const part = partOf(least.prices.kinds, demands);
  const strands = new Map<number, Strand>();
  for (const { kind, feet } of part.cut) {
    const known = strands.get(kind);
    if (known) known.count += 1;
    else strands.set(kind, { kind, count: 1, feetPerFt: feet / lengthFt, pooledPerFt: 0 });
  }
  return [...strands.values()].map((strand) => {
    const perFt = strand.count * strand.feetPerFt;
    const found = least.prices.kinds.list[strand.kind];
    const cents = found?.is === 'material' ? leastPerUnit(least.prices, found.demand, perFt * mostFt) : 0;
    return { ...strand, pooledPerFt: perFt * cents };
  });
}

/** What a foot of a section costs at the best price of any plan; some kinds are paid for elsewhere. */
export function pooledPerFt(wire: SectionWire, free: ReadonlySet<number>): number {
  return wire.reduce((sum, strand) => sum + (free.has(strand.kind) ? 0 : strand.pooledPerFt), 0);
}

/** One of the ways to bound what all sections of a wiring cost together: once, and section by section. */
export interface PooledLine {
  fixedCents: number;
  sectionCents: (lengthFt: number) => number;
  /** Of that, the strand that costs most: nothing where it is all in what is paid once. */
  mainCents: (lengthFt: number) => number;
  main: Strand | undefined;
}

interface Pool {
  mostFt: number;
  /** Kinds that are paid for elsewhere. */
  free: ReadonlySet<number>;
  isFirst: boolean;
}

/**
 * Bounds what sections cost that are cut from the same coils; the lesser of the lines holds. Whatever is bought of a kind,
 * either it has one of its larger packages, or none of them: so it costs at least the cheapest of these, or what is cut
 * from the others. A piece is cut from a package that holds it, and of a package no more is used than all sections take.
 */
export function pooledLines(least: LeastPrices, wire: SectionWire, { mostFt, free, isFirst }: Pool): PooledLine[] {
  const paid = wire.filter(({ kind }) => !free.has(kind));
  const cut = paid.map((strand) => ({ strand, offers: lengthOffers(least, strand, mostFt) }));
  const costOf = (some: typeof cut) => (lengthFt: number) =>
    some.reduce((sum, { strand, offers }) => {
      const cents = cutCents(strand, offers, lengthFt);
      return sum + (Number.isFinite(cents) ? cents : 0); // what cannot be bought has no price
    }, 0);
  const main = cut.reduce<(typeof cut)[number] | undefined>(
    (a, b) => (a && a.strand.pooledPerFt >= b.strand.pooledPerFt ? a : b),
    undefined,
  );
  const split = main && isFirst ? bestSplit(main.strand, main.offers, mostFt) : undefined;
  const ofMain = main && { main: main.strand, mainCents: costOf([main]) };
  if (!main || !split) return [{ fixedCents: 0, sectionCents: costOf(cut), ...(ofMain ?? NO_MAIN) }];
  const others = cut.filter((one) => one !== main);
  const mainCents = (ft: number) => cutCents(main.strand, split.small, ft);
  return [
    { fixedCents: 0, sectionCents: (ft) => costOf(others)(ft) + mainCents(ft), mainCents, main: main.strand },
    { ...NO_MAIN, fixedCents: split.largeCents, sectionCents: costOf(others), main: main.strand },
  ];
}

const NO_MAIN = { main: undefined, mainCents: () => 0 };

/** What the pieces of a strand cost, of sections of these lengths together, as they are bought: no piece is spliced. */
export function piecesCents({ prices }: LeastPrices, strand: Strand, lengthsFt: readonly number[]): number {
  const { kind, count, feetPerFt } = strand;
  const pieces = lengthsFt.flatMap((ft) =>
    Array<number>(count).fill(Math.max(ROUNDING_FT, ft * feetPerFt - ROUNDING_FT)),
  );
  const { cents, unpriced } = materialCost(prices, kind, pieces);
  return unpriced > 0 ? 0 : cents;
}

/** A package of a length, with its price a foot where all of it is used that can be. */
interface LengthOffer {
  quantity: number;
  packageCents: number;
  unitCents: number;
}

/** The packages that a strand is cut from, by the foot first; one of no length where prices say nothing of packages. */
function lengthOffers({ prices }: LeastPrices, { kind, count, feetPerFt, pooledPerFt }: Strand, mostFt: number) {
  const found = prices.kinds.list[kind];
  const item = found?.is === 'material' ? prices.book.bySpec(found.demand.spec) : undefined;
  const isByPackage = item?.unit === 'ft' && item.offers.length > 0 && prices.description.terms.offcuts !== 'stock';
  const anyLength = { quantity: 1, packageCents: 0, unitCents: pooledPerFt / (count * feetPerFt) };
  if (!isByPackage) return [anyLength];
  const most = count * feetPerFt * mostFt;
  const offers = item.offers
    .filter(({ available }) => available)
    .map(({ quantity, likelyCents }): LengthOffer => {
      return { quantity, packageCents: likelyCents, unitCents: likelyCents / Math.min(quantity, Math.max(1, most)) };
    })
    .sort((a, b) => a.quantity - b.quantity);
  return offers.length > 0 ? offers : [anyLength];
}

/** What the pieces of a section cost at the best unit price of a package that holds them; infinite where none does. */
function cutCents({ count, feetPerFt }: Strand, offers: readonly LengthOffer[], lengthFt: number): number {
  const ft = lengthFt * feetPerFt;
  let unit = Number.POSITIVE_INFINITY;
  for (const { quantity, unitCents } of offers) {
    if (quantity === 1 || quantity >= ft - ROUNDING_FT) unit = Math.min(unit, unitCents);
  }
  return count * Math.max(ROUNDING_FT, ft - ROUNDING_FT) * unit;
}

/** Where a wiring's length is looked at to choose among bounds: most of what it may have. */
const LOOKED_AT = 0.85;

/** Divides packages into small and large ones, so that the bound is greatest; nothing where it is best undivided. */
function bestSplit(strand: Strand, offers: readonly LengthOffer[], mostFt: number) {
  const atFt = LOOKED_AT * mostFt;
  let best: { small: LengthOffer[]; largeCents: number } | undefined;
  let most = 2 * cutCents(strand, offers, atFt / 2);
  for (let at = 1; at < offers.length; at += 1) {
    const small = offers.slice(0, at);
    const largeCents = Math.min(...offers.slice(at).map(({ packageCents }) => packageCents));
    // Some section is shorter than all of them together: what holds half of it is looked at.
    const value = Math.min(2 * cutCents(strand, small, atFt / 2), largeCents);
    if (value > most) [best, most] = [{ small, largeCents }, value];
  }
  return best;
}

/** What a section costs whose kinds are all its own but for the shared ones, which are bought by the foot at their best. */
export function loneCents(
  least: LeastPrices,
  wire: SectionWire,
  { lengthFt, shared }: { lengthFt: number; shared: ReadonlySet<number> },
): number {
  return wire.reduce((sum, { kind, count, feetPerFt, pooledPerFt: perFt }) => {
    const ft = lengthFt * feetPerFt - ROUNDING_FT;
    const cents = shared.has(kind) ? undefined : equalPiecesCents(least, { kind, count, ft });
    return sum + (cents ?? lengthFt * perFt);
  }, 0);
}

/** The least for equal pieces that may not be spliced; nothing where that is not how they are sold. */
function equalPiecesCents(
  { prices }: LeastPrices,
  { kind, count, ft }: { kind: number; count: number; ft: number },
): number | undefined {
  const found = prices.kinds.list[kind];
  const item = found?.is === 'material' ? prices.book.bySpec(found.demand.spec) : undefined;
  if (item?.unit !== 'ft' || found?.demand.unit !== 'ft') return undefined;
  if (prices.description.terms.offcuts === 'stock') return count * ft * pricePerFoot(item).likely;
  const offers = item.offers.filter(({ available }) => available);
  if (offers.length === 0) return undefined;
  const least = Array<number>(count + 1).fill(Number.POSITIVE_INFINITY);
  least[0] = 0;
  for (let pieces = 1; pieces <= count; pieces += 1) {
    for (const { quantity, likelyCents } of offers) {
      const held = quantity === 1 ? 1 : Math.floor(quantity / ft);
      if (held < 1) continue;
      const cents = quantity === 1 ? Math.ceil(ft) * likelyCents : likelyCents;
      least[pieces] = Math.min(least[pieces] ?? 0, cents + (least[Math.max(0, pieces - held)] ?? 0));
    }
  }
  const cents = least[count] ?? Number.POSITIVE_INFINITY;
  return Number.isFinite(cents) ? cents : undefined;
}
