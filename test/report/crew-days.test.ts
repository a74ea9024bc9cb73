import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { crewDays, headsOf } from '../../server/report/crew-days.ts';
import { PANEL_90 } from './fixture.ts';

const [TEMPLATE] = PANEL_90.lines;
const task = (key: string, hours: number) => ({
  key,
  hours,
  quantity: 1,
  unit: 'each',
  hoursPerUnit: hours,
  factor: 1,
  legs: [],
  because: [],
});

function job(tasks: readonly { key: string; scope: string; hours: number }[], workingDays: number) {
  const lines = tasks.map(({ key, scope }) => ({ ...TEMPLATE, key, scope, class: 'labor', description: key }));
  const labor = { ...PANEL_90.labor, workingDays, tasks: tasks.map(({ key, hours }) => task(key, hours)) };
  return { labor, lines } as unknown as Parameters<typeof crewDays>[0];
}

describe('the days of a crew', () => {
  it('count the heads of a crew, or else its size', () => {
    const rate = 'rate-electrician';
    expect(
      headsOf({
        crew: [
          { rate, count: 2 },
          { rate, count: 1 },
        ],
        crewSize: 1,
      }),
    ).toBe(3);
    expect(headsOf({ crewSize: 2 })).toBe(2);
  });

  it('open the ground first and close it last, and go on with a long task the next day', () => {
    const tasks = [
      { key: 'backfill', scope: 'trench', hours: 2 },
      { key: 'pull', scope: 'wire', hours: 3 },
      { key: 'trencher-clay', scope: 'trench', hours: 9 },
      { key: 'cleanup', scope: 'other', hours: 1 },
      { key: 'inspection-meet', scope: 'permit', hours: 1 },
    ];
    const days = crewDays(job(tasks, 2), { crewSize: 1, hoursPerDay: 8 });
    // By hand: 8 h of the trench; then its last hour, 3 h of wire, 2 h of filling, 1 h of tidying, 1 h with the inspector.
    expect(days.map((day) => day.map(({ words, hours }) => [words, hours]))).toEqual([
      [['trencher-clay', 8]],
      [
        ['trencher-clay', 1],
        ['pull', 3],
        ['backfill', 2],
        ['cleanup', 1],
        ['inspection-meet', 1],
      ],
    ]);
    expect(days[1]?.map(({ goesOn }) => goesOn)).toEqual([true, false, false, false, false]);
  });

  it('share the way to the job among the days', () => {
    const tasks = [
      { key: 'drive', scope: 'travel', hours: 4 },
      { key: 'pull', scope: 'wire', hours: 12 },
    ];
    const days = crewDays(job(tasks, 2), { crewSize: 1, hoursPerDay: 8 });
    // 4 h of driving over 2 days leave 6 h of 8 a day.
    expect(days.map((day) => day.map(({ words, hours }) => [words, hours]))).toEqual([
      [
        ['drive, load and set up', 2],
        ['pull', 6],
      ],
      [
        ['drive, load and set up', 2],
        ['pull', 6],
      ],
    ]);
  });

  it('lose no hour, and make no day longer than half an hour over', () => {
    const scope = fc.constantFrom('trench', 'wire', 'panel', 'restoration', 'other');
    const hours = fc.integer({ min: 1, max: 4000 }).map((hundredths) => hundredths / 100);
    fc.assert(
      fc.property(
        fc.array(fc.record({ key: fc.uuid(), scope, hours }), { minLength: 1, maxLength: 30 }),
        fc.integer({ min: 1, max: 4 }),
        (tasks, crewSize) => {
          const days = crewDays(job(tasks, 1), { crewSize, hoursPerDay: 8 });
          const sums = days.map((day) => day.reduce((sum, one) => sum + one.hours, 0));
          const whole = tasks.reduce((sum, one) => sum + one.hours, 0);
          // Sums of binary fractions: a millionth of an hour is no work.
          expect(Math.abs(sums.reduce((sum, one) => sum + one, 0) - whole)).toBeLessThan(1e-6);
          for (const sum of sums) expect(sum).toBeLessThan(8 * crewSize + 0.5 + 1e-6);
        },
      ),
    );
  });
});
