import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { paymentsOf, QuoteInput, validUntil } from '../../server/estimate/quote.ts';

describe('what falls due when', () => {
  // 30 % of $2,500.01 are $750.003, 40 % are $1,000.004: the cent stays with the rest
  it('adds up to the total, the rest at the end', () => {
    const stated = { deposit: { bp: 3000 }, progress: [{ when: 'After the rough-in', bp: 4000 }] };
    expect(paymentsOf(250_001, stated)).toEqual([
      { when: 'When it is accepted', bp: 3000, cents: 75_000 },
      { when: 'After the rough-in', bp: 4000, cents: 100_000 },
      { when: 'When the work is done', cents: 75_001 },
    ]);
    expect(paymentsOf(250_001, { progress: [] })).toEqual([{ when: 'When the work is done', cents: 250_001 }]);
    expect(paymentsOf(250_001, { deposit: { cents: 50_000 }, progress: [] }).map(({ cents }) => cents)).toEqual([
      50_000, 200_001,
    ]);
  });

  it('adds up whatever the shares, and never asks for less than nothing', () => {
    const shares = fc.array(fc.integer({ min: 0, max: 2500 }), { maxLength: 4 });
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 9_999_999_999 }), shares, (totalCents, bps) => {
        const progress = bps.map((bp, at) => ({ when: `part ${at}`, bp }));
        const due = paymentsOf(totalCents, { progress }).map(({ cents }) => cents);
        expect(due.reduce((sum, cents) => sum + cents, 0)).toBe(totalCents);
        for (const cents of due) expect(cents).toBeGreaterThanOrEqual(0);
      }),
    );
  });

  it('shares a whole out to the cent without a rest', () => {
    const progress = [3333, 3333, 3334].map((bp) => ({ when: 'a third', bp }));
    // a third of 1,001 cents is 333.67: 334 + 334, and what is left
    expect(paymentsOf(1_001, { progress }).map(({ cents }) => cents)).toEqual([334, 334, 333]);
  });
});

describe('the validity of a quote', () => {
  it.each([
    ['2026-02-20', 15, '2026-03-07'], // 8 days to the end of February, 7 in March
    ['2028-02-20', 15, '2028-03-06'], // a leap year has one more
    ['2026-12-31', 1, '2027-01-01'],
  ])('of %s and %i days lasts through %s', (issuedOn, days, last) => {
    expect(validUntil(issuedOn, days)).toBe(last);
  });
});

describe('what is stated of a quote', () => {
  const customer = { name: 'An invented household' };
  it('is short: the option and the customer', () => {
    expect(QuoteInput.parse({ optionId: 'a', customer })).toEqual({
      optionId: 'a',
      customer,
      alternates: [],
      validDays: 15,
      show: 'items',
      exclusions: [],
      allowances: [],
      assumptions: [],
      progress: [],
      warrantyMonths: 12,
    });
  });

  it.each([
    ['validDays', { validDays: 0 }],
    ['show', { show: 'nothing' }],
    ['deposit', { deposit: { bp: 1, cents: 1 } }],
    ['optionId', { optionId: '' }],
  ])('is refused at %s', (path, changes) => {
    const { error } = QuoteInput.safeParse({ optionId: 'a', customer, ...changes });
    expect(error?.issues[0]?.path.join('.')).toBe(path);
  });
});
