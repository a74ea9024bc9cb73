import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { methodAllowed } from '../../../server/electrical/wiring-methods.ts';
import { cheapestCandidate } from '../../../server/estimate/candidates.ts';
import type { Description } from '../../../server/estimate/description.ts';
import { openOption, planBy } from '../../../server/estimate/plan/plan.ts';
import { type Book, bookOf } from '../../../server/estimate/price-book.ts';
import { layingOf } from '../../../server/estimate/search/laying.ts';
import { modelOf } from '../../../server/estimate/search/option-model.ts';
import { searchOption } from '../../../server/estimate/search/search.ts';
import { seedPrices } from '../../../server/seed-prices.ts';
import { type RandomJob, randomJob, read } from '../random-jobs.ts';
import { cutTo, fullCents, leastByTrying } from './exhaustive.ts';
import { oddJob } from './odd-jobs.ts';

const ITEMS = seedPrices().map((item) => ({ ...item, revision: 1 }));
const BOOK = bookOf(ITEMS, 1);

function searched(description: Description, book: Book) {
  const [option] = description.options;
  if (!option) throw new Error('A random job has an option.');
  const opened = openOption(description, option, book);
  const { circuits } = opened;
  if (!circuits) throw new Error('A random job runs a circuit.');
  const closed = modelOf({ ...opened, circuits });
  const behind = searchOption(closed);
  const model = behind ? closed : modelOf({ ...opened, circuits }, { opensFinishes: true });
  const found = behind ?? searchOption(model);
  return { opened, model, found, option };
}

function chosenPlan(description: Description, book: Book = BOOK) {
  const [option] = description.options;
  if (!option) throw new Error('A random job has an option.');
  return cheapestCandidate({ description, option, book });
}

/** A random job of few legs, by one circuit of its own. */
const smallJob = randomJob.map(
  (job): RandomJob => ({
    ...job,
    route: job.route.slice(0, 3),
    options: [
      {
        id: 'a',
        label: 'A circuit',
        feed: 'dedicated-circuit',
        chargers: job.options.flatMap(({ chargers }) => chargers),
      },
    ],
  }),
);
const smallOddJob = oddJob.map((job) => ({
  ...job,
  route: job.route.slice(-3),
  options: job.options.map(({ subpanel: _subpanel, metal: _metal, ...option }: Record<string, unknown>) => ({
    ...option,
    feed: 'dedicated-circuit',
  })),
}));
/** Three ways of wiring, so that a leg has three methods at most. */
const threeWirings = fc.constantFrom(
  ['nm-b', 'uf-b', 'pvc'],
  ['nm-b', 'use-2', 'pvc'],
  ['nm-b', 'pvc', 'rmc'],
  ['uf-b', 'pvc', 'emt'],
  ['ser', 'use-2', 'rmc'],
  ['nm-b', 'emt', 'rmc'],
);

describe('the search for the least cost', () => {
  it('prices a plan without a word to the same cent as its lines do', () => {
    fc.assert(
      fc.property(fc.oneof(randomJob, oddJob), (job) => {
        const description = read(job);
        const { opened, model, found } = searched(description, BOOK);
        for (const { chosen, cost } of found?.priced.slice(0, 3) ?? []) {
          const layings = chosen.map((way, run) => ({ laying: layingOf(model, run, way), size: way.sized.size }));
          const plan = planBy(opened, layings);
          expect(fullCents(plan, BOOK)).toEqual({
            cents: cost.cents,
            costCents: cost.costCents,
            unpriced: cost.unpriced,
          });
        }
      }),
      { numRuns: 25 },
    );
  });

  it('never thinks that a plan weighs more than it does', () => {
    fc.assert(
      fc.property(fc.oneof(randomJob, oddJob), (job) => {
        const { found } = searched(read(job), BOOK);
        const tooHigh = found?.priced.filter(({ boundCents, cost }) => boundCents > cost.cents) ?? [];
        expect(tooHigh.map(({ boundCents, cost }) => boundCents - cost.cents)).toEqual([]);
      }),
      { numRuns: 60 },
    );
  });

  it('finds the same with a workshop that other jobs have filled', () => {
    fc.assert(
      fc.property(oddJob, (job) => {
        const description = read(job);
        const afresh = searched(description, bookOf(ITEMS, 1)).found;
        const again = searched(description, BOOK).found;
        expect(again?.priced.map(({ cost }) => cost)).toEqual(afresh?.priced.map(({ cost }) => cost));
        expect(again?.proof).toEqual(afresh?.proof);
      }),
      { numRuns: 20 },
    );
  });

  it('finds what trying every plan finds, and proves it, on small routes with three methods a leg', () => {
    const runs = Number(process.env.FEEDRUN_SMALL_ROUTES ?? 60);
    fc.assert(
      fc.property(fc.oneof(smallJob, smallOddJob), threeWirings, (job, wirings) => {
        const description = read(job);
        const book = cutTo(ITEMS, wirings);
        const least = leastByTrying(description, book);
        const { found } = searched(description, book);
        expect(found?.priced[0]?.cost.cents).toBe(least);
        const isWhole = found?.priced[0]?.cost.unpriced === 0;
        if (isWhole) expect(found?.proof).toEqual({ proven: true, gapCents: 0 });
      }),
      { numRuns: runs },
    );
  }, 600_000);

  it('never costs more for one more way of wiring in the shop, where both are proven', () => {
    fc.assert(
      fc.property(smallJob, threeWirings, fc.constantFrom('nm-b', 'uf-b', 'rmc', 'emt'), (job, wirings, more) => {
        const description = read(job);
        const fewer = searched(description, cutTo(ITEMS, wirings)).found;
        const wider = searched(description, cutTo(ITEMS, [...wirings, more])).found;
        const [before, after] = [fewer?.priced[0]?.cost, wider?.priced[0]?.cost];
        if (!before || !after || !fewer?.proof.proven || !wider?.proof.proven) return;
        const [option] = description.options;
        const keeps = (found: typeof fewer) =>
          found?.priced[0]?.chosen.every(({ sized }) => sized.dropPercent <= (option?.maxDropPercent ?? 0));
        // Where only the wider shop keeps the drop, that is what it is paid for.
        if (keeps(fewer) || !keeps(wider)) expect(after.cents).toBeLessThanOrEqual(before.cents);
      }),
      { numRuns: 25 },
    );
  });

  it('never plans a method that the code forbids at its place', () => {
    fc.assert(
      fc.property(randomJob, (job) => {
        const description = read(job);
        const { plan } = chosenPlan(description);
        for (const { leg, method } of plan.runs.flatMap(({ legs }) => legs)) {
          const placed = plan.route[leg];
          if (!placed) throw new Error('A run follows legs of its route.');
          const { place, ambientC } = placed;
          expect(methodAllowed({ method, place, ambientC, edition: '2023' }).allowed).toBe(true);
        }
      }),
      { numRuns: 25 },
    );
  });
});
