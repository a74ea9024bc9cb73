import { describe, expect, it } from 'vitest';
import { takeoffOf } from '../../../server/estimate/takeoff/takeoff.ts';
import { asked, described, laid, planOf, run, section, tasked } from './plans.ts';

/** NM-B 6/2 over one leg; what the leg and the house are is said. */
function cabled(leg: Record<string, unknown>, site: Record<string, unknown> = {}) {
  const description = described({ site, route: [leg] });
  const cable = section({ insulation: 'nm-b', cable: { form: 'nm-b', conductors: 2 }, size: '6', legs: [0] });
  const runs = [
    run({ sections: [cable], legs: [laid(0, 'nm-b')], conductor: { metal: 'copper', size: '6', ampacityA: 55 } }),
  ];
  return takeoffOf(planOf(description, { runs }));
}

describe('cable is held, bored and fished', () => {
  it('bores a hole for each joist, and staples only the ends', () => {
    const takeoff = cabled({ kind: 'joists', lengthFt: 35 });
    // Joists stand 16 in apart (common practice, no source): 35 × 12 / 16 = 26.25, so 27 holes; 6/2 fits through 1 in.
    expect(tasked(takeoff, 'drill-joist-small')).toBe(27);
    expect(tasked(takeoff, 'cable-open-8-6')).toBe(35);
    // NEC 334.30(A): bored holes hold it; within 12 in of both ends there is a staple.
    expect(asked(takeoff, { name: 'staples-nm-large' })).toBe(2);
  });

  /**
   * NEC 334.30: the first within 12 in of a box, none more than 4.5 ft from the next. By hand: 1.5 ft at 1 ft, which is 6
   * in from the other end; 6 ft at 1 and 5 ft; 7 ft at 1, 3.5 and 6 ft; 35 ft from 1 to 34 ft in 33 / 4.5 = 7.3, so 8
   * stretches, 9 staples.
   */
  it.each([
    [1.5, 1],
    [6, 2],
    [7, 3],
    [35, 9],
  ])('staples %s ft along a joist with %d, ends included', (lengthFt, staples) => {
    const takeoff = cabled({ kind: 'joists', lengthFt, across: false });
    expect(asked(takeoff, { name: 'staples-nm-large' })).toBe(staples);
    expect(tasked(takeoff, 'drill-joist-small')).toBe(0);
  });

  it('opens and closes a finished ceiling, but not while the framing is open', () => {
    const finished = { kind: 'finished-ceiling', lengthFt: 18 };
    const retrofit = cabled(finished);
    // One opening every 4 ft across the framing (common practice, no source): 18 / 4 = 4.5, so 5.
    expect(tasked(retrofit, 'fish-ceiling')).toBe(18);
    expect(tasked(retrofit, 'access-hole-patch')).toBe(5);
    expect(asked(retrofit, { name: 'drywall-patch-kit' })).toBe(5);
    expect(tasked(retrofit, 'cable-open-8-6')).toBe(0);
    const built = cabled(finished, { work: 'new-construction' });
    expect(tasked(built, 'access-hole-patch')).toBe(0);
    expect(tasked(built, 'fish-ceiling')).toBe(0);
    expect(tasked(built, 'drill-joist-small')).toBe(14); // 18 × 12 / 16 = 13.5
    const pulled = built.tasks.find(({ task }) => task === 'cable-open-8-6');
    expect(pulled?.factors).toEqual(['factor-new-construction']);
  });

  it.each([
    [{ kind: 'crawlspace', lengthFt: 10 }, {}, ['factor-crawlspace']],
    [{ kind: 'attic', lengthFt: 10 }, {}, ['factor-attic']],
    [{ kind: 'joists', lengthFt: 10, headroom: 'crouching' }, {}, ['factor-crouching']],
    [{ kind: 'joists', lengthFt: 10 }, { yearBuilt: 1925 }, ['factor-old-house-pre-1950']],
    [{ kind: 'joists', lengthFt: 10 }, { yearBuilt: 1994 }, []],
  ])('makes the hours of %o in a house with %o longer by %o', (leg, site, factors) => {
    const takeoff = cabled(leg, site);
    expect(takeoff.tasks.find(({ task }) => task.startsWith('cable-open'))?.factors).toEqual(factors);
  });

  it('charges no leg of the route with the way from its end to the outlet', () => {
    const description = described({ route: [{ kind: 'interior-surface', lengthFt: 20 }] });
    const cable = section({ insulation: 'nm-b', cable: { form: 'nm-b', conductors: 2 }, legs: [0], tail: true });
    const tail = { lengthFt: 6, place: 'dry-exposed', method: 'nm-b', insulation: 'nm-b', because: [] } as const;
    const runs = [run({ sections: [cable], legs: [laid(0, 'nm-b')], tail: { ...tail, because: [] } })];
    const { tasks } = takeoffOf(planOf(description, { runs }));
    const ran = tasks.filter(({ scope, unit }) => scope === 'wire' && unit === 'ft');
    expect(ran.map(({ task, quantity, legs }) => [task, quantity, legs])).toEqual([
      ['surface-cable', 20, [0]],
      ['cable-to-outlet', 6, []],
    ]);
  });

  /** UF-B through a lawn to a post; the panel is indoors. */
  function buried(coverIn: number, tail: Pick<Parameters<typeof run>[0], 'tail'> = {}) {
    const description = described({ site: { building: 'outdoor' }, route: [{ kind: 'lawn-trench', lengthFt: 30 }] });
    const form = { form: 'uf-b', conductors: 2 } as const;
    const cable = section({ insulation: 'uf-b', cable: form, legs: [0], tail: tail.tail !== undefined });
    const plan = planOf(description, {
      runs: [run({ sections: [cable], legs: [laid(0, 'uf-b', { coverIn })], ...tail })],
      ditches: [{ legs: [0], coverIn, depthIn: coverIn + 1 }],
      outlets: [{ run: 'charger', charger: 0, connection: 'hardwired', outdoors: true }],
    });
    return takeoffOf(plan);
  }
  const sleeved = { is: 'raceway', type: 'pvc-80', tradeSize: '1' } as const;

  it('sleeves buried cable from 18 in below grade to the enclosure that takes it', () => {
    const takeoff = buried(24);
    // NEC 300.5(D)(1): from 18 in below grade; the enclosure stands 1.5 ft above it, where the climb ends (common practice,
    // no source): 2 × (1.5 + 1.5) ft, with 5 % waste 6.3 ft, which are one stick.
    expect(asked(takeoff, sleeved)).toBe(6.3);
    expect(asked(takeoff, { piece: 'end-bell' })).toBe(2);
    // NEC Table 352.30(B): 1 in every 3 ft; 1.5 ft stand above ground at each end.
    expect(asked(takeoff, { piece: 'strap', type: 'pvc-40' })).toBe(2);
    expect(tasked(takeoff, 'riser')).toBe(2);
    // Only the house end goes through a wall: the panel is indoors, the post is not.
    expect(asked(takeoff, { piece: 'lb' })).toBe(1);
    expect(tasked(takeoff, 'wall-entry-wood')).toBe(1);
    // At 12 in of cover the sleeve begins there: the same article. 2 × (1 + 1.5) × 1.05.
    expect(asked(buried(12), sleeved)).toBe(5.25);
  });

  it('protects cable that goes on in the open up to 8 ft above grade, and no farther', () => {
    const inTheOpen = (lengthFt: number) =>
      buried(24, {
        tail: { lengthFt, place: 'wet-above-ground', method: 'uf-b', insulation: 'uf-b', because: [] },
      });
    // NEC 300.5(D)(1). House end 3 ft; post end 1.5 + 1.5 + 4 ft: 10 × 1.05. With 9 ft in the open 1.5 + 8: 12.5 × 1.05.
    expect(asked(inTheOpen(4), sleeved)).toBe(10.5);
    expect(asked(inTheOpen(9), sleeved)).toBe(13.125);
    expect(asked(inTheOpen(9), { piece: 'strap', type: 'pvc-40' })).toBe(4); // 1.5 / 3 gives 1, 8 / 3 gives 3
    expect(asked(inTheOpen(4), { piece: 'end-bell' })).toBe(3); // both ends are open at the post
  });
});
