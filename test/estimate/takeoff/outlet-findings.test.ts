import { describe, expect, it } from 'vitest';
import { EDITIONS } from '../../../server/electrical/citations.ts';
import { optionOf, ruleOf, type Stated } from '../fields/priced.ts';

type Said = Record<string, unknown>;

/** An outlet of 20 A and 120 V out of doors that is there, for 16 A. */
const there = (receptacle: Said, code: Said = {}): Stated => ({
  site: { building: 'outdoor', code },
  route: [],
  option: {
    feed: 'existing-receptacle',
    chargers: [{ amps: 16, connection: 'receptacle-5-20', equipment: 'owned' }],
    receptacle: { circuitA: 20, sharedWith: [], gfci: false, grounded: true, outdoors: true, ...receptacle },
  },
});
/** A receptacle on a circuit of its own. */
const anew = (connection: string, amps: number, site: Said = { building: 'outdoor' }): Stated => ({
  site,
  route: '30 exterior-wall',
  option: { chargers: [{ amps, connection, equipment: 'owned' }] },
});
const takes = (stated: Stated, key: RegExp) => optionOf(stated).lines.filter((line) => key.test(line.key));

describe('a receptacle out of doors', () => {
  /** NEC 625.43: above 60 A or 150 V to ground, and in 2026 for what is wired; 16 A at 120 V with a plug is none of them. */
  it.each(EDITIONS)('of 120 V asks for no disconnect at the charger in the edition of %s', (edition) => {
    for (const stated of [
      there({}, { edition }),
      there({ replace: true }, { edition }),
      anew('receptacle-5-20', 16, { building: 'outdoor', code: { edition } }),
    ]) {
      expect(takes(stated, /^disc|disconnect|lock-?out/)).toEqual([]);
      const { runs, findings } = optionOf(stated);
      expect(runs.flatMap(({ disconnect }) => disconnect ?? [])).toEqual([]);
      expect(findings.some(({ severity }) => severity === 'stop')).toBe(false);
    }
  });

  /** NEC 406.9(B)(1): weatherproof with the plug in, weather-resistant, for 15 and 20 A; the larger ones 625.56, in 2020 406.9(B)(2)(a). */
  it('that stays is doubted for rain, and one that is new gets its deep cover', () => {
    expect(ruleOf(optionOf(there({})), 'wet-receptacle-15-20')).toMatchObject([
      { severity: 'caution', citation: { article: '406.9(B)(1)' }, numbers: { ratingA: 20, found: true } },
    ]);
    for (const stated of [there({ replace: true }), anew('receptacle-5-20', 16)]) {
      expect(ruleOf(optionOf(stated), 'wet-receptacle-15-20')).toMatchObject([{ severity: 'ok' }]);
      expect(takes(stated, /^cover-inuse-1g$/).map(({ taken }) => taken)).toEqual([1]);
      expect(takes(stated, /-wr$/).map(({ taken }) => taken)).toEqual([1]);
    }
    const large = (edition: string) =>
      ruleOf(
        optionOf(anew('receptacle-14-50', 40, { building: 'outdoor', code: { edition } })),
        'wet-receptacle-other',
      );
    expect(['2020', '2023'].map((edition) => large(edition)[0]?.citation?.article)).toEqual([
      '406.9(B)(2)(a)',
      '625.56',
    ]);
  });

  it('is asked for ground-fault protection, whose lack is a caution and a new one’s a matter of course', () => {
    // NEC 625.54, 210.8(A).
    const severityOf = (receptacle: Said) => ruleOf(optionOf(there(receptacle)), 'gfci-ev-receptacle')[0]?.severity;
    expect([{}, { gfci: null }, { gfci: true }, { replace: true }].map(severityOf)).toEqual([
      'caution',
      'caution',
      'ok',
      'note',
    ]);
    expect(takes(there({ replace: true }), /gfci/).map(({ key }) => key)).toEqual(['rec-5-20-gfci-wr']);
  });

  it('of 15 A on 20 A is lawful as one of several only, and holds no charger above its own 80 %', () => {
    // NEC 210.21(B)(1) and (3), 625.41: 15 A / 1.25 = 12 A.
    const small = (amps: number) =>
      optionOf({
        ...there({}),
        option: { ...there({}).option, chargers: [{ amps, connection: 'receptacle-5-15', equipment: 'owned' }] },
      });
    expect(ruleOf(small(12), 'receptacle-rating')).toMatchObject([{ severity: 'caution' }]);
    expect(small(12).buildable).toBe(true);
    expect(ruleOf(small(13), 'plug-or-hardwired')).toMatchObject([{ severity: 'stop' }]);
  });
});

describe('a receptacle indoors', () => {
  it('is no matter of rain', () => {
    const option = optionOf(anew('receptacle-14-50', 40, { building: 'attached' }));
    const rules = option.findings.map(({ rule }) => rule);
    expect(rules.filter((rule) => rule.startsWith('wet-receptacle'))).toEqual([]);
  });
});
