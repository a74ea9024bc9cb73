import { budgetOf } from '../../server/estimate/budget.ts';
import { estimateOption } from '../../server/estimate/option-estimate.ts';
import type { Book } from '../../server/estimate/price-book.ts';
import { uncertaintyOf } from '../../server/estimate/uncertainty.ts';
import { readDescription, seededBook, withAsOf } from './reading.ts';

export const SEEDED = seededBook();
type Stated = Record<string, unknown>;

/** An invented house of 1990 where everything is known, a 48 A charger in its garage. */
export const KNOWN_SITE: Stated = {
  building: 'attached',
  yearBuilt: 1990,
  hazards: [],
  service: { ratingA: 200, freeSpaces: 6 },
  load: { method: 'measured', peakA: 60, days: 365 },
};

/** A description with one option; what is not said is known. */
export function house({
  site = {},
  route = [{ kind: 'interior-surface', lengthFt: 30 }],
  option = {},
  ...rest
}: {
  site?: Stated;
  route?: Stated[] | string;
  option?: Stated;
} & Stated = {}) {
  return withAsOf(
    readDescription({
      title: 'A house of the tests',
      site: { ...KNOWN_SITE, ...site },
      route,
      options: [
        {
          id: 'a',
          label: 'A',
          feed: 'dedicated-circuit',
          chargers: [{ amps: 48, connection: 'hardwired', equipment: 'owned' }],
          ...option,
        },
      ],
      ...rest,
    }),
    '2025-08-01',
  );
}

/** The first option of a house with all that is not known of it. */
export function uncertain(stated: Parameters<typeof house>[0] = {}, book: Book = SEEDED) {
  const description = house(stated);
  const [option] = description.options;
  if (!option) throw new Error('The house of the tests has an option.');
  const one = estimateOption({ description, option, book });
  const found = uncertaintyOf({ one, description, book });
  const budget = budgetOf({ option: one.answer, range: found.range, unknowns: found.unknowns, description });
  return { ...found, budget, answer: one.answer, plan: one.plan, description };
}
