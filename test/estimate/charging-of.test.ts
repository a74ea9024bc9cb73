import { describe, expect, it } from 'vitest';
import { optionOf, type Stated } from './fields/priced.ts';

const largest = (more: Stated = {}) =>
  optionOf({
    ...more,
    option: {
      chargers: [{ amps: 'largest', connection: 'hardwired', equipment: 'owned', distanceFt: 4 }],
      ...more.option,
    },
  }).charging?.perCharger[0];

describe('what holds a charger back that is set to the largest', () => {
  /** 200 A − 1.25 × 120 A = 50 A, / 1.25 = 40 A (220.87): 40 A × 240 V = 9.6 kW. */
  it('is the service where that ends it', () => {
    const load = { method: 'measured', peakA: 120, days: 365 };
    expect(largest({ site: { load } })).toMatchObject({ kW: 9.6, limitedBy: 'service' });
  });

  it('is the car where that takes no more', () => {
    const driving = { cars: [{ milesPerDay: 30, parkedHours: 9, maxA: 32 }] };
    expect(largest({ rest: { driving } })).toMatchObject({ kW: 7.68, limitedBy: 'car' });
  });

  it('is the most that is planned where nothing else is known to', () => {
    const unknown = { service: { ratingA: null, freeSpaces: null }, load: { method: 'unknown' } };
    expect(largest({ site: unknown })).toMatchObject({ kW: 19.2, limitedBy: 'the most that is planned (80 A)' });
  });
});

/** 625.42(A): what shares a managed circuit, and a monitor all of it. 2 × 32 A × 240 V = 15.36 kW; 40 A × 240 V = 9.6 kW. */
describe('what chargers give together', () => {
  const together = (kind: string, group?: string) => {
    const charger = { amps: 32, connection: 'hardwired', equipment: 'owned', distanceFt: 4, ...(group && { group }) };
    const option = { chargers: [charger, charger], loadManagement: { kind, maxA: 40 } };
    return optionOf({ option }).charging?.together.kW;
  };

  it('is held by a shared circuit only where they share one, and by a monitor always', () => {
    expect(together('shared-circuit', 'drive')).toBe(9.6);
    expect(together('shared-circuit')).toBe(15.36);
    expect(together('service-monitor')).toBe(9.6);
  });

  /** One car alone on the shared circuit has all of its 40 A, and no more: 9.6 kW of the 11.52 kW that 48 A would be. */
  it('is as much for one that charges alone', () => {
    const charger = { amps: 48, connection: 'hardwired', equipment: 'owned', distanceFt: 4, group: 'drive' };
    const option = { chargers: [charger, charger], loadManagement: { kind: 'shared-circuit', maxA: 40 } };
    const alone = { kW: 9.6, limitedBy: 'load management' };
    expect(optionOf({ option }).charging?.perCharger).toMatchObject([alone, alone]);
  });
});

describe('what a rough-in gives', () => {
  it('is nothing, for no charger is there until it is finished', () => {
    const route = [{ kind: 'interior-surface', lengthFt: 20, method: 'emt' }];
    expect(optionOf({ route, option: { roughInOnly: true } }).charging).toBeUndefined();
    expect(optionOf({ route, option: {} }).charging?.perCharger).toHaveLength(1);
  });
});
