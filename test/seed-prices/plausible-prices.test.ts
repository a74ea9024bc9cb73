import { describe, expect, it } from 'vitest';
import { seedPrices } from '../../server/seed-prices.ts';
import { answerOf } from './sound-answer.ts';

/*
 * What somebody pays who buys at retail, by the foot and by the piece, in a dear year: each such price lies between low
 * and high of what the starting book asks for the same thing. Amounts: common practice, no source. Dollars in whole cents.
 */

const items = seedPrices();

interface Spread {
  low: number;
  high: number;
}

/** The spread of an item sold by the unit, or of one of its packages. */
function spreadOf(key: string, sold?: string): Spread {
  const item = items.find((one) => one.key === key);
  const offer = item?.offers.find((one) => one.package === sold);
  if (offer) return { low: offer.lowCents, high: offer.highCents };
  if (item && sold === undefined && item.offers.length === 0) return item;
  throw new Error(`The starting price book does not sell ${key}${sold ? ` by ${sold}` : ''}.`);
}

/** So many of each, together. */
function together(parts: readonly (readonly [count: number, spread: Spread])[]): Spread {
  const sum = (end: keyof Spread) => parts.reduce((cents, [count, spread]) => cents + count * spread[end], 0);
  return { low: sum('low'), high: sum('high') };
}

const byTheFoot = (key: string) => spreadOf(key, 'by the foot');

describe('the spread of the starting prices holds what is paid at retail', () => {
  it.each([
    { what: 'a two-pole breaker of 100 A', cents: 8000, spread: spreadOf('breaker-2p-100') },
    { what: 'a two-pole breaker of 50 A', cents: 2000, spread: spreadOf('breaker-2p-50') },
    { what: 'a subpanel of 100 A and 12 spaces', cents: 12_000, spread: spreadOf('panel-100a-12sp-indoor') },
    { what: 'the same, rainproof', cents: 12_000, spread: spreadOf('panel-100a-12sp-outdoor') },
    { what: 'a panel of 100 A with a main breaker', cents: 12_000, spread: spreadOf('panel-100a-20sp-mb-indoor') },
    { what: 'an ordinary 14-50 receptacle', cents: 2000, spread: spreadOf('rec-14-50') },
    { what: '50 ft of NM-B 6/3 for a circuit of 50 A', cents: 37_000, spread: spreadOf('nm-b-6-3-cu', 'coil 50 ft') },
    { what: 'a walk-behind trencher for a day', cents: 9000, spread: spreadOf('trencher-walk-day', 'day') },
    {
      what: 'a day of one electrician alone, 8 hours as billed',
      cents: 105_000,
      spread: together([[8, spreadOf('rate-electrician-billed')]]),
    },
  ])('$what', ({ cents, spread }) => {
    expect(spread.low).toBeLessThanOrEqual(cents);
    expect(spread.high).toBeGreaterThanOrEqual(cents);
  });

  /** Table 310.16: 1 AWG aluminum carries 100 A at 75 °C; its equipment ground is 6 AWG (Table 250.122). */
  it('a foot of an aluminum feeder of 100 A: two hots, a neutral and a ground', () => {
    const { low, high } = together([
      [3, byTheFoot('xhhw-2-1-al')],
      [1, byTheFoot('xhhw-2-6-al')],
    ]);
    expect(low).toBeLessThanOrEqual(800);
    expect(high).toBeGreaterThanOrEqual(800);
  });

  /** 41 to 60 ft of lawn, in PVC all the way: pipe, elbows, risers with their expansion fittings, entry bodies, adapters. */
  it.each([41, 60])('the PVC of a yard run of %i ft with its fittings', (lengthFt) => {
    const [option] = answerOf({
      title: 'A feeder across the yard',
      asOf: '2025-08-01',
      site: {
        building: 'detached',
        service: { ratingA: 200, freeSpaces: 6 },
        load: { method: 'measured', peakA: 40, days: 365 },
      },
      route: [{ kind: 'lawn-trench', lengthFt, method: 'pvc' }],
      options: [
        {
          ...{ id: 'a', label: 'A feeder of 100 A', feed: 'subpanel', metal: 'aluminum', chargers: [] },
          subpanel: { ratingA: 100, spaces: 12, feederA: 100 },
        },
      ],
    }).options;
    const pvc = (option?.lines ?? []).filter(({ key }) => /^pvc-(?:40|80|reducer)/.test(key));
    expect(pvc.length).toBeGreaterThan(5);
    expect(pvc.reduce((cents, { lowCents }) => cents + lowCents, 0)).toBeLessThanOrEqual(21_000);
    expect(pvc.reduce((cents, { highCents }) => cents + highCents, 0)).toBeGreaterThanOrEqual(21_000);
  });
});
