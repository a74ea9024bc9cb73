import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Line } from '../../server/estimate/answer.ts';
import { costByClass } from '../../server/estimate/class-cost.ts';
import { incentivesOf } from '../../server/estimate/incentives.ts';
import { totalsOf } from '../../server/estimate/totals.ts';
import { LINE_CLASSES } from '../../server/estimate/vocabulary.ts';
import { described } from './takeoff/plans.ts';

type Terms = Record<string, unknown>;
type Cost = Pick<Line, 'class' | 'amountCents'>[];

/** 700.00 of material, 960.00 of labor, 120.00 of machines, 150.00 of fees: 1,930.00. */
const COST: Cost = [
  { class: 'material', amountCents: 50_000 },
  { class: 'material', amountCents: 20_000 },
  { class: 'labor', amountCents: 96_000 },
  { class: 'equipment', amountCents: 12_000 },
  { class: 'fee', amountCents: 15_000 },
];
const withTerms = (terms: Terms) => ({
  ...described({ route: [{ kind: 'joists', lengthFt: 10 }], terms }),
  asOf: '2026-03-02',
});
const totals = (terms: Terms, lines: Cost = COST) => totalsOf(lines, withTerms(terms));
const EVERY = [...LINE_CLASSES];

describe('the money formula', () => {
  /**
   * By hand: markup 15 % of 700.00 = 105.00; overhead 10 % of 1,930.00 = 193.00; together 2,228.00; profit 10 % of it
   * = 222.80; price 2,450.80; tax 6 % of 700.00 = 42.00; total 2,492.80.
   */
  it('adds markup, overhead, profit and tax to the cost', () => {
    const terms = { markup: { materialBp: 1500 }, overheadBp: 1000, profitBp: 1000, taxBp: 600 };
    expect(totals(terms)).toEqual({
      ...{ materialCents: 70_000, laborCents: 96_000, equipmentCents: 12_000, feeCents: 15_000, costCents: 193_000 },
      ...{ markupCents: 10_500, overheadCents: 19_300, contingencyCents: 0, profitCents: 22_280, discountCents: 0 },
      ...{ taxCents: 4200, totalCents: 249_280, incentiveCents: 0, netCents: 249_280 },
    });
  });

  /** 1,930.00 + 5 % = 2,026.50; profit on the price at 20 %: 2,026.50 × 0.20 / 0.80 = 506.63 (506.625); − 100.00. */
  it('takes profit on the price after contingency, and the discount after both', () => {
    const terms = { contingencyBp: 500, profitBp: 2000, profitOn: 'price', discountCents: 10_000 };
    expect(totals(terms)).toMatchObject({ contingencyCents: 9650, profitCents: 50_663, totalCents: 243_313 });
  });

  /**
   * Material with its markup is 700.00 × 1.20 = 840.00 of 840.00 + 1,230.00 = 2,070.00. Price 2,070.00 + 10 % overhead
   * of 1,930.00 = 2,263.00; its taxed share 2,263.00 × 840 / 2,070 = 918.3188; × 7 % = 64.28.
   */
  it('taxes the share that the classes have in the price', () => {
    const terms = { markup: { materialBp: 2000 }, overheadBp: 1000, taxBp: 700, taxBase: 'price' };
    expect(totals(terms)).toMatchObject({ taxCents: 6428, totalCents: 232_728 });
  });

  it('taxes the cost of every class that is named', () => {
    expect(totals({ taxBp: 1000, taxOn: ['material', 'fee'] }).taxCents).toBe(8500); // 10 % of 850.00
  });

  /** Half a cent goes up: 0.5 % of 1.00 is 0.005; two classes of 0.5 cent each are 1 cent together, not 2. */
  it('rounds once, half away from zero, after the sum', () => {
    const twice: Cost = [
      { class: 'material', amountCents: 100 },
      { class: 'labor', amountCents: 100 },
    ];
    expect(totals({ markup: { materialBp: 50 } }, twice).markupCents).toBe(1);
    expect(totals({ markup: { materialBp: 50, laborBp: 50 } }, twice).markupCents).toBe(1);
  });

  it('refuses a discount that takes the price below nothing, and says how large it may be', () => {
    expect(totals({ discountCents: 193_000 }).totalCents).toBe(0);
    expect(() => totals({ discountCents: 193_001 })).toThrow(
      'terms.discountCents must be at most 193000 cents, the price before it, not 193001',
    );
  });

  it('refuses a total of a hundred million dollars', () => {
    const lines: Cost = [{ class: 'fee', amountCents: 9_999_999_999 }];
    expect(totals({}, lines).totalCents).toBe(9_999_999_999);
    expect(() => totals({ overheadBp: 1 }, lines)).toThrow('sums must stay below 10000000000 cents');
  });

  it('is nothing where nothing costs anything', () => {
    expect(totals({ taxBp: 700, taxBase: 'price', overheadBp: 1000 }, [])).toMatchObject({
      totalCents: 0,
      netCents: 0,
    });
  });
});

describe('incentives', () => {
  const fixed = (name: string, cents: number, more: Terms = {}) => ({ name, kind: 'fixed', cents, of: EVERY, ...more });

  it('take a fixed sum off the net and not off the total', () => {
    const sums = totals({ incentives: [fixed('rebate', 50_000)] });
    expect(sums).toMatchObject({ totalCents: 193_000, incentiveCents: 50_000, netCents: 143_000 });
  });

  /** 30 % of material's share of the price: 2,123.00 × 700 / 1,930 = 770.00; 231.00; with a cap of 200.00 that. */
  it('take a percentage of the share that their classes have in the price, at most their cap', () => {
    const credit = { name: 'credit', kind: 'percent', bp: 3000, of: ['material'] };
    expect(totals({ overheadBp: 1000, incentives: [credit] }).incentiveCents).toBe(23_100);
    expect(totals({ overheadBp: 1000, incentives: [{ ...credit, capCents: 20_000 }] }).incentiveCents).toBe(20_000);
  });

  it('count until their last day, and not after it', () => {
    expect(totals({ incentives: [fixed('rebate', 100, { until: '2026-03-02' })] }).incentiveCents).toBe(100);
    expect(totals({ incentives: [fixed('rebate', 100, { until: '2026-03-01' })] }).incentiveCents).toBe(0);
  });

  it('never pay anybody to build, and leave uncertain ones out of the net', () => {
    expect(totals({ incentives: [fixed('too good', 900_000_000)] })).toMatchObject({
      incentiveCents: 193_000,
      netCents: 0,
    });
    const terms = { incentives: [fixed('perhaps', 40_000, { certain: false }), fixed('sure', 10_000)] };
    expect(totals(terms)).toMatchObject({ incentiveCents: 10_000, netCents: 183_000 });
    const cost = costByClass(COST);
    const all = incentivesOf({ cost, priceCents: 193_000, totalCents: 193_000, description: withTerms(terms) });
    expect(all.map(({ name, cents }) => [name, cents])).toEqual([
      ['sure', 10_000],
      ['perhaps', 40_000],
    ]);
  });
});

describe('laws of the totals', () => {
  const bp = fc.integer({ min: 0, max: 5000 });
  const lines = fc.array(
    fc.record({ class: fc.constantFrom(...LINE_CLASSES), amountCents: fc.integer({ min: 0, max: 5_000_000 }) }),
    { minLength: 1, maxLength: 30 },
  );
  const markup = fc.record({ materialBp: bp, laborBp: bp, equipmentBp: bp, feeBp: bp });
  const terms = fc.record({
    ...{ markup, overheadBp: bp, contingencyBp: bp, profitBp: bp, taxBp: bp },
    profitOn: fc.constantFrom('cost', 'price'),
    taxBase: fc.constantFrom('cost', 'price'),
    taxOn: fc.uniqueArray(fc.constantFrom(...LINE_CLASSES)),
  });

  it('adds up to the cent', () => {
    fc.assert(
      fc.property(lines, terms, (lines, terms) => {
        const sums = totals(terms, lines);
        expect(sums.costCents).toBe(lines.reduce((sum, { amountCents }) => sum + amountCents, 0));
        const { markupCents, overheadCents, contingencyCents, profitCents, taxCents } = sums;
        const added = sums.costCents + markupCents + overheadCents + contingencyCents + profitCents + taxCents;
        expect(sums.totalCents).toBe(added);
      }),
    );
  });

  it('never falls when a markup, the overhead, the profit or a line rises', () => {
    fc.assert(
      fc.property(lines, terms, fc.integer({ min: 1, max: 3000 }), (lines, terms, more) => {
        const base = totals(terms, lines).totalCents;
        const raised = [
          totals({ ...terms, markup: { ...terms.markup, laborBp: terms.markup.laborBp + more } }, lines),
          totals({ ...terms, overheadBp: terms.overheadBp + more }, lines),
          totals({ ...terms, profitBp: terms.profitBp + more }, lines),
        ];
        // A share of the price that is taxed may shrink by a cent of rounding where an untaxed class grows.
        for (const { totalCents } of raised)
          expect(totalCents).toBeGreaterThanOrEqual(base - (terms.taxBase === 'price' ? 1 : 0));
        const [first, ...others] = lines;
        const dearer = first ? [{ ...first, amountCents: first.amountCents + more }, ...others] : lines;
        expect(totals({ ...terms, taxBase: 'cost' }, dearer).totalCents).toBeGreaterThanOrEqual(
          totals({ ...terms, taxBase: 'cost' }, lines).totalCents,
        );
      }),
    );
  });
});
