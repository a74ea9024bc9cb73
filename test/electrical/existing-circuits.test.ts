import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { charging } from '../../server/electrical/charging.ts';
import { type CheckedCircuit, circuitCheck } from '../../server/electrical/circuit-check.ts';
import { largestSetting } from '../../server/electrical/largest-setting.ts';
import { measuredDemand } from '../../server/electrical/measured-demand.ts';

describe('the largest setting', () => {
  const SIX = { metal: 'copper', size: '6' } as const;

  // By hand: 6 AWG copper THWN-2 65 A / 1.25 = 52 A behind 70 A; NM-B 55 / 1.25 = 44 A behind 60; a 50 A breaker 40 A; a
  // service with 40 A left 40 / 1.25 = 32 A; a car of 32 A takes 32 A.
  it.each([
    [{ insulation: 'thwn-2' }, { amps: 52, limitedBy: 'wire', ocpdA: 70 }],
    [{ insulation: 'nm-b' }, { amps: 44, limitedBy: 'wire', ocpdA: 60 }],
    [
      { insulation: 'thwn-2', ocpdA: 50 },
      { amps: 40, limitedBy: 'breaker', ocpdA: 50 },
    ],
    [
      { insulation: 'thwn-2', serviceSpareA: 40 },
      { amps: 32, limitedBy: 'service', ocpdA: 40 },
    ],
    [
      { insulation: 'thwn-2', feederSpareA: 30 },
      { amps: 24, limitedBy: 'feeder', ocpdA: 30 },
    ],
    [
      { insulation: 'thwn-2', carMaxA: 32 },
      { amps: 32, limitedBy: 'car', ocpdA: 40 },
    ],
    [
      { insulation: 'thwn-2', serviceSpareA: 5 },
      { amps: 0, limitedBy: 'service', ocpdA: 0 },
    ],
    [
      { insulation: 'nm-b', ocpdA: 100 },
      { amps: 0, limitedBy: 'wire', ocpdA: 100 },
    ],
  ] as const)('of 6 AWG copper and %j is %j', (chain, answer) => {
    expect(largestSetting({ ...SIX, ...chain })).toEqual(answer);
  });

  /**
   * 220.57 of 2023: a charger counts 7,200 VA at least, 30 A at 240 V, and 125 % of it 37.5 A on the service. The other
   * editions count 125 % of what it is set to: 20 / 1.25 = 16 A.
   */
  it.each([
    ['2023', { serviceSpareA: 37.5 }, 30],
    ['2023', { serviceSpareA: 37 }, 0],
    ['2023', { feederSpareA: 29 }, 0],
    ['2020', { serviceSpareA: 20 }, 16],
    ['2026', { feederSpareA: 20 }, 16],
  ] as const)('by %s is with %j %d A: a low setting counts no less than the code says', (edition, spare, amps) => {
    expect(largestSetting({ ...SIX, insulation: 'thwn-2', edition, ...spare }).amps).toBe(amps);
  });

  it('ends at 80 A', () => {
    expect(largestSetting({ metal: 'copper', size: '4/0', insulation: 'thwn-2' })).toMatchObject({
      amps: 80,
      limitedBy: 'charger',
      ocpdA: 100,
    });
  });

  it('refuses a breaker that there is not', () => {
    expect(() => largestSetting({ ...SIX, insulation: 'thwn-2', ocpdA: 55 })).toThrow(
      /^ocpdA must be a standard rating: one of .*, not 55$/,
    );
  });

  it('never falls when a link is made stronger, and what it says is lawful', () => {
    const spare = fc.integer({ min: 0, max: 150 });
    fc.assert(
      fc.property(spare, spare, (serviceSpareA, moreA) => {
        const of = (spareA: number) => largestSetting({ ...SIX, insulation: 'thwn-2', serviceSpareA: spareA });
        const { amps, ocpdA } = of(serviceSpareA);
        expect(of(serviceSpareA + moreA).amps).toBeGreaterThanOrEqual(amps);
        if (amps === 0) return;
        const check = circuitCheck({ ...SIX, insulation: 'thwn-2', wires: 3, connection: 'hardwired', ocpdA, amps });
        expect(check.lawful).toBe(true);
      }),
    );
  });
});

describe('a circuit that exists or is offered', () => {
  const GOOD: CheckedCircuit = {
    ocpdA: 60,
    metal: 'copper',
    size: '6',
    insulation: 'thwn-2',
    wires: 3,
    amps: 48,
    connection: 'hardwired',
  };
  const stops = (circuit: CheckedCircuit) =>
    circuitCheck(circuit)
      .findings.filter(({ severity }) => severity === 'stop')
      .map(({ rule }) => rule);

  it('is lawful with 6 AWG behind 60 A at 48 A', () => {
    expect(circuitCheck(GOOD)).toMatchObject({ lawful: true, largestSettingA: 48 });
  });

  // By hand: NM-B 55 A is less than 60; 50 A × 0.8 = 40; 8 AWG THWN-2 is 50 A, so 50 A at most; a 14-50 needs four wires and 50 A.
  it.each([
    [{ insulation: 'nm-b' }, ['two-ampacity-tests'], 44],
    [{ ocpdA: 50 }, ['ev-continuous-load'], 40],
    [{ size: '8' }, ['two-ampacity-tests', 'next-size-up'], 0],
    [{ wires: 2 }, ['equipment-ground-required'], 0],
    [
      { connection: 'receptacle-14-50', gfci: true },
      ['equipment-ground-required', 'single-receptacle-rating', 'plug-or-hardwired'],
      0,
    ],
    [{ connection: 'receptacle-6-50', ocpdA: 50, amps: 40, gfci: false }, ['gfci-ev-receptacle'], 40],
    [{ size: '10', ocpdA: 40, amps: 32 }, ['two-ampacity-tests', 'small-conductors'], 0],
  ] as const)('with %j breaks %j and could charge at %d A', (change, rules, largestSettingA) => {
    const circuit: CheckedCircuit = { ...GOOD, ...change };
    expect(stops(circuit)).toEqual([...rules]);
    expect(circuitCheck(circuit)).toMatchObject({ lawful: false, largestSettingA });
  });

  it('asks about ground-fault protection that nobody mentioned, aluminum at the outlet, and a long way', () => {
    const offered: CheckedCircuit = { ...GOOD, metal: 'aluminum', size: '4', ocpdA: 50, amps: 40, lengthFt: 250 };
    const cautions = circuitCheck(offered).findings.filter(({ severity }) => severity === 'caution');
    expect(cautions.map(({ rule }) => rule)).toEqual(['outdoor-ground-fault', 'dissimilar-metals', 'voltage-drop']);
  });
});

describe("a meter's record", () => {
  const DAY = 96;
  /** So many days of 15-minute readings of 1 kW, from the first of March 2026. */
  const record = (days: number, kWh = 0.25) =>
    Array.from({ length: days * DAY }, (_, at) => ({
      start: new Date(Date.UTC(2026, 2, 1) + at * 15 * 60_000).toISOString(),
      kWh,
    }));
  const severest = (findings: readonly { severity: string }[]) =>
    ['stop', 'caution', 'note', 'ok'].find((severity) => findings.some((one) => one.severity === severity));

  // By hand: 3 kWh in 15 minutes are 12 kW, 50 A at 240 V.
  it('gives the highest average over 15 minutes', () => {
    const readings = record(30);
    readings[500] = { start: readings[500]?.start ?? '', kWh: 3 };
    const answer = measuredDemand({ readings, intervalMinutes: 15 });
    expect(answer).toMatchObject({ peakA: 50, days: 30, usable: true });
    expect(severest(answer.findings)).toBe('caution');
  });

  /** A year as a clock on the wall names its quarter hours: 8 March 2026 has no 2:00, 1 November has 1:00 twice. */
  const wallClockYear = () => {
    const changes = [Date.UTC(2026, 2, 8, 2), Date.UTC(2026, 10, 1, 1)] as const;
    return Array.from({ length: 365 * DAY }, (_, at) => {
      const standard = Date.UTC(2026, 0, 1) + at * 15 * 60_000;
      const isSummer = standard >= changes[0] && standard < changes[1];
      return { start: new Date(standard + (isSummer ? 3_600_000 : 0)).toISOString().slice(0, 16), kWh: 0.25 };
    });
  };

  it('is not broken by the changes of the clock', () => {
    const readings = wallClockYear();
    expect(readings.filter(({ start }) => start.startsWith('2026-03-08T02'))).toHaveLength(0);
    expect(readings.filter(({ start }) => start.startsWith('2026-11-01T01'))).toHaveLength(8);
    const answer = measuredDemand({ readings, intervalMinutes: 15 });
    expect(answer).toMatchObject({ days: 365, usable: true });
    expect(answer.findings.map(({ severity }) => severity).sort()).toEqual(['note', 'ok']);
  });

  it('is broken by an hour that is missing on another day', () => {
    const readings = wallClockYear().filter(({ start }) => !start.startsWith('2026-03-09T02'));
    const gap = measuredDemand({ readings, intervalMinutes: 15 }).findings.find(({ numbers }) => 'gaps' in numbers);
    expect(gap).toMatchObject({ severity: 'caution', numbers: { gaps: 1, overlaps: 0 } });
  });

  it.each(['03/04/2026 17:15', 'March 4', '1', '2026-02-30T00:00', '2026-03-04T25:00'])(
    'does not guess at the time %s',
    (start) => {
      expect(() => measuredDemand({ readings: [{ start, kWh: 1 }], intervalMinutes: 15 })).toThrow(
        `readings.0.start must be a date and time such as 2026-03-02T17:15, not ${JSON.stringify(start)}`,
      );
    },
  );

  // By hand: three 5-minute readings of 1, 2 and 0 kWh: 3 kWh in 15 minutes are 12 kW; the 2 kWh alone would be 24 kW.
  it('averages shorter intervals over 15 minutes', () => {
    const readings = [0, 1, 2, 0, 0].map((kWh, at) => ({
      start: `2026-03-01T00:${String(at * 5).padStart(2, '0')}:00Z`,
      kWh,
    }));
    expect(measuredDemand({ readings, intervalMinutes: 5 }).peakA).toBe(50);
  });

  it('bars less than 30 unbroken days, and long intervals of less than a year', () => {
    expect(measuredDemand({ readings: record(29), intervalMinutes: 15 }).usable).toBe(false);
    const broken = [...record(20), ...record(40).slice(25 * DAY)];
    const answer = measuredDemand({ readings: broken, intervalMinutes: 15 });
    expect(answer).toMatchObject({ days: 35, usable: false });
    const hourly = Array.from({ length: 31 * 24 }, (_, at) => ({
      start: new Date(Date.UTC(2026, 2, 1) + at * 3_600_000).toISOString(),
      kWh: 1,
    }));
    expect(measuredDemand({ readings: hourly, intervalMinutes: 60 }).usable).toBe(false);
  });

  it('bars what solar hides, said or seen', () => {
    expect(measuredDemand({ readings: record(31), intervalMinutes: 15, solar: true }).usable).toBe(false);
    const exported = record(31);
    exported[7] = { start: exported[7]?.start ?? '', kWh: -1 };
    expect(measuredDemand({ readings: exported, intervalMinutes: 15 }).usable).toBe(false);
  });

  it('names a time that it cannot read, and an empty record', () => {
    const readings = [...record(1), { start: 'yesterday', kWh: 1 }];
    expect(() => measuredDemand({ readings, intervalMinutes: 15 })).toThrow(
      'readings.96.start must be a date and time such as 2026-03-02T17:15, not "yesterday"',
    );
    expect(() => measuredDemand({ readings: [], intervalMinutes: 15 })).toThrow(
      'readings must be at least one reading, not []',
    );
  });

  it('does not depend on the order of the readings', () => {
    const readings = record(31).map((reading, at) => ({ ...reading, kWh: ((at * 7) % 13) / 10 }));
    const shuffled = readings.toSorted((a, b) => b.kWh - a.kWh);
    expect(measuredDemand({ readings: shuffled, intervalMinutes: 15 })).toEqual(
      measuredDemand({ readings, intervalMinutes: 15 }),
    );
  });
});

describe('charging speed', () => {
  it('doubles with the amperes, and needs no time for no miles', () => {
    const amps = fc.double({ min: 6, max: 40, noNaN: true });
    fc.assert(
      fc.property(amps, (one) => {
        expect(charging({ amps: 2 * one }).milesPerHour).toBeCloseTo(2 * charging({ amps: one }).milesPerHour, 9);
      }),
    );
    expect(charging({ amps: 16, milesPerDay: 0, parkedHours: 1 })).toMatchObject({
      hoursForDailyMiles: 0,
      coversDailyMiles: true,
    });
  });
});
