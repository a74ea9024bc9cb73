import { describe, expect, it } from 'vitest';
import { bookOf } from '../../../server/estimate/price-book.ts';
import { boxFor, handholeFor } from '../../../server/estimate/takeoff/box-sizes.ts';
import { takeoffOf } from '../../../server/estimate/takeoff/takeoff.ts';
import { type ConductorSize, TRADE_SIZES, type TradeSize } from '../../../server/estimate/vocabulary.ts';
import { seedPrices } from '../../../server/seed-prices.ts';
import { asked, described, laid, planOf, run, section, tasked } from './plans.ts';

/*
 * NEC 314.28(A), for conductors of 4 AWG and larger: where they turn or are joined 6 × the largest trade size and the sum
 * of the others on the same wall; 8 × the largest where they go straight through. Which sizes are sold: common practice,
 * no source.
 */

describe('boxes are wide enough for what enters them', () => {
  const named = (size: ConductorSize, entries: TradeSize[], pull?: 'straight') =>
    boxFor({ size, entries, inside: true, ...(pull && { pull }) }).name;

  it.each<[ConductorSize, TradeSize[], string]>([
    ['4', ['1'], 'jbox-steel-8x8x4-3r'], // 6 × 1 = 6; never below 8
    ['4', ['1-1/4', '1-1/4'], 'jbox-steel-12x12x6-3r'], // 6 × 1.25 + 1.25 = 8.75
    ['1', ['1-1/2', '1-1/2'], 'jbox-steel-12x12x6-3r'], // 6 × 1.5 + 1.5 = 10.5
    ['1/0', ['2', '2'], 'jbox-steel-16x16x6-3r'], // 6 × 2 + 2 = 14
    ['2/0', ['2', '2-1/2'], 'jbox-steel-18x18x6-3r'], // 6 × 2.5 + 2 = 17
    ['4/0', ['3', '3'], 'jbox-steel-24x24x8-3r'], // 6 × 3 + 3 = 21
    ['250', ['4', '4'], 'jbox-steel-36x36x10-3r'], // 6 × 4 + 4 = 28
  ])('joins %s AWG from raceways of %j in a %s', (size, entries, box) => {
    expect(named(size, entries)).toBe(box);
  });

  it.each<[ConductorSize, TradeSize, string]>([
    ['4', '1-1/4', 'jbox-steel-12x12x6-3r'], // 8 × 1.25 = 10
    ['1/0', '2', 'jbox-steel-16x16x6-3r'], // 8 × 2 = 16
    ['4/0', '2-1/2', 'jbox-steel-24x24x8-3r'], // 8 × 2.5 = 20
    ['350', '4', 'jbox-steel-36x36x10-3r'], // 8 × 4 = 32
  ])('pulls %s AWG straight through between raceways of %s in in a %s', (size, tradeSize, box) => {
    expect(named(size, [tradeSize, tradeSize], 'straight')).toBe(box);
  });

  it('says how wide, and takes handholes by the same rule', () => {
    expect(boxFor({ size: '1/0', entries: ['2', '2'], inside: false }).why).toBe(
      'at least 6 × 2 in + 2 in = 14 in from wall to wall where conductors turn or are joined',
    );
    expect(handholeFor({ size: '1/0', entries: ['2', '2'] }).name).toBe('handhole-12x18'); // 14 in
    expect(handholeFor({ size: '4/0', entries: ['3', '3'] }).name).toBe('handhole-17x30'); // 21 in
  });

  it('takes boxes that the starting price book sells, for every trade size', () => {
    const prices = seedPrices().map((item) => ({ ...item, revision: 1 }));
    const book = bookOf(prices, 1);
    const boxes = TRADE_SIZES.flatMap((tradeSize) => {
      const entries = [tradeSize, tradeSize];
      const joined = (['4', '4/0'] as const).flatMap((size) => [
        boxFor({ size, entries, inside: false }),
        boxFor({ size, entries, inside: true, pull: 'straight' }),
      ]);
      return [...joined, handholeFor({ size: '4/0', entries })];
    });
    expect(boxes.filter(({ name }) => !book.bySpec({ is: 'other', name }))).toEqual([]);
  });

  it('counts the sleeve of a buried cable and the cable indoors as what enters a splice box', () => {
    const description = described({
      site: { building: 'detached' },
      route: [
        { kind: 'joists', lengthFt: 20 },
        { kind: 'lawn-trench', lengthFt: 40 },
      ],
    });
    const big = { metal: 'aluminum', size: '1/0', groundSize: '4', groundMetal: 'aluminum' } as const;
    const takeoff = takeoffOf(
      planOf(description, {
        runs: [
          run({
            sections: [
              section({ ...big, insulation: 'ser', cable: { form: 'ser', conductors: 3 }, legs: [0] }),
              section({ ...big, insulation: 'use-2', cable: { form: 'mhf', conductors: 3 }, legs: [1] }),
            ],
            legs: [laid(0, 'ser'), laid(1, 'direct-burial', { insulation: 'use-2', coverIn: 24 })],
            conductor: { metal: 'aluminum', size: '1/0', ampacityA: 120 },
          }),
        ],
        ditches: [{ legs: [1], coverIn: 24, depthIn: 26 }],
      }),
    );
    // The sleeve of 1/0 is 2 in (common practice, no source); SER of 1/0 would take 3 × 0.1825 + 0.042 = 0.5895 in² of raceway:
    // 1-1/2 in, since 1-1/4 in holds 0.581 (314.28(A), Chapter 9 Tables 1, 4, 5, 8): 6 × 2 + 1.5 = 13.5 in.
    expect(asked(takeoff, { is: 'raceway', type: 'pvc-80', tradeSize: '2' })).toBeGreaterThan(0);
    expect(asked(takeoff, { name: 'jbox-steel-16x16x6-3r' })).toBe(1);
  });

  it('pulls 4 AWG through a box of 8 times the raceway where the bends are too many', () => {
    const description = described({ route: [{ kind: 'interior-surface', lengthFt: 40, bendsDeg: 450 }] });
    const conduit = { type: 'emt', tradeSize: '1-1/4', fillPercent: 30 } as const;
    const takeoff = takeoffOf(
      planOf(description, {
        runs: [
          run({
            sections: [section({ insulation: 'thwn-2', size: '4', legs: [0] })],
            legs: [laid(0, 'emt', { conduit })],
            conductor: { metal: 'copper', size: '4', ampacityA: 85 },
          }),
        ],
      }),
    );
    expect(tasked(takeoff, 'pull-box')).toBe(1);
    expect(asked(takeoff, { name: 'jbox-steel-12x12x6-3r' })).toBe(1); // 8 × 1.25 = 10 in
  });
});
