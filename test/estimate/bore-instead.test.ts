import { describe, expect, it } from 'vitest';
import { boreProposals } from '../../server/estimate/bore-instead.ts';
import { around, firstOf } from './around.ts';
import { household, optionOf } from './fields/priced.ts';

const option = { feed: 'dedicated-circuit', chargers: [{ amps: 32, connection: 'hardwired', equipment: 'owned' }] };
const proposalsFor = (route: string) => {
  const description = household({ route, option });
  const { planned, tryChanged } = around(description);
  return { own: firstOf(planned), proposals: boreProposals(firstOf(planned), description, tryChanged) };
};

describe('a bore instead of cutting', () => {
  it('is proposed under a wide drive, with what it saves against the same job bored', () => {
    const { own, proposals } = proposalsFor('10 joists, 15 lawn-trench, 40 concrete-cut 6in rebar, 10 lawn-trench');
    const bored = optionOf({ route: '10 joists, 15 lawn-trench, 40 bore, 10 lawn-trench', option });
    expect(proposals).toHaveLength(1);
    const [first] = proposals;
    expect(first).toMatchObject({ rule: 'bore-instead', severity: 'note', leg: 2 });
    expect(first?.numbers.differenceCents).toBe(bored.totals.totalCents - own.answer.totals.totalCents);
  });

  it('is not proposed under a few pavers, which are lifted and laid again', () => {
    expect(proposalsFor('10 joists, 15 lawn-trench, 3 pavers-lift, 10 lawn-trench').proposals).toEqual([]);
  });

  it('is nothing to a leg whose method was asked for, nor to lawn', () => {
    const route = '10 joists, 15 lawn-trench, 40 concrete-cut 6in rebar pvc, 10 lawn-trench';
    expect(proposalsFor(route).proposals).toEqual([]);
    expect(proposalsFor('10 joists, 60 lawn-trench').proposals).toEqual([]);
  });
});
