import { describe, expect, it } from 'vitest';
import { runFindings } from '../../../server/estimate/takeoff/run-findings.ts';
import { optionOf, ruleOf } from '../fields/priced.ts';
import { described, laid, planOf, run, section } from './plans.ts';

const surface = (more: Record<string, unknown>) => [{ kind: 'interior-surface', lengthFt: 40, method: 'emt', ...more }];
const yard = { building: 'outdoor' };

/** No more than 360° between pull points: NEC 358.24(B), 352.24(B); 2020: 358.26. With the 90° turn to the outlet, 540° take one more, 990° two. */
describe('bends', () => {
  it.each([
    [180, 'ok', 0],
    [450, 'note', 1],
    [900, 'note', 2],
  ])('of %d° are judged %s, with %d pull points', (bendsDeg, severity, pullPoints) => {
    const option = optionOf({ route: surface({ bendsDeg }) });
    expect(ruleOf(option, 'bends-emt')).toMatchObject([
      { severity, leg: 0, citation: { article: '358.24(B)' }, numbers: { bendsDeg: bendsDeg + 90, pullPoints } },
    ]);
    const boxes = option.labor.tasks.find(({ key }) => key === 'pull-box')?.quantity ?? 0;
    expect(boxes).toBe(pullPoints);
  });

  it('cite the edition of 2020', () => {
    const option = optionOf({ site: { code: { edition: '2020' } }, route: surface({ bendsDeg: 90 }) });
    expect(ruleOf(option, 'bends-emt')[0]?.citation?.article).toBe('358.26');
  });

  it('in a raceway that is there are doubted, since nobody has said where its pull points are', () => {
    const there = { kind: 'existing-raceway', lengthFt: 30, type: 'emt', tradeSize: '1', bendsDeg: 450 };
    expect(ruleOf(optionOf({ route: [there] }), 'bends-emt')).toMatchObject([{ severity: 'caution', leg: 0 }]);
  });
});

/** NEC 352.44(A): 40 ft × 12 × 100 °F × 3.38e-5 = 1.62 in, a fitting; 5 ft: 0.20 in, less than 0.25, none. */
describe('PVC out of doors', () => {
  it.each([
    [40, 'note', 1],
    [5, 'ok', 0],
  ])('over %d ft is judged %s', (lengthFt, severity, fittings) => {
    const route = [{ kind: 'exterior-wall', lengthFt, method: 'pvc' }];
    const option = optionOf({ site: { building: 'attached', temperatureSwingF: 100 }, route });
    expect(ruleOf(option, 'pvc-expansion')).toMatchObject([{ severity, leg: 0, citation: { article: '352.44(A)' } }]);
    const bought = option.lines.filter(({ description }) => /expansion/.test(description));
    expect(bought.reduce((sum, { taken }) => sum + taken, 0)).toBe(fittings);
  });
});

/** NEC 344.10(B) and 358.10(B), as a trade association quotes them: steel in soil, protected as the condition asks. */
describe('steel in the ground', () => {
  it('is noted where rigid conduit is buried, at its leg, and nowhere else', () => {
    const route = [
      { kind: 'exterior-wall', lengthFt: 10, method: 'rmc' },
      { kind: 'lawn-trench', lengthFt: 30, method: 'rmc' },
    ];
    const option = optionOf({ site: yard, route });
    expect(ruleOf(option, 'rmc-soil')).toMatchObject([
      { severity: 'note', leg: 1, citation: { article: '344.10(B)' } },
    ]);
  });

  it('is doubted where the tubing there lies in it, and may not be laid anew', () => {
    const there = { kind: 'existing-raceway', lengthFt: 30, type: 'emt', tradeSize: '1', place: 'underground' };
    const found = optionOf({ site: yard, route: [there] });
    expect(ruleOf(found, 'emt-soil')).toMatchObject([
      { severity: 'caution', leg: 0, citation: { article: '358.10(B)' } },
    ]);
    const anew = optionOf({ site: yard, route: [{ kind: 'lawn-trench', lengthFt: 30, method: 'emt' }] });
    expect(ruleOf(anew, 'method')).toMatchObject([{ severity: 'stop', citation: { article: '358.10(B)' } }]);
  });

  it('is no matter where tubing lies indoors, or where the raceway is PVC', () => {
    const indoors = optionOf({ route: surface({}) });
    const pvc = optionOf({ site: yard, route: [{ kind: 'lawn-trench', lengthFt: 30, method: 'pvc' }] });
    for (const option of [indoors, pvc]) {
      expect([...ruleOf(option, 'emt-soil'), ...ruleOf(option, 'rmc-soil')]).toEqual([]);
    }
  });
});

/**
 * NEC 314.16(B): 8 AWG is 3 in³: 2 hots from each side, 4 × 3 = 12, grounds of 10 AWG once 2.5, clamps once 3: 17.5 in³.
 * From 4 AWG on 314.28(A): by the raceways.
 */
describe('the box of a joint', () => {
  it('has room for what is in it', () => {
    const option = optionOf({
      site: yard,
      route: [
        { kind: 'joists', lengthFt: 20, method: 'nm-b' },
        { kind: 'lawn-trench', lengthFt: 30, method: 'uf-b' },
      ],
    });
    expect(ruleOf(option, 'box-fill')).toMatchObject([{ severity: 'ok', numbers: { neededIn3: 17.5 } }]);
  });

  it('holds the grounds of what is joined there, not the larger one that the run has elsewhere', () => {
    const route = [
      { kind: 'joists', lengthFt: 20 },
      { kind: 'lawn-trench', lengthFt: 30 },
    ];
    const sections = [section({ insulation: 'nm-b', legs: [0] }), section({ insulation: 'uf-b', legs: [1] })];
    const legs = [laid(0, 'nm-b'), laid(1, 'uf-b')];
    const plan = planOf(described({ route }), { runs: [run({ sections, legs, groundSize: '4' })] });
    const filled = runFindings(plan).filter(({ rule }) => rule === 'box-fill');
    expect(filled).toMatchObject([{ severity: 'ok', numbers: { neededIn3: 17.5 } }]);
  });

  it('is as wide as its raceways ask from 4 AWG on', () => {
    const chargers = [{ amps: 48, connection: 'hardwired', equipment: 'owned' }];
    const route = [
      { kind: 'joists', lengthFt: 20, method: 'nm-b' },
      { kind: 'lawn-trench', lengthFt: 30, method: 'uf-b' },
    ];
    const option = optionOf({ site: yard, route, option: { chargers } });
    expect(option.runs[0]?.conductor.size).toBe('4');
    expect(ruleOf(option, 'pull-box')).toMatchObject([{ severity: 'ok', citation: { article: '314.28(A)' } }]);
    expect(ruleOf(option, 'box-fill')).toEqual([]);
  });
});

/**
 * NEC 215.2(B), 220.61, Table 250.122: behind 100 A the ground is 8 AWG copper or 6 AWG aluminum; 20 + 15 = 35 A of 120 V
 * circuits on one leg ask for no more.
 */
describe('the neutral of a feeder', () => {
  it('carries what its 120 V circuits do not balance', () => {
    const otherCircuits = [
      { use: 'receptacles', amps: 20, poles: 1, build: true },
      { use: 'lights', amps: 15, poles: 1, build: true },
    ];
    const subpanel = { ratingA: 125, spaces: 12, feederA: 100, otherCircuits };
    const [found, ...more] = ruleOf(
      optionOf({ option: { feed: 'subpanel', metal: 'copper', subpanel } }),
      'feeder-neutral',
    );
    expect(more).toEqual([]);
    expect(found).toMatchObject({ severity: 'ok', run: 'feeder', numbers: { unbalancedA: 35, leastSize: '8' } });
  });

  it.each([
    ['8', 'stop'],
    ['6', 'ok'],
  ] as const)('is judged by the metal of each part: %s AWG aluminum after 8 AWG copper is %s', (size, severity) => {
    const option = { feed: 'subpanel', chargers: [], subpanel: { ratingA: 125, spaces: 12 } };
    const route = [
      { kind: 'joists', lengthFt: 20 },
      { kind: 'joists', lengthFt: 20 },
    ];
    const sections = [
      section({ insulation: 'thwn-2', neutralSize: '8', legs: [0] }),
      section({ insulation: 'xhhw-2', metal: 'aluminum', size, neutralSize: size, legs: [1] }),
    ];
    const feeder = run({
      ...{ name: 'feeder', role: 'feeder', ocpdA: 100, neutral: true, neutralSize: size, chargers: [] },
      ...{ sections, legs: [laid(0, 'emt'), laid(1, 'emt')] },
    });
    const plan = planOf(described({ route, option }), { runs: [feeder] });
    expect(runFindings(plan).filter(({ rule }) => rule === 'feeder-neutral')).toMatchObject([
      { severity, run: 'feeder', ...(severity === 'stop' && { numbers: { neutralSize: '8', leastSize: '6' } }) },
    ]);
  });
});

/**
 * 32 A over 406 ft of copper, NEC Chapter 9 Table 8: 2 × 32 × 406 / 1000 × R is at most 7.2 V (3 % of 240 V) from R = 0.277 Ω
 * on: 3 AWG, 0.245 (4 AWG has 0.308). Terminals of 40 A commonly take 4 AWG (from memory).
 */
describe('conductors that outgrow their terminals', () => {
  const far = (lengthFt: number, maxDropPercent: number) =>
    optionOf({ route: [{ kind: 'joists', lengthFt, method: 'emt' }], option: { metal: 'copper', maxDropPercent } });

  it('are told of, with the marking that decides, where they were enlarged for the drop', () => {
    const option = far(402, 3);
    expect(option.runs[0]?.conductor.size).toBe('3');
    expect(ruleOf(option, 'terminal-markings')).toMatchObject([
      { severity: 'caution', citation: { article: '110.3(B)' }, numbers: { size: '3', largest: '4', ocpdA: 40 } },
    ]);
    expect(option.buildable).toBe(true);
  });

  it('are none where they fit, however much they were enlarged', () => {
    const option = far(250, 3);
    expect(ruleOf(option, 'enlarged-for-drop')).toHaveLength(1);
    expect(ruleOf(option, 'terminal-markings')).toEqual([]);
  });
});
