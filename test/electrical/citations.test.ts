import { describe, expect, it } from 'vitest';
import { CITATIONS, cite, EDITIONS, type RuleKey } from '../../server/electrical/citations.ts';

describe('citations', () => {
  const keys = Object.keys(CITATIONS) as RuleKey[];

  it('name an article in every edition, as the code writes them', () => {
    const shape =
      /^(?:Table |Chapter 9 )?(?:Table |note )?\d+(?:\.\d+)?(?:\([A-Za-z0-9]+\))*(?: (?:note|column) \d+| Part III)?$/;
    const odd = keys.flatMap((rule) =>
      EDITIONS.map((edition) => cite(rule, edition).article).filter((one) => !shape.test(one)),
    );
    expect(odd).toEqual([]);
  });

  // 2026: Article 220 became 120 and 750 became 130; trade articles.
  it('leave Articles 220 and 750 behind in 2026', () => {
    const left = keys
      .map((rule) => cite(rule, '2026').article)
      .filter((article) => /^(?:Table )?(?:220|750)\b/.test(article));
    expect(left).toEqual([]);
    expect(cite('evse-load', '2023').article).toBe('220.57');
    expect(cite('evse-load', '2026').article).toBe('120.57');
    expect(cite('energy-management', '2026').article).toBe('130.30');
  });

  // Trade articles on 2026 name these six numbers; no other one was read there. Adding one here takes a source.
  it('say of each number of 2026 whether it was confirmed', () => {
    expect(keys.filter((rule) => CITATIONS[rule].verified['2026']).toSorted()).toEqual([
      'charger-disconnect',
      'energy-management',
      'evse-load',
      'managed-load',
      'optional-new-dwelling',
      'qualified-person',
    ]);
  });

  it('say of what is from memory that no edition confirms it', () => {
    for (const rule of ['overhead-clearance', 'overhead-roof-clearance', 'overhead-span'] as const) {
      expect(Object.values(CITATIONS[rule].verified)).toEqual([false, false, false]);
    }
  });
});
