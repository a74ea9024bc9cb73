import { describe, expect, it } from 'vitest';
import { estimate } from '../../server/estimate/estimate.ts';
import { bookOf } from '../../server/estimate/price-book.ts';
import { household, SEEDED, type Stated } from './fields/priced.ts';

const rowOf = (stated: Stated, book = SEEDED) => {
  const { options, comparison } = estimate(household(stated), book, { parts: 'core' });
  const [option] = options;
  if (!option) throw new Error('A description has an option.');
  return { option, overnight: comparison.rows[0]?.overnight };
};
const charger = (amps: number) => ({ amps, connection: 'hardwired', equipment: 'owned', distanceFt: 4 });

describe('a mile of a night', () => {
  /** 32 A × 240 V = 7.68 kW; × 0.9 × 4 miles/kWh = 27.648 miles an hour; × 9 h = 248.832 miles. */
  it('is the net total over what a night gives for as long as the car is parked', () => {
    const driving = { cars: [{ milesPerDay: 40, milesPerKwh: 4, parkedHours: 9 }] };
    const incentives = [{ name: 'rebate', kind: 'fixed', cents: 20_000, of: ['material', 'labor'] }];
    const { option, overnight } = rowOf({
      option: { chargers: [charger(32)] },
      rest: { driving, terms: { incentives } },
    });
    expect(option.totals.netCents).toBe(option.totals.totalCents - 20_000);
    expect(overnight).toMatchObject({ hours: 9, miles: 248.832 });
    expect(overnight?.centsPerMile).toBe(Math.round((option.totals.totalCents - 20_000) / 248.832));
    expect(overnight?.because).toContain('÷ 249 miles: 28 miles an hour × 9 h parked.');
  });

  /** 7.68 kW × 0.9 × 3.5 = 24.192 miles an hour; ten hours are the default of the program. */
  it('takes ten hours where nobody stated how long a car is parked, and says so', () => {
    const { overnight } = rowOf({ option: { chargers: [charger(32)] } });
    expect(overnight).toMatchObject({ hours: 10, miles: 241.92 });
    expect(overnight?.because).toContain('nobody stated how long the car is parked');
  });

  it('ends with the car that leaves first', () => {
    const cars = [
      { milesPerDay: 30, parkedHours: 12 },
      { milesPerDay: 30, parkedHours: 7 },
    ];
    const { overnight } = rowOf({ option: { chargers: [charger(16), charger(16)] }, rest: { driving: { cars } } });
    expect(overnight?.hours).toBe(7);
  });

  it('has no price where a price is missing or it cannot be built, for a missing price is never zero', () => {
    const without = bookOf(
      SEEDED.items.filter(({ spec }) => spec?.is !== 'breaker'),
      1,
    );
    const missing = rowOf({ option: { chargers: [charger(32)] } }, without);
    expect(missing.option.complete).toBe(false);
    expect(missing.overnight?.miles).toBe(241.92);
    expect(missing.overnight).not.toHaveProperty('centsPerMile');
    const barred = rowOf({
      site: { service: { ratingA: 60, freeSpaces: 8 }, load: { method: 'measured', peakA: 55, days: 365 } },
      option: { chargers: [charger(48)] },
    });
    expect(barred.option.buildable).toBe(false);
    expect(barred.overnight).not.toHaveProperty('centsPerMile');
  });
});
