import { describe, expect, it } from 'vitest';
import type { PlannedRun, Tail } from '../../../server/estimate/plan-types.ts';
import { takeoffOf } from '../../../server/estimate/takeoff/takeoff.ts';
import { asked, described, laid, placed, planOf, run, section, tasked } from './plans.ts';

const TAIL: Tail = { lengthFt: 6, place: 'wet-above-ground', method: 'uf-b', insulation: 'uf-b', because: [] };

/** The household of the interface's own example: 28 ft of joists, 36 ft of clay, a post 6 ft beyond, 24 in of cover. */
function pergola() {
  const description = described({
    site: { building: 'outdoor' },
    route: [
      { kind: 'joists', lengthFt: 28 },
      { kind: 'lawn-trench', lengthFt: { low: 30, likely: 36, high: 44 }, soil: 'clay' },
    ],
    charger: { mount: 'post' },
  });
  const inside = section({ insulation: 'nm-b', cable: { form: 'nm-b', conductors: 2 }, legs: [0] });
  const buried = section({ insulation: 'uf-b', cable: { form: 'uf-b', conductors: 2 }, legs: [1], tail: true });
  return planOf(description, {
    runs: [run({ sections: [inside, buried], legs: [laid(0, 'nm-b'), laid(1, 'uf-b', { coverIn: 24 })], tail: TAIL })],
    ditches: [{ legs: [1], coverIn: 24, depthIn: 25 }],
    outlets: [{ run: 'charger', charger: 0, connection: 'hardwired', outdoors: true }],
  });
}

describe('wire is cut as long as it has to be', () => {
  it('counts legs, climbs out of the ditch, the way to the charger and makeup, as the example in the contract does', () => {
    // Inside: 28 + 5 in the panel + 1 in the box = 34. In the ground: 36 + 2 × (24/12 + 1.5) + 6 + 1 + 1 = 51.
    expect(takeoffOf(pergola()).wire.charger).toEqual([
      { use: 'cable', metal: 'copper', size: '8', insulation: 'nm-b', count: 1, cutLengthFt: 34, legs: [0] },
      { use: 'cable', metal: 'copper', size: '8', insulation: 'uf-b', count: 1, cutLengthFt: 51, legs: [1] },
    ]);
  });

  it('takes 5 % more of a cable than is cut, and says so', () => {
    const takeoff = takeoffOf(pergola());
    const buried = takeoff.materials.find(({ spec }) => spec.is === 'cable' && spec.form === 'uf-b');
    expect(buried?.pieces).toEqual([53.55]); // 51 × 1.05
    expect(buried?.because).toEqual(['36 ft + 2 × (2 + 1.5) ft + 6 ft to the charger + 2 ft makeup, 5 % waste']);
    expect(asked(takeoff, { is: 'cable', form: 'nm-b' })).toBe(35.7); // 34 × 1.05
  });

  it('takes some 76 ft of each conductor for a route of 62 ft out of doors', () => {
    const description = described({
      site: { building: 'detached' },
      route: [
        { kind: 'under-deck', lengthFt: 12 },
        { kind: 'lawn-trench', lengthFt: 41, soil: 'clay' },
        { kind: 'concrete-cut', lengthFt: 9 },
      ],
    });
    const conduit = { type: 'pvc-40', tradeSize: '1-1/2', fillPercent: 30 } as const;
    const outside = section({ insulation: 'thwn-2', size: '3', groundSize: '8', legs: [0, 1, 2] });
    const plan = planOf(description, {
      runs: [
        run({
          name: 'feeder',
          role: 'feeder',
          neutral: true,
          conductor: { metal: 'copper', size: '3', ampacityA: 100 },
          sections: [outside],
          legs: [
            laid(0, 'pvc', { conduit }),
            laid(1, 'pvc', { conduit, coverIn: 18 }),
            laid(2, 'pvc', { conduit, coverIn: 18 }),
          ],
        }),
      ],
      ditches: [{ legs: [1, 2], coverIn: 18, depthIn: 20 }],
      panel: { ratingA: 100, spaces: 12, enclosure: 'indoor', mainBreaker: true },
    });
    const takeoff = takeoffOf(plan);
    // 12 + 41 + 9 = 62; two climbs of 18/12 + 1.5 = 3 ft; 5 ft in each of the two panels: 78. From a box at the house 74.
    expect(takeoff.wire.feeder?.map(({ use, count, cutLengthFt }) => [use, count, cutLengthFt])).toEqual([
      ['ungrounded', 2, 78],
      ['neutral', 1, 78],
      ['ground', 1, 78],
    ]);
    // Three of 3 AWG: 3 × 78 × 1.03 = 241.02. No piece is spliced: three pieces of 80.34.
    expect(asked(takeoff, { is: 'conductor', size: '3' })).toBe(241.02);
    expect(takeoff.materials.find(({ spec }) => spec.is === 'conductor')?.pieces).toEqual([80.34, 80.34]);
  });

  it('adds rises, and a foot on both sides of a switch at the end', () => {
    const description = described({ route: [{ kind: 'joists', lengthFt: 20, riseFt: 8 }] });
    const cable = section({ insulation: 'nm-b', cable: { form: 'nm-b', conductors: 2 }, legs: [0] });
    const switched: PlannedRun['disconnect'] = {
      at: 'the charger',
      ratingA: 60,
      kind: 'non-fused-switch',
      because: [],
    };
    const plan = planOf(description, {
      runs: [run({ sections: [cable], legs: [laid(0, 'nm-b')], disconnect: switched })],
    });
    // 20 + 8 + 5 in the panel + 1 at the outlet + 2 × 1 at the switch = 36
    expect(takeoffOf(plan).wire.charger?.[0]?.cutLengthFt).toBe(36);
    expect(asked(takeoffOf(plan), { name: 'disc-60-nonfused' })).toBe(1);
  });

  it('joins the conductors in a box where the cable changes, one connector a conductor', () => {
    const takeoff = takeoffOf(pergola());
    // Two hots of 8 AWG take insulated mechanical connectors; so much copper as the ground, 10 AWG, is twisted.
    expect(asked(takeoff, { name: 'splice-insulated-tap-6-14' })).toBe(2);
    expect(asked(takeoff, { name: 'twist-connectors' })).toBe(1);
    expect(asked(takeoff, { name: 'jbox-pvc-6x6x4' })).toBe(1);
    expect(tasked(takeoff, 'splice-cable')).toBe(1);
  });

  it('pulls into raceway that is there, and buys none', () => {
    const description = described({ route: [{ kind: 'existing-raceway', lengthFt: 50, type: 'emt', tradeSize: '1' }] });
    const conduit = { type: 'emt', tradeSize: '1', fillPercent: 20 } as const;
    const plan = planOf(description, {
      route: placed(description),
      runs: [run({ sections: [section({ insulation: 'thwn-2', legs: [0] })], legs: [laid(0, 'emt', { conduit })] })],
    });
    const takeoff = takeoffOf(plan);
    expect(asked(takeoff, { is: 'raceway' })).toBe(0);
    expect(tasked(takeoff, 'pull-8-6')).toBe(100); // two hots × 50 ft
    expect(tasked(takeoff, 'pull-12-10')).toBe(50); // a ground of 10 AWG × 50 ft
  });

  it('lets one person alone take longer to pull what is larger than 2 AWG, but not two, and not what is small', () => {
    const pulled = (size: '2' | '1', terms: Record<string, unknown>) => {
      const description = described({ route: [{ kind: 'interior-surface', lengthFt: 50 }], terms });
      const conduit = { type: 'emt', tradeSize: '1-1/2', fillPercent: 20 } as const;
      const thick = section({ insulation: 'thwn-2', size, groundSize: '6', legs: [0] });
      const conductor = { metal: 'copper', size, ampacityA: 115 } as const;
      const runs = [run({ sections: [thick], legs: [laid(0, 'emt', { conduit })], conductor })];
      return takeoffOf(planOf(description, { runs })).tasks.filter(({ task }) => /^pull-[1-8]/.test(task));
    };
    const factors = (tasks: ReturnType<typeof pulled>) => tasks.map((one) => [one.task, one.factors]);
    expect(factors(pulled('1', {}))).toEqual([
      ['pull-1-2_0', ['factor-one-man']],
      ['pull-8-6', []],
    ]);
    expect(factors(pulled('2', {}))).toEqual([
      ['pull-4-2', []],
      ['pull-8-6', []],
    ]);
    expect(factors(pulled('1', { crewSize: 2 }))).toEqual([
      ['pull-1-2_0', []],
      ['pull-8-6', []],
    ]);
  });
});
