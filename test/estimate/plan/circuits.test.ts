import { describe, expect, it } from 'vitest';
import { planCandidates } from '../../../server/estimate/plan/plan.ts';
import { firstRun, household, planBy, plansFor, SHOP, stopsOf, wired } from './shop.ts';

/** What is said of a conductor that was found. */
const CONDUCTOR_RULES = ['conductor-ampacity', 'equipment-ground', 'continuous-load', 'conduit-fill', 'voltage-drop'];

describe('a circuit for one charger', () => {
  /**
   * By hand: 125 % of 32 A are 40 A (NEC 210.20(A), 625.42); 8 AWG NM-B and UF-B are 40 A in the 60 °C column of Table
   * 310.16; a 40 A device takes a 10 AWG ground (Table 250.122). Likely length 28 + 36 + 6 = 70 ft, high 28 + 44 + 6 =
   * 78 ft. Drop: 2 × 32 A × 0.778 Ω/1000 ft (Chapter 9 Table 8, 8 AWG stranded) × 78 ft = 3.8838 V, 1.6182 % of 240 V.
   */
  it('agrees with the example worked by hand: 32 A over 70 ft in NM-B and UF-B', () => {
    const plan = planBy(
      {
        site: { building: 'outdoor' },
        route: [
          { kind: 'joists', lengthFt: 28, through: 'wood' },
          { kind: 'lawn-trench', lengthFt: { low: 30, likely: 36, high: 44 }, soil: 'clay' },
        ],
        option: wired(32, { mount: 'post' }),
      },
      'nm-b',
      'uf-b',
    );
    const run = firstRun(plan);
    expect(run).toMatchObject({
      name: 'charger',
      lengthFt: 70,
      lengthRangeFt: { low: 64, high: 78 },
      loadA: 32,
      continuousA: 32,
      ocpdA: 40,
      poles: 2,
      breaker: { ocpdA: 40, poles: 2, spaces: 2, kind: 'gfci' },
      neutral: false,
      conductor: { metal: 'copper', size: '8', ampacityA: 40 },
      groundSize: '10',
      dropV: 3.8838,
      dropPercent: 1.6182,
    });
    expect(run.legs.map(({ coverIn }) => coverIn)).toEqual([undefined, 24]);
    expect(run.sections.map(({ insulation, legs, tail }) => ({ insulation, legs, tail }))).toEqual([
      { insulation: 'nm-b', legs: [0], tail: false },
      { insulation: 'uf-b', legs: [1], tail: true },
    ]);
    expect(plan.dropPercent).toBe(1.6182);
    expect(stopsOf(plan)).toEqual([]);
  });

  /**
   * The example with 10 ft down at the end of the joists: likely 80 ft, high 88 ft. Drop: 2 × 32 A × 0.778 Ω/1000 ft
   * (Chapter 9 Table 8, 8 AWG stranded) × 88 ft = 4.3817 V, 1.8257 % of 240 V. The next size is wanted where that is over.
   */
  it('counts a stated rise as conductor that loses voltage', () => {
    const example = (maxDropPercent: number) => ({
      site: { building: 'outdoor' },
      route: [
        { kind: 'joists', lengthFt: 28, riseFt: 10, through: 'wood' },
        { kind: 'lawn-trench', lengthFt: { low: 30, likely: 36, high: 44 } },
      ],
      option: { ...wired(32, { mount: 'post' }), maxDropPercent },
    });
    const run = firstRun(planBy(example(3), 'nm-b', 'uf-b'));
    expect(run).toMatchObject({ lengthFt: 80, lengthRangeFt: { low: 74, high: 88 }, conductor: { size: '8' } });
    expect([run.dropV, run.dropPercent]).toEqual([4.3817, 1.8257]);
    expect(firstRun(planBy(example(1.8), 'emt', 'pvc')).conductor.size).toBe('6');
  });

  /**
   * 36 A × 1.25 = 45 A, and out of doors 210.8(F) asks for ground-fault protection up to 50 A; such a breaker of 45 A is
   * not sold (common practice, no source), one of 50 A is: then wire for 50 A, 6 AWG at 55 A in the 60 °C column.
   */
  it('takes the next breaker that is sold where a ground-fault one of the standard rating is not', () => {
    const plan = planBy({ site: { building: 'outdoor' }, route: '20 lawn-trench', option: wired(36) }, 'uf-b');
    expect(firstRun(plan)).toMatchObject({
      ocpdA: 50,
      breaker: { kind: 'gfci' },
      conductor: { size: '6', ampacityA: 55 },
    });
  });

  /** 48 A × 1.25 = 60 A. Table 310.16: 6 AWG is 55 A at 60 °C and 65 A at 75 °C, 4 AWG 70 A at 60 °C. NM-B: 334.80. */
  it('takes 4 AWG as nonmetallic cable and 6 AWG in a raceway for 48 A', () => {
    const parts = { route: '35 joists, 12 interior-surface', option: wired(48) };
    const cable = firstRun(planBy(parts, 'nm-b', 'nm-b'));
    expect(cable.conductor).toEqual({ metal: 'copper', size: '4', ampacityA: 70 });
    const raceway = firstRun(planBy(parts, 'emt', 'emt'));
    expect(raceway.conductor).toEqual({ metal: 'copper', size: '6', ampacityA: 65 });
    expect(raceway.breaker.kind).toBe('standard'); // 60 A is past the 50 A of 210.8(F)
  });

  /**
   * 6 AWG and 10 AWG THWN-2 (Chapter 9 Table 5): 2 × 0.0507 + 0.0211 = 0.1225 in²; EMT 3/4 holds 0.213 at 40 %, 1/2 only
   * 0.122 (Table 4): half a thousandth too little.
   */
  it('takes the smallest raceway that holds the conductors', () => {
    const run = firstRun(planBy({ route: '35 joists', option: wired(48) }, 'emt'));
    expect(run.legs[0]?.conduit).toMatchObject({ type: 'emt', tradeSize: '3/4' });
    expect(run.legs[0]?.conduit?.fillPercent).toBeCloseTo((100 * 0.1225) / 0.533, 1);
  });

  it('caps the third conductor where 4/2 cable is not sold, and says so', () => {
    const plan = planBy({ route: '35 joists', option: wired(48) }, 'nm-b');
    expect(firstRun(plan).sections[0]?.cable).toEqual({ form: 'nm-b', conductors: 3 });
    expect(plan.findings.find(({ rule }) => rule === 'unused-conductor')?.message).toBe(
      'nm-b 4/2 is not sold: 4/3 is taken, its third conductor capped at both ends.',
    );
  });

  /** A terminal of 60 °C at either end: 6 AWG is 55 A there, 4 AWG 70 A (110.14(C)(1)). */
  it('takes the lower terminals of both ends', () => {
    const site = { start: { feederA: 100, freeSpaces: 4, terminalsC: 60 } };
    const run = firstRun(planBy({ site, route: '35 joists', option: wired(48) }, 'emt'));
    expect(run).toMatchObject({ from: 'existing subpanel', conductor: { size: '4', ampacityA: 70 } });
  });

  /** THWN-2 at 50 °C: 75 A × 0.82 = 61.5 A for 6 AWG, below the 65 A of the terminals (Table 310.15(B)(1)(1)). */
  it('counts the heat of an attic', () => {
    const run = firstRun(planBy({ route: '40 attic', option: wired(48) }, 'emt'));
    expect(run.conductor.ampacityA).toBeCloseTo(61.5, 9);
  });

  /**
   * 48 A over 304 ft, Table 8 stranded: 6 AWG 0.491 → 14.33 V, 5.97 %; 4 AWG 0.308 → 3.75 %; 3 AWG 0.245 → 7.15 V, 2.98 %.
   * Ground by 250.122(B): 10,380 cmil × 52,620 / 26,240 = 20,815 cmil: more than 8 AWG (16,510), so 6 AWG.
   */
  it('enlarges the conductor and its ground until the drop is kept, and drops the plans that cannot', () => {
    const plans = plansFor({ route: '20 joists, 278 lawn-trench', option: wired(48) });
    expect(plans.every(({ dropPercent }) => dropPercent <= 3)).toBe(true);
    const run = firstRun(planBy({ route: '20 joists, 278 lawn-trench', option: wired(48) }, 'emt', 'pvc'));
    expect(run.conductor.size).toBe('3');
    expect(run.groundSize).toBe('6');
    expect(run.dropPercent).toBeCloseTo((100 * 2 * 48 * 0.245 * 0.304) / 240, 4);
  });

  it('plans the least drop with a caution where no size that is sold keeps the limit', () => {
    const plans = plansFor({ route: '2000 lawn-trench', option: { ...wired(48), maxDropPercent: 0.5 } });
    for (const plan of plans) {
      expect(firstRun(plan).conductor.size).toBe('250');
      expect(plan.findings.find(({ rule }) => rule === 'voltage-drop')?.severity).toBe('caution');
      expect(stopsOf(plan)).toEqual([]);
    }
  });

  it('stops where no conductor that is sold carries the load, and keeps a plan to look at', () => {
    const { description, option } = household({ option: wired(48) });
    const plans = planCandidates(description, option, { ...SHOP, bySpec: () => undefined });
    expect(plans.length).toBeGreaterThan(0);
    for (const plan of plans) {
      expect(plan.runs).toHaveLength(1);
      expect(stopsOf(plan)[0]?.message).toMatch(/sells none with a ground that suits/);
    }
  });

  it('stops where it is too hot for the cable that was asked for', () => {
    const route = [{ kind: 'attic', lengthFt: 20, ambientC: 80, method: 'uf-b' }]; // 60 °C insulation ends at 55 °C
    const plans = plansFor({ route, option: wired(80) });
    expect(plans.every((plan) => stopsOf(plan).some(({ rule }) => rule === 'conductor-too-small'))).toBe(true);
  });
});

describe('connections', () => {
  const run = (connection: string, amps: number) =>
    firstRun(
      planBy({ route: [{ kind: 'joists', lengthFt: 20, method: 'emt' }], option: wired(amps, { connection }) }, 'emt'),
    );

  /** NEMA WD 6: a 14-50 has a neutral, a 6-50 none. 40 A × 1.25 = 50 A; 32 A × 1.25 = 40 A, on which a 50 A receptacle may sit (Table 210.21(B)(3)). */
  it.each([
    ['receptacle-14-50', 40, { ocpdA: 50, neutral: true, neutralSize: '8', poles: 2 }],
    ['receptacle-14-50', 32, { ocpdA: 40, neutral: true, poles: 2 }],
    ['receptacle-6-50', 40, { ocpdA: 50, neutral: false, poles: 2 }],
    ['receptacle-5-20', 16, { ocpdA: 20, neutral: true, poles: 1 }],
    ['receptacle-5-15', 12, { ocpdA: 15, neutral: true, poles: 1 }],
  ])('gives %s at %i A what it needs, with ground-fault protection', (connection, amps, expected) => {
    expect(run(connection, amps)).toMatchObject({ ...expected, breaker: { kind: 'gfci' } });
  });

  /** 12 A over 24 ft of 14 AWG: 2 × 12 × 3.14 Ω/1000 ft (Table 8, stranded) × 26 ft = 1.9594 V of 120 V. */
  it('figures a 120 V circuit at 120 V', () => {
    expect(run('receptacle-5-15', 12).dropPercent).toBeCloseTo((100 * 2 * 12 * 3.14 * 0.026) / 120, 3);
  });

  it('stops 48 A on a 14-50, and still plans the 60 A circuit that it would take', () => {
    const [plan] = plansFor({ option: wired(48, { connection: 'receptacle-14-50' }) });
    expect(plan && firstRun(plan).ocpdA).toBe(60);
    const articles = plan && stopsOf(plan).map(({ citation }) => citation?.article);
    expect(articles).toContain('210.21(B)(1)');
  });

  it('lets chargers of one group share a circuit only under load management', () => {
    const chargers = [1, 2].map(() => ({ amps: 48, connection: 'hardwired', equipment: 'owned', group: 'pair' }));
    const [alone] = plansFor({ option: { chargers } });
    expect(alone && stopsOf(alone).map(({ citation }) => citation?.article)).toEqual(['625.40']);
    const [managed] = plansFor({ option: { chargers, loadManagement: { kind: 'shared-circuit', maxA: 48 } } });
    expect(managed && stopsOf(managed)).toEqual([]);
    expect(managed && firstRun(managed)).toMatchObject({ continuousA: 48, ocpdA: 60, chargers: [0, 1] });
  });

  /**
   * THWN-2 at 50 °C: 8 AWG 55 A × 0.82 = 45.1 A, behind which 50 A may stand as the next size up, but not where several
   * receptacles hang on the circuit (240.4(B)(1)): there 6 AWG, 61.5 A.
   */
  it('takes no device above the conductor where several receptacles share a circuit', () => {
    const route = [{ kind: 'attic', lengthFt: 20, method: 'emt' }];
    const charger = { amps: 40, connection: 'receptacle-14-50', equipment: 'owned', group: 'pair' };
    const loadManagement = { kind: 'shared-circuit', maxA: 40 };
    const size = (count: number) => {
      const chargers = Array.from({ length: count }, () => charger);
      return firstRun(planBy({ route, option: { chargers, loadManagement } }, 'emt')).conductor.size;
    };
    expect([size(1), size(2)]).toEqual(['8', '6']);
  });

  it('says where a shared circuit was asked for among chargers that share none', () => {
    const loadManagement = { kind: 'shared-circuit', maxA: 48 };
    const [plan] = plansFor({ option: { ...wired(48), loadManagement } });
    const said = plan?.findings.filter(({ rule, severity }) => rule === 'load-management' && severity === 'caution');
    expect(said).toHaveLength(1);
    expect(said?.[0]?.message).toContain('group');
  });

  /**
   * NEC 625.42(A) holds only what the system holds. Two chargers of 48 A, limit 48 A, beside a welder's 50 A: with a common
   * group 48 × 1.25 + 50 = 110 A on the feeder; without one 2 × 48 × 1.25 + 50 = 170 A, and 48 A held by a monitor again 110.
   */
  it.each([
    ['shared-circuit', 'pair', 110],
    ['shared-circuit', undefined, 170],
    ['service-monitor', undefined, 110],
  ])('holds the load of a feeder by %s with group %s', (kind, group, neededA) => {
    const [charger] = wired(48, group === undefined ? {} : { group }).chargers;
    const otherCircuits = [{ use: 'welder', amps: 50, poles: 2, build: true }];
    const subpanel = { ratingA: 200, spaces: 12, feederA: 200, otherCircuits };
    const loadManagement = { kind, maxA: 48 };
    const option = { feed: 'subpanel', chargers: [charger, charger], loadManagement, subpanel };
    const [plan] = plansFor({ option });
    expect(plan?.findings.find(({ rule }) => rule === 'feeder-load')?.numbers).toMatchObject({ neededA });
  });

  it('counts the nameplate where anybody can change the setting', () => {
    const open = planBy({ option: wired(32, { nameplateA: 48, setting: 'open' }) }, 'nm-b');
    expect(firstRun(open)).toMatchObject({ continuousA: 48, ocpdA: 60 });
    const restricted = planBy({ option: wired(32, { nameplateA: 48 }) }, 'nm-b');
    expect(firstRun(restricted)).toMatchObject({ continuousA: 32, ocpdA: 40 });
  });

  it('keeps aluminum from terminals that take copper only, and says so', () => {
    const plans = plansFor({ option: { ...wired(48), metal: 'aluminum' } });
    for (const plan of plans) {
      expect(firstRun(plan).conductor.metal).toBe('copper');
      expect(plan.findings.some(({ rule }) => rule === 'copper-only-terminals')).toBe(true);
    }
    const both = plansFor({ option: { ...wired(48, { terminals: 'copper-or-aluminum' }), metal: 'aluminum' } });
    for (const plan of both) expect(firstRun(plan).terminations.every(({ compound }) => compound)).toBe(true);
  });

  it('asks for a lock on the breaker of a charger above 60 A', () => {
    const run80 = firstRun(planBy({ option: wired(80) }, 'emt'));
    expect(run80).toMatchObject({ ocpdA: 100, disconnect: { kind: 'breaker-lock', at: 'main panel' } });
    expect(firstRun(planBy({ option: wired(48) }, 'emt')).disconnect).toBeUndefined();
  });
});

describe('the way of a circuit', () => {
  it('stops an override that the code forbids at its leg, and plans the rest with it', () => {
    const route = [
      { kind: 'joists', lengthFt: 20 },
      { kind: 'lawn-trench', lengthFt: 40, method: 'nm-b' },
    ];
    for (const plan of plansFor({ site: { building: 'outdoor' }, route })) {
      const [stop] = stopsOf(plan);
      expect(stop).toMatchObject({
        rule: 'method',
        leg: 1,
        citation: { code: 'NEC', edition: '2023', article: '300.5(B)' },
      });
      expect(stop?.message).toMatch(/Use UF-B or USE-2 at 24 in/);
      expect(firstRun(plan).legs[1]?.method).toBe('nm-b');
    }
  });

  it('names for every method that a leg does not take the rule that forbids it', () => {
    const [leg] = firstRun(planBy({ route: '20 lawn-trench' }, 'pvc')).legs;
    const forbidden = leg?.others.flatMap(({ method, forbiddenBy }) => (forbiddenBy ? [method] : []));
    expect(forbidden).toEqual(['nm-b', 'ser', 'emt']);
    expect(leg?.others).toHaveLength(6);
  });

  it('splices where the insulation changes, and nowhere else', () => {
    const run = firstRun(planBy({ route: '20 joists, 12 under-deck, 30 lawn-trench' }, 'nm-b', 'pvc', 'pvc'));
    expect(run.terminations.map(({ at }) => at)).toEqual(['main panel', 'splice 1', 'charger']);
    expect(run.legs[1]?.conduit).toEqual(run.legs[2]?.conduit);
  });

  it('stops at a raceway that is there and too full', () => {
    const there = { kind: 'existing-raceway', lengthFt: 30, type: 'pvc-40', tradeSize: '1/2', place: 'underground' };
    const free = planBy({ route: [there], option: wired(32) }, 'pvc');
    expect(stopsOf(free)).toEqual([]);
    expect(free.ditches).toEqual([]);
    // four more 8 AWG THWN-2: the raceway holds 2 + 4 of 0.0366 in² and a ground, more than 0.114 in² (Tables 4 and 5)
    const occupiedBy = [{ insulation: 'thwn-2', size: '8', count: 4 }];
    const [full] = plansFor({ route: [{ ...there, occupiedBy }], option: wired(32) });
    expect(full && stopsOf(full)).toMatchObject([{ rule: 'conduit-fill', leg: 0 }]);
  });

  /**
   * 64 A × 1.25 = 80 A takes 3 AWG at 60 °C (85 A), and only 2 AWG is sold as NM-B, with an 8 AWG ground. 250.122(B): 16,510
   * cmil × 66,360 / 52,620 = 20,821 cmil, more than 8 AWG. So the cable is out, however usual it is.
   */
  it('refuses a cable whose ground is too small for conductors larger than the load needs', () => {
    const [plan] = plansFor({ route: [{ kind: 'joists', lengthFt: 20, method: 'nm-b' }], option: wired(64) });
    expect(plan && stopsOf(plan)).toMatchObject([
      { rule: 'conductor-not-sold', numbers: { size: '3', wiring: 'nm-b' } },
    ]);
  });

  /**
   * NEC 250.122(B), Chapter 9 Table 8: 8 AWG (16,510 cmil) carries the 40 A, 6 AWG (26,240) keeps the drop: the ground of
   * 10 AWG (10,380) grows to 10,380 × 26,240 / 16,510 = 16,497 cmil, 8 AWG. Cable of 6 AWG has 10 AWG.
   */
  it('names the article that keeps cable out where conductors were enlarged, and only there', () => {
    const others = (maxDropPercent: number) => {
      const option = { ...wired(32), maxDropPercent };
      const run = firstRun(planBy({ route: '60 joists', option }, 'emt'));
      return { size: run.conductor.size, cable: run.legs[0]?.others.find(({ method }) => method === 'nm-b') };
    };
    expect(others(3)).toMatchObject({ size: '8', cable: { because: 'Lawful here as well.' } });
    expect(others(3).cable?.forbiddenBy).toBeUndefined();
    const enlarged = others(1);
    expect(enlarged).toMatchObject({ size: '6', cable: { forbiddenBy: { article: '250.122(B)' } } });
    expect(enlarged.cable?.because).toMatch(/ground must be 8 AWG at least, and the cable's own is 10 AWG/);
  });

  it('opens a finished ceiling for a raceway only where no cable may be fished through it, with a caution', () => {
    const route = '20 finished-ceiling';
    expect(plansFor({ route }).map((plan) => firstRun(plan).legs[0]?.method)).not.toContain('emt');
    const site = { code: { nonmetallicCable: false } };
    const plan = planBy({ site, route }, 'emt');
    expect(stopsOf(plan)).toEqual([]);
    expect(plan.findings.find(({ rule }) => rule === 'opened-finish')).toMatchObject({ severity: 'caution', leg: 0 });
  });

  it('offers UF-B from the panel on, which spares the splice, only where it goes out of doors', () => {
    const run = firstRun(planBy({ site: { building: 'outdoor' }, route: '8 joists, 30 lawn-trench' }, 'uf-b', 'uf-b'));
    expect(run.sections).toHaveLength(1);
    expect(plansFor({ route: '8 joists' }).map((plan) => firstRun(plan).legs[0]?.method)).not.toContain('uf-b');
  });

  /** 48 A × 1.25 = 60 A: as much as a feeder of 60 A carries, more than one of 50 A. */
  it.each([
    [60, 'caution'],
    [50, 'stop'],
    [null, 'caution'],
  ])('looks at what feeds the subpanel it starts at: %s A', (feederA, severity) => {
    const [plan] = plansFor({ site: { start: { feederA, freeSpaces: 4 } }, option: wired(48) });
    expect(plan?.findings.find(({ rule }) => rule === 'start-feeder')).toMatchObject({
      severity,
      numbers: { neededA: 60 },
    });
  });

  /** Ten conductors together: 50 % (Table 310.15(C)(1)). 8 AWG THWN-2: 55 A × 0.5 = 27.5 A, too little; 6 AWG: 37.5 A. */
  it('counts the company that conductors keep in a raceway that is there', () => {
    const occupiedBy = [{ insulation: 'thwn-2', size: '14', count: 8 }];
    const there = { kind: 'existing-raceway', lengthFt: 30, type: 'emt', tradeSize: '2', occupiedBy };
    expect(firstRun(planBy({ route: [there], option: wired(32) }, 'emt')).conductor).toMatchObject({
      size: '6',
      ampacityA: 37.5,
    });
  });

  /**
   * Three chargers of 40 A by three circuits in one 3/4 in EMT: six conductors that carry current, 80 % (Table
   * 310.15(C)(1)). 50 A devices. 8 AWG THWN-2: 55 A × 0.8 = 44 A, and the next standard rating is 45 A: too little; 6 AWG:
   * 75 A × 0.8 = 60 A. Six of 0.0507 in² and three grounds of 0.0211 in² (10 AWG, Table 5) are 0.3675 in² of 0.533 in²
   * (Table 4): 69 %, where 40 % are allowed. In 2 in EMT, 3.356 in², it is 11 %.
   */
  it('fills and derates a raceway that is there by all circuits that go through it', () => {
    const there = { kind: 'existing-raceway', lengthFt: 30, type: 'emt', tradeSize: '3/4' };
    const three = { chargers: [40, 40, 40].map((amps) => wired(amps).chargers[0]) };
    const [full] = plansFor({ route: [there], option: three });
    expect(full && stopsOf(full)).toMatchObject([
      { rule: 'conduit-fill', leg: 0, numbers: { fillPercent: expect.closeTo(68.95, 1), circuits: 3 } },
    ]);
    const roomy = planBy({ route: [{ ...there, tradeSize: '2' }], option: three }, 'emt');
    expect(stopsOf(roomy)).toEqual([]);
    expect(roomy.runs.map(({ conductor }) => conductor)).toEqual(
      [1, 2, 3].map(() => ({ metal: 'copper', size: '6', ampacityA: 60 })),
    );
    expect(roomy.runs[2]?.legs[0]?.conduit?.fillPercent).toBeCloseTo((100 * 0.3675) / 3.356, 1);
  });

  it('gives circuits that go together a new raceway each', () => {
    const runs = planBy(
      { route: '30 joists', option: { chargers: [40, 40].map((amps) => wired(amps).chargers[0]) } },
      'emt',
    ).runs;
    // 8 AWG THWN-2: 50 A at 75 °C, no company; 2 × 0.0366 + 0.0211 = 0.0943 in² of 0.304 in² in 1/2 in EMT (Tables 4, 5)
    for (const run of runs) {
      expect(run.conductor).toMatchObject({ size: '8', ampacityA: 50 });
      expect(run.legs[0]?.conduit?.fillPercent).toBeCloseTo((100 * 0.0943) / 0.304, 1);
    }
  });

  /**
   * 64 A × 1.25 = 80 A. Around 80 °C the 90 °C column of 2 AWG, the largest that NM-B is made in, allows 130 A × 0.41 = 53 A
   * (Tables 310.16, 310.15(B)(1)(1)): too little. Cool, 3 AWG would carry it: 85 A in the 60 °C column.
   */
  it('shows the size that would do cool where none carries the load, and calls nothing of it right', () => {
    const route = [{ kind: 'attic', lengthFt: 20, method: 'nm-b', ambientC: 80 }];
    const [plan] = plansFor({ route, option: wired(64) });
    if (!plan) throw new Error('There is always a plan.');
    expect(stopsOf(plan)).toMatchObject([{ rule: 'conductor-too-small', run: 'charger' }]);
    expect(firstRun(plan).conductor.size).toBe('3');
    const calledRight = plan.findings.filter(
      ({ severity, rule }) => severity === 'ok' && CONDUCTOR_RULES.includes(rule),
    );
    expect(calledRight).toEqual([]);
  });

  it('stops at a raceway that holds conductors beyond the tables, and names the field', () => {
    const occupiedBy = [{ insulation: 'thwn-2', size: '600', count: 1 }];
    const there = { kind: 'existing-raceway', lengthFt: 30, type: 'emt', tradeSize: '3', occupiedBy };
    for (const amps of [16, 'largest']) {
      const option = { chargers: [{ ...wired(16).chargers[0], amps }] };
      const [plan] = plansFor({ route: [there], option });
      const stops = plan ? stopsOf(plan) : [];
      expect(stops).toContainEqual(expect.objectContaining({ message: expect.stringContaining('occupiedBy'), leg: 0 }));
    }
  });

  it('spans the air with cable on a messenger only', () => {
    for (const plan of plansFor({ site: { building: 'outdoor' }, route: '10 joists, 40 overhead-span' })) {
      expect(['uf-b', 'ser']).toContain(firstRun(plan).legs[1]?.method);
    }
  });

  it('plans raceways alone where only the rough-in is built now', () => {
    const methods = plansFor({ route: '20 joists, 30 lawn-trench', option: { ...wired(32), roughInOnly: true } }).map(
      (plan) => firstRun(plan).legs.map(({ method }) => method),
    );
    expect(methods).toEqual([['emt', 'pvc']]);
  });
});
