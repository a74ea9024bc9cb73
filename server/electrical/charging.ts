import { reaches } from './overcurrent.ts';

/**
 * What the battery keeps of what the outlet gives, unless stated: the charger, the cable and the car warm up. Common
 * practice, no source.
 */
export const DEFAULT_EFFICIENCY = 0.9;
/** Miles that a car goes on one kilowatt-hour, unless stated. Common practice, no source. */
export const DEFAULT_MILES_PER_KWH = 3.5;

/** What charging at some amperes gives. Powers at the outlet; miles from what reaches the battery. */
export interface ChargingAnswer {
  kW: number;
  milesPerHour: number;
  /** Hours to put a day's miles back. */
  hoursForDailyMiles?: number;
  /** Are those hours within the hours that the car is parked? */
  coversDailyMiles?: boolean;
}

/**
 * Decides how fast a car charges: kW = A × V / 1000; miles an hour = kW × efficiency × miles a kWh.
 * @param amps         at the outlet, in amperes
 * @param voltageV     240, or 120 on an ordinary outlet
 * @param efficiency   share of what the outlet gives that the battery keeps, 0 to 1
 * @param milesPerDay  with it, how many hours they take; with `parkedHours` too, whether that is enough
 */
export function charging({
  amps,
  voltageV = 240,
  milesPerKwh = DEFAULT_MILES_PER_KWH,
  efficiency = DEFAULT_EFFICIENCY,
  milesPerDay,
  parkedHours,
}: {
  amps: number;
  voltageV?: number | undefined;
  milesPerKwh?: number | undefined;
  efficiency?: number | undefined;
  milesPerDay?: number | undefined;
  parkedHours?: number | undefined;
}): ChargingAnswer {
  const kW = (amps * voltageV) / 1000;
  const milesPerHour = kW * efficiency * milesPerKwh;
  if (milesPerDay === undefined) return { kW, milesPerHour };
  const hoursForDailyMiles = milesPerDay === 0 ? 0 : milesPerDay / milesPerHour;
  if (parkedHours === undefined) return { kW, milesPerHour, hoursForDailyMiles };
  return { kW, milesPerHour, hoursForDailyMiles, coversDailyMiles: reaches(parkedHours, hoursForDailyMiles) };
}
