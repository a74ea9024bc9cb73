import { describe, expect, it } from 'vitest';
import { estimate } from '../../server/estimate/estimate.ts';
import { bookOf } from '../../server/estimate/price-book.ts';
import { household, optionOf, SEEDED, type Stated } from './fields/priced.ts';

const answerOf = (stated: Stated, book = SEEDED) => estimate(household(stated), book);
const inGround = {
  site: { building: 'detached' },
  route: [
    { kind: 'joists', lengthFt: 20, method: 'nm-b' },
    { kind: 'lawn-trench', lengthFt: 40, method: 'uf-b' },
  ],
};
const IN_RACEWAY = [
  { kind: 'finished-ceiling', lengthFt: 25, method: 'emt' },
  { kind: 'lawn-trench', lengthFt: 30, method: 'pvc' },
];

describe('a spare conduit now, or the way dug once more', () => {
  it('sets both sums beside each other, each of them from estimates that stand alone', () => {
    const answer = answerOf({ ...inGround, option: { spareConduit: { toA: 60 } } });
    const [one] = answer.comparison.nowOrLater ?? [];
    const [option] = answer.options;
    const plain = optionOf({ ...inGround, option: {} }).totals.totalCents;
    expect(one).toMatchObject({ option: 'a', kind: 'spare-conduit' });
    expect(one?.prepared.nowCents).toBe(option?.totals.totalCents);
    expect(one?.prepared.laterCents).toBe(option?.later?.cents);
    expect(one?.unprepared.nowCents).toBe(plain);
    expect(one?.unprepared.laterCents).toBe(option?.later?.ways?.[0]?.withoutItCents);
    for (const { nowCents, laterCents, sumCents } of [one?.prepared, one?.unprepared].flatMap((sum) => sum ?? [])) {
      expect(sumCents).toBe(nowCents + laterCents);
    }
    expect(one?.savesCents).toBe((one?.unprepared.sumCents ?? 0) - (one?.prepared.sumCents ?? 0));
    expect(one?.savesCents).toBeGreaterThan(0); // 40 ft of lawn dug once less
  });

  it('is not weighed where a price is missing', () => {
    const without = bookOf(
      SEEDED.items.filter(({ key }) => key !== 'breaker-2p-60'),
      1,
    );
    expect(answerOf({ ...inGround, option: { spareConduit: { toA: 60 } } }, without).comparison.nowOrLater).toEqual([]);
  });
});

describe('a rough-in now, or all of it later', () => {
  const roughIn = (work: string, roughInOnly = true): Stated => ({
    site: { building: 'detached', work, hazards: [] },
    route: IN_RACEWAY,
    option: { roughInOnly },
  });

  it('holds new construction against the finished house, where ceilings are opened and patched', () => {
    const answer = answerOf(roughIn('new-construction'));
    const [one] = answer.comparison.nowOrLater ?? [];
    expect(one?.prepared.nowCents).toBe(answer.options[0]?.totals.totalCents);
    expect(one?.unprepared).toMatchObject({
      nowCents: 0,
      laterCents: optionOf(roughIn('retrofit', false)).totals.totalCents,
    });
    expect(one?.atOnceCents).toBe(optionOf(roughIn('new-construction', false)).totals.totalCents);
    expect(one?.unprepared.sumCents).toBeGreaterThan(one?.atOnceCents ?? Number.POSITIVE_INFINITY);
  });

  it('says it too where preparing costs more than doing all of it at once', () => {
    const [one] = answerOf(roughIn('retrofit')).comparison.nowOrLater ?? [];
    expect(one?.unprepared.sumCents).toBe(one?.atOnceCents);
    // What two jobs have besides one: a second permit, trips, and the caps of the empty raceway.
    expect(one?.savesCents).toBeLessThan(0);
    expect(one?.because).toContain('more in the end');
  });

  it('is not said of an option that prepares nothing', () => {
    expect(answerOf(roughIn('retrofit', false)).comparison.nowOrLater).toEqual([]);
  });
});
