import fc from 'fast-check';
import type { Description } from '../../../server/estimate/description.ts';
import { openOption } from '../../../server/estimate/plan/plan.ts';
import type { Book } from '../../../server/estimate/price-book.ts';
import { modelOf } from '../../../server/estimate/search/option-model.ts';
import { searchOption } from '../../../server/estimate/search/search.ts';
import { randomJob } from '../random-jobs.ts';
import type { Opening } from './exhaustive.ts';
import { oddJob } from './odd-jobs.ts';

/** A first option with all that a search of it knows, and what it found: finishes are opened where nothing else is to be had. */
export function searched(description: Description, book: Book) {
  const [option] = description.options;
  if (!option) throw new Error('A random job has an option.');
  const opened = openOption(description, option, book);
  const { circuits } = opened;
  if (!circuits) throw new Error('A random job runs a circuit.');
  const closed = modelOf({ ...opened, circuits });
  const behind = searchOption(closed);
  const opening: Opening = { opensFinishes: behind === undefined };
  const model = behind ? closed : modelOf({ ...opened, circuits }, opening);
  const found = behind ?? searchOption(model);
  return { opened, model, found, option, opening };
}

const terminals = fc.constantFrom('copper' as const, 'copper-or-aluminum' as const);

/** A feeder to a subpanel for later: a run with a neutral in either metal, and nothing behind it. */
const feederOnly = fc.constantFrom(60, 100).map((feederA) => ({
  id: 'a',
  label: 'A feeder',
  feed: 'subpanel' as const,
  chargers: [],
  subpanel: { ratingA: 100, spaces: 12, feederA, otherCircuits: [] },
}));

/** A random job of so many legs at most, by one run. */
export const plainJob = (legs: number) =>
  fc.record({ job: randomJob, terminals, feeder: fc.option(feederOnly, { freq: 4 }) }).map(({ job, ...more }) => ({
    ...job,
    route: job.route.slice(0, legs),
    options: [
      more.feeder ?? {
        id: 'a',
        label: 'A circuit',
        feed: 'dedicated-circuit' as const,
        chargers: job.options.flatMap(({ chargers }) => chargers.map((one) => ({ ...one, terminals: more.terminals }))),
      },
    ],
  }));

/** One with details, raceways that are there, and what else an option may ask for. */
export const unusualJob = (legs: number) =>
  oddJob.map((job) => ({
    ...job,
    route: job.route.slice(-legs),
    options: job.options.map(({ subpanel: _subpanel, metal: _metal, ...option }: Record<string, unknown>) => ({
      ...option,
      feed: 'dedicated-circuit',
    })),
  }));

/** Both kinds. */
export const smallJob = (legs: number) => fc.oneof(plainJob(legs), unusualJob(legs));

const otherCircuit = fc.record({
  use: fc.constantFrom('lights', 'receptacles', 'kiln'),
  amps: fc.constantFrom(20, 30),
  poles: fc.constantFrom(1, 2),
  lengthFt: fc.integer({ min: 5, max: 40 }),
  build: fc.constant(true),
});

/** A subpanel at the end of a short route, with a charger on it and one circuit more that is built. */
export const feederAndBranches = fc
  .record({
    job: randomJob,
    otherCircuit,
    feederA: fc.constantFrom(60, 80, 100),
    metal: fc.constantFrom('auto', 'copper', 'aluminum'),
    terminals,
    distanceFt: fc.integer({ min: 1, max: 60 }),
  })
  .map(({ job, otherCircuit: other, feederA, metal, ...ends }) => ({
    ...job,
    route: job.route.slice(0, 2),
    options: [
      {
        id: 'a',
        label: 'A panel',
        feed: 'subpanel' as const,
        metal,
        chargers: job.options.flatMap(({ chargers }) => chargers.slice(0, 1).map((one) => ({ ...one, ...ends }))),
        subpanel: { ratingA: 100, spaces: 12, feederA, otherCircuits: [other] },
      },
    ],
  }));

/** Two chargers at the end of a short route, each with a circuit of its own in the same ditch. */
export const twoCircuits = fc
  .record({
    job: randomJob,
    amps: fc.tuple(fc.constantFrom(16, 32, 48), fc.constantFrom(16, 24, 40)),
    distanceFt: fc.tuple(fc.constantFrom(0, 6, 30), fc.constantFrom(6, 20)),
  })
  .map(({ job, amps, distanceFt }) => ({
    ...job,
    route: job.route.slice(0, 2),
    options: [
      {
        id: 'a',
        label: 'Two circuits',
        feed: 'dedicated-circuit' as const,
        chargers: amps.map((setA, at) => ({
          amps: setA,
          connection: 'hardwired' as const,
          equipment: 'owned' as const,
          distanceFt: distanceFt[at] ?? 6,
        })),
      },
    ],
  }));
