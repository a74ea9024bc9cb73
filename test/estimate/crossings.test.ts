import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { crossingsOf, curveCrossings } from '../../server/estimate/crossings.ts';

const at = (length: number, totals: Record<string, number>) => ({ at: length, totals });
const brief = (points: Parameters<typeof curveCrossings>[0], ids: string[]) =>
  curveCrossings(points, ids).map(({ at, cheaperBelow, cheaperAbove, totalCents, isLeast }) => ({
    at,
    cheaperBelow,
    cheaperAbove,
    totalCents,
    isLeast,
  }));

describe('where two curves cross', () => {
  /**
   * At 60 the circuit costs 1,000 less, at 80 it costs 3,000 more: 1/4 of the way, 60 + 20 / 4 = 65. There it costs
   * 300,000 + (340,000 − 300,000) / 4 = 310,000, and the panel 301,000 + (337,000 − 301,000) / 4 = 310,000.
   */
  it('is reckoned by straight lines between the two points around it', () => {
    const points = [
      at(40, { circuit: 260_000, panel: 280_000 }),
      at(60, { circuit: 300_000, panel: 301_000 }),
      at(80, { circuit: 340_000, panel: 337_000 }),
    ];
    expect(brief(points, ['circuit', 'panel'])).toEqual([
      { at: 65, cheaperBelow: 'circuit', cheaperAbove: 'panel', totalCents: 310_000, isLeast: true },
    ]);
    expect(brief(points, ['panel', 'circuit'])[0]).toMatchObject({ cheaperBelow: 'circuit', cheaperAbove: 'panel' });
  });

  it('is at a point where both cost the same there and the order turns', () => {
    const points = [at(10, { a: 1, b: 2 }), at(20, { a: 5, b: 5 }), at(30, { a: 9, b: 8 })];
    expect(brief(points, ['a', 'b'])).toEqual([
      { at: 20, cheaperBelow: 'a', cheaperAbove: 'b', totalCents: 5, isLeast: true },
    ]);
  });

  it('is the end of a stretch that both have in common', () => {
    const points = [at(10, { a: 1, b: 2 }), at(20, { a: 5, b: 5 }), at(30, { a: 6, b: 6 }), at(40, { a: 9, b: 8 })];
    expect(brief(points, ['a', 'b']).map((one) => one.at)).toEqual([30]);
  });

  it('is nowhere where they only touch, are the same to the end, or one is missing between', () => {
    const touching = [at(10, { a: 1, b: 2 }), at(20, { a: 5, b: 5 }), at(30, { a: 8, b: 9 })];
    const merging = [at(10, { a: 1, b: 2 }), at(20, { a: 5, b: 5 })];
    const apart = [at(10, { a: 1, b: 2 }), at(20, { a: 5 }), at(30, { a: 9, b: 8 })];
    for (const points of [touching, merging, apart, []]) expect(curveCrossings(points, ['a', 'b'])).toEqual([]);
  });

  /** The outlet costs 50 throughout, so that where the others cross, at 15 for 150, the cheapest of all stays the same. */
  it('says whether the cheapest of all changes there', () => {
    const points = [at(10, { a: 100, b: 120, outlet: 50 }), at(20, { a: 200, b: 180, outlet: 50 })];
    expect(brief(points, ['a', 'b', 'outlet'])).toEqual([
      { at: 15, cheaperBelow: 'a', cheaperAbove: 'b', totalCents: 150, isLeast: false },
    ]);
    const without = points.map(({ at: length, totals: { outlet: _outlet, ...totals } }) => at(length, totals));
    expect(brief(without, ['a', 'b', 'outlet'])[0]?.isLeast).toBe(true);
  });

  it('lies between the points, and the order before and after it is the one said', () => {
    const cents = fc.integer({ min: 0, max: 1000 });
    const curve = fc.array(fc.record({ a: cents, b: cents }), { minLength: 2, maxLength: 8 });
    fc.assert(
      fc.property(curve, (rows) => {
        const points = rows.map((totals, nth) => at((nth + 1) * 10, totals));
        const found = curveCrossings(points, ['a', 'b']);
        const turns = rows.map(({ a, b }) => Math.sign(a - b)).filter((sign) => sign !== 0);
        expect(found.length).toBe(turns.filter((sign, nth) => nth > 0 && sign !== turns[nth - 1]).length);
        for (const one of found) {
          const after = points.find((point) => point.at > one.at && point.totals.a !== point.totals.b);
          const cheaper = (after?.totals.a ?? 0) < (after?.totals.b ?? 0) ? 'a' : 'b';
          expect(one.cheaperAbove).toBe(cheaper);
        }
      }),
    );
  });
});

describe('the crossings of an estimate', () => {
  it('are said in feet and in amperes, with the points that they come from', () => {
    const options = [
      { id: 'c', label: 'One circuit' },
      { id: 'p', label: 'Panel' },
    ];
    const { byDistance, byAmps } = crossingsOf(
      {
        byDistance: [
          { lengthFt: 20, totals: { c: 100_000, p: 150_000 } },
          { lengthFt: 45.25, totals: { c: 200_000, p: 150_000 } },
        ],
        byAmps: [
          { amps: 32, totals: { c: 120_000, p: 130_000 } },
          { amps: 40, totals: { c: 150_000, p: 130_000 } },
        ],
      },
      options,
    );
    expect(byDistance).toEqual([
      {
        lengthFt: 32.625, // half way of 25.25 ft
        cheaperBelow: 'c',
        cheaperAbove: 'p',
        totalCents: 150_000,
        isLeast: true,
        because:
          'Both were planned at 20 ft (One circuit $1,000, Panel $1,500) and at 45.3 ft (One circuit $2,000, Panel $1,500), ' +
          'and straight lines are drawn between; prices go up in steps, so take it as about.',
      },
    ]);
    expect(byAmps).toMatchObject([{ amps: 34.6667, totalCents: 130_000 }]); // 32 + 8 × 10,000 / 30,000
  });
});
