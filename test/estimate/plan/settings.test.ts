import { describe, expect, it } from 'vitest';
import { firstRun, type Parts, plansFor, stopsOf, wired } from './shop.ts';

const first = (parts: Parts) => {
  const [plan] = plansFor(parts);
  if (!plan) throw new Error('There is always a plan.');
  return plan;
};
const measured = (peakA: number) => ({ load: { method: 'measured', peakA, days: 365 } });
const largest = (more: Record<string, unknown> = {}) => wired(0, { amps: 'largest', ...more });
const amps = (parts: Parts) => first(parts).option.chargers.map((charger) => charger.amps);

describe('the largest setting', () => {
  /** 220.87: 125 % of the measured peak. 200 A − 1.25 × 60 A = 125 A, / 1.25 = 100 A: more than the 80 A that are made. */
  it('is 80 A where nothing that is there limits it', () => {
    expect(amps({ option: largest() })).toEqual([80]);
    expect(firstRun(first({ option: largest() })).ocpdA).toBe(100);
    const said = first({ option: largest() }).findings.find(({ rule }) => rule === 'largest-setting');
    expect(said?.message).toBe(
      'The largest setting is 80 A, the most that is planned (80 A): nothing that is known holds it lower.',
    );
  });

  /**
   * 200 A − 1.25 × 120 A = 50 A, / 1.25 = 40 A. Two chargers rise together: 20 A each by the edition of 2020. By that of
   * 2023 each counts 30 A at least (220.57), 1.25 × 60 A = 75 A together: more than 50 A, whatever they are set to.
   */
  it('is what the service has to spare, shared by all that rise', () => {
    expect(amps({ site: measured(120), option: largest() })).toEqual([40]);
    const chargers = [...largest().chargers, ...largest().chargers];
    const old = { ...measured(120), code: { edition: '2020' } };
    expect(amps({ site: old, option: { chargers } })).toEqual([20, 20]);
    const plan = first({ site: measured(120), option: { chargers } });
    expect(stopsOf(plan)[0]).toMatchObject({ rule: 'largest-setting', numbers: { limitedBy: 'service' } });
    expect(stopsOf(plan)[0]?.message).toMatch(/counts 30 A there at least/);
  });

  it.each([
    ['load', { load: { method: 'unknown' } }],
    ['rating', { ...measured(60), service: { ratingA: null, freeSpaces: 4 } }],
    ['load and rating', { load: { method: 'unknown' }, service: { ratingA: null, freeSpaces: 4 } }],
  ])('is not limited by a service whose %s nobody knows, and warns of it', (_, site) => {
    expect(amps({ site, option: largest() })).toEqual([80]);
    const said = first({ site, option: largest() }).findings.find(({ rule }) => rule === 'largest-setting');
    expect(said?.severity).toBe('caution');
    expect(said?.message).toMatch(/What the service can carry is not known and held nothing back/);
  });

  it('names no car that nobody has stated the amperes of', () => {
    const driving = { cars: [{ milesPerDay: 30, parkedHours: 9 }] };
    const said = first({ option: largest(), rest: { driving } }).findings.find(
      ({ rule }) => rule === 'largest-setting',
    );
    expect(said).toMatchObject({
      severity: 'note',
      numbers: { amps: 80, limitedBy: 'the most that is planned (80 A)' },
    });
  });

  /** A 50 A receptacle: 50 / 1.25. A feeder of 60 A: 60 / 1.25. 6 AWG is 65 A at 75 °C: 65 / 1.25. */
  it.each([
    ['a receptacle', { option: largest({ connection: 'receptacle-14-50' }) }, 40],
    [
      'the feeder of the subpanel it starts at',
      { site: { start: { feederA: 60, freeSpaces: 4 } }, option: largest() },
      48,
    ],
    ['the terminals of the charger', { option: largest({ largestSize: '6' }) }, 52],
    [
      'the car',
      { option: largest(), rest: { driving: { cars: [{ milesPerDay: 30, parkedHours: 9, maxA: 31 }] } } },
      31,
    ],
  ])('is what %s carries', (_, parts, expected) => {
    expect(amps(parts)).toEqual([expected]);
  });

  /**
   * A 1/2 in PVC-40 holds 0.114 in² at 40 % (Chapter 9 Table 4). With 8 AWG THWN-2 and a 10 AWG ground 2 × 0.0366 +
   * 0.0211 = 0.0943 in²; with 6 AWG 2 × 0.0507 + 0.0211 = 0.1225 in², too much (Table 5). 8 AWG is 50 A at 75 °C: 40 A.
   */
  it('is what fits into a raceway that is there', () => {
    const route = [{ kind: 'existing-raceway', lengthFt: 30, type: 'pvc-40', tradeSize: '1/2' }];
    expect(amps({ route, option: largest() })).toEqual([40]);
  });

  /**
   * Two circuits in one 3/4 in EMT, 0.213 in² at 40 % (Table 4): four conductors that carry current, 80 % (Table
   * 310.15(C)(1)). 10 AWG THWN-2: 40 A × 0.8 = 32 A, so 30 A at most behind it (240.4(D)): 24 A each; 4 × 0.0211 + 2 ×
   * 0.0211 = 0.1266 in² (Table 5). The next, 8 AWG with a 10 AWG ground: 4 × 0.0366 + 2 × 0.0211 = 0.1886 in²; 55 A × 0.8 =
   * 44 A, which may lie behind 45 A: 36 A each. 6 AWG: 4 × 0.0507 + 0.0422 = 0.245 in², too much.
   */
  it('is what several circuits carry in a raceway that they share', () => {
    const route = [{ kind: 'existing-raceway', lengthFt: 30, type: 'emt', tradeSize: '3/4' }];
    const [charger] = largest().chargers;
    expect(amps({ route, option: { chargers: [charger, charger] } })).toEqual([36, 36]);
  });

  /**
   * 8 AWG THWN-2 is 40 A at terminals of 60 °C (110.14(C)(1)): 32 A of charging. Around 70 °C it is 55 A × 0.58 = 31.9 A
   * (Tables 310.16, 310.15(B)(1)(1)), behind 35 A at most (240.4(B)): 28 A.
   */
  it('knows the terminals and the heat of the raceway that is there', () => {
    const route = [{ kind: 'existing-raceway', lengthFt: 30, type: 'pvc-40', tradeSize: '1/2' }];
    const start = { feederA: 200, freeSpaces: 4, terminalsC: 60 };
    expect(amps({ site: { start }, route, option: largest() })).toEqual([32]);
    const hot = route.map((leg) => ({ ...leg, ambientC: 70 }));
    expect(amps({ route: hot, option: largest() })).toEqual([28]);
  });

  /**
   * A 60 A feeder of a detached garage also carries the receptacles and the light that the garage must have: 12.5 A.
   * (60 − 12.5) / 1.25 = 38 A.
   */
  it('leaves room for what a detached garage must have', () => {
    const subpanel = { ratingA: 100, spaces: 12, feederA: 60 };
    const parts = { site: { building: 'detached' }, option: { ...largest(), feed: 'subpanel', subpanel } };
    expect(amps(parts)).toEqual([38]);
    expect(stopsOf(first(parts))).toEqual([]);
  });

  /** 2020: 200 A − 1.25 × 96 A = 80 A, / 1.25 = 64 A. A car of 16 A leaves the other 48 A; rising alike without it, 32 A each. */
  it('lets each charger stop at its own car, and what that leaves to the others', () => {
    const chargers = [...largest().chargers, ...largest().chargers];
    const car = { milesPerDay: 30, parkedHours: 9 };
    const site = { ...measured(96), code: { edition: '2020' } };
    const cars = (...maxA: number[]) => ({ driving: { cars: maxA.map((most) => ({ ...car, maxA: most })) } });
    expect(amps({ site, option: { chargers }, rest: cars(16, 80) })).toEqual([16, 48]);
    expect(amps({ site, option: { chargers }, rest: cars(80, 80) })).toEqual([32, 32]);
    const lone = [...wired(24).chargers, ...largest().chargers]; // the first is set, the second rises to its car
    const plan = first({ option: { chargers: lone }, rest: cars(80, 31) });
    expect(plan.option.chargers.map((charger) => charger.amps)).toEqual([24, 31]);
    const said = plan.findings.find(({ rule }) => rule === 'largest-setting');
    expect(said?.numbers).toMatchObject({ amps: 31, limitedBy: 'car' });
  });

  /** What 40 A hold together, none can draw more of alone. A monitor of 200 A holds nothing below the 80 A that are made. */
  it('is never above what load management lets it draw', () => {
    const held = (kind: string, maxA: number, group?: string) => {
      const charger = { ...largest().chargers[0], ...(group && { group }) };
      return amps({ option: { chargers: [charger, charger], loadManagement: { kind, maxA } } });
    };
    expect(held('shared-circuit', 40, 'A')).toEqual([40, 40]);
    expect(held('service-monitor', 48)).toEqual([48, 48]);
    expect(held('service-monitor', 200)).toEqual([80, 80]);
  });

  /**
   * A feeder in 1 in PVC-40, 0.333 in² at 40 % (Table 4): three of 6 AWG THWN-2 and a 10 AWG ground are 3 × 0.0507 + 0.0211 =
   * 0.1732 in²; of 4 AWG with an 8 AWG ground 3 × 0.0824 + 0.0366 = 0.2838; of 3 AWG 3 × 0.0973 + 0.0366 = 0.3285; of 2 AWG 3
   * × 0.1158 + 0.0366 = 0.384, too much (Table 5). 3 AWG is 100 A at 75 °C: a feeder of 100 A, and 80 A of charging.
   * In 3/4 in, 0.203 in²: 6 AWG, 65 A at 75 °C, which may lie behind 70 A (240.4(B)) but must carry 125 % itself: 52 A.
   */
  it('is what the feeder may be in a raceway that is there', () => {
    const through = (tradeSize: string, stated: Record<string, unknown> = {}) => {
      const route = [{ kind: 'existing-raceway', lengthFt: 30, type: 'pvc-40', tradeSize }];
      const subpanel = { ratingA: 125, spaces: 12, ...stated };
      return first({ route, option: { ...largest(), feed: 'subpanel', metal: 'copper', subpanel } });
    };
    const setting = (plan: ReturnType<typeof first>) => plan.option.chargers[0]?.amps;
    expect(setting(through('1'))).toBe(80);
    expect(setting(through('3/4'))).toBe(52);
    expect(stopsOf(through('3/4'))).toEqual([]);
    expect(through('3/4').findings.find(({ rule }) => rule === 'largest-setting')?.numbers.limitedBy).toBe(
      'existing raceway',
    );
  });

  it('stops where not even the least that a car takes fits', () => {
    const plan = first({ site: measured(158), option: largest() }); // 200 − 197.5 = 2.5 A
    expect(stopsOf(plan)[0]).toMatchObject({ rule: 'largest-setting', numbers: { limitedBy: 'service' } });
  });
});

describe('a receptacle that is there', () => {
  const receptacle = (
    stated: Record<string, unknown> = {},
    amperes: number | 'largest' = 12,
    connection = 'receptacle-5-20',
  ) => ({
    route: [],
    option: {
      feed: 'existing-receptacle',
      chargers: [{ amps: amperes, connection, equipment: 'owned' }],
      receptacle: { circuitA: 20, sharedWith: [], gfci: true, grounded: true, ...stated },
    },
  });
  const severities = (parts: Parts) => first(parts).findings.map(({ rule, severity }) => `${rule} ${severity}`);

  it('runs nothing, and says what may be drawn: 80 % of 20 A', () => {
    const plan = first(receptacle());
    expect(plan.runs).toEqual([]);
    expect(stopsOf(plan)).toEqual([]);
    expect(plan.findings.find(({ rule }) => rule === 'cord-and-plug-80-percent')?.numbers).toMatchObject({
      largestA: 16,
    });
    expect(amps(receptacle({}, 'largest'))).toEqual([16]);
  });

  /** 80 % of the 15 A that feed the building: 12 A, though its receptacle is for 20 A. */
  it('draws no more than the old circuit that stays and feeds its building', () => {
    const existingCircuit = { amps: 15, poles: 1, wires: 3, raceway: 'none', feeds: ['receptacle'] };
    const site = { building: 'detached', existingSupply: 'kept', existingCircuit };
    expect(amps({ ...receptacle({}, 'largest'), site })).toEqual([12]);
  });

  it.each([
    ['more than 80 % of the circuit', receptacle({}, 20), 'cord-and-plug-80-percent stop'],
    ['no ground', receptacle({ grounded: false }), 'equipment-ground-required stop'],
    ['a ground that nobody knows', receptacle({ grounded: null }), 'equipment-ground-required caution'],
    ['no ground-fault protection', receptacle({ gfci: false }), 'gfci-ev-receptacle caution'],
    ['ground-fault protection by replacing it', receptacle({ gfci: false, replace: true }), 'gfci-ev-receptacle note'],
    ['things that share the circuit', receptacle({ sharedWith: ['freezer'] }), 'individual-branch-circuit caution'],
    ['a receptacle above its circuit', receptacle({ circuitA: 15 }), 'single-receptacle-rating stop'],
    // NEC Table 210.21(B)(3): on 30 A only receptacles of 30 A, on 50 A of 50 A; on 20 A one of 15 A beside another
    ['5-15 on 30 A', receptacle({ circuitA: 30 }, 12, 'receptacle-5-15'), 'single-receptacle-rating stop'],
    ['5-20 on 50 A', receptacle({ circuitA: 50 }, 12), 'single-receptacle-rating stop'],
    ['14-50 on 60 A', receptacle({ circuitA: 60 }, 32, 'receptacle-14-50'), 'single-receptacle-rating stop'],
    ['14-50 on 50 A', receptacle({ circuitA: 50 }, 40, 'receptacle-14-50'), 'single-receptacle-rating ok'],
    ['5-15 on 20 A', receptacle({}, 12, 'receptacle-5-15'), 'receptacle-rating caution'],
    ['a charger without a plug', receptacle({}, 12, 'hardwired'), 'receptacle-rating stop'],
  ])('judges %s', (_, parts, expected) => {
    expect(severities(parts)).toContain(expected);
  });

  /** Two of 8 A are 16 A, 80 % of 20 A; two of 9 A are more. One receptacle takes one plug, all the same. */
  it('counts the chargers on it together, and stops at a second plug', () => {
    const two = (amperes: number) => {
      const parts = receptacle({}, amperes);
      return severities({
        ...parts,
        option: { ...parts.option, chargers: [...parts.option.chargers, ...parts.option.chargers] },
      });
    };
    expect(two(8)).toEqual(expect.arrayContaining(['one-outlet stop', 'cord-and-plug-80-percent ok']));
    expect(two(9)).toEqual(expect.arrayContaining(['one-outlet stop', 'cord-and-plug-80-percent stop']));
  });

  it('asks for a circuit of its own in the edition of 2020, even where a small draw might share', () => {
    const shared = receptacle({ sharedWith: ['freezer'] });
    const message = (edition: string) =>
      first({ ...shared, site: { code: { edition } } }).findings.find(
        ({ rule }) => rule === 'individual-branch-circuit',
      )?.message;
    expect(message('2020')).toMatch(/needs a circuit of its own/);
    expect(message('2023')).toMatch(/may share a 20 A circuit/);
  });
});

describe('what was stated and changes nothing', () => {
  it('is said of a leg that has no use for a field', () => {
    const route = [{ kind: 'joists', lengthFt: 20, thicknessIn: 6 }];
    const notes = first({ route }).findings.filter(({ rule }) => rule === 'unused-field');
    expect(notes).toMatchObject([{ severity: 'note', leg: 0, numbers: { field: 'thicknessIn' } }]);
  });

  it('prints the citations of the edition that was asked for', () => {
    for (const edition of ['2020', '2023', '2026'] as const) {
      const cited = first({ site: { code: { edition } } }).findings.flatMap(({ citation }) => citation ?? []);
      expect(new Set(cited.map((one) => one.edition))).toEqual(new Set([edition]));
    }
  });
});
