import { describe, expect, it } from 'vitest';
import { optionOf, ruleOf, SEEDED } from './fields/priced.ts';

const ROUTE = '30 joists, 40 lawn-trench clay, 9 concrete-cut 4in';
const crewOf = (...rates: string[]) =>
  optionOf({ route: ROUTE, rest: { terms: { crew: rates.map((rate) => ({ rate, count: 1 })) } } });
const likely = (key: string) => SEEDED.byKey(key)?.likely ?? Number.NaN;

/** The hourly prices of the lines of labor whose task is of a trade. */
function hourCents({ lines }: ReturnType<typeof optionOf>, trade: string | undefined) {
  const ofTrade = lines.filter((line) => line.class === 'labor' && SEEDED.byKey(line.key)?.trade === trade);
  return [...new Set(ofTrade.map(({ unitPriceCents }) => unitPriceCents))];
}

// The price of an hour is the rate of its task's trade where the crew names one, else the labor rate: as the terms define it.
describe('what the members of a crew are paid', () => {
  it('is the rate of the task of their trade, and the labor rate without them', () => {
    const alone = crewOf('rate-electrician');
    expect(hourCents(alone, 'labourer')).toEqual([likely('rate-electrician')]);
    const both = crewOf('rate-electrician', 'rate-labourer', 'rate-operator');
    expect(hourCents(both, 'electrician')).toEqual([likely('rate-electrician')]);
    expect(hourCents(both, 'labourer')).toEqual([likely('rate-labourer')]);
    expect(hourCents(both, 'operator')).toEqual([likely('rate-operator')]);
    expect(ruleOf(both, 'crew-rate-unused')).toEqual([]);
  });

  it('is told where no task is priced at their rate, and no mean of rates is taken', () => {
    const helped = crewOf('rate-electrician', 'rate-helper');
    expect(hourCents(helped, 'electrician')).toEqual([likely('rate-electrician')]);
    expect(ruleOf(helped, 'crew-rate-unused')).toMatchObject([
      {
        severity: 'note',
        numbers: { rate: 'rate-helper', count: 1 },
        message: expect.stringContaining('or at "rate-electrician"'),
      },
    ]);
    expect(ruleOf(crewOf('rate-electrician', 'rate-labourer'), 'crew-rate-unused')).toEqual([]);
    const terms = { laborRate: 'rate-helper', crew: [{ rate: 'rate-helper', count: 1 }] };
    expect(ruleOf(optionOf({ route: ROUTE, rest: { terms } }), 'crew-rate-unused')).toEqual([]);
  });

  // Hours are person-hours, workingDays hours / (heads × hoursPerDay), up: as the terms define them.
  it('is the same an hour for two without rates as for one, who are there for fewer days and drive twice as often', () => {
    const withHeads = (crewSize: number) => optionOf({ route: ROUTE, rest: { terms: { crewSize } } });
    const [one, two] = [withHeads(1), withHeads(2)];
    for (const trade of ['electrician', 'labourer', 'operator']) {
      expect(hourCents(two, trade)).toEqual([likely('rate-electrician')]);
    }
    expect(one.labor.workingDays).toBe(Math.ceil(one.labor.hours / 8));
    expect(two.labor.workingDays).toBe(Math.ceil(two.labor.hours / 16));
    const drives = ({ labor }: typeof one) => labor.tasks.find(({ key }) => key === 'drive')?.hours;
    // An hour a trip: each day once by every head, the final inspection by one.
    expect(drives(one)).toBe(one.labor.workingDays + 1);
    expect(drives(two)).toBe(2 * two.labor.workingDays + 1);
  });
});
