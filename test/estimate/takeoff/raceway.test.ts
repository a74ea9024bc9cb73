import { describe, expect, it } from 'vitest';
import { takeoffOf } from '../../../server/estimate/takeoff/takeoff.ts';
import type { RacewayType, TradeSize } from '../../../server/estimate/vocabulary.ts';
import { asked, described, laid, planOf, run, section, tasked } from './plans.ts';

type Leg = Record<string, unknown>;
interface Raceway {
  type: RacewayType;
  tradeSize: TradeSize;
  /** Cover of all ditches, in inches. */
  coverIn?: number;
  site?: Leg;
}

/** Two hots of 8 AWG and a ground of 10 AWG in one raceway over all legs, ending indoors. */
function inRaceway(legs: Leg[], { type, tradeSize, coverIn = 18, site = {} }: Raceway) {
  const description = described({ site, route: legs });
  const all = legs.map((_, at) => at);
  const conduit = { type, tradeSize, fillPercent: 30 };
  const method = type === 'emt' || type === 'rmc' ? type : 'pvc';
  const buried = all.filter((at) => String(legs[at]?.kind).match(/trench|cut/));
  const plan = planOf(description, {
    runs: [
      run({
        sections: [section({ insulation: 'thwn-2', legs: all })],
        legs: all.map((leg) => laid(leg, method, { conduit, ...(buried.includes(leg) && { coverIn }) })),
      }),
    ],
    ditches: buried.length > 0 ? [{ legs: buried, coverIn, depthIn: coverIn + 1.5 }] : [],
  });
  return takeoffOf(plan);
}

describe('raceway is bought with all that holds and joins it', () => {
  it('takes off 41 ft of EMT on a wall indoors', () => {
    const takeoff = inRaceway([{ kind: 'interior-surface', lengthFt: 41 }], { type: 'emt', tradeSize: '3/4' });
    expect(asked(takeoff, { is: 'raceway', type: 'emt', tradeSize: '3/4' })).toBe(43.05); // 41 × 1.05
    // 43.05 ft are 5 sticks, with 4 joints between them; a connector at the panel and one at the charger.
    expect(asked(takeoff, { piece: 'coupling' })).toBe(4);
    expect(asked(takeoff, { piece: 'connector' })).toBe(2);
    // NEC 358.30(A): within 3 ft of each box, then every 10 ft: 35 / 10 gives 4 spaces between 5 straps.
    expect(asked(takeoff, { piece: 'strap' })).toBe(5);
    expect(tasked(takeoff, 'conduit-emt-small')).toBe(4.1); // sticks of 10 ft
    expect(asked(takeoff, { name: 'pull-string' })).toBe(47); // 41 and 6 to hold (common practice, no source)
  });

  it('brings PVC out of the ground in schedule 80, with an elbow, a strap and an expansion fitting', () => {
    const legs = [{ kind: 'lawn-trench', lengthFt: 40 }];
    const takeoff = inRaceway(legs, { type: 'pvc-40', tradeSize: '1', site: { building: 'detached' } });
    // 40 ft with 5 % waste, and 1 ft through the wall at the house and at the garage.
    expect(asked(takeoff, { is: 'raceway', type: 'pvc-40' })).toBe(44);
    // Each climb is 18/12 + 1.5 = 3 ft: 2 × 3 × 1.05. Two 8 AWG and a 10 AWG fill 0.0943 in² of the 0.275 in² that 40 % of 1 in
    // schedule 80 allow (Chapter 9 Tables 4 and 5), so it needs no larger riser.
    expect(asked(takeoff, { is: 'raceway', type: 'pvc-80', tradeSize: '1' })).toBe(6.3);
    expect(asked(takeoff, { piece: 'elbow-90', type: 'pvc-80' })).toBe(2);
    expect(asked(takeoff, { piece: 'expansion' })).toBe(2);
    expect(asked(takeoff, { piece: 'strap' })).toBe(2);
    expect(asked(takeoff, { piece: 'lb' })).toBe(2);
    // Bell ends need no couplings.
    expect(asked(takeoff, { piece: 'coupling' })).toBe(0);
    expect(asked(takeoff, { name: 'pvc-reducer' })).toBe(0);
  });

  it('takes a larger riser where schedule 80 is too tight for what schedule 40 holds', () => {
    const legs = [{ kind: 'lawn-trench', lengthFt: 40 }];
    const takeoff = inRaceway(legs, { type: 'pvc-40', tradeSize: '1/2' });
    // 2 × 0.0366 + 0.0211 = 0.0943 in²; 40 % of 1/2 in schedule 40 are 0.114, of schedule 80 0.087: 3/4 in it is.
    expect(asked(takeoff, { is: 'raceway', type: 'pvc-80', tradeSize: '3/4' })).toBe(6.3);
    expect(asked(takeoff, { name: 'pvc-reducer' })).toBe(2);
  });

  it('lets 30 ft of PVC under a deck grow and shrink', () => {
    const takeoff = inRaceway([{ kind: 'under-deck', lengthFt: 30 }], { type: 'pvc-40', tradeSize: '1' });
    // 30 × 12 × 100 × 0.0000338 = 1.22 in over 100 °F, more than 1/4 in: NEC 352.44(A). One fitting takes 4 in.
    expect(asked(takeoff, { piece: 'expansion' })).toBe(1);
    expect(tasked(takeoff, 'under-deck')).toBe(30);
    const short = inRaceway([{ kind: 'under-deck', lengthFt: 6 }], { type: 'pvc-40', tradeSize: '1' });
    expect(asked(short, { piece: 'expansion' })).toBe(0); // 0.243 in
  });

  it('puts a pull box where bends add up to more than 360 degrees', () => {
    const bent = (bendsDeg: number) =>
      inRaceway([{ kind: 'interior-surface', lengthFt: 40, bendsDeg }], { type: 'emt', tradeSize: '3/4' });
    expect(tasked(bent(360), 'pull-box')).toBe(0);
    expect(tasked(bent(361), 'pull-box')).toBe(1);
    expect(tasked(bent(361), 'bend-field-emt')).toBe(5); // 361 / 90, bent on the spot up to 1 in
  });

  it('screws rigid conduit together and into hubs out of doors', () => {
    const takeoff = inRaceway([{ kind: 'exterior-wall', lengthFt: 25 }], {
      type: 'rmc',
      tradeSize: '1',
      site: { building: 'outdoor' },
    });
    expect(asked(takeoff, { is: 'raceway', type: 'rmc' })).toBe(28.25); // 25 × 1.05, and 1 ft through each of two walls
    expect(asked(takeoff, { piece: 'coupling', type: 'rmc' })).toBe(2); // 26.25 ft are 3 sticks
    expect(asked(takeoff, { piece: 'lb', type: 'rmc' })).toBe(2); // panel and charger are both indoors in this plan
  });

  it('glues what is PVC, and only that', () => {
    const emt = inRaceway([{ kind: 'interior-surface', lengthFt: 20 }], { type: 'emt', tradeSize: '3/4' });
    expect(asked(emt, { name: 'pvc-cement-pint' })).toBe(0);
    const pvc = inRaceway([{ kind: 'interior-surface', lengthFt: 20 }], { type: 'pvc-40', tradeSize: '3/4' });
    // 21 ft are 2.1 sticks with a joint each, and two box adapters: 4.1 joints of the 40 that a pint does.
    expect(asked(pvc, { name: 'pvc-cement-pint' })).toBe(0.1025);
  });

  it('straps EMT under joists that it crosses: a stiff stick does not go through bored holes', () => {
    const across = inRaceway([{ kind: 'joists', lengthFt: 41 }], { type: 'emt', tradeSize: '3/4' });
    expect(across.tasks.filter(({ task }) => task.startsWith('drill-'))).toEqual([]);
    expect(asked(across, { piece: 'strap' })).toBe(5); // NEC 358.30(A), as on a wall: 35 / 10 gives 4 spaces between 5
    const reasons = across.tasks.find(({ task }) => task === 'conduit-emt-small')?.because.join();
    expect(reasons).toContain('strapped to the underside of the joists');
    const along = inRaceway([{ kind: 'joists', lengthFt: 41, across: false }], { type: 'emt', tradeSize: '3/4' });
    expect(JSON.stringify(along)).not.toContain('bored holes');
  });
});
