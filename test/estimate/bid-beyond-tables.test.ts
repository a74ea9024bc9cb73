import { describe, expect, it } from 'vitest';
import { estimate } from '../../server/estimate/estimate.ts';
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
});
