import { describe, expect, it } from 'vitest';
import { estimate } from '../../../server/estimate/estimate.ts';
import { bookOf, type PriceItem } from '../../../server/estimate/price-book.ts';
import { household, optionOf, ruleOf, SEEDED, type Stated, takenOf, unitsOf } from './priced.ts';

const ROUTE = [
  { kind: 'joists', lengthFt: 20, method: 'nm-b' },
  { kind: 'lawn-trench', lengthFt: 40, method: 'uf-b' },
];
const withSpare = (toA: number, more: Record<string, unknown> = {}): Stated => ({
  site: { building: 'detached' },
  route: ROUTE,
  option: { spareConduit: { toA }, ...more },
});
const keys = (stated: Stated) => new Set(optionOf(stated).lines.map(({ key }) => key));
/** The dollars that a sentence names, in its order. */
const dollarsIn = (text = '') =>
  [...text.matchAll(/\$([\d,]+)/g)].map(([, digits = '']) => Number(digits.replaceAll(',', '')));

describe('a spare conduit', () => {
  /**
   * 60 A in copper: 6 AWG, 65 A at 75 °C (Table 310.16), ground 10 AWG (250.122). 3 × 0.0507 + 0.0211 = 0.1732 in² (Chapter 9
   * Table 5): 3/4 in EMT takes 0.213 at 40 %, 3/4 in PVC 0.203, schedule 80 only 0.164, so its risers are 1 in (Table 4).
   * 20 ft and 40 ft, 5 % waste: 21 and 42 ft. Cover 24 in for UF-B: two risers of 2 + 1.5 ft, 5 % waste: 7.35 ft of
   * schedule 80 more than the cable's own sleeves take.
   */
  it('is laid beside the cable over the whole route, sized for its feeder in copper, and capped', () => {
    const option = optionOf(withSpare(60));
    expect(takenOf(option, 'emt-3_4')).toBe(21);
    expect(takenOf(option, 'pvc-40-3_4')).toBe(42);
    const sleeves = takenOf(optionOf({ ...withSpare(60), option: {} }), 'pvc-80-1') ?? 0;
    expect((takenOf(option, 'pvc-80-1') ?? 0) - sleeves).toBeCloseTo(7.35, 4);
    expect([takenOf(option, 'raceway-cap'), unitsOf(option, 'cap-and-label')]).toEqual([2, 2]);
    expect(ruleOf(option, 'spare-conduit')[0]?.numbers).toMatchObject({ ocpdA: 60, size: '6' });
    expect(option.runs.map(({ name }) => name)).toEqual(['charger']);
    expect(option.complete).toBe(true);
  });

  /** Hours are for 24 in: 24 in of cover and 1 in of cable, or, rounded up, 2 in of raceway (3/4 + 0.4 in). */
  it('is dug for once, an inch deeper', () => {
    expect(unitsOf(optionOf({ ...withSpare(60), option: {} }), 'trencher-loam')).toBeCloseTo((40 * 25) / 24, 4);
    expect(unitsOf(optionOf(withSpare(60)), 'trencher-loam')).toBeCloseTo((40 * 26) / 24, 4);
  });

  it('buys no conductor, and says what using it later costs against digging again', () => {
    expect([...keys(withSpare(60))].filter((key) => key.startsWith('thwn'))).toEqual([]);
    const { later } = optionOf(withSpare(60));
    const [through = 0, again = 0, more = 0] = dollarsIn(later?.because);
    expect(later?.cents).toBeGreaterThan(0);
    expect(Math.round((later?.cents ?? 0) / 100)).toBe(through);
    expect(again).toBeGreaterThan(through);
    expect(Math.abs(again - through - more)).toBeLessThanOrEqual(1); // each is rounded to a dollar by itself
  });

  it('says where it is interrupted, and stops at a feeder that no raceway holds', () => {
    const route = '20 joists, 30 overhead-span, 5 exterior-wall';
    const [gap] = ruleOf(optionOf({ ...withSpare(60), route }), 'empty-raceway');
    expect(gap).toMatchObject({ severity: 'caution', leg: 1 });
    const tooLarge = optionOf(withSpare(400));
    expect(tooLarge.findings.some(({ severity }) => severity === 'stop')).toBe(true);
  });

  it('does not guess what is later where the book lacks a part', () => {
    const without = bookOf(
      SEEDED.items.filter(({ key }) => key !== 'breaker-2p-60'),
      1,
    );
    const [option] = estimate(household(withSpare(60)), without, { parts: 'core' }).options;
    expect(option?.later).toBeUndefined();
    expect(option?.findings.find(({ rule }) => rule === 'later')?.severity).toBe('caution');
  });
});

describe('a conduit for data', () => {
  /** 40 ft in the ditch, 5 % waste, and 1 ft through each of two walls: 44 ft; its risers are 3/4 in as well: 2 × 3.5 ft × 1.05 = 7.35 ft. */
  it('lies in the same ditch in the size that was asked for', () => {
    const option = optionOf({ ...withSpare(60), option: { dataConduit: {} } });
    expect([takenOf(option, 'pvc-40-3_4'), takenOf(option, 'pvc-80-3_4')]).toEqual([44, 7.35]);
    expect(ruleOf(option, 'data-conduit')[0]?.citation?.article).toBe('725.136(A)');
    expect(option.later).toBeUndefined();
  });
});

describe('a rough-in', () => {
  const RACEWAY = [
    { kind: 'joists', lengthFt: 20, method: 'emt' },
    { kind: 'lawn-trench', lengthFt: 40, method: 'pvc' },
  ];
  const roughIn = (roughInOnly: boolean): Stated => ({
    site: { building: 'detached' },
    route: RACEWAY,
    option: { roughInOnly },
  });

  it('builds raceway, boxes and pull line, both ends capped, and nothing that is live', () => {
    const option = optionOf(roughIn(true));
    const scopes = new Set(option.lines.filter(({ class: kind }) => kind === 'material').map(({ scope }) => scope));
    for (const scope of ['wire', 'breaker', 'charger', 'panel', 'grounding']) expect(scopes).not.toContain(scope);
    expect(takenOf(option, 'raceway-cap')).toBe(2);
    expect(takenOf(option, 'pull-string')).toBeGreaterThan(60);
    expect(option.runs[0]).toMatchObject({ ocpdA: 40, conductor: { size: '8', metal: 'copper' } });
  });

  it('says what finishing it costs, which together is no less than building it at once', () => {
    const later = optionOf(roughIn(true)).later?.cents ?? 0;
    const now = optionOf(roughIn(true)).totals.totalCents;
    const atOnce = optionOf(roughIn(false)).totals.totalCents;
    expect(later).toBeGreaterThan(0);
    expect(later).toBeLessThan(atOnce);
    expect(now + later).toBeGreaterThanOrEqual(atOnce);
    expect(dollarsIn(optionOf(roughIn(true)).later?.because)).toEqual([
      Math.round(later / 100),
      Math.round(atOnce / 100),
    ]);
  });

  it('does not pay twice for what is in the walls and the ground', () => {
    const there = ({ spec, category }: PriceItem) =>
      spec?.is === 'raceway' || spec?.is === 'fitting' || category === 'rental' || /trench|sand|tape/.test(category);
    const doubled = bookOf(
      SEEDED.items.map((item) => (there(item) ? dearer(item) : item)),
      1,
    );
    const laterBy = (book: typeof SEEDED) =>
      estimate(household(roughIn(true)), book, { parts: 'core' }).options.map(({ later }) => later?.cents);
    expect(laterBy(doubled)).toEqual(laterBy(SEEDED));
  });

  /** NEC 300.18(A), from memory: raceways are complete before conductors are pulled. */
  it('may not be asked for in cable', () => {
    expect(ruleOf(optionOf({ ...roughIn(true), route: ROUTE }), 'rough-in-raceway')[0]).toMatchObject({
      severity: 'stop',
      citation: { article: '300.18(A)' },
    });
  });
});

function dearer(item: PriceItem): PriceItem {
  const twice = (cents: number) => cents * 2;
  return {
    ...item,
    low: twice(item.low),
    likely: twice(item.likely),
    high: twice(item.high),
    offers: item.offers.map((offer) => ({
      ...offer,
      lowCents: twice(offer.lowCents),
      likelyCents: twice(offer.likelyCents),
      highCents: twice(offer.highCents),
    })),
  };
}
