import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { standardRatingsA } from '../../../server/electrical/overcurrent.ts';
import { compareSizes } from '../../../server/electrical/sizes.ts';
import { methodAllowed } from '../../../server/electrical/wiring-methods.ts';
import { LEG_KINDS, type LegKind, WIRING_METHODS } from '../../../server/estimate/vocabulary.ts';
import { firstRun, plansFor, stopsOf, wired } from './shop.ts';

const kind = fc.constantFrom(...LEG_KINDS.filter((one) => one !== 'existing-raceway'));
const lengthFt = fc.integer({ min: 1, max: 150 });
const amps = fc.integer({ min: 6, max: 80 });
const edition = fc.constantFrom('2020', '2023', '2026');
const freeLeg = fc.record({ kind, lengthFt });
const anyLeg = fc.record({ kind, lengthFt, method: fc.constantFrom('auto', ...WIRING_METHODS) });
const building = fc.constantFrom('attached', 'detached', 'outdoor');
const subpanel = { ratingA: 200, spaces: 12, feederA: 150, otherCircuits: [] };
const feed = fc.constantFrom({ feed: 'dedicated-circuit' }, { feed: 'subpanel', subpanel });

describe('laws of the plan', () => {
  it('never gives a larger load a smaller breaker, nor, with method and metal held, a smaller conductor', () => {
    const methods = fc.constantFrom('nm-b', 'emt', 'ser', 'uf-b');
    fc.assert(
      fc.property(amps, amps, methods, lengthFt, (a, b, method, feet) => {
        const at = (setting: number) => {
          const route = [{ kind: 'interior-surface', lengthFt: feet, method }];
          const [plan] = plansFor({ route, option: wired(setting) });
          if (!plan) throw new Error('There is always a plan.');
          return { run: firstRun(plan), sold: stopsOf(plan).length === 0 };
        };
        const [less, more] = [at(Math.min(a, b)), at(Math.max(a, b))];
        expect(more.run.ocpdA).toBeGreaterThanOrEqual(less.run.ocpdA);
        if (!less.sold || !more.sold) return;
        expect(compareSizes(more.run.conductor.size, less.run.conductor.size)).toBeGreaterThanOrEqual(0);
      }),
      { numRuns: 200 },
    );
  });

  it('never plans an illegal method without a stop at its leg', () => {
    fc.assert(
      fc.property(
        fc.array(anyLeg, { minLength: 1, maxLength: 5 }),
        building,
        edition,
        feed,
        fc.boolean(),
        (...stated) => {
          const [route, where, code, fed, nonmetallicCable] = stated;
          const site = { building: where, code: { edition: code, nonmetallicCable } };
          for (const plan of plansFor({ site, route, option: { ...wired(32), ...fed } })) {
            for (const { leg, method } of firstRun(plan).legs) {
              const placed = plan.route[leg];
              if (!placed) throw new Error('A run follows legs of its route.');
              const { place, ambientC } = placed;
              const question = {
                method,
                place,
                ambientC,
                nonmetallicCable,
                edition: plan.description.site.code.edition,
              };
              const lawful = methodAllowed(question).allowed;
              const stopped = stopsOf(plan).some((stop) => stop.rule === 'method' && stop.leg === leg);
              expect(lawful || stopped).toBe(true);
            }
          }
        },
      ),
      { numRuns: 150 },
    );
  });

  it('finds a lawful plan for every route that is free to choose and spans no air', () => {
    const noSpan = fc.record({ kind: kind.filter((one: LegKind) => one !== 'overhead-span'), lengthFt });
    fc.assert(
      fc.property(
        fc.array(noSpan, { minLength: 1, maxLength: 6 }),
        building,
        amps,
        feed,
        (route, where, setting, fed) => {
          const [plan] = plansFor({
            site: { building: where, garage: { existing: [] } },
            route,
            option: { ...wired(setting), ...fed },
          });
          expect(plan && stopsOf(plan)).toEqual([]);
        },
      ),
      { numRuns: 150 },
    );
  });

  it('never lands aluminum on terminals that take copper only', () => {
    const metal = fc.constantFrom('auto', 'copper', 'aluminum');
    const terminals = fc.constantFrom('copper', 'copper-or-aluminum');
    const connection = fc.constantFrom('hardwired', 'receptacle-14-50');
    const routes = fc.array(freeLeg, { minLength: 1, maxLength: 4 });
    fc.assert(
      fc.property(routes, metal, terminals, connection, feed, (route, wanted, ends, plug, fed) => {
        for (const plan of plansFor({
          route,
          option: { ...wired(40, { terminals: ends, connection: plug }), metal: wanted, ...fed },
        })) {
          for (const run of plan.runs) {
            const copperOnly = run.chargers.length > 0 && (ends === 'copper' || plug !== 'hardwired');
            if (copperOnly) expect(run.terminations.every((end) => end.metal === 'copper')).toBe(true);
            for (const end of run.terminations) expect(end.compound).toBe(end.metal === 'aluminum');
          }
        }
      }),
      { numRuns: 100 },
    );
  });

  it('holds for every option what every estimate is judged by', () => {
    const charger = fc.record({
      amps: fc.oneof(amps, fc.constant('largest')),
      connection: fc.constantFrom(
        'hardwired',
        'receptacle-14-50',
        'receptacle-6-50',
        'receptacle-5-20',
        'receptacle-5-15',
      ),
      equipment: fc.constant('owned'),
      terminals: fc.constantFrom('copper', 'copper-or-aluminum'),
      group: fc.constantFrom('east', 'west'),
      distanceFt: fc.integer({ min: 0, max: 100 }),
    });
    const other = fc.record({
      use: fc.constantFrom('lights', 'receptacles', 'kiln'),
      amps: fc.integer({ min: 10, max: 60 }),
      poles: fc.constantFrom(1, 2),
      continuous: fc.boolean(),
      build: fc.boolean(),
    });
    const panel = fc.record({
      ratingA: fc.integer({ min: 30, max: 225 }),
      spaces: fc.integer({ min: 2, max: 40 }),
      feederA: fc.oneof(fc.constant(undefined), fc.integer({ min: 15, max: 225 })),
      otherCircuits: fc.array(other, { maxLength: 4 }),
    });
    const fed = fc.oneof(
      fc.record({
        feed: fc.constant('dedicated-circuit'),
        chargers: fc.array(charger, { minLength: 1, maxLength: 4 }),
      }),
      fc.record({ feed: fc.constant('subpanel'), chargers: fc.array(charger, { maxLength: 4 }), subpanel: panel }),
    );
    const raceway = fc.record({
      kind: fc.constant('existing-raceway'),
      lengthFt,
      type: fc.constantFrom('pvc-40', 'emt'),
      tradeSize: fc.constantFrom('1/2', '1', '2'),
      place: fc.constantFrom('indoor', 'outdoor', 'underground'),
    });
    const routes = fc.array(fc.oneof(freeLeg, anyLeg, raceway), { minLength: 1, maxLength: 4 });
    const standard = new Set(standardRatingsA('2023'));
    fc.assert(
      fc.property(routes, building, edition, fed, (route, where, code, option) => {
        const plans = plansFor({ site: { building: where, code: { edition: code } }, route, option });
        expect(plans.length).toBeGreaterThan(0);
        for (const plan of plans) {
          for (const run of plan.runs) {
            expect(run.breaker.ocpdA).toBe(run.ocpdA);
            expect(standard.has(run.ocpdA)).toBe(true);
            expect(run.ocpdA).toBeGreaterThanOrEqual(run.continuousA * 1.25 - 1e-9);
            if (stopsOf(plan).length === 0) expect(run.conductor.ampacityA).toBeGreaterThanOrEqual(run.loadA - 1e-9);
            for (const { conduit } of run.legs) expect(conduit?.fillPercent ?? 0).toBeLessThanOrEqual(53);
            expect(run.sections.flatMap(({ legs }) => legs)).toEqual(run.legs.map(({ leg }) => leg));
          }
          expect(new Set(plan.runs.map(({ name }) => name)).size).toBe(plan.runs.length);
        }
      }),
      { numRuns: 200 },
    );
  });

  it('offers few plans, all different, the same for the same question', () => {
    fc.assert(
      fc.property(fc.array(freeLeg, { minLength: 1, maxLength: 6 }), building, feed, (route, where, fed) => {
        const parts = {
          site: { building: where },
          route,
          option: { ...wired(48, { terminals: 'copper-or-aluminum' }), ...fed },
        };
        const plans = plansFor(parts);
        expect(plans.length).toBeGreaterThan(0);
        expect(plans.length).toBeLessThanOrEqual(24);
        const texts = plans.map(({ runs }) => JSON.stringify(runs));
        expect(new Set(texts).size).toBe(texts.length);
        expect(JSON.stringify(plansFor(parts))).toBe(JSON.stringify(plans));
      }),
      { numRuns: 60 },
    );
  });
});
