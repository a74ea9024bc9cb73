import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bidsOf } from '../../server/estimate/bids.ts';
import { estimateOption } from '../../server/estimate/option-estimate.ts';
import { SCOPES } from '../../server/estimate/vocabulary.ts';
import { house, SEEDED, uncertain } from './uncertain-jobs.ts';

type Stated = Record<string, unknown>;
const TERMS = { markup: { materialBp: 1500 }, overheadBp: 1000, profitBp: 1000, taxBp: 600 };
const SUBPANEL = {
  feed: 'subpanel',
  chargers: [{ amps: 48, connection: 'hardwired', equipment: 'owned' }],
  subpanel: { ratingA: 100, spaces: 12, feederA: 90, otherCircuits: [] },
};

/** One bid on the house of the tests, answered with or without a range. */
function bid(
  stated: Stated,
  {
    terms = {},
    option = {},
    core = false,
    route = '30 interior-surface',
  }: { terms?: Stated; option?: Stated; core?: boolean; route?: string } = {},
) {
  const whole = { from: 'A bidder', optionId: 'a', totalCents: 200_000, covers: [...SCOPES], ...stated };
  const description = house({ terms, option, route, bids: [whole] });
  const [first] = description.options;
  if (!first) throw new Error('There is an option.');
  const one = estimateOption({ description, option: first, book: SEEDED });
  const { range } = uncertain({ terms, option, route });
  const [found] = bidsOf(description, [one], [core ? one.answer : { ...one.answer, range }]);
  if (!found) throw new Error('There is a bid.');
  return { ...found, answer: one.answer, range };
}
const without = (...scopes: string[]) => SCOPES.filter((scope) => !scopes.includes(scope));
const bySeverity = ({ findings }: ReturnType<typeof bid>, severity: string) =>
  findings.filter((finding) => finding.severity === severity).map(({ rule }) => rule);

describe('a bid that is levelled', () => {
  it('stays as it is where it covers every scope', () => {
    expect(bid({})).toMatchObject({ levelledCents: 200_000, missing: [] });
  });

  /**
   * Of a scope's lines: material × 1.15, all × 0.10 of overhead, the sum × 1.10, and 6 % tax of the material's cost;
   * each step rounded as the money formula has it, hence a cent or two.
   */
  it('gains what the estimate asks, at its own terms, for the scope that it leaves out', () => {
    const found = bid({ covers: without('permit', 'breaker') }, { terms: TERMS });
    const costOf = (lineClass: string, scope: string) =>
      found.answer.lines
        .filter((line) => line.class === lineClass && line.scope === scope)
        .reduce((sum, { amountCents }) => sum + amountCents, 0);
    const asked = ['permit', 'breaker'].map((scope) => {
      const material = costOf('material', scope);
      const rest = costOf('labor', scope) + costOf('equipment', scope) + costOf('fee', scope);
      return (material * 1.25 + rest * 1.1) * 1.1 + material * 0.06;
    });
    expect(found.missing).toEqual(['breaker', 'permit']);
    expect(Math.abs(found.levelledCents - 200_000 - (asked[0] ?? 0) - (asked[1] ?? 0))).toBeLessThanOrEqual(3);
  });

  it('does not gain for a scope that the option has nothing of', () => {
    expect(bid({ covers: without('trench', 'hard-surface', 'service-upgrade') }).missing).toEqual([]);
  });

  it('is the bid and the whole estimate where it says nothing of what it covers', () => {
    const found = bid({ covers: [] });
    expect(found.levelledCents).toBe(200_000 + found.answer.totals.totalCents);
  });

  it('gains its tax where it is stated without', () => {
    const { answer, levelledCents } = bid({ taxIncluded: false }, { terms: TERMS });
    const { taxCents, totalCents } = answer.totals;
    expect(Math.abs(levelledCents - 200_000 * (1 + taxCents / (totalCents - taxCents)))).toBeLessThanOrEqual(1);
  });

  it('never costs less for covering less', () => {
    fc.assert(
      fc.property(fc.subarray([...SCOPES]), fc.subarray([...SCOPES]), (some, more) => {
        const covers = (scopes: readonly string[]) =>
          bid({ covers: [...new Set(scopes)] }, { terms: TERMS, core: true });
        expect(covers(some).levelledCents).toBeGreaterThanOrEqual(covers([...some, ...more]).levelledCents);
      }),
      { numRuns: 10 },
    );
  });

  it('has its place in the range, and none where no range is drawn', () => {
    const { range } = bid({});
    expect(bid({ totalCents: range.p10Cents - 1 }).place).toBe('below');
    expect(bid({ totalCents: range.p10Cents }).place).toBe('within');
    expect(bid({ totalCents: range.p90Cents }).place).toBe('within');
    expect(bid({ totalCents: range.p90Cents + 1 }).place).toBe('above');
    expect(bid({}, { core: true }).place).toBeUndefined();
  });
});

describe('what a bid says will be built', () => {
  /** NEC 625.41: 48 A last, 48 × 1.25 = 60 A of breaker. */
  it('is stopped where its breaker is too small for the charger', () => {
    expect(bySeverity(bid({ offers: { ocpdA: 50, amps: 48 } }), 'stop')).toEqual(['ev-continuous-load']);
    expect(bySeverity(bid({ offers: { ocpdA: 60, amps: 48 } }), 'stop')).toEqual([]);
  });

  /** NEC 310.16, 334.80: 6 AWG NM-B carries 55 A in its 60 °C column, and 48 A of charging need 60 A. */
  it('is stopped where its cable carries too little', () => {
    const offers = { ocpdA: 60, metal: 'copper', size: '6', method: 'nm-b', amps: 48 };
    expect(bySeverity(bid({ offers }), 'stop')).toEqual(['two-ampacity-tests']);
    expect(bySeverity(bid({ offers: { ...offers, size: '4' } }), 'stop')).toEqual([]);
  });

  /** Copper of 6 AWG carries 65 A at 75 °C, of aluminum 50 A: bidders name the metal where it is not copper. */
  it('means copper where it names a size alone, whatever metal the plan takes', () => {
    const charger = { amps: 48, connection: 'hardwired', equipment: 'owned', terminals: 'copper-or-aluminum' };
    const option = { metal: 'aluminum', chargers: [charger] };
    const inEmt = { ocpdA: 60, size: '6', method: 'emt' };
    const answered = bid({ offers: inEmt }, { option });
    expect(answered.answer.runs[0]?.conductor.metal).toBe('aluminum');
    expect(bySeverity(answered, 'stop')).toEqual([]);
    expect(bySeverity(bid({ offers: { ...inEmt, metal: 'aluminum' } }, { option }), 'stop')).not.toEqual([]);
  });

  /** NEC Table 310.16: 2 AWG aluminum carries 90 A at 75 °C, a standard rating, so that 100 A may not protect it (240.4(B)). */
  it('is stopped at the classic trap of a feeder', () => {
    const offers = { ocpdA: 100, metal: 'aluminum', size: '2', method: 'emt' };
    expect(bySeverity(bid({ offers }, { option: SUBPANEL }), 'stop')).toEqual(['next-size-up']);
    expect(bySeverity(bid({ offers: { ...offers, ocpdA: 90 } }, { option: SUBPANEL }), 'stop')).toEqual([]);
    expect(bySeverity(bid({ offers: { ...offers, size: '1' } }, { option: SUBPANEL }), 'stop')).toEqual([]);
  });

  it('is stopped where a panel is fed by more than its rating, and noted where it is smaller than asked', () => {
    const option = SUBPANEL;
    expect(bySeverity(bid({ offers: { panelA: 60, ocpdA: 90 } }, { option }), 'stop')).toEqual(['panel-protection']);
    expect(bySeverity(bid({ offers: { panelA: 60, ocpdA: 60 } }, { option }), 'stop')).toEqual([]);
  });

  /**
   * 48 A of charging ask for 60 A at the terminals, which 6 AWG copper THWN-2 has: 65 A at 75 °C (Table 310.16). Its 90 °C
   * column has 75 A, of which Table 310.15(B)(1)(1) leaves 0.82 at 50 °C, 61.5 A: 70 A may protect it (240.4(B)). At 60 °C
   * 0.71 leave 53.25 A, behind 60 A at most; at 70 °C 0.58 leave 43.5 A, less than the 48 A that flow.
   */
  it('is judged where its way is hottest, as the plan is', () => {
    const option = { ...SUBPANEL, subpanel: { ...SUBPANEL.subpanel, feederA: 70 } };
    const offers = { ocpdA: 70, metal: 'copper', size: '6', method: 'emt' };
    const through = (attic: string) =>
      bid({ offers }, { option, route: `10 interior-surface, 20 ${attic}`, core: true });
    expect(bySeverity(through('attic'), 'stop')).toEqual([]);
    expect(bySeverity(through('attic ambientC=60'), 'stop')).toEqual(['next-size-up']);
    const hot = through('attic ambientC=70');
    expect(bySeverity(hot, 'stop')).toEqual(['conductor-ampacity', 'next-size-up']);
    expect(hot.findings.find(({ rule }) => rule === 'conductor-ampacity')).toMatchObject({
      numbers: { ampacityA: expect.closeTo(43.5, 6), ambientC: 70 },
      message: '6 AWG copper carries 43.5 A at 70 °C, and 48 A flow through it.',
    });
  });

  it('is judged there too where it is a circuit', () => {
    const offers = { ocpdA: 60, metal: 'copper', size: '6', method: 'emt', amps: 48 };
    const stops = (attic: string) =>
      bySeverity(bid({ offers }, { route: `10 interior-surface, 20 ${attic}`, core: true }), 'stop');
    expect(stops('attic ambientC=60')).toEqual([]); // 53.25 A of 48 A, and 60 A is the next size up
    expect(stops('attic ambientC=70')).toEqual(['two-ampacity-tests', 'next-size-up']); // 43.5 A
  });

  /** NEC 625.54: receptacles for charging have ground-fault protection, which a breaker of 50 A of the plan gives. */
  it('is asked once about the ground-fault protection that it leaves out', () => {
    const chargers = [{ amps: 40, connection: 'receptacle-14-50', equipment: 'owned' }];
    const about = ({ questions }: ReturnType<typeof bid>) => questions.filter((one) => /ground-fault/.test(one));
    const plug = bid({ offers: { ocpdA: 50, gfci: false } }, { option: { chargers }, core: true });
    expect(about(plug)).toHaveLength(1);
    const panel = bid({ offers: { gfci: false } }, { option: { ...SUBPANEL, chargers }, core: true });
    expect(about(panel)).toHaveLength(1);
    expect(about(bid({ offers: { ocpdA: 50, gfci: true } }, { option: { chargers }, core: true }))).toEqual([]);
  });

  it('is a caution where it charges with less than was asked for', () => {
    expect(bySeverity(bid({ offers: { amps: 32 } }), 'caution')).toEqual(['bid-setting']);
  });

  it('is not judged by what it does not say', () => {
    expect(bid({ offers: {} }).findings).toEqual([]);
    expect(bid({}).findings).toEqual([]);
  });
});

describe('the questions to a bidder', () => {
  it('ask for each scope that is not named, for what is not understood, and for the price', () => {
    const { questions } = bid({ covers: without('permit'), offers: { ocpdA: 50, amps: 48 }, date: '2025-05-01' });
    expect(questions[0]).toBe('Does your price include the permit and the inspections? We did not find it named.');
    expect(questions).toContain('Your bid is of 2025-05-01: does the price still hold?');
    expect(questions).toContain('Who takes out the permit and meets the inspector?');
    expect(questions.some((question) => question.startsWith('Could you help us understand this point:'))).toBe(true);
  });

  // Common practice, no source: a circuit from a panel that is there opens it and buys none.
  it('name the work of this option: a panel that is opened or bought, a charger that is mounted or bought', () => {
    const asked = (covers: string[], option: Stated = {}) =>
      bid({ covers: without(...covers) }, { option, core: true }).questions[0];
    const includes = (work: string) => `Does your price include ${work}? We did not find it named.`;
    const opened = 'opening the panel, connecting the circuit and closing it again';
    expect(asked(['panel'])).toBe(includes(opened));
    expect(asked(['panel'], SUBPANEL)).toBe(includes('the new panel and connecting it'));
    expect(asked(['travel'])).toBe(includes('driving to the job and setting up there'));
    const charger = (equipment: string) => ({ chargers: [{ amps: 48, connection: 'hardwired', equipment }] });
    expect(asked(['charger'], charger('owned'))).toBe(includes('mounting the charger that is there already'));
    expect(asked(['charger'], charger('buy'))).toBe(includes('the charger itself and mounting it'));
  });

  const asksOfProfit = (questions: readonly string[]) => questions.filter((one) => /overhead|profit/.test(one));
  const callsHigh = (questions: readonly string[]) =>
    questions.some((one) => one.includes('higher than we had expected'));

  /** Common practice, no source: 10 % of overhead on the cost and 25 % of profit on both, 1.1 × 1.25 = 1.375 of the cost. */
  it('do not call a price high against a range that holds no overhead or profit', () => {
    const { p10Cents, p90Cents } = bid({}).range;
    const totalCents = Math.round(bid({}).answer.totals.totalCents * 1.375);
    const { place, questions } = bid({ totalCents });
    expect(place).toBe('above');
    expect(callsHigh(questions)).toBe(false);
    const inDollars = (cents: number) => `$${Math.round(cents / 100).toLocaleString('en-US')}`;
    expect(asksOfProfit(questions)).toEqual([
      `Our range, ${inDollars(p10Cents)} to ${inDollars(p90Cents)}, holds no overhead or profit, and your price lies ` +
        `${inDollars(totalCents - p90Cents)} above ${inDollars(p90Cents)}: what share of it is overhead and profit?`,
    ]);
    expect(asksOfProfit(bid({ totalCents: p90Cents }).questions)).toEqual([]);
  });

  it.each([{ overheadBp: 1000 }, { profitBp: 1000 }, { markup: { materialBp: 1500 } }, { laborRateIs: 'billed' }])(
    'ask what was not seen where the range is one of prices, with %j',
    (terms) => {
      const { range } = bid({}, { terms });
      const { questions } = bid({ totalCents: range.p90Cents + 1 }, { terms });
      expect(callsHigh(questions)).toBe(true);
      expect(asksOfProfit(questions)).toEqual([]);
    },
  );

  it('are courteous, whatever the bid', () => {
    for (const totalCents of [1, 90_000_00]) {
      for (const question of bid({ totalCents, covers: [], offers: { ocpdA: 20, amps: 48 } }).questions) {
        expect(question).not.toMatch(/\b(?:wrong|illegal|cheat|overpriced|too expensive|unprofessional|must)\b/i);
      }
    }
  });
});
