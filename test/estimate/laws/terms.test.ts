import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { optionOf } from '../fields/priced.ts';

/* What the terms say changes the lines that are theirs, and no others. Jobs are invented. */

const SLOW_MS = 60_000;
const leg = fc.record({
  kind: fc.constantFrom('joists', 'crawlspace', 'under-deck', 'lawn-trench', 'concrete-cut'),
  lengthFt: fc.integer({ min: 5, max: 60 }),
});
const job = fc.record({
  route: fc.array(leg, { minLength: 1, maxLength: 3 }),
  amps: fc.constantFrom(24, 40, 48),
  equipment: fc.constantFrom('owned', 'buy'),
});
/** The same with one way to lay and to dig each leg, so that nothing is left to choose by what it costs. */
const heldLeg = fc
  .record({
    held: fc.constantFrom(
      { kind: 'joists', method: 'nm-b' },
      { kind: 'under-deck', method: 'pvc' },
      { kind: 'lawn-trench', method: 'pvc', dig: 'hand' },
      { kind: 'concrete-cut', method: 'pvc', dig: 'hand' },
    ),
    lengthFt: fc.integer({ min: 5, max: 60 }),
  })
  .map(({ held, lengthFt }) => ({ ...held, lengthFt }));
const heldJob = fc.record({
  route: fc.array(heldLeg, { minLength: 1, maxLength: 3 }),
  amps: fc.constantFrom(24, 40),
  equipment: fc.constantFrom('owned', 'buy'),
});
type Job = typeof job extends fc.Arbitrary<infer One> ? One : never;

const priced = (
  { route, amps, equipment }: Pick<Job, 'amps' | 'equipment'> & { route: unknown },
  terms: Record<string, unknown> = {},
) =>
  optionOf({
    route,
    option: { chargers: [{ amps, connection: 'hardwired', equipment, distanceFt: 4 }] },
    rest: { terms },
  });
const bp = fc.integer({ min: 0, max: 5_000 });

describe('terms never change lines but by their own', () => {
  it(
    'leaves plan, lines and labor alone for all that is added to the cost or taken off the price',
    () => {
      const money = fc.record({
        markup: fc.record({ materialBp: bp, laborBp: bp, equipmentBp: bp, feeBp: bp }),
        overheadBp: bp,
        profitBp: bp,
        profitOn: fc.constantFrom('cost', 'price'),
        contingencyBp: bp,
        discountCents: fc.integer({ min: 0, max: 5_000 }),
        taxBp: fc.integer({ min: 0, max: 1_200 }),
        taxOn: fc.constantFrom(['material'], ['material', 'labor', 'equipment', 'fee']),
        taxBase: fc.constantFrom('cost', 'price'),
        incentives: fc.constantFrom(
          [],
          [{ name: 'rebate', kind: 'percent', bp: 3_000, capCents: 60_000, of: ['material'] }],
        ),
      });
      fc.assert(
        fc.property(job, money, (one, terms) => {
          const [plain, dear] = [priced(one), priced(one, terms)];
          expect(dear.lines).toEqual(plain.lines);
          expect(dear.runs).toEqual(plain.runs);
          expect(dear.labor).toEqual(plain.labor);
          expect(dear.totals.costCents).toBe(plain.totals.costCents);
        }),
        { numRuns: 12 },
      );
    },
    SLOW_MS,
  );

  // with methods held: below the least charge all plans cost the same, and another tie-break than cost may choose
  it(
    'adds only the line that makes the least charge up',
    () => {
      fc.assert(
        fc.property(heldJob, fc.integer({ min: 0, max: 1_000_000 }), (one, minimumCents) => {
          const [plain, least] = [priced(one), priced(one, { minimumCents })];
          const lacking = minimumCents - plain.totals.costCents;
          expect(least.lines.slice(0, plain.lines.length)).toEqual(plain.lines);
          const added = least.lines.slice(plain.lines.length).map((line) => line.amountCents);
          expect(added).toEqual(lacking > 0 ? [lacking] : []);
        }),
        { numRuns: 12 },
      );
    },
    SLOW_MS,
  );

  it(
    'changes only what travelling costs by the way to the house',
    () => {
      const travel = fc.record({
        minutesEachWay: fc.integer({ min: 0, max: 90 }),
        milesEachWay: fc.integer({ min: 0, max: 80 }),
      });
      fc.assert(
        fc.property(heldJob, travel, (one, way) => {
          const rest = ({ lines }: ReturnType<typeof priced>) => lines.filter(({ scope }) => scope !== 'travel');
          expect(rest(priced(one, { travel: way }))).toEqual(rest(priced(one)));
        }),
        { numRuns: 12 },
      );
    },
    SLOW_MS,
  );

  it(
    'takes away only lines of labor where the owner works, and keeps the hours',
    () => {
      fc.assert(
        fc.property(heldJob, (one) => {
          const [hired, own] = [priced(one), priced(one, { ownerDoes: ['trench', 'restoration', 'outlet'] })];
          const hours = ({ labor }: typeof hired) =>
            labor.tasks
              .filter(({ key }) => !/^(?:drive|mobili[sz]e)/.test(key))
              .map(({ key, hours: spent }) => [key, spent]);
          expect(hours(own)).toEqual(hours(hired));
          const kept = own.lines.filter((line) => line.scope !== 'travel');
          const same = hired.lines.filter(
            ({ scope, class: kind }) =>
              scope !== 'travel' && !(kind === 'labor' && ['trench', 'restoration', 'outlet'].includes(scope)),
          );
          expect(kept).toEqual(same);
        }),
        { numRuns: 12 },
      );
    },
    SLOW_MS,
  );
});
