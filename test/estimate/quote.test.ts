import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { InputError, readInput } from '../../server/estimate/input-problems.ts';
import { ActualsInput, paymentsOf, QuoteInput, validUntil } from '../../server/estimate/quote.ts';

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

  const payment = (bp: number) => ({ when: 'After the rough-in', bp });
  /** Each names the field, the value that was stated, and what is allowed. */
  it.each([
    ['validDays', { validDays: 0 }, 'must be a whole number of days, at least 1 and at most 365, not 0'],
    ['validDays', { validDays: 1.5 }, 'must be a whole number of days, at least 1 and at most 365, not 1.5'],
    [
      'warrantyMonths',
      { warrantyMonths: 601 },
      'must be a whole number of months, at least 0 and at most 600, not 601',
    ],
    ['show', { show: 'nothing' }, 'must be one of items, sum, not "nothing"'],
    ['optionId', { optionId: '' }, 'must not be empty'],
    ['deposit', { deposit: {} }, 'must state either bp or cents, not neither'],
    ['deposit', { deposit: { bp: 1, cents: 1 } }, 'must state either bp or cents, not both'],
    [
      'deposit.bp',
      { deposit: { bp: 10_001 } },
      'must be a whole number of basis points (100 are one percent), at least 0 and at most 10000, not 10001',
    ],
    [
      'progress.0.bp',
      { progress: [payment(0)] },
      'must be a whole number of basis points (100 are one percent), at least 1 and at most 10000, not 0',
    ],
    [
      'progress',
      { progress: [payment(6000), payment(4001)] },
      'must come to at most 100 % with the deposit, not to 100.01 %',
    ],
    [
      'progress',
      { deposit: { bp: 5000 }, progress: [payment(5001)] },
      'must come to at most 100 % with the deposit, not to 100.01 %',
    ],
    ['progress.0.when', { progress: [{ when: ' ', bp: 1 }] }, 'must not be empty'],
    [
      'allowances.0.cents',
      { allowances: [{ text: 'a charger', cents: 0 }] },
      'must be a whole number of cents, at least 1 and at most 10000000000, not 0',
    ],
    ['alternates.0', { alternates: ['a'] }, 'must be another option, not "a" again'],
    ['alternates.1', { alternates: ['b', 'b'] }, 'must be another option, not "b" again'],
    ['waranty', { waranty: 1 }, 'is not a field that is known here ("waranty"); allowed are'],
  ])('is refused at %s: %j', (path, changes, message) => {
    expect(refusedOf(QuoteInput, { optionId: 'a', customer, ...changes })).toEqual([
      { path, message: expect.stringContaining(message) },
    ]);
  });

  it('may ask for no deposit in so many words, and for all of it on the way', () => {
    for (const deposit of [{ bp: 0 }, { cents: 0 }]) {
      const stated = QuoteInput.parse({ optionId: 'a', customer, deposit });
      expect(paymentsOf(100_000, stated)).toEqual([{ when: 'When the work is done', cents: 100_000 }]);
    }
    const all = QuoteInput.parse({ optionId: 'a', customer, deposit: { bp: 4000 }, progress: [payment(6000)] });
    expect(paymentsOf(100_000, all).map(({ cents }) => cents)).toEqual([40_000, 60_000]);
  });
});

describe('what is stated of a job', () => {
  it('may be a task that was not needed, and one that nobody quoted', () => {
    const tasks = [
      { key: 'pull-wire', hours: 0 },
      { key: 'waited for the inspector', hours: 1.5 },
    ];
    expect(ActualsInput.parse({ tasks })).toEqual({ tasks });
  });

  it.each([
    [
      'tasks.0.hours',
      [{ key: 'a', hours: -0.5 }],
      'must be a number of hours, at least 0 and at most 100000, not -0.5',
    ],
    ['tasks.0.key', [{ key: ' ', hours: 1 }], 'must not be empty'],
    [
      'tasks.1.key',
      [
        { key: 'a', hours: 1 },
        { key: 'a', hours: 2 },
      ],
      'must stand once: "a" was stated before',
    ],
  ])('is refused at %s: %j', (path, tasks, message) => {
    expect(refusedOf(ActualsInput, { tasks })).toEqual([{ path, message }]);
  });
});

function refusedOf(schema: Parameters<typeof readInput>[0], stated: unknown) {
  try {
    readInput(schema, stated);
  } catch (error) {
    if (error instanceof InputError) return error.problems;
    throw error;
  }
  return [];
}
