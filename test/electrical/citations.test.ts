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

  it('say of each number of 2026 whether it was confirmed', () => {
    const confirmed = keys.filter((rule) => CITATIONS[rule].verified['2026']);
    expect(confirmed.length).toBeGreaterThan(0);
    expect(confirmed.length).toBeLessThan(keys.length);
  });
});
