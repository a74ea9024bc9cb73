import { describe, expect, it } from 'vitest';
import { planCandidates } from '../../../server/estimate/plan/plan.ts';
import type { PlannedOption } from '../../../server/estimate/plan-types.ts';
import type { Book } from '../../../server/estimate/price-book.ts';
import { takeoffOf } from '../../../server/estimate/takeoff/takeoff.ts';
import { firstRun, household, type Parts, planBy, plansFor, SHOP, SHOP_SPECS, shopOf, stopsOf, wired } from './shop.ts';

const GARAGE_CIRCUITS = [
  { use: 'garage receptacles', amps: 20, poles: 1, lengthFt: 20, build: true },
  { use: 'garage lights', amps: 15, poles: 1, lengthFt: 30, build: true },
];
const ROUTE = '35 joists, 12 under-deck, 41 lawn-trench clay, 9 concrete-cut 4in';

/** A detached garage with a panel of its own. */
function garage(subpanel: Record<string, unknown> = {}, option: Record<string, unknown> = {}): Parts {
  return {
    site: { building: 'detached', garage: { bays: 1, existing: [] } },
    route: ROUTE,
    option: {
      ...wired(48),
      feed: 'subpanel',
      subpanel: { ratingA: 100, spaces: 12, feederA: 100, otherCircuits: GARAGE_CIRCUITS, ...subpanel },
      ...option,
    },
  };
}

const onePlan = (parts: Parts): PlannedOption => {
  const [plan] = plansFor(parts);
  if (!plan) throw new Error('There is always a plan.');
  return plan;
};
const sum = (quantities: readonly (number | undefined)[]) =>
  quantities.reduce<number>((all, one) => all + (one ?? 0), 0);
const ruleOf = (plan: PlannedOption, rule: string) => plan.findings.filter((finding) => finding.rule === rule);

describe('a feeder to a detached garage', () => {
  /**
   * Table 310.16 at 75 °C: 2 AWG aluminum 90 A, a standard rating, so no stepping up to 100 A (240.4(B)); 1 AWG 100 A.
   * The 83 % rule is for an entire dwelling only (310.12). Ground at 100 A: 6 AWG aluminum, 8 AWG copper (Table 250.122).
   * Cover: USE-2 24 in, PVC 18 in (Table 300.5(A)); under a slab of 4 in less, but the ditch keeps its deepest.
   */
  it('takes 1 AWG aluminum for 100 A and 2 AWG for 90 A', () => {
    const at100 = firstRun(planBy(garage({}, { metal: 'aluminum' }), 'ser', 'ser', 'direct-burial', 'direct-burial'));
    expect(at100).toMatchObject({
      ocpdA: 100,
      conductor: { metal: 'aluminum', size: '1', ampacityA: 100 },
      neutral: true,
    });
    expect(at100.legs.map(({ coverIn }) => coverIn)).toEqual([undefined, undefined, 24, 24]);
    const inPvc = firstRun(planBy(garage({}, { metal: 'aluminum' }), 'emt', 'pvc', 'pvc', 'pvc'));
    expect(inPvc.groundSize).toBe('6');
    expect(inPvc.legs.map(({ coverIn }) => coverIn)).toEqual([undefined, undefined, 18, 18]);
    const at90 = firstRun(planBy(garage({ feederA: 90 }, { metal: 'aluminum' }), 'emt', 'pvc', 'pvc', 'pvc'));
    expect(at90).toMatchObject({ ocpdA: 90, conductor: { size: '2', ampacityA: 90 } });
  });

  it('lets buried USE-2 go on through the raceway under the deck instead of splicing it', () => {
    const plan = planBy(garage({}, { metal: 'aluminum' }), 'ser', 'pvc', 'direct-burial', 'direct-burial');
    expect(firstRun(plan).sections.map(({ insulation, legs }) => [insulation, legs])).toEqual([
      ['ser', [0]],
      ['use-2', [1, 2, 3]],
    ]);
    expect(ruleOf(plan, 'use-2-markings')[0]?.message).toMatch(/RHH or RHW-2/);
  });

  /** Copper in a raceway, 75 °C: 3 AWG is 100 A, 4 AWG 85 A. */
  it('takes 3 AWG copper for 100 A', () => {
    expect(firstRun(planBy(garage({}, { metal: 'copper' }), 'emt', 'pvc', 'pvc', 'pvc')).conductor).toEqual({
      metal: 'copper',
      size: '3',
      ampacityA: 100,
    });
  });

  /** Two rods on 6 AWG copper: 250.53(A)(2), 250.66(A). A main breaker of 100 A is the disconnect: 225.31, 225.39 asks 60 A. */
  it('gives the building its electrodes, its disconnect and a neutral of its own', () => {
    const plan = onePlan(garage());
    expect(plan.grounding).toMatchObject({ electrodes: [{ kind: 'rod', count: 2 }], conductorSize: '6' });
    expect(firstRun(plan)).toMatchObject({
      separateNeutral: true,
      disconnect: { at: 'subpanel', kind: 'main-breaker', ratingA: 100 },
    });
    expect(ruleOf(plan, 'electrode-separate-building')[0]?.citation?.article).toBe('250.32(A)');
    expect(stopsOf(plan)).toEqual([]);
  });

  it('takes a switch of at least 60 A where the panel has no main breaker', () => {
    const [run] = onePlan(garage({ mainBreaker: false, feederA: 80, ratingA: 125 })).runs;
    expect(run?.disconnect).toMatchObject({ kind: 'non-fused-switch', ratingA: 100 });
  });

  it('takes no electrodes and no disconnect within the house', () => {
    const plan = onePlan({ ...garage(), site: { building: 'attached' }, route: '35 joists' });
    expect(plan.grounding).toBeUndefined();
    expect(firstRun(plan)).toMatchObject({ neutral: true, separateNeutral: true });
    expect(firstRun(plan).disconnect).toBeUndefined();
  });

  it('keeps a circuit for each charger and for each of the others that is built', () => {
    const plan = onePlan(garage());
    expect(plan.runs.map(({ name, from, ocpdA, poles, legs }) => [name, from, ocpdA, poles, legs.length])).toEqual([
      ['feeder', 'main panel', 100, 2, 4],
      ['charger', 'subpanel', 60, 2, 0],
      ['garage receptacles', 'subpanel', 20, 1, 0],
      ['garage lights', 'subpanel', 15, 1, 0],
    ]);
    expect(plan.runs[2]?.breaker.kind).toBe('gfci');
    expect(plan.runs[3]?.breaker.kind).toBe('standard');
    expect(plan.outlets.map(({ connection }) => connection)).toEqual(['hardwired', 'receptacle-120', 'light']);
  });

  it('adds the receptacles and the light that the garage must have, one receptacle a bay', () => {
    const parts = garage({ otherCircuits: [] });
    const plan = onePlan({ ...parts, site: { building: 'detached', garage: { bays: 2, existing: [] } } });
    expect(plan.runs.map(({ name }) => name)).toEqual(['feeder', 'charger', 'garage receptacles', 'garage light']);
    expect(plan.outlets.filter(({ connection }) => connection === 'receptacle-120')).toHaveLength(2);
    expect(ruleOf(plan, 'garage-receptacles')[0]?.severity).toBe('ok');
    const there = onePlan({ ...parts, site: { building: 'detached', garage: { existing: ['receptacles', 'light'] } } });
    expect(there.runs).toHaveLength(2);
  });

  /** NEC 210.52(G)(1): a receptacle in each bay; 210.70(A)(2): a light. 210.11(C)(4): the 20 A circuit has no other outlets. */
  it.each(['garage lights and receptacles', 'two receptacles and light', 'plugs and lamp'])(
    'mounts receptacles in each bay and the light on one circuit for "%s", and says that it may not be one',
    (use) => {
      const otherCircuits = [{ use, amps: 20, poles: 1, build: true }];
      const site = { building: 'detached', garage: { bays: 2, existing: [] } };
      const plan = onePlan({ ...garage({ otherCircuits }), site });
      expect(plan.outlets.map(({ connection }) => connection)).toEqual([
        'hardwired',
        'receptacle-120',
        'receptacle-120',
        'light',
      ]);
      expect(plan.runs[2]?.breaker.kind).toBe('gfci'); // 210.8(A)(2)
      expect(ruleOf(plan, 'garage-receptacles')[0]?.severity).toBe('ok');
      expect(ruleOf(plan, 'garage-circuit')[0]).toMatchObject({
        severity: 'caution',
        message: expect.stringContaining(`a light hangs on "${use}"`),
        citation: { article: '210.11(C)(4)' },
      });
      const { materials, tasks } = takeoffOf(plan);
      const bought = (name: string) =>
        materials.filter(({ spec }) => spec.is === 'other' && spec.name === name).map(({ quantity }) => quantity);
      expect(sum(bought('rec-5-20'))).toBe(2);
      expect(sum(bought('light-garage'))).toBe(1);
      expect(sum(bought('switch-1p'))).toBe(1);
      // One gang each: two receptacles, the light and its switch; a plate for each device.
      expect(sum(bought('box-1gang-nm')) + sum(bought('box-4in-square-deep'))).toBe(4);
      expect(sum(bought('plate-1gang'))).toBe(3);
      const done = (name: string) => sum(tasks.filter(({ task }) => task === name).map(({ quantity }) => quantity));
      expect([done('receptacle-120'), done('light-point')]).toEqual([2, 1]);
    },
  );

  it('says where the only circuit of the receptacles is too small, and nothing where one of 20 A is theirs alone', () => {
    const small = [{ use: 'garage receptacles', amps: 15, poles: 1, build: true }];
    expect(ruleOf(onePlan(garage({ otherCircuits: small })), 'garage-circuit')[0]?.message).toMatch(/is one of 15 A/);
    expect(ruleOf(onePlan(garage()), 'garage-circuit')).toEqual([]);
    const both = [...GARAGE_CIRCUITS, { use: 'bench light and outlets', amps: 20, poles: 1, build: true }];
    expect(ruleOf(onePlan(garage({ otherCircuits: both })), 'garage-circuit')).toEqual([]);
  });

  it('says that a circuit which only keeps its space is not there yet', () => {
    const kept = GARAGE_CIRCUITS.map((circuit) => ({ ...circuit, build: false }));
    const plan = onePlan(garage({ otherCircuits: kept }));
    expect(plan.runs).toHaveLength(2);
    expect(ruleOf(plan, 'garage-light')[0]?.severity).toBe('caution');
  });

  it('figures the drop of the whole path: 2 × 48 A × 97 ft of 1 AWG aluminum and 6 ft to the charger', () => {
    const plan = planBy(garage({}, { metal: 'aluminum' }), 'emt', 'pvc', 'pvc', 'pvc');
    // Chapter 9 Table 8: 1 AWG aluminum 0.253 Ω/1000 ft; the charger's 4 AWG copper cable 0.308, or 6 AWG in EMT 0.491
    const feederV = 2 * 48 * 0.253 * 0.097;
    const branchOhms = plan.runs[1]?.conductor.size === '4' ? 0.308 : 0.491;
    expect(plan.dropPercent).toBeCloseTo((100 * (feederV + 2 * 48 * branchOhms * 0.006)) / 240, 3);
  });
});

describe('the load of a feeder', () => {
  /** 48 A × 1.25 = 60 A; two general circuits of 1,500 VA, one on each leg: 12.5 A. 72.5 A in all. */
  it('counts the charger at 125 % and general circuits by the fuller leg', () => {
    const [load] = ruleOf(onePlan(garage()), 'feeder-load');
    expect(load).toMatchObject({ severity: 'ok', numbers: { neededA: 72.5, feederA: 100 } });
  });

  /** 2 × 48 A × 1.25 + 12.5 A = 132.5 A: the next standard rating is 150 A. */
  it('stops a feeder that is too small, with the numbers, and shows what it would take', () => {
    const chargers = [1, 2].map(() => ({ amps: 48, connection: 'hardwired', equipment: 'owned' }));
    const plan = onePlan(garage({}, { chargers }));
    expect(ruleOf(plan, 'feeder-load')[0]).toMatchObject({
      severity: 'stop',
      numbers: { neededA: 132.5, feederA: 100 },
    });
    expect(firstRun(plan).ocpdA).toBe(150);
    const pair = chargers.map((charger) => ({ ...charger, group: 'pair' }));
    const managed = onePlan(garage({}, { chargers: pair, loadManagement: { kind: 'shared-circuit', maxA: 60 } }));
    expect(ruleOf(managed, 'feeder-load')[0]).toMatchObject({ severity: 'ok', numbers: { neededA: 87.5 } });
  });

  /** 5 × 80 A × 1.25 + 12.5 A = 512.5 A; no feeder of a subpanel above 400 A is planned, which is ours. */
  it('stops what no feeder of a subpanel carries, whether its size was stated or not', () => {
    const chargers = Array.from({ length: 5 }, () => ({ amps: 80, connection: 'hardwired', equipment: 'owned' }));
    for (const feederA of [100, undefined]) {
      const plan = onePlan(garage({ ratingA: 400, spaces: 24, feederA }, { chargers }));
      expect(ruleOf(plan, 'feeder-load')[0]).toMatchObject({
        severity: 'stop',
        numbers: { neededA: 512.5, largestA: 400 },
      });
    }
  });

  /**
   * NEC 220.57 of 2023: a charger counts at least 7,200 VA, 30 A at 240 V; in 2020 its own 20 A × 1.25 = 25 A. A monitor
   * holds a lone charger, a circuit that it shares with none does not (625.42(A)).
   */
  it('counts a small charger at 7,200 VA in 2023, unless load management holds it', () => {
    const small = (edition: string, more = {}) => {
      const parts = garage({ otherCircuits: [], feederA: 60 }, { ...wired(20), ...more });
      return ruleOf(onePlan({ ...parts, site: { building: 'attached', code: { edition } } }), 'feeder-load')[0]
        ?.numbers;
    };
    expect(small('2023')).toMatchObject({ neededA: 30 });
    expect(small('2020')).toMatchObject({ neededA: 25 });
    expect(small('2023', { loadManagement: { kind: 'service-monitor', maxA: 20 } })).toMatchObject({ neededA: 25 });
    expect(small('2023', { loadManagement: { kind: 'shared-circuit', maxA: 20 } })).toMatchObject({ neededA: 30 });
  });

  /** A circuit whose load nobody knows counts in full: 60 + 12.5 + 40 = 112.5 A. */
  it('counts another circuit with its whole rating', () => {
    const plan = onePlan(garage({ otherCircuits: [...GARAGE_CIRCUITS, { use: 'kiln', amps: 40, poles: 2 }] }));
    expect(ruleOf(plan, 'feeder-load')[0]).toMatchObject({ severity: 'stop', numbers: { neededA: 112.5 } });
  });

  it('chooses the smallest standard rating for the load and the later cars where none was stated', () => {
    expect(firstRun(onePlan(garage({ feederA: undefined }))).ocpdA).toBe(80); // 72.5 A
    const later = { cars: [{ milesPerDay: 30, parkedHours: 10 }], later: 1 };
    const plan = onePlan({ ...garage({ feederA: undefined, ratingA: 200 }), rest: { driving: later } });
    expect(firstRun(plan).ocpdA).toBe(150); // 72.5 A + 60 A
    const stated = onePlan({ ...garage(), rest: { driving: later } });
    expect(ruleOf(stated, 'later-cars')[0]).toMatchObject({ severity: 'caution', numbers: { neededA: 132.5 } });
  });

  it('wires ahead without a charger, at the rating of the panel', () => {
    const plan = onePlan(garage({ feederA: undefined }, { chargers: [] }));
    expect(firstRun(plan)).toMatchObject({ ocpdA: 100, chargers: [] });
    expect(stopsOf(plan)).toEqual([]);
  });

  it('stops a feeder above the rating of its panel', () => {
    const [stop] = stopsOf(onePlan(garage({ ratingA: 60 })));
    expect(stop?.citation?.article).toBe('408.36');
  });

  it('plans a standard rating where an odd one was asked for', () => {
    const plan = onePlan(garage({ feederA: 95 }));
    expect(firstRun(plan).ocpdA).toBe(90);
    expect(ruleOf(plan, 'standard-ratings')[0]?.severity).toBe('caution');
  });
});

describe('panels and their spaces', () => {
  it('buys the smallest panel that is sold with at least what was asked for', () => {
    const sold = { ratingA: 125, enclosure: 'indoor', mainBreaker: true };
    expect(onePlan(garage({ ratingA: 110, spaces: 6 })).panel).toEqual({ ...sold, spaces: 8 });
    expect(onePlan(garage({ ratingA: 110, spaces: 9 })).panel).toEqual({ ...sold, spaces: 12 });
  });

  it('asks for more spaces where the circuits need them', () => {
    const plan = onePlan(garage({ spaces: 3 }));
    expect(plan.panel?.spaces).toBeGreaterThanOrEqual(4); // two poles for the charger, one for each of the others
    // NEC 408.54, from memory: no more breakers than the panel is made for.
    expect(ruleOf(plan, 'subpanel-spaces')[0]).toMatchObject({ severity: 'caution', citation: { article: '408.54' } });
  });

  it.each([
    [null, 'caution'],
    [1, 'caution'],
    [2, 'ok'],
  ])('looks whether the main panel has two spaces: %s free', (freeSpaces, severity) => {
    const plan = onePlan({ site: { service: { ratingA: 200, freeSpaces } } });
    expect(ruleOf(plan, 'panel-spaces')[0]).toMatchObject({
      severity,
      citation: { article: '408.54' },
      numbers: { neededSpaces: 2 },
    });
  });
});

describe('one supply for one building', () => {
  it('stops a second supply beside one that is kept', () => {
    const plan = onePlan({ ...garage(), site: { building: 'detached', existingSupply: 'kept' } });
    expect(stopsOf(plan)[0]?.citation?.article).toBe('225.30');
    const removed = onePlan({ ...garage(), site: { building: 'detached', existingSupply: 'removed' } });
    expect(stopsOf(removed)).toEqual([]);
  });

  it('cautions where two circuits of their own come to the building, and names who decides', () => {
    const chargers = [1, 2].map(() => ({ amps: 32, connection: 'hardwired', equipment: 'owned' }));
    const plan = onePlan({ site: { building: 'detached' }, route: ROUTE, option: { chargers } });
    expect(plan.runs.map(({ name }) => name)).toEqual(['charger 1', 'charger 2']);
    expect(ruleOf(plan, 'one-supply-different-voltage')[0]).toMatchObject({
      severity: 'caution',
      numbers: { circuits: 2 },
    });
  });

  it('gives a lone circuit a switch at the building, no rods, and says what the garage still lacks', () => {
    const plan = onePlan({ site: { building: 'detached' }, route: ROUTE });
    expect(firstRun(plan).disconnect).toMatchObject({ kind: 'non-fused-switch', ratingA: 60 });
    expect(plan.grounding).toBeUndefined();
    expect(ruleOf(plan, 'garage-light')[0]).toMatchObject({
      severity: 'caution',
      citation: { article: '210.70(A)(2)' },
    });
  });

  /** Receptacles of a garage have ground-fault protection (210.8(A)): by a breaker where the book sells one, else at the outlet. */
  it('asks the price book for a ground-fault breaker', () => {
    const circuits = [{ use: 'welder outlet', amps: 60, poles: 2, build: true }];
    const { description, option } = household(garage({ otherCircuits: circuits }));
    const kindIn = (book: Book) => {
      const [plan] = planCandidates(description, option, book);
      const run = plan?.runs.find(({ name }) => name === 'welder outlet');
      const said = plan?.findings.find(
        ({ rule, run: of }) => rule === 'gfci-dwelling-receptacle' && of === 'welder outlet',
      );
      return [run?.breaker.kind, said?.severity];
    };
    const without = SHOP_SPECS.filter((spec) => spec.is !== 'breaker' || !spec.gfci || spec.ratingA < 60);
    expect(kindIn(SHOP)).toEqual(['gfci', 'ok']);
    expect(kindIn(shopOf(without))).toEqual(['standard', 'caution']);
  });
});
