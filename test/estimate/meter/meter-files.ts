/*
 * Files as utilities write them, made up here. A reading every quarter hour of 31 days, 0.25 kWh each but one of 3 kWh on
 * the tenth day at 18:15: 3 kWh in a quarter hour are 12 kW, 12,000 W / 240 V = 50 A.
 */

const QUARTERS = 31 * 96;
const PEAK_AT = 9 * 96 + 73; // 18:15 is the 73rd quarter hour of its day

/** What each quarter hour runs, and when it begins, of May 2026. */
export const MAY = Array.from({ length: QUARTERS }, (_, at) => ({
  start: new Date(Date.UTC(2026, 4, 1) + at * 900_000).toISOString().slice(0, 16),
  kWh: at === PEAK_AT ? 3 : 0.25,
}));

/** A file of CSV: its heading and a row for each reading. */
export function csvOf(heading: string, row: (reading: (typeof MAY)[number], at: number) => string): string {
  return [heading, ...MAY.map(row)].join('\n');
}

/** `2026-05-10T18:15` as `5/10/2026` and `6:15 PM`. */
export function usTime(start: string): { day: string; clock: string } {
  const [year, month, date] = start.slice(0, 10).split('-').map(Number);
  const [hour = 0, minute = 0] = start.slice(11).split(':').map(Number);
  const clock = `${hour % 12 === 0 ? 12 : hour % 12}:${String(minute).padStart(2, '0')} ${hour < 12 ? 'AM' : 'PM'}`;
  return { day: `${month}/${date}/${year}`, clock };
}

/** A file of the Energy Services Provider Interface, in watt-hours of a power of ten. */
export function espiOf({ uom = '72', power = '0', flow = '1', scale = 1000 } = {}): string {
  const readings = MAY.map(({ start, kWh }) => {
    const seconds = Date.parse(`${start}Z`) / 1000;
    return `<espi:IntervalReading><espi:timePeriod><espi:duration>900</espi:duration><espi:start>${seconds}</espi:start></espi:timePeriod><espi:value>${Math.round(kWh * scale)}</espi:value></espi:IntervalReading>`;
  });
  return `<?xml version="1.0"?><feed xmlns="http://www.w3.org/2005/Atom" xmlns:espi="http://naesb.org/espi"><entry><content>
<espi:LocalTimeParameters><espi:tzOffset>-18000</espi:tzOffset></espi:LocalTimeParameters></content></entry><entry><content>
<espi:ReadingType><espi:flowDirection>${flow}</espi:flowDirection><espi:powerOfTenMultiplier>${power}</espi:powerOfTenMultiplier><espi:uom>${uom}</espi:uom></espi:ReadingType>
</content></entry><entry><content><espi:IntervalBlock><espi:interval><espi:duration>2678400</espi:duration><espi:start>1777593600</espi:start></espi:interval>
${readings.join('\n')}</espi:IntervalBlock></content></entry></feed>`;
}
