import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { planBy } from '../../../server/estimate/plan/plan.ts';
import { layingOf } from '../../../server/estimate/search/laying.ts';
import { costOfChoice } from '../../../server/estimate/search/option-model.ts';
import type { Found } from '../../../server/estimate/search/search.ts';
import { randomJob, read } from '../random-jobs.ts';
import { fullCents, leastByLines, leastByNumbers, type Worth, waysOfRun } from './exhaustive.ts';
import { oddJob } from './odd-jobs.ts';
import { feederAndBranches, searched, smallJob, twoCircuits } from './small-jobs.ts';
import { cutTo, fewOfEach, threeWirings, twoWirings } from './small-shop.ts';

/** Is what the search found what trying every plan finds, and does it claim no less than it could know? */
function expectLeast(found: Found | undefined, best: Worth | undefined): void {
  const cost = found?.priced[0]?.cost;
  expect(cost && { unpriced: cost.unpriced, cents: cost.cents }).toEqual(best);
  if (best?.unpriced === 0) expect(found?.proof).toEqual({ proven: true, gapCents: 0 });
}

/** Routes of one run to try; the variable asks for more of them after a change of the search. */
const SMALL_ROUTES = Number(process.env.FEEDRUN_SMALL_ROUTES ?? 300);
/** Options of several runs to try. */
const SMALL_OPTIONS = Math.ceil(SMALL_ROUTES / 5);

describe('trying every plan', () => {
  it('costs the same by numbers as by the lines of the planned job, whatever is drawn, with a change and without', () => {
    const whichOf = fc.array(fc.nat(), { minLength: 12, maxLength: 12 });
    const cutShort = fc.oneof(randomJob, oddJob).map((job) => ({ ...job, route: job.route.slice(-3) }));
    fc.assert(
      fc.property(cutShort, threeWirings, fewOfEach(3), whichOf, (job, wirings, sizes, which) => {
        const book = cutTo(wirings, sizes);
        const { opened, model, opening } = searched(read(job), book);
        const lists = model.runs.map((_, run) => [...waysOfRun(model, run, opening)]);
        const changing = lists.map((ways) => ways.filter(({ sized }) => sized.begins));
        for (let draw = 0; draw < 3; draw += 1) {
          const chosen = lists.flatMap((all, run) => {
            const some = draw > 0 && changing[run]?.length ? changing[run] : all;
            return some[(which[(3 * run + draw) % which.length] ?? 0) % some.length] ?? [];
          });
          const cost = costOfChoice(model, chosen);
          if (!cost || chosen.length < lists.length) continue; // its ground is not sold, or a raceway is too full
          const layings = chosen.map((way, run) => ({ laying: layingOf(model, run, way), size: way.sized.size }));
          const { cents, costCents, unpriced } = cost;
          expect(fullCents(planBy(opened, layings), book)).toEqual({ cents, costCents, unpriced });
        }
      }),
      { numRuns: 60 },
    );
  }, 120_000);

  it('finds no plan below the one that the search found, each laid by the planner and priced by its lines', () => {
    fc.assert(
      fc.property(smallJob(2), threeWirings, fewOfEach(3), (job, wirings, sizes) => {
        const { opened, found, opening } = searched(read(job), cutTo(wirings, sizes));
        expectLeast(found, leastByLines(opened, opening));
      }),
      { numRuns: 40 },
    );
  }, 300_000);

  it('finds no plan below the one that the search found, on routes of up to five legs', () => {
    fc.assert(
      fc.property(smallJob(5), threeWirings, fewOfEach(4), (job, wirings, sizes) => {
        const { model, found, opening } = searched(read(job), cutTo(wirings, sizes));
        expectLeast(found, leastByNumbers(model, opening).best);
      }),
      { numRuns: SMALL_ROUTES },
    );
  }, 900_000);

  it('finds no plan below the one that the search found for a feeder and what hangs on its subpanel', () => {
    fc.assert(
      fc.property(feederAndBranches, twoWirings, fewOfEach(2), (job, wirings, sizes) => {
        const { model, found, opening } = searched(read(job), cutTo(wirings, sizes));
        expectLeast(found, leastByNumbers(model, opening).best);
      }),
      { numRuns: SMALL_OPTIONS },
    );
  }, 300_000);

  it('finds no plan below the one that the search found for two circuits that share ditches and purchases', () => {
    fc.assert(
      fc.property(twoCircuits, twoWirings, fewOfEach(2), (job, wirings, sizes) => {
        const { model, found, opening } = searched(read(job), cutTo(wirings, sizes));
        expectLeast(found, leastByNumbers(model, opening).best);
      }),
      { numRuns: SMALL_OPTIONS },
    );
  }, 300_000);
});
