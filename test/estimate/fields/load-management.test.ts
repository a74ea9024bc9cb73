import { describe, expect, it } from 'vitest';
import { optionOf, ruleOf, takenOf, unitsOf } from './priced.ts';

const MONITOR = { kind: 'service-monitor', maxA: 32 };

describe('a monitor of the service', () => {
  /** 20 ft of route + 4 ft to the charger + 5 ft at the panel + 1 ft at the outlet = 30 ft; 5 % waste: 31.5 ft. Our terms' makeup. */
  it('is bought with its signal cable along the route, set and labelled', () => {
    const option = optionOf({ option: { loadManagement: MONITOR } });
    expect(takenOf(option, 'lm-ct-kit')).toBe(1);
    expect(takenOf(option, 'lm-signal-cable')).toBe(31.5);
    expect(takenOf(option, 'lm-label')).toBe(1);
    expect(['lm-ct', 'signal-cable', 'lm-set'].map((task) => unitsOf(option, task))).toEqual([1, 30, 1]);
    expect(option.lines.filter(({ scope }) => scope === 'load-management').every(({ priced }) => priced)).toBe(true);
  });

  /** 2 × (24 in of cover for UF-B, Table 300.5(A), + 1.5 ft above grade) = 7 ft of climbs: 30 + 40 + 7 = 77 ft, or 76 for 18 in of cover. */
  it('climbs out of the ground as the circuit does', () => {
    const option = optionOf({ route: '20 joists, 40 lawn-trench', option: { loadManagement: MONITOR } });
    const coverIn = option.runs[0]?.legs[1]?.coverIn ?? 0;
    expect(unitsOf(option, 'signal-cable')).toBe(70 + 2 * (coverIn / 12 + 1.5));
  });

  /** Articles as in our table of citations; the limit of the house is the service's 200 A where none is stated. */
  it('cites the rules of each edition and names the limit', () => {
    const stated = (edition: string) =>
      optionOf({ site: { code: { edition } }, option: { loadManagement: { ...MONITOR, maxA: 24 } } });
    const articles = (edition: string) =>
      ['load-management', 'house-limit', 'managed-load'].map(
        (rule) => ruleOf(stated(edition), rule)[0]?.citation?.article,
      );
    expect(articles('2020')).toEqual(['625.42', '750.30', '750.30']);
    expect(articles('2023')).toEqual(['625.42(A)', '750.30', '220.70']);
    expect(articles('2026')).toEqual(['625.42(A)', '130.30', '120.7']);
    expect(ruleOf(stated('2023'), 'house-limit')[0]).toMatchObject({
      severity: 'ok',
      numbers: { houseLimitA: 200, ratingA: 200 },
    });
  });

  it('may not be set above the service', () => {
    const option = optionOf({ option: { loadManagement: { ...MONITOR, houseLimitA: 225 } } });
    expect(ruleOf(option, 'house-limit')[0]?.severity).toBe('stop');
    expect(option.buildable).toBe(false);
  });

  /** 220.87: 1.25 × 90 A = 112.5 A is more than the service's 100 A before any car: nothing that holds back the car helps. */
  it('does not make a service carry what it does not carry without the car', () => {
    const option = optionOf({
      site: { service: { ratingA: 100, freeSpaces: 6 }, load: { method: 'measured', peakA: 90, days: 365 } },
      option: { loadManagement: MONITOR },
    });
    expect(option.service).toMatchObject({ demandA: 112.5, withA: 112.5, fits: 'no' });
  });

  it('switches a receptacle that nobody knows the charger of by a contactor', () => {
    const chargers = [{ amps: 32, connection: 'receptacle-14-50', equipment: 'none', distanceFt: 4 }];
    const option = optionOf({ option: { chargers, loadManagement: MONITOR } });
    expect(takenOf(option, 'lm-relay-60')).toBe(1);
    expect(takenOf(option, 'lm-ct-kit')).toBeUndefined();
    expect(option.complete).toBe(true);
  });

  it('says where its cable has no way of its own', () => {
    const route = '20 joists, 8 bore';
    const [beside, noWay] = ruleOf(optionOf({ route, option: { loadManagement: MONITOR } }), 'signal-cable');
    expect(beside?.citation?.article).toBe('725.136(A)');
    expect(noWay).toMatchObject({ severity: 'caution', leg: 1 });
  });
});

describe('a shared circuit', () => {
  const two = (charger: Record<string, unknown>, more: Record<string, unknown> = {}) => ({
    option: {
      chargers: [1, 2].map((at) => ({ amps: 32, distanceFt: 3 + at, group: 'drive', ...charger })),
      loadManagement: { kind: 'shared-circuit', maxA: 32, ...more },
    },
  });

  it('buys a second charger that shares with the first', () => {
    const option = optionOf(two({ connection: 'hardwired', equipment: 'buy' }));
    expect(takenOf(option, 'charger-32')).toBe(1);
    expect(takenOf(option, 'charger-48-pair-sharing')).toBe(1);
    expect(takenOf(option, 'lm-splitter-2out')).toBeUndefined();
    expect(unitsOf(option, 'lm-set')).toBe(1);
    expect(option.runs.map(({ loadA }) => loadA)).toEqual([32]);
  });

  it('puts a splitter behind one receptacle, and stops at three chargers', () => {
    const plugged = { connection: 'receptacle-14-50', equipment: 'owned' };
    const option = optionOf(two(plugged));
    expect(takenOf(option, 'lm-splitter-2out')).toBe(1);
    expect(takenOf(option, 'rec-14-50-ind')).toBe(1);
    const three = [...two(plugged).option.chargers, { amps: 32, distanceFt: 9, group: 'drive', ...plugged }];
    const stopped = optionOf({ option: { ...two(plugged).option, chargers: three } });
    expect(ruleOf(stopped, 'load-management-splitter')[0]?.severity).toBe('stop');
  });

  /** IEC 61851-1, from memory: no car charges below 6 A; two ask for 12 A. The limit is that of NEC 625.42(A). */
  it('says when the limit is too small for both at once', () => {
    const least = (maxA: number) =>
      ruleOf(optionOf(two({ connection: 'hardwired', equipment: 'owned' }, { maxA })), 'load-management-least').map(
        ({ citation }) => citation?.article,
      );
    expect([least(11), least(12)]).toEqual([['625.42(A)'], []]);
  });
});
