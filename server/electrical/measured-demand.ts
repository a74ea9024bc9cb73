import type { Edition } from './citations.ts';
import { cite } from './citations.ts';
import { RefusedInputError } from './errors.ts';
import type { Finding } from './findings.ts';
import { LEAST_MEASURED_DAYS } from './service-load.ts';

/** One interval of a meter: when it began, as an ISO date and time, and what ran through it, in kilowatt-hours. */
export interface MeterReading {
  start: string;
  kWh: number;
}

/** The highest demand of a record, and whether 220.87 lets a load calculation stand on it. */
export interface MeasuredDemand {
  peakA: number;
  /** Whole days that the readings cover, gaps left out. */
  days: number;
  usable: boolean;
  findings: Finding[];
  record: MeasuredRecord;
}

/** What a record of readings is made of; times as they were written. */
export interface MeasuredRecord {
  first: string;
  last: string;
  /** Longest stretch without a gap, in whole days. */
  unbrokenDays: number;
  gaps: number;
  overlaps: number;
  /** When the highest average began, and over how many minutes it is one. */
  peakStart: string;
  peakMinutes: number;
}

/** The demand that 220.87 speaks of is an average over so many minutes. */
const DEMAND_MINUTES = 15;
/**
 * A meter that averages longer than this says too little of a peak. Ours: the longest interval utilities commonly bill
 * on.
 */
const LONGEST_INTERVAL_MINUTES = 60;
const DAY_MINUTES = 24 * 60;
const YEAR_DAYS = 365;

interface Interval {
  start: string;
  startMinute: number;
  kWh: number;
  /** Is its time a clock's on the wall, that names no zone? */
  onWallClock: boolean;
}

/**
 * Reads a utility's interval readings as 220.87 does: the highest average over 15 minutes, of a year, or of 30 days
 * without a gap. Barred where solar or storage hides the load. A meter adds both legs, so the amperes are those of an
 * even split; the code means the more loaded leg.
 * @param readings         in any order
 * @param intervalMinutes  length of each
 * @param solar            does anything generate, or shave peaks, behind this meter?
 * @throws {RefusedInputError} for no readings, an interval that is none, or a time that cannot be read, with the path
 */
export function measuredDemand({
  readings,
  intervalMinutes,
  voltageV = 240,
  solar = false,
  edition = '2023',
}: {
  readings: readonly MeterReading[];
  intervalMinutes: number;
  voltageV?: number | undefined;
  solar?: boolean | undefined;
  edition?: Edition | undefined;
}): MeasuredDemand {
  if (!(intervalMinutes > 0)) {
    throw new RefusedInputError({ field: 'intervalMinutes', value: intervalMinutes, allowed: 'more than 0 minutes' });
  }
  const intervals = intervalsOf(readings);
  const record = recordOf(intervals, intervalMinutes);
  const peak = highestAverage(intervals, intervalMinutes);
  const peakA = (peak.kW * 1000) / voltageV;
  const generates = solar || intervals.some(({ kWh }) => kWh < 0);
  const findings = judge({ ...record, intervalMinutes, generates, peakA, edition });
  return {
    peakA,
    days: record.days,
    usable: findings.every(({ severity }) => severity !== 'stop'),
    findings,
    record: {
      first: intervals[0]?.start ?? '',
      last: intervals.at(-1)?.start ?? '',
      unbrokenDays: record.unbrokenDays,
      gaps: record.gaps,
      overlaps: record.overlaps,
      peakStart: peak.start,
      peakMinutes: peak.minutes,
    },
  };
}

function intervalsOf(readings: readonly MeterReading[]): Interval[] {
  if (readings.length === 0) {
    throw new RefusedInputError({ field: 'readings', value: [], allowed: 'at least one reading' });
  }
  return readings
    .map(({ start, kWh }, at) => {
      const time = timeOf(start);
      if (time) return { start: start.trim(), ...time, kWh };
      const allowed = 'a date and time such as 2026-03-02T17:15';
      throw new RefusedInputError({ field: `readings.${at}.start`, value: start, allowed });
    })
    .toSorted((a, b) => a.startMinute - b.startMinute);
}

const WRITTEN_TIME = /^(\d{4}-\d{2}-\d{2})[T ](\d{2}:\d{2}(?::\d{2}(?:\.\d+)?)?)(Z|[+-]\d{2}:\d{2})?$/;

/** Minutes since 1970 of a time as ISO 8601 writes it; nothing for another form. */
export function minuteOf(start: string): number | undefined {
  return timeOf(start)?.startMinute;
}

/**
 * Minutes of a time as ISO 8601 writes it. One without a zone is taken as it stands, so that the answer is the same on
 * every machine. Other forms, such as 03/04/2026, are not guessed at.
 */
function timeOf(start: string): { startMinute: number; onWallClock: boolean } | undefined {
  const [, day, time, zone] = WRITTEN_TIME.exec(start.trim()) ?? [];
  if (day === undefined || time === undefined) return undefined;
  const midnight = Date.parse(`${day}T00:00Z`);
  const startMinute = Date.parse(`${day}T${time}${zone ?? 'Z'}`) / 60_000;
  if (!Number.isFinite(midnight + startMinute)) return undefined;
  const isOnCalendar = new Date(midnight).toISOString().startsWith(day);
  return isOnCalendar ? { startMinute, onWallClock: zone === undefined } : undefined;
}

const MARCH = 2;
const NOVEMBER = 10;

/**
 * Is this a change of the clock, not of the record? On the wall, the hour from 2:00 is missing on a Sunday in March,
 * and that from 1:00 is there twice on one in November (United States).
 */
function isClockChange({ startMinute, onWallClock }: Interval, missingMinutes: number): boolean {
  const start = new Date(startMinute * 60_000);
  if (!onWallClock || start.getUTCDay() !== 0) return false;
  const skipped = start.getUTCMonth() === MARCH && start.getUTCHours() === 3 && Math.abs(missingMinutes - 60) < 0.5;
  const repeated = start.getUTCMonth() === NOVEMBER && start.getUTCHours() === 1 && missingMinutes < -0.5;
  return skipped || repeated;
}

interface MeterRecord {
  days: number;
  /** Longest stretch without a gap, in whole days. */
  unbrokenDays: number;
  gaps: number;
  overlaps: number;
}

/** How many days the record covers. Two readings of one time are an overlap, unless the clock went back. */
function recordOf(intervals: readonly Interval[], intervalMinutes: number): MeterRecord {
  let coveredMinutes = 0;
  let unbrokenMinutes = 0;
  let longestMinutes = 0;
  let gaps = 0;
  let overlaps = 0;
  let endMinute: number | undefined;
  for (const interval of intervals) {
    const { startMinute } = interval;
    const step = endMinute === undefined ? 0 : startMinute - endMinute;
    const missing = isClockChange(interval, step) ? 0 : step;
    if (missing > 0.5) gaps += 1;
    if (missing < -0.5) overlaps += 1;
    unbrokenMinutes = missing > 0.5 ? intervalMinutes : unbrokenMinutes + intervalMinutes + Math.min(0, missing);
    coveredMinutes += intervalMinutes + Math.min(0, missing);
    longestMinutes = Math.max(longestMinutes, unbrokenMinutes);
    endMinute = Math.max(endMinute ?? startMinute, startMinute + intervalMinutes);
  }
  return { days: wholeDays(coveredMinutes), unbrokenDays: wholeDays(longestMinutes), gaps, overlaps };
}

function wholeDays(minutes: number): number {
  return Math.floor(minutes / DAY_MINUTES + 1e-9);
}

/**
 * Highest average power over 15 minutes, in kilowatts, and when it began; over one interval where intervals are longer,
 * or do not divide 15.
 */
function highestAverage(intervals: readonly Interval[], intervalMinutes: number) {
  const perWindow = DEMAND_MINUTES / intervalMinutes;
  const count = Number.isInteger(perWindow) ? perWindow : 1;
  const minutes = count * intervalMinutes;
  let highest = { kW: 0, start: intervals[0]?.start ?? '', minutes };
  for (let at = count - 1; at < intervals.length; at += 1) {
    const window = intervals.slice(at - count + 1, at + 1);
    const kWh = window.reduce((sum, interval) => sum + interval.kWh, 0);
    const [first] = window;
    const last = window.at(-1);
    if (!first || !last || last.startMinute - first.startMinute > (count - 1) * intervalMinutes + 0.5) continue;
    const kW = kWh / (minutes / 60);
    if (kW > highest.kW) highest = { kW, start: first.start, minutes };
  }
  return highest;
}

interface Judged extends MeterRecord {
  intervalMinutes: number;
  generates: boolean;
  peakA: number;
  edition: Edition;
}

function judge(record: Judged): Finding[] {
  return [...generation(record), ...duration(record), ...resolution(record), ...breaks(record), ...legs(record)];
}

function generation({ generates, edition }: Judged): Finding[] {
  if (!generates) return [];
  const message = 'Solar, storage or peak shaving hides part of the load from the meter: list the loads instead.';
  return [finding(edition, 'stop', message, { generates })];
}

function duration({ days, unbrokenDays, edition }: Judged): Finding[] {
  const numbers = { days, unbrokenDays, leastDays: LEAST_MEASURED_DAYS, yearDays: YEAR_DAYS };
  if (days >= YEAR_DAYS) return [finding(edition, 'ok', `${days} days are measured: a year or more.`, numbers)];
  if (unbrokenDays < LEAST_MEASURED_DAYS) {
    const message = `${unbrokenDays} days without a gap are too few: a year is needed, or ${LEAST_MEASURED_DAYS} days without a gap.`;
    return [finding(edition, 'stop', message, numbers)];
  }
  const message = `${unbrokenDays} days without a gap, not a year: they must be occupied days, and the larger of heating and cooling, and whatever else has a season, is added where they do not show it.`;
  return [finding(edition, 'caution', message, numbers)];
}

function resolution({ intervalMinutes, days, edition }: Judged): Finding[] {
  const numbers = { intervalMinutes, demandMinutes: DEMAND_MINUTES };
  if (intervalMinutes <= DEMAND_MINUTES) return [];
  if (days >= YEAR_DAYS && intervalMinutes <= LONGEST_INTERVAL_MINUTES) {
    const message = `Averages over ${intervalMinutes} minutes hide shorter peaks: the authority decides whether a year of them will do.`;
    return [finding(edition, 'caution', message, numbers)];
  }
  const message = `Averages over ${intervalMinutes} minutes hide peaks: less than a year must be read every ${DEMAND_MINUTES} minutes or more often.`;
  return [finding(edition, 'stop', message, numbers)];
}

function breaks({ gaps, overlaps, edition }: Judged): Finding[] {
  if (gaps === 0 && overlaps === 0) return [];
  const message = `${gaps} gap(s) and ${overlaps} overlap(s) in the record: the highest demand may lie where nothing was read.`;
  return [finding(edition, 'caution', message, { gaps, overlaps })];
}

function legs({ peakA, edition }: Judged): Finding[] {
  const message = `The peak of ${peakA.toFixed(1)} A takes both legs to carry the same; the code means the more loaded one, which may carry more.`;
  return [finding(edition, 'note', message, { peakA })];
}

function finding(
  edition: Edition,
  severity: Finding['severity'],
  message: string,
  numbers: Finding['numbers'],
): Finding {
  return { rule: 'measured-demand', severity, message, citation: cite('measured-demand', edition), numbers };
}
