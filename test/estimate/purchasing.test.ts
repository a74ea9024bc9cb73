import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cheapestCover } from '../../server/estimate/covering.ts';
import { cheapestPackages, type LengthOffer } from '../../server/estimate/purchasing.ts';

const piece = fc.integer({ min: 1, max: 1200 }).map((tenths) => tenths / 10);
const pieces = fc.array(piece, { minLength: 1, maxLength: 7 });
const byFoot = fc.record({ lengthFt: fc.constant(null), priceCents: fc.integer({ min: 20, max: 400 }) });
const coil = fc.record({
  lengthFt: fc.constantFrom(25, 50, 100, 125, 250, 500),
  priceCents: fc.integer({ min: 500, max: 90_000 }),
});
/** By the foot and some coils, in any order. */
const offers: fc.Arbitrary<LengthOffer[]> = fc
  .tuple(byFoot, fc.array(coil, { maxLength: 4 }))
  .map(([foot, coils]) => [...coils, foot]);
const lawful = fc.record({ pieces, offers });

/** The least cost by trying every way to share the pieces out, a package at a time: slow, and plainly right. */
function leastBySearch(left: readonly number[], offers: readonly LengthOffer[]): number {
  const [first, ...others] = left;
  if (first === undefined) return 0;
  let least = Number.POSITIVE_INFINITY;
  for (const { lengthFt, priceCents } of offers) {
    if (lengthFt === null) {
      least = Math.min(least, Math.ceil(first) * priceCents + leastBySearch(others, offers));
      continue;
    }
    for (let mask = 0; mask < 1 << others.length; mask++) {
      const held = others.filter((_, at) => mask & (1 << at));
      if (first + held.reduce((sum, value) => sum + value, 0) > lengthFt + 1e-9) continue;
      const rest = others.filter((_, at) => !(mask & (1 << at)));
      least = Math.min(least, priceCents + leastBySearch(rest, offers));
    }
  }
  return least;
}

describe('buying lengths that may not be spliced', () => {
  it('costs the least that any way of buying costs', () => {
    const few = fc.record({ pieces: fc.array(piece, { minLength: 1, maxLength: 5 }), offers });
    fc.assert(
      fc.property(few, (job) => {
        expect(cheapestPackages(job)?.costCents).toBe(leastBySearch(job.pieces, job.offers));
      }),
      { numRuns: 150 },
    );
  });

  it('cuts every piece once, and no coil is longer inside than outside', () => {
    fc.assert(
      fc.property(lawful, (job) => {
        const plan = cheapestPackages(job);
        const cut = plan?.buy.flatMap(({ pieces: cuts }) => cuts.flat()).sort((a, b) => a - b);
        expect(cut).toEqual([...job.pieces].sort((a, b) => a - b));
        for (const { offer, count, pieces: cuts } of plan?.buy ?? []) {
          const lengthFt = job.offers[offer]?.lengthFt ?? null;
          for (const held of cuts) {
            const heldFt = held.reduce((sum, feet) => sum + feet, 0);
            if (lengthFt !== null) expect(heldFt).toBeLessThanOrEqual(lengthFt + 1e-6);
          }
          expect(count).toBe(
            lengthFt === null ? cuts.flat().reduce((sum, feet) => sum + Math.ceil(feet), 0) : cuts.length,
          );
        }
      }),
    );
  });

  it('costs what its packages cost, and says what is left over', () => {
    fc.assert(
      fc.property(lawful, (job) => {
        const plan = cheapestPackages(job);
        const bought = plan?.buy.map(({ offer, count }) => ({ count, ...(job.offers[offer] as LengthOffer) })) ?? [];
        expect(bought.reduce((sum, { count, priceCents }) => sum + count * priceCents, 0)).toBe(plan?.costCents);
        const boughtFt = bought.reduce((sum, { count, lengthFt }) => sum + count * (lengthFt ?? 1), 0);
        const takenFt = job.pieces.reduce((sum, feet) => sum + feet, 0);
        expect(plan?.leftOverFt).toBeCloseTo(boughtFt - takenFt, 5);
        expect(plan?.leftOverFt).toBeGreaterThanOrEqual(-1e-6);
      }),
    );
  });

  it('never costs less for one more piece, or for a longer one', () => {
    fc.assert(
      fc.property(lawful, piece, (job, more) => {
        const base = cheapestPackages(job)?.costCents ?? 0;
        const added = cheapestPackages({ ...job, pieces: [...job.pieces, more] });
        const longer = cheapestPackages({
          ...job,
          pieces: job.pieces.map((feet, at) => (at === 0 ? feet + more : feet)),
        });
        expect(added?.costCents).toBeGreaterThanOrEqual(base);
        expect(longer?.costCents).toBeGreaterThanOrEqual(base);
      }),
    );
  });

  /** Ours. By arithmetic: a foot costs 100 at the least, of the coil of 100 ft; twelve of those hold all without waste. */
  it('is proved for a job of many pieces that come out of whole coils', () => {
    const pieces = Array.from({ length: 24 }, (_, at) => [20, 30, 50, 100][at % 4] ?? 0); // 6 × 200 ft = 1200 ft
    const plan = cheapestPackages({
      pieces,
      offers: [
        { lengthFt: null, priceCents: 150 },
        { lengthFt: 100, priceCents: 10_000 },
        { lengthFt: 250, priceCents: 26_000 },
      ],
    });
    expect(plan).toMatchObject({ costCents: 120_000, leftOverFt: 0, proven: true });
  });

  it('cannot be done where a piece is longer than every coil and nothing is sold by the foot', () => {
    expect(cheapestPackages({ pieces: [60], offers: [{ lengthFt: 50, priceCents: 900 }] })).toBeUndefined();
    expect(cheapestPackages({ pieces: [60], offers: [] })).toBeUndefined();
  });

  it('buys each of two pieces in whole feet: 10.5 and 10.5 ft by the foot are 22 ft', () => {
    const plan = cheapestPackages({ pieces: [10.5, 10.5], offers: [{ lengthFt: null, priceCents: 100 }] });
    expect(plan).toMatchObject({ costCents: 2200, leftOverFt: 1 });
  });
});

describe('covering a quantity with packages', () => {
  const job = fc.record({
    quantity: fc.integer({ min: 1, max: 900 }).map((tenths) => tenths / 10),
    offers: fc.array(
      fc.record({ quantity: fc.integer({ min: 1, max: 40 }), priceCents: fc.integer({ min: 1, max: 5000 }) }),
      { minLength: 1, maxLength: 4 },
    ),
  });

  it('costs the least that any packages cost', () => {
    fc.assert(
      fc.property(job, ({ quantity, offers }) => {
        const least = [0];
        for (let units = 1; units <= Math.ceil(quantity); units++) {
          const ways = offers.map((offer) => (least[Math.max(0, units - offer.quantity)] ?? 0) + offer.priceCents);
          least.push(Math.min(...ways));
        }
        expect(cheapestCover({ quantity, offers })?.costCents).toBe(least.at(-1));
      }),
    );
  });

  it('always covers, and more never costs less', () => {
    fc.assert(
      fc.property(job, fc.integer({ min: 1, max: 50 }), ({ quantity, offers }, more) => {
        const plan = cheapestCover({ quantity, offers });
        expect(plan?.leftOver).toBeGreaterThanOrEqual(0);
        const bought = plan?.buy.reduce((sum, { offer, count }) => sum + count * (offers[offer]?.quantity ?? 0), 0);
        expect((bought ?? 0) - quantity).toBeCloseTo(plan?.leftOver ?? -1, 4);
        const larger = cheapestCover({ quantity: quantity + more, offers });
        expect(larger?.costCents).toBeGreaterThanOrEqual(plan?.costCents ?? 0);
      }),
    );
  });

  /** Common practice, no source for the price; the arithmetic is 6 sticks × 9.70 = 58.20, 60 − 53.55 = 6.45 ft. */
  it('takes 53.55 ft of conduit in six sticks of 10 ft', () => {
    const plan = cheapestCover({ quantity: 53.55, offers: [{ quantity: 10, priceCents: 970 }] });
    expect(plan).toEqual({ buy: [{ offer: 0, count: 6 }], costCents: 5820, leftOver: 6.45 });
  });

  it('cannot be done with no package', () => {
    expect(cheapestCover({ quantity: 1, offers: [] })).toBeUndefined();
  });
});
