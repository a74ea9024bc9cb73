import { describe, expect, it } from 'vitest';
import { leftOutOfRange } from '../../web/quotes/left-out.ts';

// The range is of the job without contingency, and allowances are added by the quote: neither is in it.
describe('what a range leaves out of the total of a quote', () => {
  const allowance = { text: 'rock', cents: 50_000 };
  it.each([
    { allowances: [allowance], contingencyCents: 100, words: 'allowances and contingency' },
    { allowances: [allowance], contingencyCents: 0, words: 'allowances' },
    { allowances: [], contingencyCents: 100, words: 'contingency' },
    { allowances: [], contingencyCents: 0, words: undefined },
  ])('is said: $words', ({ allowances, contingencyCents, words }) => {
    expect(leftOutOfRange({ stated: { allowances } }, { totals: { contingencyCents } })).toBe(words);
  });
});
