import { describe, expect, it } from 'vitest';
import { statedPermitCents } from '../../../server/estimate/takeoff/fees.ts';
import { scheduleOf, visitsOf } from '../../../server/estimate/takeoff/schedule.ts';
import { takeoffOf } from '../../../server/estimate/takeoff/takeoff.ts';
import { travelDemands, tripsOf } from '../../../server/estimate/takeoff/travel.ts';
import { asked, described, laid, planOf, run, section, tasked } from './plans.ts';

type Said = Record<string, unknown>;

/** UF-B through one leg. */
function plan(leg: Said, { site = {}, terms = {} }: { site?: Said; terms?: Said } = {}) {
  const description = described({ site, route: [leg], terms });
  const cable = section({ insulation: 'uf-b', cable: { form: 'uf-b', conductors: 2 }, legs: [0] });
  return planOf(description, {
    runs: [run({ sections: [cable], legs: [laid(0, 'uf-b')] })],
    ditches: String(leg.kind).includes('trench') ? [{ legs: [0], coverIn: 24, depthIn: 25 }] : [],
  });
}

const INDOORS = plan({ kind: 'joists', lengthFt: 20 });
const LAWN = plan({ kind: 'lawn-trench', lengthFt: 60 });

describe('who comes, when and why', () => {
  it('has one inspection of an open cable run, and one more of an open ditch', () => {
    expect(visitsOf(INDOORS, 1).map(({ why, days }) => [why, days])).toEqual([
      ['work', 1],
      ['final-inspection', 1],
    ]);
    expect(visitsOf(LAWN, 3).map(({ why, days }) => [why, days])).toEqual([
      ['work', 3],
      ['trench-inspection', 1],
      ['final-inspection', 1],
    ]);
  });

  it('keeps the number of inspections that is stated, and pays for those beyond two', () => {
    const four = plan({ kind: 'lawn-trench', lengthFt: 60 }, { site: { permit: { inspections: 4 } } });
    expect(visitsOf(four, 2).map(({ why, days }) => [why, days])).toEqual([
      ['work', 2],
      ['trench-inspection', 1],
      ['rough-inspection', 2],
      ['final-inspection', 1],
    ]);
    expect(asked(takeoffOf(four), { name: 'inspection-extra' })).toBe(2);
    expect(tasked(takeoffOf(four), 'inspection-meet')).toBe(4);
  });

  it('calls for the marks first, waits for the permit, and spreads the working days around the inspection', () => {
    const steps = scheduleOf(LAWN, 3);
    expect(steps.map(({ step }) => step)).toEqual([
      'locate buried lines',
      'permit',
      'dig and lay',
      'trench inspection',
      'fill in and finish',
      'final inspection',
    ]);
    expect(steps.map(({ workDays }) => workDays)).toEqual([0, 0, 1.5, 0, 1.5, 0]);
    expect(scheduleOf(INDOORS, 1).map(({ step }) => step)).toEqual(['permit', 'work', 'final inspection']);
  });

  it('shows the inspector what a finish will hide before it is closed', () => {
    const walls = scheduleOf(plan({ kind: 'finished-wall', lengthFt: 20 }), 2);
    expect(walls.map(({ step }) => step)).toEqual([
      'permit',
      'run and fasten',
      'rough inspection',
      'close and finish',
      'final inspection',
    ]);
    const both = scheduleOf(plan({ kind: 'lawn-trench', lengthFt: 60 }, { site: { permit: { inspections: 3 } } }), 1);
    const inOrder = both.map(({ step }) => step);
    expect(inOrder.slice(2)).toEqual([
      'dig and lay',
      'trench inspection',
      'fill in, run and fasten',
      'rough inspection',
      'close and finish',
      'final inspection',
    ]);
    // One day on three stretches of work, in quarters: a half, a quarter, a quarter.
    expect(both.map(({ workDays }) => workDays).filter((days) => days > 0)).toEqual([0.5, 0.25, 0.25]);
  });

  it('leaves new concrete alone, longer where cars drive', () => {
    const cureOf = (traffic: string) => {
      const slab = plan({ kind: 'concrete-cut', lengthFt: 9, traffic });
      return scheduleOf(slab, 2).find(({ step }) => step.startsWith('cure'))?.waitDays;
    };
    expect([cureOf('foot'), cureOf('vehicle')]).toEqual([3, 7]);
  });

  /**
   * By hand, common practice, no source: the crew comes back on the day after the ditch was dug, meets the inspector there
   * and fills in. One day of work with an open ditch are two trips and the final inspection, three days are three and
   * one. With four inspections, three of which the work stops for, one or two days take four trips and one.
   */
  it('meets an inspector that the work stops for on the day it goes on', () => {
    const four = plan({ kind: 'lawn-trench', lengthFt: 60 }, { site: { permit: { inspections: 4 } } });
    expect([1, 2, 3, 5].map((days) => tripsOf(LAWN, days))).toEqual([3, 3, 4, 6]);
    expect([1, 2, 4, 6].map((days) => tripsOf(four, days))).toEqual([5, 5, 5, 7]);
    expect([1, 2].map((days) => tripsOf(INDOORS, days))).toEqual([2, 3]);
    const met = (days: number) => visitsOf(LAWN, days).find(({ why }) => why === 'trench-inspection')?.because;
    expect(met(1)).toEqual(['the inspector sees the ditch before it is filled']);
    expect(met(2)).toContain('met on a day of work, without a trip of its own');
  });

  it('drives there on each trip, sets up each time, and counts every minute of the drive', () => {
    expect(tripsOf(LAWN, 4)).toBe(5);
    const near = travelDemands(LAWN, 5);
    expect(near.materials.map(({ quantity }) => quantity)).toEqual([150]); // 2 × 15 miles × 5
    expect(tasked(near, 'mobilise-first')).toBe(1);
    expect(tasked(near, 'mobilise-return')).toBe(4);
    expect(tasked(near, 'drive')).toBe(5); // 2 × 30 min × 5 / 60
    const hoursAt = (minutesEachWay: number) => {
      const terms = { travel: { milesEachWay: 40, minutesEachWay } };
      return tasked(travelDemands(plan({ kind: 'joists', lengthFt: 20 }, { terms }), 3), 'drive');
    };
    expect([5, 30, 50].map(hoursAt)).toEqual([0.5, 3, 5]); // 2 × minutes × 3 / 60
    // Two days of work and an inspection, 5 h away: 10 + 4 (half of 8 h, a night near by costs as much: common practice, no
    // source) + 10.
    expect(hoursAt(300)).toBe(24);
  });

  it('takes every person of the crew along on days of work, in one vehicle, and one to an inspection', () => {
    const terms = { crewSize: 2, travel: { milesEachWay: 15, minutesEachWay: 30 } };
    const two = travelDemands(plan({ kind: 'lawn-trench', lengthFt: 60 }, { terms }), 5);
    // Four days of two people and the final inspection of one (common practice, no source): 9 person-trips, 2 of them first.
    expect(tasked(two, 'mobilise-first')).toBe(2);
    expect(tasked(two, 'mobilise-return')).toBe(7);
    expect(tasked(two, 'drive')).toBe(9); // 1 h each
    expect(two.materials.map(({ quantity }) => quantity)).toEqual([150]); // one vehicle
    const crew = [
      { rate: 'rate-electrician', count: 1 },
      { rate: 'rate-labourer', count: 2 },
    ];
    const three = travelDemands(plan({ kind: 'lawn-trench', lengthFt: 60 }, { terms: { crew } }), 5);
    expect(tasked(three, 'drive')).toBe(13); // 4 × 3 + 1
  });

  it('asks for a permit always, and hands on the fee that is stated', () => {
    expect(asked(takeoffOf(INDOORS), { name: 'permit-circuit' })).toBe(1);
    expect(statedPermitCents(INDOORS)).toBeUndefined();
    const stated = plan({ kind: 'joists', lengthFt: 20 }, { site: { permit: { feeCents: 12_350, rightOfWay: true } } });
    expect(statedPermitCents(stated)).toBe(12_350);
    const permit = takeoffOf(stated).materials.find(
      ({ spec }) => spec.is === 'other' && spec.name === 'permit-circuit',
    );
    expect(permit?.because).toEqual(['the work needs a permit; its fee is stated: $123.50']);
    expect(asked(takeoffOf(stated), { name: 'permit-right-of-way' })).toBe(1);
  });

  it('leaves the application to an owner who takes out the permit', () => {
    const own = plan({ kind: 'joists', lengthFt: 20 }, { site: { permit: { byOwner: true } } });
    expect(tasked(takeoffOf(own), 'load-calc-permit')).toBe(0);
    expect(asked(takeoffOf(own), { name: 'permit-circuit' })).toBe(1);
  });
});
