import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Estimate, type EstimateOption } from '../../server/estimate/answer.ts';
import { estimate } from '../../server/estimate/estimate.ts';
import { stepsOf as stepsAround } from '../../server/estimate/steps.ts';
import { around, firstOf } from './around.ts';
import { household, optionOf, ruleOf, SEEDED, type Stated } from './fields/priced.ts';

/** An option of a household, with its steps. */
function whole(stated: Stated): EstimateOption {
  const { planned, tryChanged } = around(household(stated));
  const own = firstOf(planned);
  return { ...own.answer, steps: stepsAround(own, tryChanged) };
}

const wired = (amps: number | 'largest') => ({ amps, connection: 'hardwired', equipment: 'owned', distanceFt: 4 });
const circuit = (amps: number | 'largest', more: Record<string, unknown> = {}): Stated => ({
  option: { chargers: [{ ...wired(amps), ...more }] },
});
const panel = (feederA: number, more: Record<string, unknown> = {}): Stated => ({
  site: { service: { ratingA: 400, freeSpaces: 6 } },
  route: '20 joists, 40 lawn-trench',
  option: {
    feed: 'subpanel',
    metal: 'aluminum',
    chargers: [wired(32)],
    subpanel: { ratingA: 200, spaces: 12, feederA, otherCircuits: [] },
    ...more,
  },
});
const stepsOf = (option: EstimateOption, of: 'charging' | 'feeder') =>
  (option.steps ?? []).filter((step) => step.of === of);
const feederSize = ({ runs }: EstimateOption) => runs.find(({ role }) => role === 'feeder')?.conductor.size;
/** Long answers, planned a dozen times each. */
const SLOW_MS = 60_000;

describe('where a little more or less charging changes the price', () => {
  /**
   * 6 AWG NM-B is 55 A (Table 310.16, 60 °C; 334.80): 55 / 1.25 = 44 A behind 60 A. Behind 50 A it charges with 40 A.
   * Above 48 A = 60 / 1.25 the breaker is 70 A.
   */
  it('is 44 A on 6 AWG cable', () => {
    const at48 = stepsOf(whole(circuit(48)), 'charging');
    expect(at48.map(({ amps }) => amps)).toEqual([44, 49]);
    expect(at48[0]?.because).toMatch(/^44 A is the most on 6 AWG copper cable behind a breaker of 60 A; from 45 A on /);
    expect(at48[0]?.differenceCents).toBeLessThan(0);
    expect(stepsOf(whole(circuit(42)), 'charging').map(({ amps }) => amps)).toEqual([40, 45]);
  });

  /** Table 310.16 at 75 °C: 6 AWG copper carries 65 A, what 60 A take at the end; the beginnings are made up. */
  it('names what a run begins as where only that is another one', () => {
    const { planned } = around(household(circuit(48)));
    const own = firstOf(planned);
    const beginning = (size: '1' | '2') => {
      const conductor = { metal: 'aluminum', size, ampacityA: 90 } as const;
      const runs = own.answer.runs.map((run) => ({
        ...run,
        begins: { conductor, until: 'splice 1', legs: [0] },
        wire: run.wire.map((wire) => ({ ...wire, ...conductor })),
      }));
      return { ...own, answer: { ...own.answer, runs } };
    };
    const steps = stepsAround(beginning('1'), ({ chargers: [charger] }) =>
      beginning(Number(charger?.amps) <= 40 ? '2' : '1'),
    );
    const end = '6 AWG copper single conductors behind a breaker of 60 A';
    expect(steps.map(({ because }) => because)).toEqual([
      `40 A is the most on 2 AWG aluminum, then ${end}; from 41 A on it takes 1 AWG aluminum, then ${end}.`,
    ]);
  });

  /** NEC 210.21(B)(3), 625.42: a 50 A receptacle ends at 40 A, whatever the breaker. */
  it('has no step into what may not be built', () => {
    const steps = stepsOf(whole(circuit(40, { connection: 'receptacle-14-50' })), 'charging');
    expect(steps.every(({ amps }) => amps < 40)).toBe(true);
  });

  it('starts from what the largest setting came to', () => {
    // 200 − 1.25 × 120 = 50 A, / 1.25 = 40 A (220.87), where the AHJ counts the charger in full
    const site = { load: { method: 'measured', peakA: 120, days: 365 }, code: { chargerReading: 'full' } };
    const steps = stepsOf(whole({ ...circuit('largest'), site }), 'charging');
    expect(steps.every(({ amps }) => amps < 40)).toBe(true);
    expect(steps).toHaveLength(1);
  });

  it(
    'costs the difference of two estimates',
    () => {
      fc.assert(
        fc.property(fc.integer({ min: 8, max: 78 }), fc.integer({ min: 1, max: 3 }), (amps, chargers) => {
          const option = (setA: number) => ({
            site: { service: { ratingA: 800, freeSpaces: 20 } },
            option: { chargers: Array.from({ length: chargers }, () => wired(setA)) },
          });
          const own = whole(option(amps));
          for (const step of stepsOf(own, 'charging')) {
            const other = optionOf(option(step.amps));
            expect(other.buildable).toBe(true);
            expect(step.differenceCents).toBe(other.totals.totalCents - own.totals.totalCents);
          }
        }),
        { numRuns: 8 },
      );
    },
    SLOW_MS,
  );

  it(
    'is the nearest setting at which a breaker or conductor is another one',
    () => {
      const made = ({ runs }: EstimateOption) =>
        JSON.stringify(
          runs.map(({ ocpdA, wire }) => [
            ocpdA,
            wire.filter(({ use }) => use !== 'ground').map(({ metal, size, insulation }) => [metal, size, insulation]),
          ]),
        );
      fc.assert(
        fc.property(fc.integer({ min: 10, max: 70 }), fc.boolean(), (amps, isBuried) => {
          const at = (setA: number): Stated => ({
            ...circuit(setA),
            route: isBuried ? '15 joists, 70 lawn-trench' : '90 joists',
          });
          const own = whole(at(amps));
          for (const step of stepsOf(own, 'charging')) {
            const towards = step.amps < amps ? 1 : -1;
            expect(made(optionOf(at(step.amps)))).not.toBe(made(own));
            for (let setA = step.amps + towards; setA !== amps; setA += towards) {
              expect(made(optionOf(at(setA))), `${setA} A`).toBe(made(own));
            }
          }
        }),
        { numRuns: 6 },
      );
    },
    SLOW_MS,
  );
});

/** Aluminum at 75 °C, Table 310.16: 2 AWG 90 A, 1 AWG 100 A, 1/0 120 A; behind each no more than that (240.4(B)). */
describe('a feeder of 100 A to an outbuilding', () => {
  it('takes 1 AWG aluminum, and prices 90 A on 2 AWG beside it', () => {
    const at100 = whole(panel(100));
    expect(feederSize(at100)).toBe('1');
    const [below, above] = stepsOf(at100, 'feeder');
    expect(below).toMatchObject({ amps: 90 });
    expect(below?.because).toMatch(/^90 A is the last feeder on 2 AWG aluminum.*one of 100 A takes 1 AWG aluminum/);
    expect(above).toMatchObject({ amps: 110 });
    expect(above?.because).toMatch(/^100 A is the last feeder on 1 AWG aluminum.*one of 110 A takes 1\/0 AWG aluminum/);
    const at90 = optionOf(panel(90));
    expect(feederSize(at90)).toBe('2');
    expect(below?.differenceCents).toBe(at90.totals.totalCents - at100.totals.totalCents);
    expect(below?.differenceCents).toBeLessThan(0);
  });

  it('is told so in a finding too, where its rating decides and not the drop', () => {
    const [note] = ruleOf(optionOf(panel(100)), 'feeder-size');
    expect(note?.message).toBe(
      'A feeder of 100 A takes 1 AWG aluminum here: 2 AWG carries 90 A. One of 90 A would do with 2 AWG, and carry this load too.',
    );
    // 3 AWG is 75 A (Table 310.16), and 80 A the next standard rating above it (240.4(B))
    expect(ruleOf(optionOf(panel(90)), 'feeder-size')[0]?.message).toBe(
      'A feeder of 90 A takes 2 AWG aluminum here: 3 AWG carries 75 A. One of 80 A, the next standard rating above that, would do with 3 AWG, and carry this load too.',
    );
    const loaded = panel(100, { chargers: [wired(76)] }); // 1.25 × 76 = 95 A
    expect(ruleOf(optionOf(loaded), 'feeder-size')).toEqual([]);
    expect(stepsOf(whole(loaded), 'feeder').map(({ amps }) => amps)).toEqual([110]);
  });

  it('is no step above where the panel carries no more', () => {
    const small = panel(100, { subpanel: { ratingA: 100, spaces: 12, feederA: 100, otherCircuits: [] } });
    expect(stepsOf(whole(small), 'feeder').map(({ amps }) => amps)).toEqual([90]);
  });
});

describe('what is planned anew around an estimate', () => {
  it(
    'keeps the shape of the answer, and is left out of its core',
    () => {
      const description = household(panel(100));
      const answer = estimate(description, SEEDED);
      expect(Estimate.safeParse(answer).error).toBeUndefined();
      expect(answer.options[0]?.steps).toEqual(whole(panel(100)).steps);
      expect(answer.comparison.byAmps?.length).toBeGreaterThan(0);
      expect(answer.comparison.byDistance?.length).toBeGreaterThan(0);
      const core = estimate(description, SEEDED, { parts: 'core' });
      expect(core.options[0]?.steps).toBeUndefined();
      expect(core.comparison.byDistance).toBeUndefined();
      expect(core.comparison.byAmps).toBeUndefined();
    },
    SLOW_MS,
  );

  it('is nothing where a receptacle that is there does', () => {
    const option = {
      feed: 'existing-receptacle',
      chargers: [{ amps: 12, connection: 'receptacle-5-20', equipment: 'owned' }],
      receptacle: { circuitA: 20, sharedWith: [], gfci: true, grounded: true },
    };
    expect(whole({ option }).steps).toEqual([]);
  });

  it('refuses nothing that the option itself may cost: a discount above the price of fewer amperes', () => {
    const own = optionOf(circuit(48));
    const discounted = { ...circuit(48), rest: { terms: { discountCents: own.totals.totalCents - 1 } } };
    expect(stepsOf(whole(discounted), 'charging').every(({ amps }) => amps > 48)).toBe(true);
  });
});
