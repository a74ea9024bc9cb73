import { describe, expect, it } from 'vitest';
import { optionOf, ruleOf, takenOf } from './priced.ts';

describe('the permit', () => {
  it('has no line where it is stated as free, and is still called for', () => {
    const free = optionOf({ site: { permit: { feeCents: 0, inspections: 1 } } });
    expect(takenOf(free, 'permit-circuit')).toBeUndefined();
    expect(free.complete).toBe(true);
    expect(ruleOf(free, 'permit-free')).toMatchObject([{ severity: 'note' }]);
    const paid = optionOf({ site: { permit: { feeCents: 100, inspections: 1 } } });
    expect(paid.lines.find(({ key }) => key === 'permit-circuit')?.amountCents).toBe(100);
    expect(ruleOf(paid, 'permit-free')).toEqual([]);
  });

  it('says what to ask where the owner takes it out', () => {
    expect(ruleOf(optionOf({ site: { permit: { byOwner: true } } }), 'permit-by-owner')).toHaveLength(1);
  });
});

/** 2026: 625.4 asks for qualified persons, from trade articles. */
describe('work of the owner', () => {
  it.each([
    ['2026', { who: 'owner' }, 1],
    ['2026', { ownerDoes: ['wire'] }, 1],
    ['2026', { ownerDoes: ['trench'] }, 0],
    ['2026', {}, 0],
    ['2023', { who: 'owner' }, 0],
  ])('in %s, with %j, is doubted %d times', (edition, terms, times) => {
    const said = ruleOf(optionOf({ site: { code: { edition } }, rest: { terms } }), 'qualified-person');
    expect(said.map(({ severity, citation }) => [severity, citation?.article])).toEqual(
      Array.from({ length: times }, () => ['caution', '625.4']),
    );
  });
});

/** NEC 225.18: 12 ft over residential property and driveways at up to 300 V to ground; 225.19(A); 396.10. From memory. */
describe('a span in the air', () => {
  it('names its messenger, its height and its distance from a roof', () => {
    const option = optionOf({ site: { building: 'outdoor' }, route: '30 joists, 60 overhead-span' });
    const articles = ['overhead-messenger', 'overhead-clearance', 'overhead-roof'].map((rule) =>
      ruleOf(option, rule).map(({ leg, citation }) => `${leg} ${citation?.article}`),
    );
    expect(articles).toEqual([['1 396.10'], ['1 225.18'], ['1 225.19(A)']]);
    expect(ruleOf(option, 'overhead-clearance')[0]?.numbers.propertyFt).toBe(12);
    expect(ruleOf(optionOf({}), 'overhead-clearance')).toEqual([]);
  });
});

describe('what the service carries', () => {
  const listed = (more: Record<string, unknown> = {}) => ({
    method: 'listed',
    floorAreaFt2: 2000,
    smallApplianceCircuits: 2,
    laundryCircuits: 1,
    ...more,
  });
  const cited = (site: Record<string, unknown>) => {
    const option = optionOf({ site });
    return [
      ruleOf(option, 'service-capacity')[0]?.citation?.article,
      ...new Set(option.service.readings.map(({ method }) => method)),
    ];
  };

  /** NEC 220.82 new, 220.83(A) existing, (B) where heating or cooling is added, 220.87 measured; Article 120 in 2026. */
  it.each([
    ['220.83(A)', { load: listed() }],
    ['220.83(B)', { load: listed({ addingHeatOrCooling: true }) }],
    ['220.82', { load: listed(), work: 'new-construction' }],
    ['220.87', {}],
    ['120.83(A)', { load: listed(), code: { edition: '2026' } }],
    ['120.87', { code: { edition: '2026' } }],
  ])('cites %s', (article, site) => {
    expect(cited(site)).toEqual([article, article]);
  });

  it('says that 2026 has no charger in the tier', () => {
    const asked = (edition: string) =>
      ruleOf(optionOf({ site: { load: listed(), code: { edition, chargerReading: 'in-tier' } } }), 'charger-reading');
    expect(asked('2026')).toMatchObject([{ severity: 'note' }]);
    expect(asked('2023')).toEqual([]);
  });

  /** 1.25 × 60 A + 1.25 × 32 A = 115 A on 60 A: nothing is live yet where only the rough-in is built. */
  it('is asked before a rough-in is finished, and does not forbid the rough-in', () => {
    const full = { service: { ratingA: 60, freeSpaces: 4 } };
    expect(ruleOf(optionOf({ site: full }), 'service-capacity')[0]?.severity).toBe('stop');
    const rough = optionOf({ site: full, option: { roughInOnly: true } });
    expect(ruleOf(rough, 'service-capacity')).toMatchObject([{ severity: 'caution' }]);
    expect(rough.buildable).toBe(true);
  });
});
