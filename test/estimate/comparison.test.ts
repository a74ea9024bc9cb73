import { describe, expect, it } from 'vitest';
import { readDescription } from '../../server/estimate/description.ts';
import { estimate } from '../../server/estimate/estimate.ts';
import { SEEDED } from './fields/priced.ts';

const charger = { amps: 32, connection: 'hardwired', equipment: 'owned', distanceFt: 4 };
const garage = (site: Record<string, unknown>, subpanel: Record<string, unknown>) =>
  estimate(
    readDescription({
      title: 'A household for tests',
      asOf: '2025-08-01',
      site: {
        building: 'detached',
        service: { ratingA: 200, freeSpaces: 6 },
        load: { method: 'measured', peakA: 60, days: 365 },
        ...site,
      },
      route: '20 joists, 30 lawn-trench',
      options: [
        { id: 'circuit', label: 'circuit', feed: 'dedicated-circuit', chargers: [charger] },
        {
          id: 'panel',
          label: 'panel',
          feed: 'subpanel',
          chargers: [charger],
          subpanel: { ratingA: 100, spaces: 12, feederA: 90, ...subpanel },
        },
      ],
    }),
    SEEDED,
    { parts: 'core' },
  );
const buysOf = (answer: ReturnType<typeof garage>) =>
  answer.comparison.rows.find(({ option }) => option === 'panel')?.buys ?? [];

describe('what a panel buys over a circuit', () => {
  /** Two poles of the charger, one of the receptacles, one of the light, and two kept for the welder: 6 spaces. */
  it('is the panel that is bought, with the spaces that are left of it', () => {
    const answer = garage({}, { otherCircuits: [{ use: 'welder', amps: 30, poles: 2 }] });
    const panel = answer.options[1]?.lines.find(({ key }) => key.startsWith('panel-'));
    const spaces = Number(panel?.key.match(/^panel-100a-(\d+)sp-/)?.[1]);
    expect(spaces).toBeGreaterThanOrEqual(12);
    expect(buysOf(answer)).toContain(
      `a panel of 100 A at the parking place, fed by 90 A, with ${spaces - 6} of ${spaces} spaces left for later`,
    );
  });

  /** NEC 210.52(G)(1), 210.70(A)(2): from memory. */
  it('is also the receptacle and the light that a detached garage must have, which the circuit lacks', () => {
    const answer = garage({}, {});
    expect(buysOf(answer)).toContain(
      'includes what the code asks of a garage with power: the receptacles and the light',
    );
    const lacking = answer.options[0]?.findings.filter(({ rule }) => rule.startsWith('garage-')) ?? [];
    expect(lacking.map(({ rule, severity }) => [rule, severity])).toEqual([
      ['garage-receptacles', 'caution'],
      ['garage-light', 'caution'],
    ]);
    for (const { message } of lacking)
      expect(message).toMatch(/not part of this option: it may not hang on the charging/);
    const shared = garage({}, { otherCircuits: [{ use: 'receptacles and light', amps: 20, poles: 1, build: true }] });
    expect(buysOf(shared).join()).not.toMatch(/asks of a garage/); // 210.11(C)(4): receptacles have a circuit of their own
    const there = garage({ garage: { existing: ['receptacles', 'light'] } }, {});
    expect(buysOf(there).join()).not.toMatch(/asks of a garage/);
  });
});

describe('what else an option buys', () => {
  const option = (more: Record<string, unknown>) => ({ feed: 'dedicated-circuit', chargers: [charger], ...more });
  const buys = (more: Record<string, unknown>, rest: Record<string, unknown> = {}) => {
    const { comparison } = estimate(
      readDescription({
        title: 'A household for tests',
        asOf: '2025-08-01',
        site: {
          building: 'outdoor',
          service: { ratingA: 200, freeSpaces: 8 },
          load: { method: 'measured', peakA: 60, days: 365 },
        },
        route: '20 joists, 30 lawn-trench',
        options: [
          { id: 'plain', label: 'plain', ...option({}) },
          { id: 'more', label: 'more', ...option(more) },
        ],
        ...rest,
      }),
      SEEDED,
      { parts: 'core' },
    );
    expect(comparison.cheapest).toBe('plain');
    return comparison.rows[1]?.buys ?? [];
  };
  const panel = (feederA: number) => ({ feed: 'subpanel', subpanel: { ratingA: 125, spaces: 12, feederA } });

  /** 1.25 × 32 A = 40 A of 100 A: 60 A are left, 60 / 1.25 = 48 A. Of 60 A 20 are left: less than the 30 A of 220.57. */
  it('is what its feeder has to spare, and the other charger that this would be', () => {
    expect(buys(panel(100))).toContain(
      'leaves 60 A of its feeder unused, enough for another charger at 48 A where the service carries that',
    );
    expect(buys(panel(60))).toContain('leaves 20 A of its feeder unused');
  });

  it('is what need not be dug again', () => {
    expect(buys(panel(60))).toContain('later circuits start at the parking place: the way there is not dug again');
    expect(buys({ spareConduit: { toA: 60 } })).toEqual(['a spare conduit for 60 A: nothing is dug again for it']);
  });

  /** 60 miles at 3.5 miles/kWh and 90 % are 19.0 kWh. Two hours at 32 A × 240 V give 15.4 kWh, at 48 A 23.0 kWh. */
  it('is the miles of the day where the other one does not give them back', () => {
    const driving = { cars: [{ milesPerDay: 60, parkedHours: 2 }] };
    const faster = buys({ chargers: [{ ...charger, amps: 48 }] }, { driving });
    expect(faster).toContain('gives back the miles of every day while the car is parked');
    expect(faster.some((words) => words.startsWith('charges 3.8 kW faster'))).toBe(true); // 16 A × 240 V = 3.84 kW
  });

  it('is a second charger, the later cars, a larger service and a monitor', () => {
    expect(buys({ chargers: [charger, charger] })).toContain('one more charger');
    expect(buys(panel(100), { driving: { cars: [{ milesPerDay: 30, parkedHours: 9 }], later: 1 } })).toContain(
      'carries the later cars too',
    );
    expect(buys({ serviceUpgrade: { toA: 200, supply: null, meter: null } })).toContain('a service of 200 A');
    const monitor = buys({ loadManagement: { kind: 'service-monitor', maxA: 32 } });
    expect(monitor).toEqual(['keeps the whole house within its service by itself, whatever else is on']);
  });
});
