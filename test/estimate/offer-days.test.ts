import { describe, expect, it } from 'vitest';
import { asOldAs, dayOfOffer, withOldestDay } from '../../server/estimate/offer-days.ts';
import { parsePriceCsv, writePriceCsv } from '../../server/estimate/price-csv.ts';
import { changedItem } from '../../server/estimate/several-prices.ts';
import { isStale } from '../../server/estimate/shelf-life.ts';
import { cable } from '../db/scratch.ts';

const [foot, coil] = cable().offers;
if (!foot || !coil) throw new Error('the cable has two packages');
/** The foot was priced on the second of March, the coil when the item was. */
const priced = cable({ offers: [{ ...foot, date: '2026-03-02' }, coil] });

describe('the day of a package', () => {
  it('is its own, and that of the item where it has none', () => {
    expect(priced.offers.map((offer) => dayOfOffer(offer, priced))).toEqual(['2026-03-02', '2025-11-04']);
  });

  it('makes one package fresh and leaves the other as old as it is', () => {
    // Wire keeps for 90 days: 2025-11-04 and 90 days is 2026-02-02.
    const stale = priced.offers.map((offer) => isStale(asOldAs(priced, offer), '2026-03-03'));
    expect(stale).toEqual([false, true]);
  });

  it('never lets an item look fresher than its oldest package', () => {
    const offers = [
      { ...foot, date: '2026-03-02' },
      { ...coil, date: '2026-02-01' },
    ];
    const item = withOldestDay(cable({ offers, date: '2026-03-05' }));
    expect(item).toMatchObject({ date: '2026-02-01', offers: [{ date: '2026-03-02' }, {}] });
    expect(item.offers[1]).not.toHaveProperty('date');
    expect(withOldestDay(item)).toEqual(item);
  });

  it('is that of the change where all prices of an item move', () => {
    const raised = changedItem(priced, { raiseBp: 800 }, '2026-03-09');
    expect(raised.date).toBe('2026-03-09');
    for (const offer of raised.offers) expect(offer).not.toHaveProperty('date');
  });

  it('goes out to a list and comes back', () => {
    expect(parsePriceCsv(writePriceCsv([priced])).items).toEqual([priced]);
  });
});
