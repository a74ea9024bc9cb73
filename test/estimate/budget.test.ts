import { describe, expect, it } from 'vitest';
import { budgetOf } from '../../server/estimate/budget.ts';
import { house, uncertain } from './uncertain-jobs.ts';

const LOAN = { annualRateBp: 650, years: 30 };
const range = (p10Cents: number, p50Cents: number, p90Cents: number) => ({
  ...uncertain().range,
  p10Cents,
  p50Cents,
  p90Cents,
});
const unknown = (swingCents: number) => ({
  path: 'site.load',
  swingCents,
  howToFindOut: '',
  whoCanTell: 'utility' as const,
});
const budget = (
  points: [number, number, number],
  { swing = 0, complete = true, purchase = {} }: { swing?: number; complete?: boolean; purchase?: object } = {},
) =>
  budgetOf({
    option: { complete, buildable: true },
    range: range(...points),
    unknowns: swing > 0 ? [unknown(swing)] : [],
    description: house({ purchase: { loan: LOAN, ...purchase } }),
  });

describe('a budget for a purchase', () => {
  it('is not made where no purchase is stated', () => {
    expect(uncertain().budget).toBeUndefined();
  });

  /**
   * $10,000 at 6.5 % over 30 years, r = 0.065 / 12: 10,000 × r / (1 − (1 + r)^−360) = 63.21 a month, 63.2068 × 360 −
   * 10,000 = 12,754.45 of interest; $13,000 in proportion: 82.17. Worked with bc, 30 decimals.
   */
  it('puts the middle and the ninetieth percentile into the loan', () => {
    expect(budget([900_000, 1_000_000, 1_300_000])).toMatchObject({
      likelyCents: 1_000_000,
      planForCents: 1_300_000,
      monthlyCents: 6_321,
      monthlyPlanForCents: 8_217,
      totalInterestCents: 1_275_445,
    });
  });

  it.each([
    ['high up to 40 % of width', [900_000, 1_000_000, 1_300_000], {}, 'high'],
    ['medium up to 80 %', [800_000, 1_000_000, 1_600_000], {}, 'medium'],
    ['low beyond', [700_000, 1_000_000, 1_600_000], {}, 'low'],
    ['a step less where one fact swings more than 15 %', [900_000, 1_000_000, 1_300_000], { swing: 160_000 }, 'medium'],
    ['low where a price is missing', [900_000, 1_000_000, 1_300_000], { complete: false }, 'low'],
  ] as const)('has a confidence that is %s', (_, points, more, expected) => {
    expect(budget([...points], more)?.confidence).toBe(expected);
  });

  /** Between a tenth and nine tenths of all cases lie eight of ten; (16,000 − 7,000) / 10,000 = 90 %. */
  it('says why in words that need no statistics', () => {
    const because = budget([700_000, 1_000_000, 1_600_000], { swing: 160_000 })?.because[0];
    expect(because).toBe(
      'Low: eight of ten cases lie between $7,000 and $16,000, 90 % of the middle apart, and site.load alone swings 16 %.',
    );
  });

  it('says that work begins after closing, and which incentive has ended by then', () => {
    const incentive = { name: 'a credit', kind: 'fixed', cents: 100, of: [], until: '2025-09-30' };
    const description = house({ purchase: { loan: LOAN, closing: '2025-12-01' }, terms: { incentives: [incentive] } });
    const found = budgetOf({
      option: { complete: true, buildable: true },
      range: range(1, 2, 3),
      unknowns: [],
      description,
    });
    expect(found?.because[1]).toBe(
      'Work begins after closing on 2025-12-01, at the prices of then. Before it a credit ends on 2025-09-30: do not count on it.',
    );
  });

  it('asks the seller for what is not known', () => {
    const asked = budget([900_000, 1_000_000, 1_300_000], { swing: 1_000 })?.askSeller ?? [];
    expect(asked.some((question) => question.includes('electricity bills of the last 12 months'))).toBe(true);
    expect(asked.some((question) => question.includes('lead paint'))).toBe(false);
  });
});
