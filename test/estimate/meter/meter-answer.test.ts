import { describe, expect, it } from 'vitest';
import { InputError } from '../../../server/estimate/input-problems.ts';
import { meterAnswer } from '../../../server/estimate/meter/meter-answer.ts';
import { csvOf, espiOf, MAY, usTime } from './meter-files.ts';

const read = (text: string, more: { solar?: boolean; voltageV?: number } = {}) =>
  meterAnswer({ text, voltageV: 240, solar: false, edition: '2023', ...more });
const PLAIN = csvOf('Start time,Usage (kWh)', ({ start, kWh }) => `${start},${kWh}`);

/** Every problem of a file, as a person reads it. */
function problemsIn(text: string): string[] {
  try {
    read(text);
  } catch (error) {
    if (error instanceof InputError) return error.message.split('\n');
    throw error;
  }
  return [];
}

describe('a utility’s file', () => {
  it('gives peak and days, when the peak was, and what the description takes of it', () => {
    const { found, usable, load, because } = read(PLAIN);
    expect(found).toMatchObject({
      format: 'csv',
      startColumn: 'Start time',
      amountColumn: 'Usage (kWh)',
      readings: 2976,
      intervalMinutes: 15,
      first: '2026-05-01T00:00',
      last: '2026-05-31T23:45',
      days: 31,
      gaps: 0,
      peakKw: 12,
      peakA: 50,
      peakStart: '2026-05-10T18:15',
    });
    expect(usable).toBe(true);
    expect(load).toEqual({ method: 'measured', peakA: 50, days: 31 });
    expect(because).toEqual([
      'Read as CSV: the start of each interval from "Start time", kWh from "Usage (kWh)".',
      '2,976 readings, one every 15 minutes, from 2026-05-01 00:00 to 2026-05-31 23:45: 31 days, 0 gaps.',
      'The highest 15 minutes are those from 2026-05-10 18:15: 12 kW, 50 A at 240 V.',
    ]);
  });

  // By hand: 12 kW at 208 V are 57.6923 A; the description takes tenths, and never less than was measured.
  it('rounds the peak up', () => {
    expect(read(PLAIN, { voltageV: 208 }).load?.peakA).toBe(57.7);
  });

  /** The same readings, each time said in another way. */
  it.each([
    [
      'US dates with halves of the day',
      csvOf('Date/Time,kWh', ({ start, kWh }) => {
        const { day, clock } = usTime(start);
        return `${day} ${clock},${kWh}`;
      }),
    ],
    [
      'day and time apart, their end, a unit column and a price',
      [
        'Name,A. Nobody',
        'Address,"1 Example Way, Nowhere"',
        '',
        csvOf('TYPE,DATE,START TIME,END TIME,USAGE,UNITS,COST', ({ start, kWh }) => {
          const { day, clock } = usTime(start);
          return `Electric usage,${day},${clock},${clock},${kWh},kWh,$0.08`;
        }),
      ].join('\r\n'),
    ],
    ['watt-hours', csvOf('interval_start,energy_wh', ({ start, kWh }) => `${start}:00,${kWh * 1000}`)],
    [
      'average kilowatts',
      csvOf('Timestamp;Demand (kW)', ({ start, kWh }) => `${start};${String(kWh * 4).replace('.', ',')}`),
    ],
    [
      'a zone, and thousands with a comma',
      csvOf('Start,Consumption Wh', ({ start, kWh }) => `${start}:00-05:00,"${(kWh * 1000).toLocaleString('en-US')}"`),
    ],
    ['ESPI', espiOf()],
    ['ESPI in kilowatt-hours of tenths', espiOf({ power: '2', scale: 10 })],
    ['ESPI in watts', espiOf({ uom: '38', scale: 4000 })],
  ])('is read with %s', (how, text) => {
    const tenths = how.includes('tenths'); // 2.5 tenths are written as 3: 0.3 kWh, the peak stays
    const { found, load } = read(text);
    expect(found).toMatchObject({ readings: 2976, intervalMinutes: 15, days: 31, peakA: 50 });
    expect(load).toEqual({ method: 'measured', peakA: 50, days: 31 });
    expect(tenths || found.peakStart.includes(how.startsWith('ESPI') ? '2026-05-10T13:15' : '2026-05-10T18:15')).toBe(
      true,
    );
  });

  it('counts what was not read as a gap and never as zero', () => {
    const text = csvOf('Start,kWh', ({ start, kWh }, at) => `${start},${at === 40 || at === 41 ? '' : kWh}`);
    const { found, because, findings } = read(text);
    expect(found).toMatchObject({ readings: 2974, unread: 2, gaps: 1, days: 30 });
    expect(because[1]).toContain('30 days, 1 gap; 2 rows without a value are gaps, not zero.');
    expect(findings.some(({ severity, numbers }) => severity === 'caution' && numbers.gaps === 1)).toBe(true);
  });

  it('is not taken for the load where something is sent back, said or seen', () => {
    const back = csvOf(
      'Start,Imported kWh,Exported kWh',
      ({ start, kWh }, at) => `${start},${kWh},${at === 50 ? 0.4 : 0}`,
    );
    expect(read(back)).toMatchObject({ usable: false, load: null });
    expect(read(csvOf('Start,Imported kWh,Exported kWh', ({ start, kWh }) => `${start},${kWh},0`)).usable).toBe(true);
    expect(read(PLAIN, { solar: true }).load).toBeNull();
    expect(read(espiOf({ flow: '19' })).load).toBeNull();
  });

  it('is not taken for the load where it is too short, or its averages too long', () => {
    expect(
      read(
        PLAIN.split('\n')
          .slice(0, 1 + 20 * 96)
          .join('\n'),
      ).load,
    ).toBeNull();
    const hourly = MAY.filter((_, at) => at % 4 === 0).map(({ start }) => `${start},1`);
    const { usable, findings } = read(['Start,kWh', ...hourly].join('\n'));
    expect(usable).toBe(false);
    expect(findings.some(({ severity, message }) => severity === 'stop' && /hide peaks/.test(message))).toBe(true);
  });
});

describe('a file that cannot be read', () => {
  const rows = (...some: string[]) => ['Start time,Usage (kWh)', ...some].join('\n');
  const SOUND = ['2026-05-01 00:00,0.25', '2026-05-01 00:15,0.3'];

  it.each([
    [rows(...SOUND, '2026-05-01 00:30,n/a'), 'row 4, column Usage (kWh) must be a number, not "n/a"'],
    [
      rows(...SOUND, '31/5/2026 00:30,1'),
      'row 4, column Start time must be a time such as 2026-03-02 17:15 or 3/2/2026 5:15 PM, not "31/5/2026 00:30"',
    ],
    [
      rows(...SOUND, '2026-02-30 00:30,1'),
      'row 4, column Start time must be a time such as 2026-03-02 17:15 or 3/2/2026 5:15 PM, not "2026-02-30 00:30"',
    ],
    [
      ['Date,Time,Usage,Units', '5/1/2026,1:00 AM,2,kWh', '5/1/2026,1:15 AM,2,therms'].join('\n'),
      'row 3, column Units must be one of kWh, Wh, MWh, kW, W, not "therms"',
    ],
    [
      'Start,Usage\n2026-05-01 00:00,1',
      'file has no heading with the start of each interval (such as "Start time" or "Date" and "Time", in the form 2026-03-02 17:15 ' +
        'or 3/2/2026 5:15 PM) and with its amount and unit (such as "Usage (kWh)"); it has "Start", "Usage"',
    ],
    [
      rows(SOUND[0] ?? ''),
      'file holds fewer than two readings at different times: how long an interval is cannot be told',
    ],
    [
      rows('2026-04-01 00:00,700', '2026-05-01 00:00,800', '2026-05-31 00:00,600'),
      'file has a reading every 30 days: those are bills. Ask for interval data of 15 minutes',
    ],
    [
      rows(
        '2026-05-01 00:00,1',
        '2026-05-01 00:15,1',
        '2026-05-01 01:00,1',
        '2026-05-01 03:00,1',
        '2026-05-01 07:00,1',
        '2026-05-01 08:00,1',
      ),
      'file has no regular interval: only 1 of 6 readings follow after 15 minutes',
    ],
    [
      rows(...SOUND.map((row) => row.replace('0.', '90000.'))),
      'file has 90000.25 kWh at 2026-05-01T00:00: the unit cannot be what it says',
    ],
    [
      rows(...MAY.slice(0, 100).map(({ start }, at) => `${start},${8000 + at * 0.25}`)),
      'file counts up in "Usage (kWh)": that is the meter\'s register. Save what was used in each interval',
    ],
    ['', 'file has no heading with the start'],
    [espiOf({ uom: '169' }), 'ReadingType, uom must be 72 (Wh) or 38 (W), not "169"'],
    [espiOf().replace('<espi:value>250<', '<espi:value>much<'), 'reading 1, value must be a whole number, not "much"'],
    [
      espiOf().replace('<espi:duration>900<', '<espi:duration>60<'),
      'reading 1, duration must be 900 s as most are, not 60',
    ],
    ['<feed></feed>', 'file says nothing of what its readings count: it has no ReadingType'],
  ])('is refused with place and value: %#', (text, message) => {
    expect(problemsIn(text)[0]).toContain(message);
  });

  it('names many bad rows, and not without end', () => {
    const problems = problemsIn(rows(...SOUND, ...Array.from({ length: 500 }, () => 'x,y')));
    expect(problems).toHaveLength(20);
    expect(problems[19]).toContain('row 23,');
  });
});

describe('a file that would give a load too small', () => {
  it.each([
    ['Start time,On-peak kWh,Off-peak kWh', 'has several columns of what was used, "On-peak kWh", "Off-peak kWh"'],
    ['Start time,Car kWh,House kWh', 'has several columns of what was used, "Car kWh", "House kWh"'],
  ])('is refused where several columns would do: %s', (heading, message) => {
    expect(problemsIn(csvOf(heading, ({ start, kWh }) => `${start},0.1,${kWh}`)).join()).toContain(message);
  });

  it('takes the one that says it is the total', () => {
    const { found } = read(csvOf('Start time,Car kWh,Total kWh', ({ start, kWh }) => `${start},0.1,${kWh}`));
    expect(found).toMatchObject({ amountColumn: 'Total kWh', peakA: 50 });
  });

  it('is refused where what was sent back is taken off already', () => {
    expect(problemsIn(csvOf('Start time,Net kWh', ({ start, kWh }) => `${start},${kWh}`)).join()).toContain(
      'net amounts',
    );
  });

  it('keeps its interval where every second value is blank, so that a peak is not halved', () => {
    const { found } = read(
      csvOf('Start time,kWh', ({ start, kWh }, at) => `${start},${at % 2 === 1 || kWh > 1 ? kWh : ''}`),
    );
    expect(found).toMatchObject({ intervalMinutes: 15, peakA: 50 });
  });

  it('is refused where nothing at all was drawn', () => {
    expect(problemsIn(csvOf('Start time,kWh', ({ start }) => `${start},0`)).join()).toContain('nothing above 0');
  });
});

describe('a file of XML that is broken, or made to break something', () => {
  it.each([
    [
      'a start beyond all calendars',
      /<espi:start>\d+<\/espi:start><\/espi:timePeriod>/,
      '<espi:start>999999999999999</espi:start></espi:timePeriod>',
      'reading 1, start',
    ],
    ['a zone beyond all zones', '-18000', '999999999999999999', 'tzOffset'],
    ['a power of ten that no meter has', '>0</espi:powerOfTen', '>99</espi:powerOfTen', 'powerOfTenMultiplier'],
  ])('is refused by name: %s', (_, from, to, path) => {
    expect(problemsIn(espiOf().replace(from, to)).join()).toContain(path);
  });

  it('is read in one pass, however many elements are never closed', () => {
    const text = `<f>${'<ReadingType>'.repeat(200_000)}`;
    expect(problemsIn(text).join()).toContain('no ReadingType');
  });
});
