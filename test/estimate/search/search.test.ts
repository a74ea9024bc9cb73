import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { methodAllowed } from '../../../server/electrical/wiring-methods.ts';
import { cheapestCandidate } from '../../../server/estimate/candidates.ts';
import type { Description } from '../../../server/estimate/description.ts';
import { planBy } from '../../../server/estimate/plan/plan.ts';
import { type Book, bookOf } from '../../../server/estimate/price-book.ts';
import { layingOf } from '../../../server/estimate/search/laying.ts';
import { randomJob, read } from '../random-jobs.ts';
import { fullCents } from './exhaustive.ts';
import { oddJob } from './odd-jobs.ts';
import { plainJob, searched } from './small-jobs.ts';
import { cutTo, ITEMS, threeWirings } from './small-shop.ts';

const BOOK = bookOf(ITEMS, 1);

function chosenPlan(description: Description, book: Book = BOOK) {
  const [option] = description.options;
  if (!option) throw new Error('A random job has an option.');
  return cheapestCandidate({ description, option, book });
}

describe('the search for the least cost', () => {
  it('prices a plan without a word to the same cent as its lines do', () => {
    fc.assert(
      fc.property(fc.oneof(randomJob, oddJob), (job) => {
        const description = read(job);
        const { opened, model, found } = searched(description, BOOK);
        const all = found?.priced ?? [];
        const changing = all.filter(({ chosen }) => chosen.some(({ sized }) => sized.begins));
        for (const { chosen, cost } of [...all.slice(0, 3), ...changing.slice(0, 2)]) {
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

  it('never costs more for one more way of wiring in the shop, where both are proven', () => {
    fc.assert(
      fc.property(plainJob(3), threeWirings, fc.constantFrom('nm-b', 'uf-b', 'rmc', 'emt'), (job, wirings, more) => {
        // In a house that stands a cable, once it is sold, keeps stiff raceway out of closed framing: not more, but less.
        const description = read({ ...job, site: { ...job.site, work: 'new-construction' } });
        const fewer = searched(description, cutTo(wirings)).found;
        const wider = searched(description, cutTo([...wirings, more])).found;
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
