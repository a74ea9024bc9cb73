import { describe, expect, it } from 'vitest';
import type { Task } from '../../server/estimate/answer.ts';
import { readDescription } from '../../server/estimate/description.ts';
import { estimate } from '../../server/estimate/estimate.ts';
import { bookOf } from '../../server/estimate/price-book.ts';
import { seedPrices } from '../../server/seed-prices.ts';

const book = bookOf(
  seedPrices().map((item) => ({ ...item, revision: 1 })),
  1,
);

/** The tasks of one circuit of 32 A along a route. */
function tasksAlong(route: string): readonly Task[] {
  const description = readDescription({
    title: 'Parking behind an invented house',
    site: { building: 'outdoor', service: { ratingA: 200, freeSpaces: 6 }, load: { method: 'unknown' } },
    route,
    options: [
      {
        id: 'a',
        label: 'One circuit',
        feed: 'dedicated-circuit',
        chargers: [{ amps: 32, connection: 'hardwired', equipment: 'owned' }],
      },
    ],
  });
  return estimate(description, book, { parts: 'core' }).options[0]?.labor.tasks ?? [];
}

function sumOf(tasks: readonly Task[], key: RegExp): { quantity: number; inPlace: number } {
  const here = tasks.filter((task) => key.test(task.key));
  return {
    quantity: here.reduce((sum, task) => sum + task.quantity, 0),
    inPlace: here.reduce((sum, { quantity, inPlace }) => sum + (inPlace ?? quantity), 0),
  };
}

describe('how much of a task lies there', () => {
  /** 40 + 6 + 10 ft in one ditch of at least 36 in, for which a task that is for 24 in counts half as much again. */
  it('is the length of a ditch, whatever its depth', () => {
    const tasks = tasksAlong('40 lawn-trench coverIn=36, 6 concrete-cut 8in coverIn=36, 10 lawn-trench coverIn=36');
    const dug = sumOf(tasks, /^(?:trencher-(?:loam|clay|rocky)|hand-dig|excavator)/);
    const filled = sumOf(tasks, /^backfill/);
    expect([dug.inPlace, filled.inPlace]).toEqual([56, 56]);
    expect(dug.quantity).toBeGreaterThanOrEqual(dug.inPlace * 1.4);
  });

  /** 6 ft × 12 in are 6 ft², and both edges 12 ft; the task of the thick slab is for 6 in, and 8 in count 8 / 6. */
  it('is the area and the cut of a slab, whatever its thickness', () => {
    const tasks = tasksAlong('40 lawn-trench, 6 concrete-cut 8in, 10 lawn-trench');
    expect(sumOf(tasks, /^break-haul-6$/)).toEqual({ quantity: 8, inPlace: 6 });
    expect(sumOf(tasks, /^saw-concrete-6$/)).toEqual({ quantity: 16, inPlace: 12 });
    expect(sumOf(tasks, /^repour-6$/)).toEqual({ quantity: 8, inPlace: 6 });
  });

  it('goes without saying where it is what the hours are for', () => {
    const tasks = tasksAlong('40 lawn-trench, 6 concrete-cut 4in, 10 lawn-trench');
    expect(
      tasks.filter(({ key, inPlace }) => /concrete-4|haul-4|repour-4|tape/.test(key) && inPlace !== undefined),
    ).toEqual([]);
  });
});
