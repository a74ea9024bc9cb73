/*
 * Times as meters' files write them: ISO 8601, or month/day/year as in the United States. Anything else is refused and
 * not guessed at.
 */

const ISO_DAY = /^(\d{4})[-/](\d{1,2})[-/](\d{1,2})$/;
const US_DAY = /^(\d{1,2})\/(\d{1,2})\/(\d{4}|\d{2})$/;
const CLOCK = /^(\d{1,2}):(\d{2})(?::(\d{2})(?:\.\d+)?)?(?:\s*([ap])\.?m\.?)?\s*(z|[+-]\d{2}:?\d{2})?$/i;
/** Two digits of a year mean this century: no meter that is read by intervals is older. */
const CENTURY = '20';

/** Two-digit numbers, as ISO 8601 writes them. */
const two = (digits: string) => digits.padStart(2, '0');

/** A day as YYYY-MM-DD, of `2026-03-02` or `3/2/2026`; nothing for a day that there is not. */
export function dayOf(written: string): string | undefined {
  const text = written.trim();
  const [, isoYear, isoMonth, isoDate] = ISO_DAY.exec(text) ?? [];
  const [, month = isoMonth, date = isoDate, year = isoYear] = US_DAY.exec(text) ?? [];
  if (year === undefined || month === undefined || date === undefined) return undefined;
  const day = `${year.length === 2 ? CENTURY : ''}${year}-${two(month)}-${two(date)}`;
  const midnight = Date.parse(`${day}T00:00Z`);
  return Number.isFinite(midnight) && new Date(midnight).toISOString().startsWith(day) ? day : undefined;
}

/** A time of day as HH:MM or HH:MM:SS, with its zone where it has one: `17:15`, `5:15 PM`, `17:15:00-05:00`. */
export function clockOf(written: string): string | undefined {
  const [, hourText, minute, second, half, zone] = CLOCK.exec(written.trim()) ?? [];
  if (hourText === undefined || minute === undefined) return undefined;
  const hour = hourOf(Number(hourText), half);
  if (hour === undefined || Number(minute) > 59 || Number(second ?? 0) > 59) return undefined;
  return `${two(String(hour))}:${minute}${second === undefined ? '' : `:${second}`}${zoneOf(zone)}`;
}

function hourOf(hour: number, half: string | undefined): number | undefined {
  if (half === undefined) return hour <= 23 ? hour : undefined;
  if (hour < 1 || hour > 12) return undefined;
  return (hour % 12) + (half.toLowerCase() === 'p' ? 12 : 0);
}

function zoneOf(zone: string | undefined): string {
  if (zone === undefined) return '';
  return zone.length === 5 ? `${zone.slice(0, 3)}:${zone.slice(3)}` : zone.toUpperCase();
}

/** A day and a time in one text: `2026-03-02T17:15`, `3/2/2026 5:15 PM`; nothing where either is missing. */
export function dayAndClockOf(written: string): string | undefined {
  const [, dayText, clockText] = /^(\S+?)(?:T|,?\s+)(\d.*)$/i.exec(written.trim()) ?? [];
  if (dayText === undefined || clockText === undefined) return undefined;
  return joined(dayOf(dayText), clockOf(clockText));
}

/** A day and a time of two cells. */
export function dayWithClockOf(day: string, clock: string): string | undefined {
  return joined(dayOf(day), clockOf(clock));
}

function joined(day: string | undefined, clock: string | undefined): string | undefined {
  return day === undefined || clock === undefined ? undefined : `${day}T${clock}`;
}
