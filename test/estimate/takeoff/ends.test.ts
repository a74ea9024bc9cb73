import { describe, expect, it } from 'vitest';
import type { PlannedOption } from '../../../server/estimate/plan-types.ts';
import { takeoffOf } from '../../../server/estimate/takeoff/takeoff.ts';
import { asked, described, laid, planOf, run, section, tasked } from './plans.ts';

type Said = Record<string, unknown>;
const CABLE = section({ insulation: 'nm-b', cable: { form: 'nm-b', conductors: 2 }, legs: [0] });
const ROUTE = [{ kind: 'joists', lengthFt: 20 }];

/** A short circuit indoors; what its charger, house and outlet are is said. */
function circuit({
  charger = {},
  site = {},
  option = {},
  ...parts
}: { charger?: Said; site?: Said; option?: Said } & Omit<Partial<PlannedOption>, 'option'> = {}) {
  const description = described({ site, route: ROUTE, charger, option });
  return takeoffOf(planOf(description, { runs: [run({ sections: [CABLE], legs: [laid(0, 'nm-b')] })], ...parts }));
}

/** A feeder of 60 A to a panel in another building, with two rods. */
function feeder(enclosure: 'indoor' | 'outdoor' = 'indoor') {
  const option = { feed: 'subpanel', chargers: [], subpanel: { ratingA: 100, spaces: 8 } };
  return circuit({
    site: { building: 'detached' },
    option,
    runs: [
      run({
        name: 'feeder',
        role: 'feeder',
        sections: [CABLE],
        legs: [laid(0, 'nm-b')],
        ocpdA: 70,
        neutral: true,
        breaker: { ocpdA: 70, poles: 2, spaces: 2, kind: 'standard', because: [] },
        chargers: [],
      }),
    ],
    outlets: [],
    panel: { ratingA: 100, spaces: 12, enclosure, mainBreaker: true },
    grounding: { electrodes: [{ kind: 'ground rod', count: 2 }], conductorSize: '6', because: [] },
  });
}

describe('what a run begins and ends at', () => {
  /** NEC 314.30: a box in the ground is made for it. */
  it('joins in a handhole what comes out of a raceway that lies in the ground and goes on buried', () => {
    const route = [
      { kind: 'existing-raceway', lengthFt: 20, type: 'pvc-40', tradeSize: '2', place: 'underground' },
      { kind: 'lawn-trench', lengthFt: 30 },
    ];
    const sections = [section({ insulation: 'thwn-2', legs: [0] }), section({ insulation: 'use-2', legs: [1] })];
    const legs = [laid(0, 'pvc'), laid(1, 'direct-burial', { insulation: 'use-2' })];
    const takeoff = takeoffOf(planOf(described({ route }), { runs: [run({ sections, legs })] }));
    expect(tasked(takeoff, 'handhole-set')).toBe(1);
  });

  /** NEC 250.86: metal raceway is connected to the ground, and where PVC goes on at both ends no box of steel does it. */
  it('bonds rigid conduit at an entry behind which PVC goes on, and not where it meets a panel', () => {
    const singles = section({ insulation: 'thwn-2', legs: [0, 1] });
    const route = [
      { kind: 'interior-surface', lengthFt: 20 },
      { kind: 'exterior-wall', lengthFt: 12 },
    ];
    const bushings = (inside: 'pvc-40' | 'rmc') => {
      const legs = [
        laid(0, inside === 'rmc' ? 'rmc' : 'pvc', { conduit: { type: inside, tradeSize: '3/4', fillPercent: 30 } }),
        laid(1, 'rmc', { conduit: { type: 'rmc', tradeSize: '3/4', fillPercent: 30 } }),
      ];
      const takeoff = takeoffOf(planOf(described({ route }), { runs: [run({ sections: [singles], legs })] }));
      return asked(takeoff, { is: 'fitting', type: 'rmc', tradeSize: '3/4', piece: 'bushing-grounding' });
    };
    expect([bushings('pvc-40'), bushings('rmc')]).toEqual([1, 0]);
  });

  it('lands a breaker, mounts an owned charger, and buys none', () => {
    const takeoff = circuit();
    expect(asked(takeoff, { is: 'breaker', ratingA: 40, poles: 2, gfci: false })).toBe(1);
    expect(tasked(takeoff, 'breaker-2p-small')).toBe(1);
    expect(tasked(takeoff, 'charger-mount')).toBe(1);
    expect(takeoff.materials.filter(({ scope }) => scope === 'charger')).toEqual([]);
  });

  it('hangs up a charger that plugs in, and terminates only one that is hardwired', () => {
    const plugged = circuit({ charger: { connection: 'receptacle-14-50' } });
    expect([tasked(plugged, 'charger-hang'), tasked(plugged, 'charger-mount')]).toEqual([1, 0]);
    expect([tasked(circuit(), 'charger-hang'), tasked(circuit(), 'charger-mount')]).toEqual([0, 1]);
  });

  it('buys the next larger charger that is sold, on a post with a footing', () => {
    const takeoff = circuit({ charger: { equipment: 'buy', amps: 44, mount: 'post' } });
    expect(asked(takeoff, { name: 'charger-48' })).toBe(1);
    expect(asked(takeoff, { name: 'bollard' })).toBe(1);
    // 12 in across, 30 in deep: π/4 × 1² × 2.5 = 1.9635 ft³; 0.6 ft³ a bag: 3.2725 bags.
    expect(asked(takeoff, { name: 'concrete-80' })).toBe(3.2725);
    expect(tasked(takeoff, 'footing-pedestal')).toBe(1);
  });

  it('ends in a covered box where there is no charger yet, and mounts nothing', () => {
    const takeoff = circuit({ charger: { equipment: 'none' } });
    // NEC 314.16(B): 2 × 3.00 of 8 AWG + 2.50 of the ground + a clamp of 3.00 = 11.5 in³ of 30.3 in³ (Table 314.16(A)).
    expect(asked(takeoff, { name: 'box-4in-square-deep' })).toBe(1);
    expect(asked(takeoff, { name: 'blank-cover' })).toBe(1);
    expect(tasked(takeoff, 'charger-mount')).toBe(0);
  });

  it('mounts a receptacle with box and cover, indoors and out', () => {
    const outlet = { run: 'charger', charger: 0, connection: 'receptacle-14-50' } as const;
    const inside = circuit({ outlets: [{ ...outlet, outdoors: false }] });
    expect(asked(inside, { name: 'rec-14-50-ind' })).toBe(1);
    expect(asked(inside, { name: 'plate-14-50' })).toBe(1);
    expect(tasked(inside, 'receptacle-outdoor-add')).toBe(0);
    const outside = circuit({ outlets: [{ ...outlet, outdoors: true }] });
    expect(asked(outside, { name: 'cover-inuse-2g-50a' })).toBe(1);
    expect(asked(outside, { name: 'box-wp-2gang' })).toBe(1);
    expect(tasked(outside, 'receptacle-50')).toBe(1);
    expect(tasked(outside, 'receptacle-outdoor-add')).toBe(1);
  });

  it('frees spaces by tandem breakers where the panel is full', () => {
    const takeoff = circuit({ site: { service: { ratingA: 200, freeSpaces: 1 } } });
    // Two spaces are needed, one is free. A tandem breaker puts two circuits into one space.
    expect(asked(takeoff, { name: 'tandem-breaker' })).toBe(1);
    expect(tasked(takeoff, 'panel-rearrange')).toBe(2);
    const unseen = circuit({ site: { service: { ratingA: 200, freeSpaces: null } } });
    expect(tasked(unseen, 'panel-rearrange')).toBe(0);
  });

  it('lets crowded panels of old houses take longer', () => {
    const takeoff = circuit({ site: { yearBuilt: 1964 } });
    const breaker = takeoff.tasks.find(({ task }) => task === 'breaker-2p-small');
    expect(breaker?.factors).toEqual(['factor-old-house-1950-1980']);
  });

  it('gives a second building its panel with a ground bar, two rods and their conductor', () => {
    const takeoff = feeder();
    expect(asked(takeoff, { is: 'panel', ratingA: 100, spaces: 12, enclosure: 'indoor', mainBreaker: true })).toBe(1);
    expect(asked(takeoff, { name: 'ground-bar-kit' })).toBe(1);
    expect(tasked(takeoff, 'subpanel-mount-60')).toBe(1); // 100 A and 12 spaces
    expect(tasked(takeoff, 'breaker-2p-large')).toBe(1); // 70 A
    expect(asked(takeoff, { name: 'ground-rod-8' })).toBe(2);
    expect(asked(takeoff, { name: 'acorn-clamp' })).toBe(2);
    expect(asked(takeoff, { name: 'intersystem-bond' })).toBe(1);
    // 10 ft to the first rod (common practice, no source), 6 ft to the second (NEC 250.53(A)(3)), 5 ft in the panel: 21 × 1.03.
    expect(asked(takeoff, { is: 'conductor', insulation: 'bare', size: '6' })).toBe(21.63);
    expect(tasked(takeoff, 'ground-rods')).toBe(1); // a pair
    expect(tasked(takeoff, 'subpanel-outdoor-add')).toBe(0);
    expect(tasked(feeder('outdoor'), 'subpanel-outdoor-add')).toBe(1);
  });

  it('builds raceway, boxes and pull line now and leaves conductors, breaker and charger for later', () => {
    const conduit = { type: 'emt', tradeSize: '3/4', fillPercent: 20 } as const;
    const rough = circuit({
      option: { roughInOnly: true },
      runs: [run({ sections: [section({ insulation: 'thwn-2', legs: [0] })], legs: [laid(0, 'emt', { conduit })] })],
    });
    expect(asked(rough, { is: 'raceway' })).toBe(21);
    expect(asked(rough, { name: 'pull-string' })).toBe(26);
    expect(asked(rough, { name: 'raceway-cap' })).toBe(2);
    for (const is of ['conductor', 'cable', 'breaker', 'panel']) expect(asked(rough, { is })).toBe(0);
    for (const task of ['pull-8-6', 'charger-mount', 'breaker-2p-small']) expect(tasked(rough, task)).toBe(0);
    expect(rough.wire.charger?.length).toBe(2); // what will be pulled is still listed
  });

  it('takes nothing where an outlet that is there stays as it is', () => {
    const receptacle = { circuitA: 20, sharedWith: [], gfci: true, grounded: true };
    const option = { feed: 'existing-receptacle', receptacle };
    const charger = { amps: 12, connection: 'receptacle-5-20', equipment: 'none' };
    const kept = circuit({ option, charger, runs: [], outlets: [] });
    expect([kept.materials, kept.tasks]).toEqual([[], []]);
    const replaced = circuit({
      option: { ...option, receptacle: { ...receptacle, replace: true } },
      charger,
      runs: [],
      outlets: [],
    });
    expect(asked(replaced, { name: 'rec-5-20-spec' })).toBe(1);
    expect(asked(replaced, { name: 'permit-circuit' })).toBe(1);
  });
});
