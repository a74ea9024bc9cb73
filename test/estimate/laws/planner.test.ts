import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compareSizes } from '../../../server/electrical/sizes.ts';
import { methodAllowed } from '../../../server/electrical/wiring-methods.ts';
import type { EstimateOption } from '../../../server/estimate/answer.ts';
import { placeOf } from '../../../server/estimate/plan/place.ts';
import { LEG_KINDS, type LegKind } from '../../../server/estimate/vocabulary.ts';
import { household, optionOf, type Stated } from '../fields/priced.ts';

/*
 * Laws of whole answers, by the starting price book: what holds of every job, whatever its prices. All jobs are
 * invented. Costs are compared before markup, overhead, profit and tax.
 */

const SLOW_MS = 90_000;
/** A service that no option here asks too much of, so that it never decides. */
const AMPLE = { building: 'outdoor', service: { ratingA: 800, freeSpaces: 20 } };
const wired = (amps: number, more: Record<string, unknown> = {}) => ({
  amps,
  connection: 'hardwired',
  equipment: 'owned',
  distanceFt: 4,
  ...more,
});
const subpanel = { ratingA: 200, spaces: 12, feederA: 100, otherCircuits: [] };
const feed = fc.constantFrom({}, { feed: 'subpanel', subpanel });
const costOf = (stated: Stated) => optionOf(stated).totals.costCents;
const isSound = ({ buildable, complete }: EstimateOption) => buildable && complete;

describe('a harder surface', () => {
  type Harder = [softer: Record<string, unknown>, harder: Record<string, unknown>];
  /** From softer to harder to open and to close again; equal soil, equal cover. Common practice, no source. */
  const pairs: Harder[] = [
    [{ kind: 'lawn-trench' }, { kind: 'pavers-lift' }],
    [{ kind: 'gravel-trench' }, { kind: 'pavers-lift' }],
    [{ kind: 'lawn-trench' }, { kind: 'asphalt-cut' }],
    [{ kind: 'gravel-trench' }, { kind: 'asphalt-cut' }],
    [
      { kind: 'planting-bed', dig: 'hand' }, // no machine goes into a bed
      { kind: 'concrete-cut', dig: 'hand' },
    ],
    [{ kind: 'lawn-trench', restore: false }, { kind: 'lawn-trench' }],
    [
      { kind: 'concrete-cut', reinforcement: 'none' },
      { kind: 'concrete-cut', reinforcement: 'mesh' },
    ],
    [
      { kind: 'concrete-cut', reinforcement: 'mesh' },
      { kind: 'concrete-cut', reinforcement: 'rebar' },
    ],
    [
      { kind: 'concrete-cut', thicknessIn: 4 },
      { kind: 'concrete-cut', thicknessIn: 6 },
    ],
    [
      { kind: 'concrete-cut', finish: 'plain' },
      { kind: 'concrete-cut', finish: 'stamped' },
    ],
  ];
  const soil = fc.subarray(['loam', 'clay', 'rocky', 'roots', 'frozen', 'wet'], { minLength: 1 });
  const dig = fc.constantFrom('auto', 'hand');

  it(
    'never costs less per foot, at equal soil and cover',
    () => {
      const ditch = fc.record({
        soil,
        dig,
        lengthFt: fc.integer({ min: 3, max: 120 }),
        coverIn: fc.constantFrom(24, 30),
      });
      fc.assert(
        fc.property(fc.constantFrom(...pairs), ditch, feed, ([softer, harder], common, fed) => {
          const at = (surface: Record<string, unknown>) =>
            costOf({
              site: AMPLE,
              route: [{ ...common, ...surface }],
              option: { chargers: [wired(40)], ...fed },
            });
          expect(at(harder), JSON.stringify(harder)).toBeGreaterThanOrEqual(at(softer));
        }),
        { numRuns: 25 },
      );
    },
    SLOW_MS,
  );

  /**
   * Concrete takes longer to cut, to break and to pour again; its bags cost less than those of cold asphalt, so that with
   * low rates asphalt is the dearer of the two. Common practice, no source.
   */
  it(
    'takes longer where it is concrete than where it is asphalt',
    () => {
      const ditch = fc.record({ soil, lengthFt: fc.integer({ min: 3, max: 120 }) });
      fc.assert(
        fc.property(ditch, (common) => {
          const hours = (kind: string) => {
            const leg = { ...common, kind, dig: 'hand', coverIn: 24, method: 'pvc' };
            const { labor } = optionOf({ site: AMPLE, route: [leg], option: { chargers: [wired(40)] } });
            return labor.tasks
              .filter(({ key }) => /^(?:saw|break|repour|asphalt)/.test(key))
              .reduce((sum, { hours: spent }) => sum + spent, 0);
          };
          expect(hours('concrete-cut')).toBeGreaterThan(hours('asphalt-cut'));
        }),
        { numRuns: 20 },
      );
    },
    SLOW_MS,
  );
});

describe('a larger load', () => {
  it(
    'never gets a smaller breaker nor, with method and metal held, a smaller conductor',
    () => {
      const amps = fc.integer({ min: 6, max: 80 });
      const leg = fc.constantFrom(
        { kind: 'interior-surface', method: 'emt' },
        { kind: 'joists', method: 'nm-b' },
        { kind: 'under-deck', method: 'pvc' },
        { kind: 'lawn-trench', method: 'uf-b' },
        { kind: 'lawn-trench', method: 'pvc' },
        { kind: 'attic', method: 'emt' },
      );
      const metal = fc.constantFrom('copper', 'aluminum');
      const lengthFt = fc.integer({ min: 5, max: 250 });
      fc.assert(
        fc.property(amps, amps, leg, metal, lengthFt, (a, b, held, wanted, feet) => {
          const at = (setA: number) =>
            optionOf({
              site: AMPLE,
              route: [{ ...held, lengthFt: feet }],
              option: { metal: wanted, chargers: [wired(setA, { terminals: 'copper-or-aluminum' })] },
            });
          const [less, more] = [at(Math.min(a, b)), at(Math.max(a, b))];
          const [lessRun, moreRun] = [less.runs[0], more.runs[0]];
          if (!lessRun || !moreRun) throw new Error('A circuit has a run.');
          expect(moreRun.ocpdA).toBeGreaterThanOrEqual(lessRun.ocpdA);
          if (!isSound(less) || !isSound(more)) return;
          expect(compareSizes(moreRun.conductor.size, lessRun.conductor.size)).toBeGreaterThanOrEqual(0);
        }),
        { numRuns: 25 },
      );
    },
    SLOW_MS,
  );
});

describe('an illegal method', () => {
  const kind = fc.constantFrom(...LEG_KINDS.filter((one) => one !== 'existing-raceway'));
  const legs = fc.array(fc.record({ kind, lengthFt: fc.integer({ min: 3, max: 60 }) }), { minLength: 1, maxLength: 5 });

  it(
    'never appears, and what is said of the others is a rule or a price',
    () => {
      const house = fc.record({
        building: fc.constantFrom('attached', 'detached', 'outdoor'),
        edition: fc.constantFrom('2020', '2023', '2026'),
        nonmetallicCable: fc.boolean(),
      });
      fc.assert(
        fc.property(legs, house, feed, (route, { building, edition, nonmetallicCable }, fed) => {
          const code = { edition, nonmetallicCable };
          const stated: Stated = {
            site: { ...AMPLE, building, code },
            route,
            option: { chargers: [wired(32)], ...fed },
          };
          const option = optionOf(stated);
          const { route: placed, site } = household(stated);
          for (const run of option.runs) {
            for (const { leg, method, others } of run.legs) {
              const there = placed[leg];
              if (!there) throw new Error('A run follows legs of its route.');
              const place = placeOf(there);
              const ambientC = place === 'attic' ? 50 : 30;
              const { allowed } = methodAllowed({ method, place, ambientC, ...site.code });
              const isStopped = option.findings.some((one) => one.severity === 'stop' && one.leg === leg);
              expect(allowed || isStopped, `${method} on ${there.kind}`).toBe(true);
              expect(others.some((other) => other.method === method && other.forbiddenBy)).toBe(false);
            }
          }
        }),
        { numRuns: 25 },
      );
    },
    SLOW_MS,
  );
});

describe('taking a leg off the end', () => {
  const inside: LegKind[] = ['joists', 'crawlspace', 'finished-wall', 'interior-surface', 'attic'];
  const buried: LegKind[] = ['lawn-trench', 'gravel-trench', 'concrete-cut', 'asphalt-cut', 'pavers-lift'];
  const outside: LegKind[] = ['exterior-wall', 'under-deck'];
  const mounted = (kinds: LegKind[], outdoors: boolean) =>
    fc.record({
      outdoors: fc.constant(outdoors),
      legs: fc.array(fc.record({ kind: fc.constantFrom(...kinds), lengthFt: fc.integer({ min: 3, max: 80 }) }), {
        minLength: 2,
        maxLength: 4,
      }),
    });

  /** Mounting and entry are equal where all legs are inside, or all in the ground, or all along walls outdoors. */
  it(
    'never costs more, mounting and entry being equal',
    () => {
      const routes = fc.oneof(mounted(inside, false), mounted(buried, true), mounted(outside, true));
      fc.assert(
        fc.property(routes, feed, fc.constantFrom(32, 48), ({ legs, outdoors }, fed, amps) => {
          const option = { chargers: [wired(amps, { outdoors })], ...fed };
          const site = { ...AMPLE, building: outdoors ? 'outdoor' : 'attached' };
          const whole = optionOf({ site, route: legs, option });
          const shorter = optionOf({ site, route: legs.slice(0, -1), option });
          if (!isSound(whole) || !isSound(shorter)) return;
          expect(shorter.totals.costCents).toBeLessThanOrEqual(whole.totals.costCents);
        }),
        { numRuns: 25 },
      );
    },
    SLOW_MS,
  );
});
