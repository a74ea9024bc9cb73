import { type MeterReading, minuteOf } from '../../electrical/measured-demand.ts';
import { InputError } from '../input-problems.ts';

/** Readings of a utility's file, and what was found of how it says them. */
export interface MeterFile {
  format: 'csv' | 'green-button';
  readings: MeterReading[];
  intervalMinutes: number;
  /** As the file states them. */
  unit: string;
  startColumn?: string;
  amountColumn?: string;
  /** Rows that have a time and no value: nothing was read then, which is a gap and never zero. */
  unread: number;
  /** Does the file show that something is sent back to the utility? */
  sendsBack: boolean;
}

/** Readings that a file may hold: two years of minutes. Ours. */
export const MOST_READINGS = 1_100_000;
/** Readings farther apart are bills, not intervals. */
const MOST_MINUTES = 24 * 60;

/**
 * How long the intervals of readings are: the difference between their starts that is met most often.
 * @param starts  as ISO 8601 writes them, in any order
 * @throws {InputError} where there is none that most readings keep
 */
export function intervalOf(starts: readonly string[]): number {
  const minutes = starts.map((start) => minuteOf(start) ?? Number.NaN).sort((a, b) => a - b);
  const counts = new Map<number, number>();
  minutes.forEach((minute, at) => {
    const step = minute - (minutes[at - 1] ?? minute);
    if (step > 0) counts.set(step, (counts.get(step) ?? 0) + 1);
  });
  const [commonest] = [...counts].sort((a, b) => b[1] - a[1] || a[0] - b[0]);
  if (!commonest)
    throw refusedFile('holds fewer than two readings at different times: how long an interval is cannot be told');
  const [intervalMinutes, times] = commonest;
  if (intervalMinutes > MOST_MINUTES) {
    const days = Math.round((intervalMinutes / MOST_MINUTES) * 10) / 10;
    throw refusedFile(`has a reading every ${days} days: those are bills. Ask for interval data of 15 minutes`);
  }
  if (times * 2 < starts.length - 1) {
    throw refusedFile(
      `has no regular interval: only ${times} of ${starts.length} readings follow after ${intervalMinutes} minutes`,
    );
  }
  return intervalMinutes;
}

/** Far above what a house's meter runs in one interval; beyond it a unit was mistaken. */
const MOST_KWH = 10_000;

/**
 * The readings, where a house's meter may have them.
 * @throws {InputError} where one is too large for its unit, or none is above nothing
 */
export function plausible(readings: MeterReading[]): MeterReading[] {
  const tooLarge = readings.find(({ kWh }) => Math.abs(kWh) > MOST_KWH);
  if (tooLarge) throw refusedFile(`has ${tooLarge.kWh} kWh at ${tooLarge.start}: the unit cannot be what it says`);
  if (readings.length > 0 && readings.every(({ kWh }) => kWh <= 0))
    throw refusedFile('has nothing above 0: no house draws nothing. Save what was delivered to it');
  return readings;
}

/** A file that is refused as a whole. */
export function refusedFile(reason: string): InputError {
  return new InputError([{ path: 'file', message: reason }]);
}
