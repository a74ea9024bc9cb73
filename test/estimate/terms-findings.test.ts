import { describe, expect, it } from 'vitest';
import { estimate } from '../../server/estimate/estimate.ts';
import { noticesOf } from '../../server/estimate/notices.ts';
import { optionOf, ruleOf, SEEDED } from './fields/priced.ts';
import { house } from './uncertain-jobs.ts';

const withTerms = (terms: Record<string, unknown>) => optionOf({ rest: { terms } });
const saidOf = (terms: Record<string, unknown>) =>
  ['cost-without-overhead', 'billed-rate-counts-twice'].filter((rule) => ruleOf(withTerms(terms), rule).length > 0);

// Common practice, no source: a price is cost and overhead and profit; a billed hour already holds both.
describe('what the terms make of the total', () => {
  it('is called a cost while neither overhead nor profit nor a markup is stated', () => {
    expect(saidOf({})).toEqual(['cost-without-overhead']);
    expect(ruleOf(withTerms({}), 'cost-without-overhead')[0]?.severity).toBe('caution');
    expect(saidOf({ overheadBp: 1000 })).toEqual([]);
    expect(saidOf({ profitBp: 1000 })).toEqual([]);
    expect(saidOf({ markup: { materialBp: 1500 } })).toEqual([]);
    expect(saidOf({ who: 'owner' })).toEqual([]);
  });

  it('stands on every output as long as it is a cost, and on none once it is a price', () => {
    const COST = "These totals hold no overhead or profit: a contractor's price will be higher.";
    const isSaid = (terms: Record<string, unknown>) => noticesOf(house({ terms })).includes(COST);
    const core = estimate(house(), SEEDED, { parts: 'core' });
    expect(core.notices).toContain(COST);
    expect(isSaid({ contingencyBp: 1000, taxBp: 600 })).toBe(true); // neither is a contractor's
    const priced = [{ overheadBp: 1000 }, { profitBp: 1000 }, { markup: { laborBp: 1 } }, { laborRateIs: 'billed' }];
    for (const terms of [...priced, { who: 'owner' }]) expect(isSaid(terms)).toBe(false);
  });

  it('is not doubted where the rate is billed and nothing comes on top', () => {
    expect(saidOf({ laborRateIs: 'billed' })).toEqual([]);
    expect(saidOf({ laborRateIs: 'billed', markup: { materialBp: 1500 } })).toEqual([]);
  });

  it.each([{ overheadBp: 1 }, { profitBp: 1 }, { markup: { laborBp: 1 } }])(
    'counts a billed hour twice with %j',
    (more) => {
      expect(saidOf({ laborRateIs: 'billed', ...more })).toEqual(['billed-rate-counts-twice']);
      expect(withTerms({ laborRateIs: 'billed', ...more }).buildable).toBe(true);
    },
  );

  it('takes the billed rate of the book where an hour is billed and no rate is named', () => {
    const hourCents = (terms: Record<string, unknown>) => {
      const labor = withTerms(terms).lines.filter((line) => line.class === 'labor');
      return [...new Set(labor.map(({ unitPriceCents }) => unitPriceCents))];
    };
    expect(hourCents({ laborRateIs: 'billed' })).toEqual([SEEDED.byKey('rate-electrician-billed')?.likely]);
    expect(hourCents({ laborRateIs: 'cost' })).toEqual([SEEDED.byKey('rate-electrician')?.likely]);
    expect(hourCents({ laborRateIs: 'billed', laborRate: 'rate-helper-billed' })).toEqual([
      SEEDED.byKey('rate-helper-billed')?.likely,
    ]);
  });

  it('says which names the book has no rate under, and what was probably meant', () => {
    const crew = [
      { rate: 'rate-labourer', count: 1 },
      { rate: 'rate-labuorer', count: 1 },
    ];
    const messages = (terms: Record<string, unknown>) =>
      ruleOf(withTerms(terms), 'unknown-rate').map(({ message }) => message);
    expect(messages({ crew })).toEqual([expect.stringContaining('Did you mean "rate-labourer"?')]);
    expect(messages({ laborRate: 'permit-circuit' })).toEqual([expect.stringContaining('without a price')]);
    const unpriced = withTerms({ laborRate: 'permit-circuit' });
    expect(unpriced.complete).toBe(false);
    expect(unpriced.totals.laborCents).toBe(0);
  });
});
