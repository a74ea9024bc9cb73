import type { EstimateOption, Overnight } from './answer.ts';
import { isSound } from './changed-option.ts';
import type { Description } from './description.ts';
import { toFourDecimals, wholeDollars } from './money.ts';

/** Hours that a car stands at home in a night where nobody stated them. Common practice, no source. */
export const NIGHT_HOURS = 10;

/**
 * What a night at an option gives, and what the option costs for each mile of it: net total ÷ (miles an hour × hours).
 * Several cars charge together, for as long as the one that leaves first is parked. What a battery holds is not asked.
 * @returns  hours, miles, and whole cents a mile where the option can be built and is priced; nothing without a charger
 */
export function overnightOf(option: EstimateOption, { driving }: Description): Overnight | undefined {
  const { charging, totals } = option;
  if (!charging) return undefined;
  const cars = driving?.cars ?? [];
  const hours = cars.length > 0 ? Math.min(...cars.map(({ parkedHours }) => parkedHours)) : NIGHT_HOURS;
  const miles = toFourDecimals(charging.together.milesPerHour * hours);
  if (miles <= 0) return undefined;
  const parked = cars.length > 0 ? 'parked' : 'taken for a night, for nobody stated how long the car is parked';
  const night = `${Math.round(charging.together.milesPerHour)} miles an hour × ${hours} h ${parked}`;
  if (!isSound(option))
    return { hours, miles, because: `${night}; without a sound total there is no price of a mile.` };
  return {
    hours,
    miles,
    centsPerMile: Math.round(totals.netCents / miles),
    because: `${wholeDollars(totals.netCents)} net ÷ ${Math.round(miles).toLocaleString('en-US')} miles: ${night}.`,
  };
}
