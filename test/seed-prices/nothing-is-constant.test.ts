import { describe, expect, it } from 'vitest';
import { estimate } from '../../server/estimate/estimate.ts';
import { bookOf, PriceItem, type PriceItemInput } from '../../server/estimate/price-book.ts';
import { seedPrices } from '../../server/seed-prices.ts';
import { readDescription } from '../estimate/reading.ts';
import { coveringRows } from './all-pairs.ts';
import { SOUND_FIELDS } from './pair-fields.ts';
import { jobOf } from './pair-job.ts';

/*
 * Labor units, rates, rentals, fees and factors are items of the book like any other: what the book says of them is what
 * a job costs, and no figure of money or work hides in the program. Jobs are invented ones, a few of those of all pairs.
 */

const items = seedPrices();
const bookWith = (change: (item: PriceItemInput) => PriceItemInput) =>
  bookOf(
    items.map((item) => PriceItem.parse({ ...change(item), revision: 1 })),
    1,
  );
const seeded = bookWith((item) => item);

/** Every so many of the jobs that hold all pairs. */
const TAKEN_EVERY = 12;
const jobs = coveringRows(SOUND_FIELDS)
  .filter((_, at) => at % TAKEN_EVERY === 0)
  .map((row) => readDescription(jobOf(row)));

const MINUTES = 180_000;

const isMoney = ({ kind }: PriceItemInput) => kind === 'price' || kind === 'rate';

/** An item at twice its price, its packages too. */
function twiceAsDear(item: PriceItemInput): PriceItemInput {
  if (!isMoney(item)) return item;
  const offers = item.offers.map((offer) => ({
    ...offer,
    ...{ lowCents: 2 * offer.lowCents, likelyCents: 2 * offer.likelyCents, highCents: 2 * offer.highCents },
  }));
  return { ...item, low: 2 * item.low, likely: 2 * item.likely, high: 2 * item.high, offers };
}

/** Lines whose price the description states itself. */
const isStated = ({ key, because }: { key: string; because: readonly string[] }) =>
  key.startsWith('extra-') || because.some((reason) => reason.includes('its fee is stated'));

describe('the starting price book', () => {
  it('has three points that rise on all that is work, rent, fee, rate or factor, with source and date', () => {
    const kinds = items.filter(
      ({ kind, class: lineClass }) => kind !== 'price' || lineClass === 'equipment' || lineClass === 'fee',
    );
    expect(kinds.length).toBeGreaterThan(150);
    const flat = kinds.filter(({ low, likely, high }) => !(low < likely && likely < high));
    // a region is 1 by definition until somebody says how dear it is
    expect(flat.map(({ key }) => key)).toEqual(['region-material', 'region-labor']);
    const unsourced = kinds.filter(({ source, date, region }) => !source || !date || !region);
    expect(unsourced.map(({ key }) => key)).toEqual([]);
  });

  it('says all of the money: at twice its prices every line is twice as much', { timeout: MINUTES }, () => {
    const dear = bookWith(twiceAsDear);
    const differing = jobs.flatMap((description) => {
      // An owner's hours, weighed in cents, are no price of the book and would tip the choice of a plan.
      const plain = { ...description, terms: { ...description.terms, ownerHourCents: 0 } };
      const [once] = estimate(plain, seeded, { parts: 'core' }).options;
      const [twice] = estimate(plain, dear, { parts: 'core' }).options;
      return (once?.lines ?? []).flatMap((line, at) => {
        const other = twice?.lines[at];
        const factor = isStated(line) ? 1 : 2;
        const unit = Math.abs((other?.unitPriceCents ?? 0) - factor * line.unitPriceCents);
        return other?.key === line.key && unit < 0.001
          ? []
          : [`${line.key}: ${line.unitPriceCents} → ${other?.unitPriceCents}`];
      });
    });
    expect(differing).toEqual([]);
  });

  it('says all of the work: hours of a task are its labor unit × units × its factors', { timeout: MINUTES }, () => {
    const unitOf = (key: string) => items.find((item) => item.key === key && item.kind === 'labor-unit');
    const factors = items.filter(({ kind }) => kind === 'factor');
    const wrong = jobs.flatMap((description) =>
      estimate(description, seeded, { parts: 'core' }).options.flatMap(({ labor }) =>
        labor.tasks.flatMap(({ key, quantity, hoursPerUnit, factor, hours, because }) => {
          if (key.startsWith('extra-')) return [];
          const named = factors.filter((item) => because.includes(`× ${item.likely}: ${item.description}`));
          const product = named.reduce((all, { likely }) => all * likely, 1);
          const isRight =
            hoursPerUnit === unitOf(key)?.likely &&
            Math.abs(factor - product) < 0.0001 &&
            Math.abs(hours - quantity * hoursPerUnit * factor) < 0.0002;
          return isRight ? [] : [`${key}: ${quantity} × ${hoursPerUnit} × ${factor} = ${hours}`];
        }),
      ),
    );
    expect(wrong).toEqual([]);
  });
});
