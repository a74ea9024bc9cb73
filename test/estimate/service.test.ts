import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { optionOf, ruleOf } from './fields/priced.ts';

const house = (peakA: number, more: Record<string, unknown> = {}) => ({
  service: { ratingA: 100, freeSpaces: 6 },
  load: { method: 'measured', peakA, days: 365 },
  ...more,
});
const charger = (amps: number) => ({ amps, connection: 'hardwired', equipment: 'owned', distanceFt: 4 });
const lower = ({ service }: ReturnType<typeof optionOf>) =>
  service.remedies.find(({ kind }) => kind === 'lower-amps')?.amps;

describe('the remedies of a full service', () => {
  /**
   * 220.87: 100 A − 1.25 × 48 A = 40 A, / 1.25 = 32 A. 100 − 1.25 × 52 = 35 A, / 1.25 = 28 A: by the edition of 2020 that
   * fits; by that of 2023 each setting below 30 A counts 1.25 × 30 A = 37.5 A (220.57), so that none does.
   */
  it('offer a lower setting only where it fits, which below 30 A it does not in 2023', () => {
    expect(lower(optionOf({ site: house(48), option: { chargers: [charger(48)] } }))).toBe(32);
    const full = optionOf({ site: house(52), option: { chargers: [charger(48)] } });
    expect(lower(full)).toBeUndefined();
    expect(ruleOf(full, 'service-capacity')[0]?.message).toMatch(/counts 30 A at least, whatever it is set to/);
    // 1.25 × 85 A = 106.25 A: the house alone is too much, and no setting of a charger has to do with it
    const alone = optionOf({ site: house(85), option: { chargers: [charger(48)] } });
    expect(ruleOf(alone, 'service-capacity')[0]?.message).not.toMatch(/counts 30 A/);
    const old = house(52, { code: { edition: '2020' } });
    expect(lower(optionOf({ site: old, option: { chargers: [charger(48)] } }))).toBe(28);
  });

  /** 100 − 1.25 × 20 = 75 A. Two of 48 A ask for 120 A; two of 30 A for 2 × 37.5 = 75 A. */
  it('turn down all chargers alike', () => {
    const two = optionOf({ site: house(20), option: { chargers: [charger(48), charger(48)] } });
    expect(lower(two)).toBe(30);
    expect(two.service.remedies[0]?.detail).toBe('With no charger set above 30 A they fit by every reading.');
  });

  it('name a setting that fits when it is asked for, and none where a higher one fits too', () => {
    const asked = fc.record({
      peakA: fc.integer({ min: 10, max: 75 }),
      amps: fc.integer({ min: 20, max: 80 }),
      edition: fc.constantFrom('2020', '2023', '2026'),
    });
    fc.assert(
      fc.property(asked, ({ peakA, amps, edition }) => {
        const site = house(peakA, { code: { edition } });
        const fitsAt = (setA: number) => optionOf({ site, option: { chargers: [charger(setA)] } }).service.fits;
        const offered = lower(optionOf({ site, option: { chargers: [charger(amps)] } }));
        if (offered === undefined) return;
        expect(fitsAt(offered)).toBe('yes');
        expect(fitsAt(offered + 1)).not.toBe('yes');
      }),
      { numRuns: 25 },
    );
  });
});

describe('what an option adds to the service', () => {
  /** The welder on a 50 A circuit counts 50 A beside the 48 A that the two chargers share: 1.25 × 2 × 48 A + 50 A without management. */
  it("counts a subpanel's other circuits beside managed chargers in full", () => {
    const subpanel = { ratingA: 125, spaces: 12, otherCircuits: [{ use: 'welder', amps: 50, poles: 2 }] };
    const chargers = [1, 2].map(() => ({ ...charger(48), group: 'drive' }));
    const added = (more: Record<string, unknown>) =>
      optionOf({ option: { feed: 'subpanel', subpanel, chargers, ...more } }).service.addedA;
    expect(added({ loadManagement: { kind: 'shared-circuit', maxA: 48 } })).toBe(1.25 * 48 + 50);
  });

  /**
   * 220.57 of 2023 counts each charger: two of 10 A that share a circuit set to 48 A ask for 2 × 30 A, of which the circuit
   * lets 48 A through: 1.25 × 48 = 60 A. One of them alone: 1.25 × 30 = 37.5 A.
   */
  it('never counts two small chargers on a shared circuit for less than one', () => {
    const small = { ...charger(10), group: 'drive' };
    const loadManagement = { kind: 'shared-circuit', maxA: 48 };
    expect(optionOf({ option: { chargers: [small, small], loadManagement } }).service.addedA).toBe(60);
    expect(optionOf({ option: { chargers: [charger(10)] } }).service.addedA).toBe(37.5);
  });

  /** 625.42(A): only chargers on a managed circuit are held. Two without a common group: 1.25 × (48 + 48) = 120 A. */
  it('holds back only chargers that share a circuit', () => {
    const chargers = [charger(48), charger(48)];
    const loadManagement = { kind: 'shared-circuit', maxA: 48 };
    expect(optionOf({ option: { chargers, loadManagement } }).service.addedA).toBe(120);
  });

  /** 40 A at 240 V through a 14-50: 1.25 × 40 A = 50 A. 12 A at 120 V: 1.25 × 6 A = 7.5 A at 240 V. */
  it('counts a receptacle that is there at its own voltage', () => {
    const added = (connection: string, amps: number, circuitA: number) =>
      optionOf({
        route: [],
        option: {
          feed: 'existing-receptacle',
          chargers: [{ amps, connection, equipment: 'owned' }],
          receptacle: { circuitA, sharedWith: [], gfci: true, grounded: true },
        },
      }).service.addedA;
    expect(added('receptacle-14-50', 40, 50)).toBe(50);
    expect(added('receptacle-5-15', 12, 15)).toBe(7.5);
  });
});
