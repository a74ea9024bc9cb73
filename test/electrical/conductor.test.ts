import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { usableAmpacity } from '../../server/electrical/ampacity.ts';
import {
  type ConductorQuestion,
  conductorSuffices,
  smallestConductor,
  twoAmpacityTests,
} from '../../server/electrical/conductor.ts';
import { INSULATIONS, sizesOf } from '../../server/electrical/insulations.ts';
import { isStandardOcpd } from '../../server/electrical/overcurrent.ts';
import { compareSizes } from '../../server/electrical/sizes.ts';

const CHARGER: ConductorQuestion = {
  loadA: 48,
  continuous: true,
  metal: 'copper',
  insulation: 'thwn-2',
  terminalsC: 75,
  ambientC: 30,
  currentCarrying: 2,
  supplies: 'branch',
  edition: '2023',
};

describe('the smallest conductor', () => {
  // NEC 334.80 and 210.19(A)(1), worked beside: 6 AWG NM-B ends at 55 A, a 60 A breaker may protect it (240.4(B)), but a 48 A
  // charger needs 60 A at the terminals.
  it('does not let the next size up of a breaker carry a charger', () => {
    const nm = {
      metal: 'copper',
      size: '6',
      insulation: 'nm-b',
      terminalsC: 75,
      ambientC: 30,
      currentCarrying: 2,
    } as const;
    const tests = twoAmpacityTests({ loadA: 48, continuousA: 48, ampacity: usableAmpacity(nm) });
    expect(tests.atTerminals).toEqual({ neededA: 60, hasA: 55, passes: false });
    expect(tests.alongTheWay.passes).toBe(true);
    expect(smallestConductor({ ...CHARGER, insulation: 'nm-b' }).size).toBe('4');
  });

  // NEC 310.12: 83 % of 100 A is 83 A, so 4 AWG copper (85 A) does for a whole dwelling; a garage feeder needs 3 AWG (100 A).
  it('keeps the 83 percent to what carries an entire dwelling', () => {
    const feeder = { ...CHARGER, loadA: 80, continuous: false, ocpdA: 100 } as const;
    expect(smallestConductor({ ...feeder, supplies: 'entire-dwelling' }).size).toBe('4');
    expect(smallestConductor({ ...feeder, supplies: 'feeder' }).size).toBe('3');
  });

  // Worked beside: 20 A continuous and 25 A not: 25 + 25 = 50 A; 8 AWG copper is 50 A at 75 °C.
  it('counts 125 percent only of what lasts', () => {
    const mixed = smallestConductor({ ...CHARGER, loadA: 45, continuousA: 20 });
    expect(mixed).toMatchObject({ ocpdA: 50, size: '8' });
  });

  it('refuses a device that the load outgrows, and one that is no standard rating', () => {
    expect(() => smallestConductor({ ...CHARGER, ocpdA: 50 })).toThrow(
      'ocpdA must be at least 60 A for a load that asks for 60 A, not 50',
    );
    expect(() => smallestConductor({ ...CHARGER, ocpdA: 65 })).toThrow(
      /^ocpdA must be a standard rating: one of 10, 15, /,
    );
  });

  it('says when no size is large enough', () => {
    expect(() => smallestConductor({ ...CHARGER, loadA: 100, insulation: 'nm-b' })).toThrow(
      'loadA 100 is beyond NEC Table 310.16: must be a load that copper nm-b of 14 to 2 can carry behind 125 A',
    );
  });
});

describe('laws of the smallest conductor', () => {
  const question = fc.record({
    loadA: fc.integer({ min: 6, max: 80 }),
    continuous: fc.boolean(),
    metal: fc.constantFrom('copper', 'aluminum'),
    insulation: fc.constantFrom(...INSULATIONS.filter((one) => one !== 'nm-b' && one !== 'uf-b')),
    terminalsC: fc.constantFrom(60, 75),
    ambientC: fc.integer({ min: 10, max: 45 }),
    currentCarrying: fc.integer({ min: 2, max: 6 }),
  });

  it('is large enough, and the next smaller size is not', () => {
    fc.assert(
      fc.property(question, (given) => {
        const asked: ConductorQuestion = {
          ...given,
          terminalsC: given.terminalsC as 60 | 75,
          supplies: 'branch',
          edition: '2023',
        };
        const { size, ocpdA } = smallestConductor(asked);
        const sizes = sizesOf(asked.insulation, asked.metal);
        const smaller = sizes[sizes.indexOf(size) - 1];
        const continuousA = asked.continuous ? asked.loadA : 0;
        const at = (one: typeof size) => conductorSuffices({ ...asked, size: one, ocpdA, continuousA });
        expect(isStandardOcpd(ocpdA)).toBe(true);
        expect(at(size)).toBe(true);
        expect(smaller === undefined || !at(smaller)).toBe(true);
      }),
    );
  });

  it('never shrinks for a larger load or hotter surroundings', () => {
    fc.assert(
      fc.property(
        question,
        fc.integer({ min: 0, max: 20 }),
        fc.integer({ min: 0, max: 9 }),
        (given, moreA, hotterC) => {
          const asked: ConductorQuestion = {
            ...given,
            terminalsC: given.terminalsC as 60 | 75,
            supplies: 'branch',
            edition: '2023',
          };
          const before = smallestConductor(asked).size;
          expect(
            compareSizes(smallestConductor({ ...asked, loadA: asked.loadA + moreA }).size, before),
          ).toBeGreaterThanOrEqual(0);
          const hotter = smallestConductor({ ...asked, ambientC: asked.ambientC + hotterC });
          expect(compareSizes(hotter.size, before)).toBeGreaterThanOrEqual(0);
        },
      ),
    );
  });
});
