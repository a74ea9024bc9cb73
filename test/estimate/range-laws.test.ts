import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Line } from '../../server/estimate/answer.ts';
import type { Scenario } from '../../server/estimate/range/mixture.ts';
import { percentilesOf, pricedDraws, rangeOf } from '../../server/estimate/range.ts';
import { LINE_CLASSES } from '../../server/estimate/vocabulary.ts';
import { jobOf, line, rangeOfLines, termsOf, widthOf } from './range-lines.ts';
import { uncertain } from './uncertain-jobs.ts';

/** What draws may miss: the work asks for percentiles that are steady to a half percent. */
const STEADY = 0.005;

const points = fc
  .tuple(fc.integer({ min: 1_000, max: 100_000 }), fc.nat(100_000), fc.nat(100_000))
  .map(([low, more, most]) => ({ lowCents: low, amountCents: low + more, highCents: low + more + most }));
const anyLine = fc
  .record({
    points,
    class: fc.constantFrom(...LINE_CLASSES),
    scope: fc.constantFrom('wire', 'trench', 'panel', 'other'),
  })
  .map(({ points: ends, ...kind }) => line({ ...ends, ...kind } as Parameters<typeof line>[0]));
const lines = fc.array(anyLine, { minLength: 1, maxLength: 10 });

const scenario = (base: readonly Line[], { chance, added }: { chance: number; added: Line }): Scenario => ({
  name: 'new-service',
  group: 'panel',
  chance,
  givenChance: chance,
  because: '',
  lines: [...base, { ...added, key: 'added', class: 'fee' }],
});

describe('laws of the range', () => {
  it('more uncertainty of a line never narrows it', () => {
    fc.assert(
      fc.property(
        lines,
        fc.nat(9),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 2, noNaN: true }),
        (some, which, down, up) => {
          const wider = some.map((one, at) =>
            at === which % some.length
              ? {
                  ...one,
                  lowCents: Math.round(one.lowCents * (1 - down)),
                  highCents: Math.round(one.highCents * (1 + up)),
                }
              : one,
          );
          const before = rangeOfLines(some);
          const after = rangeOfLines(wider);
          expect(widthOf(after)).toBeGreaterThanOrEqual(widthOf(before) - STEADY * before.p90Cents);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('p10 is at most p50, and p50 at most p90, with chances too', () => {
    fc.assert(
      fc.property(lines, anyLine, fc.double({ min: 0, max: 1, noNaN: true }), (some, added, chance) => {
        const job = jobOf(some, { scenarios: [scenario(some, { chance, added })] });
        const { p10Cents, p50Cents, p90Cents } = rangeOf(pricedDraws(job, termsOf()));
        expect(p10Cents).toBeLessThanOrEqual(p50Cents);
        expect(p50Cents).toBeLessThanOrEqual(p90Cents);
      }),
      { numRuns: 60 },
    );
  });

  it('scales with a markup that all classes bear alike', () => {
    fc.assert(
      fc.property(lines, fc.integer({ min: 1, max: 10_000 }), (some, bp) => {
        const plain = rangeOfLines(some);
        const marked = rangeOfLines(some, { markup: { materialBp: bp, laborBp: bp, equipmentBp: bp, feeBp: bp } });
        for (const name of ['p10Cents', 'p50Cents', 'p90Cents', 'likelyCents'] as const) {
          // Whole cents before and after the markup: one and a half of them at most.
          expect(Math.abs(marked[name] - plain[name] * (1 + bp / 10_000))).toBeLessThanOrEqual(1.5);
        }
      }),
      { numRuns: 60 },
    );
  });

  it('does not change with an incentive, and never falls below 0 with a discount', () => {
    fc.assert(
      fc.property(lines, fc.nat(500_000), (some, cents) => {
        const incentives = [{ name: 'a credit', kind: 'fixed', cents, of: [] }];
        expect(rangeOfLines(some, { incentives })).toEqual(rangeOfLines(some));
        expect(rangeOfLines(some, { discountCents: cents }).p10Cents).toBeGreaterThanOrEqual(0);
      }),
      { numRuns: 30 },
    );
  });

  /**
   * A width from p10 to p90 is not a measure that always falls on average: a chance below a tenth lies beyond p90 until
   * it is known. Hence chances from a fifth to four fifths, of something as large as the job.
   */
  it('knowing a fact never widens it on average', () => {
    const chances = fc.double({ min: 0.2, max: 0.8, noNaN: true });
    fc.assert(
      fc.property(lines, chances, fc.integer({ min: 1, max: 3 }), (some, chance, times) => {
        const sum = some.reduce((total, { highCents }) => total + highCents, 0);
        const cents = sum * times;
        const added = line({ lowCents: cents * 0.9, amountCents: cents, highCents: cents * 1.1 });
        const priced = pricedDraws(jobOf(some, { scenarios: [scenario(some, { chance, added })] }), termsOf());
        const width = (isSo?: boolean) => {
          const known = isSo === undefined ? {} : { scenarios: new Map([['new-service', isSo]]) };
          const { p10, p90 } = percentilesOf(priced, known);
          return p90 - p10;
        };
        expect(chance * width(true) + (1 - chance) * width(false)).toBeLessThanOrEqual(width() * (1 + STEADY));
      }),
      { numRuns: 60 },
    );
  });

  it('measuring a guessed leg never widens it', () => {
    const guess = fc
      .tuple(fc.integer({ min: 5, max: 40 }), fc.integer({ min: 1, max: 40 }), fc.integer({ min: 1, max: 80 }))
      .map(([low, more, most]) => `${low}..${low + more}..${low + more + most}`);
    fc.assert(
      fc.property(guess, guess, (joists, lawn) => {
        const guessed = uncertain({ route: `${joists} joists, ${lawn} lawn-trench` });
        const likely = lawn.split('..')[1];
        const measured = uncertain({ route: `${joists} joists, ${likely} lawn-trench` });
        // A plan is made for the longest length: measured, a smaller size may do, which only narrows.
        expect(widthOf(measured.range)).toBeLessThanOrEqual(widthOf(guessed.range) * (1 + 2 * STEADY));
        for (const { swingCents } of guessed.unknowns) expect(swingCents).toBeGreaterThanOrEqual(0);
      }),
      { numRuns: 12 },
    );
  });
});
