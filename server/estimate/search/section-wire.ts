/*
 * What the conductors of one section cost at least: as pieces of their own where nothing else of the option is cut from
 * the same coils, else by the foot at the best price that any plan may get.
 */
import { pricePerFoot } from '../material-lines.ts';
import type { Demands } from '../takeoff/demand.ts';
import { type LeastPrices, leastPerUnit } from './least-price.ts';
import { partOf } from './tally.ts';

/** Conductors of one kind that run side by side through a section. */
interface Strand {
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

/** What all sections of a wiring cost together at least, as the lesser of lines over their feet. */
export interface PooledLine {
  fixedCents: number;
  perFt: number;
}

/**
 * Bounds what sections cost that are cut from the same coils. Whatever is bought of a kind, either it has one of its
 * larger packages, or none of them: so it costs at least the cheapest of these, or the best unit price of the others.
 * @param free  kinds that are paid for elsewhere
 */
export function pooledLines(
  least: LeastPrices,
  wire: SectionWire,
  { mostFt, free, isFirst }: { mostFt: number; free: ReadonlySet<number>; isFirst: boolean },
): PooledLine[] {
  const paid = wire.filter(({ kind }) => !free.has(kind));
  const main = paid.reduce<Strand | undefined>((a, b) => (a && a.pooledPerFt >= b.pooledPerFt ? a : b), undefined);
  const others = paid.reduce((sum, strand) => sum + (strand === main ? 0 : strand.pooledPerFt), 0);
  const linear = { fixedCents: 0, perFt: others + (main?.pooledPerFt ?? 0) };
  const split = main && isFirst ? bestSplit(least, main, mostFt) : undefined;
  if (!split) return [linear];
  return [
    { fixedCents: 0, perFt: others + split.smallPerFt },
    { fixedCents: split.largeCents, perFt: others },
  ];
}

/** Where a wiring's length is looked at to choose among bounds: most of what it may have. */
const LOOKED_AT = 0.85;

function bestSplit({ prices }: LeastPrices, { kind, count, feetPerFt, pooledPerFt }: Strand, mostFt: number) {
  const found = prices.kinds.list[kind];
  const item = found?.is === 'material' ? prices.book.bySpec(found.demand.spec) : undefined;
  if (item?.unit !== 'ft' || prices.description.terms.offcuts === 'stock') return undefined;
  const offers = item.offers.filter(({ available }) => available).sort((a, b) => a.quantity - b.quantity);
  const atFt = LOOKED_AT * mostFt;
  let best: { smallPerFt: number; largeCents: number } | undefined;
  let most = pooledPerFt * atFt;
  for (let small = 1; small < offers.length; small += 1) {
    const unit = Math.min(...offers.slice(0, small).map(({ likelyCents, quantity }) => likelyCents / quantity));
    const smallPerFt = count * feetPerFt * unit;
    const largeCents = Math.min(...offers.slice(small).map(({ likelyCents }) => likelyCents));
    const value = Math.min(smallPerFt * atFt, largeCents);
    if (value > most) [best, most] = [{ smallPerFt, largeCents }, value];
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
