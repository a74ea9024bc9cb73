import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DEMO_PROJECT } from '../../db/demo.ts';
import type { EstimateOption } from '../../server/estimate/answer.ts';
import { Estimate } from '../../server/estimate/answer.ts';
import { estimate } from '../../server/estimate/estimate.ts';
import { randomJob, read } from './random-jobs.ts';
import { seededBook } from './reading.ts';

const book = seededBook();
const core = (job: unknown): EstimateOption => {
  const [option] = estimate(read(job), book, { parts: 'core' }).options;
  if (!option) throw new Error('an estimate has at least one option');
  return option;
};
const sum = (numbers: readonly number[]) => numbers.reduce((total, one) => total + one, 0);
/** Enough random jobs to meet every kind of leg with every feed several times, and still be done in seconds. */
const RUNS = { numRuns: 30 };

describe('the demo', () => {
  const answer = estimate(read({ ...DEMO_PROJECT.description, asOf: '2026-03-02' }), book);

  it('has the shape that the API promises', () => {
    expect(Estimate.safeParse(answer).error).toBeUndefined();
  });

  it('is complete: the starting book holds all that it takes', () => {
    const missing = answer.options.flatMap(({ lines }) => lines.filter(({ priced }) => !priced));
    expect(missing.map(({ key }) => key)).toEqual([]);
    expect(answer.complete).toBe(true);
  });

  it('has three options that may be built, and names the one with the least total', () => {
    expect(answer.options.map(({ id, buildable }) => [id, buildable])).toEqual([
      ['circuit-32', true],
      ['circuit-48', true],
      ['panel-80', true],
    ]);
    const least = answer.options.reduce((a, b) => (b.totals.totalCents < a.totals.totalCents ? b : a));
    expect(answer.comparison.cheapest).toBe(least.id);
  });

  it('says the usual cautions', () => {
    const said = answer.notices.join(' ');
    for (const word of [/licensed electrician/, /permit/, /811/, /power off/, /AHJ/]) expect(said).toMatch(word);
  });
});

describe('laws of every job', () => {
  it('adds its lines up to the cost, class by class, and its parts to the total', () => {
    fc.assert(
      fc.property(randomJob, (job) => {
        const { lines, totals } = core(job);
        const byClass = (name: string) =>
          sum(lines.filter((line) => line.class === name).map((line) => line.amountCents));
        expect(byClass('material')).toBe(totals.materialCents);
        expect(byClass('labor')).toBe(totals.laborCents);
        expect(byClass('equipment')).toBe(totals.equipmentCents);
        expect(byClass('fee')).toBe(totals.feeCents);
        expect(sum(lines.map((line) => line.amountCents))).toBe(totals.costCents);
        const { markupCents, overheadCents, contingencyCents, profitCents, discountCents, taxCents } = totals;
        const parts = [markupCents, overheadCents, contingencyCents, profitCents, -discountCents, taxCents];
        expect(totals.costCents + sum(parts)).toBe(totals.totalCents);
      }),
      RUNS,
    );
  });

  it('never costs less over a longer leg, offcuts charged', () => {
    fc.assert(
      fc.property(randomJob, fc.nat(4), fc.integer({ min: 1, max: 60 }), (job, at, moreFt) => {
        const which = at % job.route.length;
        const route = job.route.map((one, index) =>
          index === which ? { ...one, lengthFt: one.lengthFt + moreFt } : one,
        );
        const before = core(job);
        const after = core({ ...job, route });
        fc.pre(before.buildable && after.buildable && before.complete && after.complete);
        expect(after.totals.costCents).toBeGreaterThanOrEqual(before.totals.costCents);
      }),
      RUNS,
    );
  });

  it('never totals less with more markup', () => {
    fc.assert(
      fc.property(randomJob, fc.integer({ min: 1, max: 3000 }), (job, moreBp) => {
        const markup = { ...job.terms.markup, materialBp: job.terms.markup.materialBp + moreBp };
        const dearer = core({ ...job, terms: { ...job.terms, markup } });
        expect(dearer.totals.totalCents).toBeGreaterThanOrEqual(core(job).totals.totalCents);
      }),
      RUNS,
    );
  });

  it('buys at least what is taken', () => {
    fc.assert(
      fc.property(randomJob, (job) => {
        for (const line of core(job).lines) {
          if (line.class === 'labor' || !line.priced) continue;
          expect(line.leftOver, line.key).toBeGreaterThanOrEqual(0);
          const bought = line.quantity * (line.package?.size ?? 1);
          expect(bought, line.key).toBeGreaterThanOrEqual(line.taken + line.leftOver - 1e-6);
        }
      }),
      RUNS,
    );
  });

  it('gives the same bytes for the same description and book', () => {
    fc.assert(
      fc.property(randomJob, (job) => {
        const whole = () => JSON.stringify(estimate(read(job), book));
        expect(whole()).toBe(whole());
      }),
      { numRuns: 5 },
    );
  }); // all parts, twice a job: each plans some twenty changed options

  it('never calls an option cheapest that has a stop', () => {
    fc.assert(
      fc.property(randomJob, (job) => {
        const answer = estimate(read(job), book, { parts: 'core' });
        for (const option of answer.options) {
          const stopped = option.findings.some(({ severity }) => severity === 'stop');
          expect(option.buildable).toBe(!stopped);
          if (stopped) expect(answer.comparison.cheapest).not.toBe(option.id);
        }
      }),
      RUNS,
    );
  });
});
