import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cookingDemandVA } from '../../server/electrical/cooking-load.ts';
import { lightingDemandVA } from '../../server/electrical/load-standard.ts';
import { type ServiceLoadQuestion, serviceLoad } from '../../server/electrical/service-load.ts';

const NO_CLIMATE = { heating: { kind: 'none', va: 0 }, cooling: { va: 0 } } as const;
const HOUSE = {
  serviceA: 200,
  floorAreaFt2: 1500,
  appliances: [
    { name: 'range', va: 12_000, kind: 'range' },
    { name: 'water heater', va: 4_500 },
  ],
  ...NO_CLIMATE,
} as const;

describe('cooking appliances, Table 220.55', () => {
  // By hand. One of 12 kW: 8 kW. One of 15.6 kW: 3.6 above, 4 taken, 8 × 1.20. 16 and 18 kW: average 17, 5 above, 11 × 1.25.
  // One of 6 kW: column B, 80 %. 3 kW: column A, 80 %. 12 kW with 4 kW: column C of two, 11, or 8 + 80 % of 4 = 11.2: 11.
  it.each([
    [[12_000], 8_000],
    [[15_600], 9_600],
    [[16_000, 18_000], 13_750],
    [[6_000], 4_800],
    [[3_000], 2_400],
    [[12_000, 4_000], 11_000],
    [[1_500], 1_500],
    [[], 0],
  ])('counts %j VA as %d', (ratings, demandVA) => {
    expect(cookingDemandVA(ratings)).toBeCloseTo(demandVA, 6);
  });

  it('says what lies beyond the table', () => {
    expect(() => cookingDemandVA([28_000])).toThrow(
      'appliances 28000 is beyond NEC Table 220.55: must be at most 27000 VA for one cooking appliance',
    );
    expect(() => cookingDemandVA(Array<number>(11).fill(5_000))).toThrow(
      'appliances 11 is beyond NEC Table 220.55: must be at most 10 cooking appliances',
    );
  });
});

describe('the standard method', () => {
  // Table 220.45, by hand: 3,000 + 35 % of 117,000 + 25 % of 10,000.
  it('counts lighting in three steps', () => {
    expect(lightingDemandVA(2_000)).toBe(2_000);
    expect(lightingDemandVA(130_000)).toBe(3_000 + 40_950 + 2_500);
  });

  // By hand: 7,500 VA → 4,575 (2026: 2 VA/ft²)… for 2023: 9,000 VA → 5,100. Four appliances of 1,000 VA at 75 %: 3,000.
  // Cooling of 5,000 VA is the larger, and its motor the largest: + 1,250. 5,100 + 3,000 + 5,000 + 1,250.
  it('reduces four appliances, takes the larger of heat and cooling, and adds a quarter of the largest motor', () => {
    const appliances = ['a', 'b', 'c', 'd'].map((name) => ({ name, va: 1_000 }));
    const answer = serviceLoad({
      method: 'standard',
      serviceA: 100,
      floorAreaFt2: 1500,
      appliances,
      heating: { kind: 'central-electric', va: 4_000 },
      cooling: { va: 5_000 },
    });
    expect(answer.demandVA).toBe(14_350);
    expect(answer.steps.at(-1)).toEqual({ name: 'demand', va: 14_350 });
  });

  // 220.60: cooling that is not the larger is compared at 125 %: 4,000 × 1.25 = 5,000 above 4,500 of heat. 5,100 + 5,000.
  it('compares smaller cooling at 125 percent', () => {
    const answer = serviceLoad({
      method: 'standard',
      serviceA: 100,
      floorAreaFt2: 1500,
      heating: { kind: 'central-electric', va: 4_500 },
      cooling: { va: 4_000 },
    });
    expect(answer.demandVA).toBe(10_100);
  });
});

describe('the charger in the optional methods', () => {
  // By hand, 220.83(A): 4,500 + 3,000 + 1,500 + 16,500 = 25,500 VA; 8,000 + 40 % of 17,500 = 15,000. In full + 11,520 = 26,520;
  // in the tier + 40 % of 11,520 = 19,608.
  it('is given in both readings, and decided in full', () => {
    const answer = serviceLoad({ ...HOUSE, method: 'existing-dwelling', chargerVA: 11_520 });
    expect(answer.demandVA).toBe(26_520);
    expect(answer.otherReading).toMatchObject({ reading: 'in-tier', demandVA: 19_608, demandA: 81.7, fits: true });
    const other = serviceLoad({ ...HOUSE, method: 'existing-dwelling', chargerVA: 11_520, chargerReading: 'in-tier' });
    expect(other.demandVA).toBe(19_608);
    expect(other.otherReading?.demandVA).toBe(26_520);
  });

  // 120.82(D), not verified: at 100 % beside the tier, so 2026 has one reading.
  it('has one reading in 2026', () => {
    const asked = { ...HOUSE, method: 'new-dwelling', chargerVA: 11_520, edition: '2026' } as const;
    expect(serviceLoad(asked).otherReading).toBeUndefined();
    expect(serviceLoad({ ...asked, chargerReading: 'in-tier' }).demandVA).toBe(serviceLoad(asked).demandVA);
  });

  // 220.57: 3,840 VA count as 7,200 in 2023; 15,000 + 7,200.
  it('counts 7,200 VA at least in 2023', () => {
    expect(serviceLoad({ ...HOUSE, method: 'existing-dwelling', chargerVA: 3_840 }).demandVA).toBe(22_200);
    expect(serviceLoad({ ...HOUSE, method: 'existing-dwelling', chargerVA: 3_840, edition: '2020' }).demandVA).toBe(
      18_840,
    );
  });
});

describe('existing heating and cooling', () => {
  const climate = { heating: { kind: 'central-electric', va: 10_000 }, cooling: { va: 5_000 } } as const;

  // 220.83(A) drops neither: 25,500 + 15,000 = 40,500; 8,000 + 40 % of 32,500 = 21,000. A heat pump is one machine: 25,500 + 10,000.
  it('both count where none is added, but a heat pump once', () => {
    const existing = { ...HOUSE, ...climate, method: 'existing-dwelling' } as const;
    expect(serviceLoad(existing).demandVA).toBe(21_000);
    expect(serviceLoad(existing).notes).toHaveLength(1);
    const heatPump = { ...existing, heating: { kind: 'heat-pump', va: 10_000 } } as const;
    expect(serviceLoad(heatPump).demandVA).toBe(8_000 + 0.4 * 27_500);
  });

  // 220.83(B): 15,000 + the larger, 10,000, beside the tier.
  it('the larger counts in full where some is added', () => {
    const added = { ...HOUSE, ...climate, method: 'existing-dwelling', addingHeatOrCooling: true } as const;
    expect(serviceLoad(added).demandVA).toBe(25_000);
  });
});

describe('laws of the load', () => {
  const methods = fc.constantFrom('standard' as const, 'new-dwelling' as const, 'existing-dwelling' as const);
  const va = fc.integer({ min: 0, max: 20_000 });

  it('never falls when something is added', () => {
    fc.assert(
      fc.property(methods, va, va, va, (method, applianceVA, addedVA, chargerVA) => {
        const asked = (more: Partial<ServiceLoadQuestion>) =>
          serviceLoad({
            ...HOUSE,
            method,
            appliances: [...HOUSE.appliances, { name: 'x', va: applianceVA }],
            ...more,
          } as ServiceLoadQuestion);
        expect(asked({ addedVA }).demandVA).toBeGreaterThanOrEqual(asked({}).demandVA);
        expect(asked({ chargerVA }).demandVA).toBeGreaterThanOrEqual(asked({}).demandVA);
      }),
    );
  });

  it('fits exactly when some amperes or none are left', () => {
    fc.assert(
      fc.property(methods, va, fc.integer({ min: 60, max: 200 }), (method, chargerVA, serviceA) => {
        const { fits, spareA, demandA } = serviceLoad({ ...HOUSE, method, serviceA, chargerVA });
        expect(spareA).toBeCloseTo(serviceA - demandA, 9);
        expect(fits).toBe(spareA >= -1e-7);
      }),
    );
  });

  it('refuses a measurement of less than 30 days, and warns of less than a year', () => {
    const measured = { method: 'measured', peakA: 40, serviceA: 100 } as const;
    expect(() => serviceLoad({ ...measured, days: 29 })).toThrow(
      'days must be at least 30 days of measurement, not 29',
    );
    expect(serviceLoad({ ...measured, days: 30 }).notes).toHaveLength(1);
    expect(serviceLoad({ ...measured, days: 365 }).notes).toEqual([]);
  });
});
