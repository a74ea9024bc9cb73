import fc from 'fast-check';
import { LEG_KINDS } from '../../server/estimate/vocabulary.ts';
import { readDescription, withAsOf } from './reading.ts';

/** Kinds of a leg that a random job is made of: not what needs fields of its own, nor what only some methods may span. */
const KINDS = LEG_KINDS.filter((kind) => kind !== 'bore' && kind !== 'overhead-span' && kind !== 'existing-raceway');

const leg = fc.record({ kind: fc.constantFrom(...KINDS), lengthFt: fc.integer({ min: 3, max: 90 }) });

const charger = fc.record({
  amps: fc.constantFrom(16, 24, 32, 40, 48),
  connection: fc.constant('hardwired' as const),
  equipment: fc.constantFrom('owned' as const, 'buy' as const),
});

const circuit = charger.map((one) => ({
  id: 'a',
  label: 'A circuit',
  feed: 'dedicated-circuit' as const,
  chargers: [one],
}));
const panel = fc
  .record({ charger, feederA: fc.constantFrom(60, 80, 100), metal: fc.constantFrom('auto', 'copper', 'aluminum') })
  .map(({ charger: one, feederA, metal }) => ({
    id: 'a',
    label: 'A panel',
    feed: 'subpanel' as const,
    metal,
    chargers: [one],
    subpanel: { ratingA: 100, spaces: 12, feederA, otherCircuits: [] },
  }));

/** A job with one option, of a shape that any house may have: invented, and only for laws that hold of every job. */
export const randomJob = fc.record({
  title: fc.constant('Random job'),
  asOf: fc.constant('2026-03-02'),
  site: fc.record({
    building: fc.constantFrom('attached' as const, 'outdoor' as const),
    yearBuilt: fc.integer({ min: 1900, max: 2025 }),
    service: fc.constant({ ratingA: 200, freeSpaces: 6 }),
    load: fc.constant({ method: 'measured' as const, peakA: 40, days: 365 }),
  }),
  route: fc.array(leg, { minLength: 1, maxLength: 5 }),
  options: fc.oneof(circuit, panel).map((option) => [option]),
  terms: fc.record({
    markup: fc.record({ materialBp: fc.integer({ min: 0, max: 4000 }), laborBp: fc.integer({ min: 0, max: 4000 }) }),
    overheadBp: fc.integer({ min: 0, max: 3000 }),
    profitBp: fc.integer({ min: 0, max: 3000 }),
    contingencyBp: fc.integer({ min: 0, max: 2000 }),
    taxBp: fc.integer({ min: 0, max: 1200 }),
    offcuts: fc.constantFrom('charged' as const),
  }),
});
export type RandomJob = typeof randomJob extends fc.Arbitrary<infer Job> ? Job : never;

/** A random job as the estimate takes it. */
export function read(job: unknown) {
  return withAsOf(readDescription(job), '2026-03-02');
}
