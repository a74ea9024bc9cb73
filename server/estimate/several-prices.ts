import { z } from 'zod';
import { day, flag, quantity, text } from './description/fields.ts';
import { closed } from './input-problems.ts';
import { toFourDecimals } from './money.ts';
import type { Offer, PriceItemInput } from './price-book.ts';
import { withPricesOfPackages } from './unit-prices.ts';
import { BOUNDS } from './vocabulary.ts';

/** A raise, or with a minus a cut, in hundredths of a percent: from −99 % to +1,000 %; ours. */
const raiseBp = () =>
  quantity({ unit: 'basis points (100 are one percent)', whole: true, least: -9900, most: 100_000 });
/** What a market moved by since the prices were taken: 1.12 is 12 % more. From a tenth to tenfold; ours. */
const indexFactor = () => quantity({ unit: 'parts of the price', least: 0.1, most: 10 });

/** What can be done to several items at once: one of four changes. */
export const SeveralChange = z.union(
  [
    closed({ raiseBp: raiseBp() }),
    closed({ indexFactor: indexFactor(), of: text(), on: day().optional() }),
    closed({ available: flag() }),
    closed({ supplier: text().nullable() }),
  ],
  { error: 'must be one of { raiseBp }, { indexFactor, of, on? }, { available }, { supplier }' },
);
export type SeveralChange = z.output<typeof SeveralChange>;

/**
 * An item after a change of several: prices and packages times a factor in whole cents, or another availability or
 * supplier. Where a figure moves, its day and source say so: it is not the figure that was read any more.
 * @param on  YYYY-MM-DD, the day that moved figures stand for where the change does not say one
 */
export function changedItem(item: PriceItemInput, change: SeveralChange, on: string): PriceItemInput {
  if ('available' in change) return { ...item, available: change.available };
  if ('supplier' in change) {
    const { supplier: _former, ...rest } = item;
    return change.supplier === null ? rest : { ...rest, supplier: change.supplier };
  }
  if ('raiseBp' in change) {
    const percent = toFourDecimals(Math.abs(change.raiseBp) / 100);
    const note = `${change.raiseBp < 0 ? 'cut' : 'raised'} by ${percent} % on ${on}`;
    return moved(item, { factor: 1 + change.raiseBp / 10_000, note, on });
  }
  const asOf = change.on ?? on;
  return moved(item, { factor: change.indexFactor, note: `× ${change.indexFactor} by index as of ${asOf}`, on: asOf });
}

/** All figures of an item times a factor. The packages decide what a unit costs, where there are some. */
function moved(item: PriceItemInput, { factor, note, on }: { factor: number; note: string; on: string }) {
  if (factor === 1) return item;
  const offers = item.offers.map((offer) => movedOffer(offer, factor));
  const points = {
    low: times(item.low, factor),
    likely: times(item.likely, factor),
    high: times(item.high, factor),
  };
  const after = offers.length === 0 ? { ...item, ...points } : withPricesOfPackages({ ...item, offers }, item);
  return { ...after, date: on, source: withNote(item.source, note) };
}

/** A package after its price moved, in whole cents. */
function movedOffer(offer: Offer, factor: number): Offer {
  const cents = (before: number) => Math.round(times(before, factor));
  const { date: _former, ...undated } = offer; // the whole item is of the day that it moved
  return {
    ...undated,
    lowCents: cents(offer.lowCents),
    likelyCents: cents(offer.likelyCents),
    highCents: cents(offer.highCents),
  };
}

const times = (value: number, factor: number) => toFourDecimals(value * factor);

/** The source with what was done to its figure; a source too long for both is cut, the note never. */
function withNote(source: string, note: string): string {
  const tail = `; ${note}`;
  const room = BOUNDS.textLength - tail.length;
  return `${source.length > room ? `${source.slice(0, room - 1)}…` : source}${tail}`;
}
