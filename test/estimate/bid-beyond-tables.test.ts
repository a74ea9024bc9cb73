import { describe, expect, it } from 'vitest';
import { offerFindings } from '../../server/estimate/bid-offers.ts';
import { estimate } from '../../server/estimate/estimate.ts';
import { around, firstOf } from './around.ts';
import { household, SEEDED } from './fields/priced.ts';

const CIRCUIT = { feed: 'dedicated-circuit' };
const FEEDER = { feed: 'subpanel', subpanel: { ratingA: 100, spaces: 8, feederA: 60 } };

/** A bid that names its wire. */
function findingsOn(option: Record<string, unknown>, offers: Record<string, unknown>) {
  const bids = [{ from: 'A bidder', optionId: 'a', totalCents: 200_000, covers: ['wire'], offers }];
  return estimate(household({ option, rest: { bids } }), SEEDED).bids[0]?.findings ?? [];
}

describe('a wire of a bid that the tables do not reach', () => {
  /** Table 310.16 has no 14 AWG aluminum; Chapter 9 Table 8, as it is kept here, ends at 500 kcmil. */
  it.each([
    { option: CIRCUIT, offers: { size: '600' }, says: /600/ },
    { option: CIRCUIT, offers: { size: '14', metal: 'aluminum' }, says: /14/ },
    { option: FEEDER, offers: { size: '14', metal: 'aluminum' }, says: /14/ },
  ])('is a question to ask, never an error: $offers', ({ option, offers, says }) => {
    const beyond = findingsOn(option, offers).filter(({ rule }) => rule === 'bid-beyond-tables');
    expect(beyond).toMatchObject([{ severity: 'caution', message: expect.stringMatching(says) }]);
  });

  /**
   * A bid that says aluminum and no size goes by the part of that metal, 10 AWG, not by the 14 AWG copper that ends the
   * run, which the table does not have of aluminum: 12 A last, 12 × 1.25 = 15 A.
   */
  it('is none where the bid names no size and the plan has a part of its metal', () => {
    const description = household({
      option: { chargers: [{ amps: 12, connection: 'hardwired', equipment: 'owned', distanceFt: 4 }] },
    });
    const one = firstOf(around(description).planned);
    const ends = { metal: 'copper', size: '14', ampacityA: 20 } as const;
    const begins = { metal: 'aluminum', size: '10', ampacityA: 35 } as const;
    const rulesOf = (part: { begins?: { conductor: typeof begins; until: string; legs: number[] } }) => {
      const runs = one.answer.runs.map((run) => ({ ...run, conductor: ends, ...part }));
      const bid = { offers: { metal: 'aluminum' as const } };
      return offerFindings({ bid, one, option: { ...one.answer, runs }, description }).map(({ rule }) => rule);
    };
    expect(rulesOf({})).toContain('bid-beyond-tables');
    expect(rulesOf({ begins: { conductor: begins, until: 'splice 1', legs: [0] } })).not.toContain('bid-beyond-tables');
  });
});
