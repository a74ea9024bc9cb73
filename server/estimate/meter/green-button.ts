import { InputError, type InputProblem, shown } from '../input-problems.ts';
import { intervalOf, type MeterFile, MOST_READINGS, plausible, refusedFile } from './meter-file.ts';

/*
 * Interval data as the Energy Services Provider Interface writes it (ESPI, NAESB REQ.21; "Green Button"), an open
 * standard. Its codes of units and directions are from memory.
 */

const UNITS: Readonly<Record<string, { name: string; isPower: boolean }>> = {
  72: { name: 'Wh', isPower: false },
  38: { name: 'W', isPower: true },
};
const FORWARD = '1';
const MOST_PROBLEMS = 20;

/**
 * The inner text of each element of a name, the first few where so many are asked for; namespaces are taken off before. One
 * pass forward, whatever a file holds: it ends at the first that is not closed.
 */
function elements(xml: string, name: string, most = Number.POSITIVE_INFINITY): string[] {
  const opening = new RegExp(`<${name}(?:\\s[^<>]*)?>`, 'g');
  const closing = `</${name}>`;
  const found: string[] = [];
  for (let opened = opening.exec(xml); opened && found.length < most; opened = opening.exec(xml)) {
    const from = opened.index + opened[0].length;
    const to = xml.indexOf(closing, from);
    if (to < 0) break;
    found.push(xml.slice(from, to));
    opening.lastIndex = to + closing.length;
  }
  return found;
}

function textOf(xml: string, name: string): string | undefined {
  const [inner] = elements(xml, name, 1);
  return inner === undefined || inner.includes('<') ? undefined : inner.trim();
}

/** Seconds at the beginning of the year 2100: no reading is later. */
const LATEST_SECONDS = 4_102_444_800;
/** No zone is farther from Greenwich. */
const MOST_ZONE_SECONDS = 14 * 3600;
/** Beyond a thousand millions of watt-hours, or below as small a part, no meter counts. */
const MOST_POWER = 9;

/**
 * Reads the interval readings of an ESPI file of one kind of reading, in watt-hours or watts.
 * @throws {InputError} with the number of the reading, the element and its value
 */
export function readGreenButton(text: string): MeterFile {
  const xml = text.replace(/<(\/?)[\w.-]+:/g, '<$1');
  const { isPower, name, scale, isForward } = kindOf(xml);
  const problems: InputProblem[] = [];
  const zoneSeconds = zoneOf(textOf(xml, 'tzOffset') ?? '0');
  const values = elements(xml, 'IntervalReading').flatMap((reading, at) => {
    const read = (element: string) => wholeIn(reading, element, { at, problems });
    const [start, duration, value] = [read('start'), read('duration'), read('value')];
    if (start === undefined || duration === undefined || value === undefined) return [];
    if (start < 0 || start >= LATEST_SECONDS) {
      const message = `must be seconds from 1970 to 2100, not ${start}`;
      problems.push({ path: `reading ${at + 1}, start`, message });
      return [];
    }
    return [{ start: withZone(start, zoneSeconds), minutes: duration / 60, value }];
  });
  if (problems.length > 0) throw new InputError(problems.slice(0, MOST_PROBLEMS));
  if (values.length > MOST_READINGS)
    throw refusedFile(`holds ${values.length} readings; at most ${MOST_READINGS} are read`);
  if (values.length === 0) throw refusedFile('holds no IntervalReading');
  const intervalMinutes = intervalOf(values.map(({ start }) => start));
  const otherwise = values.findIndex(({ minutes }) => minutes !== intervalMinutes);
  if (otherwise >= 0) {
    const message = `must be ${intervalMinutes * 60} s as most are, not ${(values[otherwise]?.minutes ?? 0) * 60}`;
    throw new InputError([{ path: `reading ${otherwise + 1}, duration`, message }]);
  }
  const readings = values.map(({ start, minutes, value }) => {
    const inKilo = (value * scale) / 1000;
    return { start, kWh: isPower ? (inKilo * minutes) / 60 : inKilo };
  });
  return {
    format: 'green-button',
    readings: plausible(readings),
    intervalMinutes,
    unit: name,
    unread: 0,
    sendsBack: !isForward,
  };
}

function zoneOf(written: string): number {
  const seconds = Number(written);
  if (/^-?\d+$/.test(written) && Math.abs(seconds) <= MOST_ZONE_SECONDS) return seconds;
  const message = `must be seconds within 14 hours, such as -18000, not ${shown(written)}`;
  throw new InputError([{ path: 'tzOffset', message }]);
}

/** What the readings count: unit, power of ten, and the direction of flow. */
function kindOf(xml: string): { name: string; isPower: boolean; scale: number; isForward: boolean } {
  const kinds = elements(xml, 'ReadingType').map((type) => ({
    uom: textOf(type, 'uom'),
    power: textOf(type, 'powerOfTenMultiplier') ?? '0',
    flow: textOf(type, 'flowDirection') ?? FORWARD,
  }));
  const [kind, ...others] = [...new Map(kinds.map((one) => [JSON.stringify(one), one])).values()];
  if (!kind) throw refusedFile('says nothing of what its readings count: it has no ReadingType');
  if (others.length > 0) {
    const said = [kind, ...others].map(({ uom, flow }) => `unit ${uom}, direction ${flow}`).join('; ');
    throw refusedFile(`holds several kinds of reading (${said}): save the energy that was delivered alone`);
  }
  const unit = UNITS[kind.uom ?? ''];
  if (!unit)
    throw new InputError([{ path: 'ReadingType, uom', message: `must be 72 (Wh) or 38 (W), not ${shown(kind.uom)}` }]);
  if (!/^-?\d{1,2}$/.test(kind.power) || Math.abs(Number(kind.power)) > MOST_POWER) {
    const message = `must be a power of ten such as -3, not ${shown(kind.power)}`;
    throw new InputError([{ path: 'ReadingType, powerOfTenMultiplier', message }]);
  }
  return { ...unit, scale: 10 ** Number(kind.power), isForward: kind.flow === FORWARD };
}

function wholeIn(
  reading: string,
  element: string,
  { at, problems }: { at: number; problems: InputProblem[] },
): number | undefined {
  const written = textOf(reading, element);
  if (written !== undefined && /^-?\d{1,15}$/.test(written)) return Number(written);
  problems.push({ path: `reading ${at + 1}, ${element}`, message: `must be a whole number, not ${shown(written)}` });
  return undefined;
}

/** Seconds since 1970 as a time of the utility's standard zone. */
function withZone(seconds: number, zoneSeconds: number): string {
  const minutes = Math.round(zoneSeconds / 60);
  const written = new Date((seconds + minutes * 60) * 1000).toISOString().slice(0, 19);
  if (minutes === 0) return `${written}Z`;
  const two = (value: number) => String(value).padStart(2, '0');
  const size = Math.abs(minutes);
  return `${written}${minutes < 0 ? '-' : '+'}${two(Math.floor(size / 60))}:${two(size % 60)}`;
}
