import { describe, expect, it } from 'vitest';
import type { Ditch } from '../../../server/estimate/plan-types.ts';
import { takeoffOf } from '../../../server/estimate/takeoff/takeoff.ts';
import { asked, described, laid, planOf, run, section, tasked } from './plans.ts';

/** UF-B in the ground over all legs, in one ditch of 24 in. */
function dug(legs: Record<string, unknown>[]) {
  const all = legs.map((_, at) => at);
  const ditch: Ditch = { legs: all, coverIn: 24, depthIn: 24 };
  const cable = section({ insulation: 'uf-b', cable: { form: 'uf-b', conductors: 2 }, legs: all });
  const plan = planOf(described({ site: { building: 'outdoor' }, route: legs }), {
    runs: [run({ sections: [cable], legs: all.map((leg) => laid(leg, 'uf-b', { coverIn: 24 })) })],
    ditches: [ditch],
  });
  return takeoffOf(plan);
}

const factorsOf = (takeoff: ReturnType<typeof dug>, name: string) =>
  takeoff.tasks.find(({ task }) => task === name)?.factors;

describe('ground is opened and closed', () => {
  it('digs 20 ft of loam by hand, and rents nothing for it', () => {
    const takeoff = dug([{ kind: 'lawn-trench', lengthFt: 20 }]);
    expect(tasked(takeoff, 'hand-dig-loam')).toBe(20);
    expect(tasked(takeoff, 'backfill')).toBe(20);
    expect(takeoff.materials.filter(({ class: of }) => of === 'equipment')).toEqual([]);
    expect(tasked(takeoff, 'locate-call')).toBe(1);
    // Two feet are marked across the ditch (common practice, no source): 20 × 2 ft × 1/12 ft / 0.75 ft³ a bag = 4.4444.
    expect(asked(takeoff, { name: 'topsoil-bag' })).toBe(4.4444);
    expect(asked(takeoff, { name: 'grass-seed-3lb' })).toBe(0.0667); // 40 ft² of 600
  });

  it('rents a trencher for 60 ft of clay, for a day, brought and fetched', () => {
    const takeoff = dug([{ kind: 'lawn-trench', lengthFt: 60, soil: 'clay' }]);
    expect(tasked(takeoff, 'trencher-clay')).toBe(60);
    expect(tasked(takeoff, 'backfill-machine')).toBe(60);
    expect(asked(takeoff, { name: 'trencher-walk-day' })).toBe(1);
    expect(asked(takeoff, { name: 'delivery-one-way' })).toBe(2);
    // 220 ft of clay a day (common practice, no source): 230 ft take a second one.
    expect(asked(dug([{ kind: 'lawn-trench', lengthFt: 230, soil: 'clay' }]), { name: 'trencher-walk-day' })).toBe(2);
  });

  it('digs by hand across marked lines, after exposing them', () => {
    const crossings = [{ what: 'gas' }, { what: 'irrigation', count: 2 }];
    const takeoff = dug([{ kind: 'lawn-trench', lengthFt: 100, crossings }]);
    // Three lines, 4 ft of each by hand (common practice, no source): 12 ft by hand, 88 ft by machine.
    expect(tasked(takeoff, 'pothole-utility')).toBe(3);
    expect(tasked(takeoff, 'hand-dig-loam')).toBe(12);
    expect(tasked(takeoff, 'trencher-loam')).toBe(88);
    // Irrigation is the owner's: public marks do not show it.
    expect(asked(takeoff, { name: 'private-locate' })).toBe(1);
  });

  it('lets several soils slow the digging down together', () => {
    const takeoff = dug([{ kind: 'lawn-trench', lengthFt: 10, soil: ['clay', 'roots', 'wet'], dig: 'hand' }]);
    expect(tasked(takeoff, 'hand-dig-roots')).toBe(10);
    expect(factorsOf(takeoff, 'hand-dig-roots')).toEqual(['factor-soil-clay', 'factor-soil-wet']);
    const machine = dug([{ kind: 'lawn-trench', lengthFt: 100, soil: ['rocky', 'frozen'] }]);
    expect(factorsOf(machine, 'trencher-rocky')).toEqual(['factor-soil-frozen']);
    // 100 ft × 10 in × 4 in of sand: 100 × 0.8333 × 0.3333 = 27.7778 ft³
    expect(asked(machine, { name: 'sand' })).toBe(27.7778);
  });

  it('says that it takes loam under a walk beside a lawn of clay', () => {
    const lawn = { kind: 'lawn-trench', lengthFt: 30, soil: 'clay', dig: 'hand' };
    const reasons = (walk: Record<string, unknown>) =>
      dug([lawn, { kind: 'pavers-lift', lengthFt: 4, dig: 'hand', ...walk }])
        .tasks.filter(({ task, legs }) => task.startsWith('hand-dig') && legs[0] === 1)
        .flatMap(({ because }) => because.slice(1));
    const doubt = 'loam is taken here, though the leg beside it has clay: state its soil if it is the same';
    expect(reasons({})).toEqual([doubt]);
    expect(reasons({ soil: 'rocky' })).toEqual([]);
  });

  it('cuts 9 ft of a 4 in slab, 12 in wide, and pours it again', () => {
    const takeoff = dug([
      { kind: 'lawn-trench', lengthFt: 41 },
      { kind: 'concrete-cut', lengthFt: 9 },
    ]);
    // Two edges of 9 ft and the one end that does not run out into the lawn, 1 ft: 19 ft of cut. 9 ft² are broken out.
    expect(tasked(takeoff, 'saw-concrete-4')).toBe(19);
    expect(tasked(takeoff, 'break-haul-4')).toBe(9);
    expect(tasked(takeoff, 'repour-4')).toBe(9);
    // 9 ft² × 4/12 = 3 ft³; with 10 % waste 3.3 ft³; a bag of 80 lb makes 0.6 ft³: 5.5 bags.
    expect(asked(takeoff, { name: 'concrete-80' })).toBe(5.5);
    expect(asked(takeoff, { name: 'gravel' })).toBe(3); // 9 ft² × 4/12
    expect(asked(takeoff, { name: 'concrete-saw-walk-day' })).toBe(1);
    expect(asked(takeoff, { name: 'breaker-electric-day' })).toBe(1);
    // Below the slab 24 − 4 = 20 in are dug.
    expect(tasked(takeoff, 'trencher-loam')).toBe(48.5); // 41 + 9 × 20/24
  });

  it('replaces whole panels, dowels what is driven on, and leaves open what nobody wants closed', () => {
    const panel = dug([
      { kind: 'concrete-cut', lengthFt: 9, replace: 'panel', traffic: 'vehicle', reinforcement: 'rebar' },
    ]);
    // 9 ft reach into three panels of 4 × 4 ft: 12 × 4 = 48 ft²; cuts 2 × 12 + 2 × 4 = 32 ft.
    expect(tasked(panel, 'break-haul-4')).toBe(48);
    expect(tasked(panel, 'saw-concrete-4')).toBe(32);
    expect(asked(panel, { name: 'dowels-epoxy' })).toBe(24);
    expect(asked(panel, { name: 'rebar-10ft' })).toBe(56); // 2 × 12 along and 12 / 1.5 = 8 across of 4 ft
    expect(factorsOf(panel, 'break-haul-4')).toEqual(['factor-slab-rebar']);
    const left = dug([{ kind: 'concrete-cut', lengthFt: 9, restore: false }]);
    expect(left.tasks.filter(({ scope }) => scope === 'restoration')).toEqual([]);
    expect(left.materials.filter(({ scope }) => scope === 'restoration')).toEqual([]);
  });

  it('patches asphalt, relays pavers and bores under a walk', () => {
    const asphalt = dug([{ kind: 'asphalt-cut', lengthFt: 10, thicknessIn: 3 }]);
    expect(tasked(asphalt, 'saw-asphalt-3')).toBe(22); // 2 × 10 + 2 × 1
    expect(asked(asphalt, { name: 'asphalt-cold-50' })).toBe(6.25); // 10 ft² × 3/12 / 0.4 ft³
    expect(tasked(dug([{ kind: 'pavers-lift', lengthFt: 10 }]), 'pavers')).toBe(15); // 10 × 18 in
    const walk = dug([{ kind: 'bore', lengthFt: 5 }]);
    expect(tasked(walk, 'bore-sidewalk')).toBe(1);
    expect(tasked(walk, 'hand-dig-loam')).toBe(6); // two pits
    const drive = dug([{ kind: 'bore', lengthFt: 14 }]);
    expect(tasked(drive, 'bore-driveway')).toBe(14);
    expect(asked(drive, { name: 'mole-day' })).toBe(1);
  });

  it('digs once where two runs lie in one ditch', () => {
    const description = described({
      site: { building: 'outdoor' },
      route: [{ kind: 'lawn-trench', lengthFt: 20 }],
      option: {
        chargers: [
          { amps: 32, connection: 'hardwired', equipment: 'owned' },
          { amps: 32, connection: 'hardwired', equipment: 'owned' },
        ],
      },
    });
    const one = (name: string) =>
      run({
        name,
        sections: [section({ insulation: 'uf-b', cable: { form: 'uf-b', conductors: 2 }, legs: [0] })],
        legs: [laid(0, 'uf-b', { coverIn: 24 })],
      });
    const ditches = [{ legs: [0], coverIn: 24, depthIn: 24 }];
    const takeoff = takeoffOf(planOf(description, { runs: [one('left'), one('right')], ditches, outlets: [] }));
    expect(tasked(takeoff, 'hand-dig-loam')).toBe(20);
    expect(asked(takeoff, { is: 'cable' })).toBe(69.3); // 2 × (20 + 2 × 3.5 + 5 + 1) × 1.05
  });
});
