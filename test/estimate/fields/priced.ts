import type { EstimateOption, Finding } from '../../../server/estimate/answer.ts';
import { type Description, readDescription } from '../../../server/estimate/description.ts';
import { estimate } from '../../../server/estimate/estimate.ts';
import { bookOf } from '../../../server/estimate/price-book.ts';
import { seedPrices } from '../../../server/seed-prices.ts';

/** The starting price book, as a new data folder holds it. */
export const SEEDED = bookOf(
  seedPrices().map((item) => ({ ...item, revision: 1 })),
  1,
);

/** What a household says that is not usual. */
export interface Stated {
  site?: Record<string, unknown>;
  route?: unknown;
  option?: Record<string, unknown>;
  rest?: Record<string, unknown>;
}

/** A household of our own: 200 A, an attached garage behind 20 ft of joists, one wired charger of 32 A on its own circuit. */
export function household({ site = {}, route = '20 joists', option = {}, rest = {} }: Stated): Description {
  return readDescription({
    title: 'A household for tests',
    asOf: '2025-08-01',
    site: {
      building: 'attached',
      service: { ratingA: 200, freeSpaces: 6 },
      load: { method: 'measured', peakA: 60, days: 365 },
      ...site,
    },
    route,
    options: [
      {
        id: 'a',
        label: 'a',
        feed: 'dedicated-circuit',
        chargers: [{ amps: 32, connection: 'hardwired', equipment: 'owned', distanceFt: 4 }],
        ...option,
      },
    ],
    ...rest,
  });
}

/** What the starting price book makes of it. */
export function optionOf(stated: Stated): EstimateOption {
  const [option] = estimate(household(stated), SEEDED, { parts: 'core' }).options;
  if (!option) throw new Error('The household has one option.');
  return option;
}

/** The findings of a rule. */
export function ruleOf({ findings }: Pick<EstimateOption, 'findings'>, rule: string): Finding[] {
  return findings.filter((finding) => finding.rule === rule);
}

/** How much of an item was taken, over all its lines; undefined where there is no such line. */
export function takenOf({ lines }: Pick<EstimateOption, 'lines'>, key: string): number | undefined {
  const some = lines.filter((line) => line.key === key);
  return some.length === 0 ? undefined : Math.round(some.reduce((sum, { taken }) => sum + taken, 0) * 1e4) / 1e4;
}

/** Units of a task, and undefined where it is not asked for. */
export function unitsOf({ labor }: Pick<EstimateOption, 'labor'>, key: string): number | undefined {
  return labor.tasks.find((task) => task.key === key)?.quantity;
}
