import { expect, it } from 'vitest';
import { ageWords } from '../../server/drawing/age-words.ts';

// Expected ages are counted on a calendar; shelf lives are ours: wire 90 days, labor 730, the rest 365.
const wire = {
  kind: 'price',
  spec: { is: 'conductor', insulation: 'thwn-2', metal: 'copper', size: '6' },
} as const;

it('says how old a price is, in the words that a person would choose', () => {
  const breaker = (date: string) => ageWords({ kind: 'price', date }, '2026-03-02');
  expect(breaker('2026-03-02')).toEqual({ age: 'of today' });
  expect(breaker('2026-03-01')).toEqual({ age: '1 day old' });
  expect(breaker('2025-09-02')).toEqual({ age: '6 months old' });
  expect(breaker('2026-03-03')).toEqual({ age: 'of a day to come' });
});

it('says why a price is stale, and calls none stale before its day', () => {
  expect(ageWords({ ...wire, date: '2025-12-02' }, '2026-03-02')).toEqual({ age: '90 days old' });
  const stale = ageWords({ ...wire, date: '2025-12-01' }, '2026-03-02');
  expect(stale.stale).toBe('stale: 91 days old, and such a figure keeps for 90 days; its range is widened');
  expect(ageWords({ kind: 'labor-unit', date: '2020-03-02' }, '2026-03-02').stale).toContain('keeps for 2 years');
});
