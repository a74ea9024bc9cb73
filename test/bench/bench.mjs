/*
 * How fast the heavy parts are, and what they take of memory. Prints a table; it judges nothing but that the two
 * solvers agree. `npm run bench` builds first, and lets memory be collected before it is looked at.
 */
import { performance } from 'node:perf_hooks';
import { DEMO_PROJECT } from '../../dist/db/demo.js';
import { readDescription } from '../../dist/server/estimate/description.js';
import { estimate, withAsOf } from '../../dist/server/estimate/estimate.js';
import { bookOf } from '../../dist/server/estimate/price-book.js';
import { cheapestPackages } from '../../dist/server/estimate/purchasing.js';
import { seedPrices } from '../../dist/server/seed-prices.js';
import { CUTTING_JOBS, cuttingSolver } from '../reference/cutting-model.mjs';
import { plannerRows } from './planner.mjs';
import { priceBookRows } from './price-book.mjs';
import { rangeRows } from './range.mjs';

/** A day of no meaning: prices are aged against it, and it never changes. */
const AS_OF = '2026-03-02';
const ROUNDS = 30;
const WARM_UP_ROUNDS = 5;

const rows = [];
const row = (what, figure) => rows.push({ what, figure });
const milliseconds = (ms) => (ms < 1 ? `${(ms * 1000).toFixed(1)} µs` : `${ms.toFixed(1)} ms`);
const megabytes = (bytes) => `${(bytes / 1024 / 1024).toFixed(1)} MB`;

/** Time of one call, in milliseconds: the middle of many, after some to warm up. */
function middleMs(work) {
  const times = [];
  for (let round = -WARM_UP_ROUNDS; round < ROUNDS; round += 1) {
    const start = performance.now();
    work();
    if (round >= 0) times.push(performance.now() - start);
  }
  return times.sort((a, b) => a - b)[Math.floor(times.length / 2)] ?? 0;
}

/** Memory that is held once all that can be let go was let go. */
function heldBytes() {
  for (let round = 0; round < 3; round += 1) globalThis.gc?.();
  const { heapUsed, external } = process.memoryUsage();
  return heapUsed + external;
}

async function packagesAgainstSolver() {
  const leastCents = await cuttingSolver();
  for (const job of CUTTING_JOBS.slice(0, 20)) {
    leastCents(job);
    cheapestPackages(job);
  }
  const solverStart = performance.now();
  const expected = CUTTING_JOBS.map(leastCents);
  const solverMs = performance.now() - solverStart;
  const oursStart = performance.now();
  const found = CUTTING_JOBS.map((job) => cheapestPackages(job)?.costCents ?? Number.NaN);
  const oursMs = performance.now() - oursStart;
  const differing = found.filter((cents, at) => !(Math.abs(cents - expected[at]) < 0.5)).length;
  if (differing > 0)
    throw new Error(`${differing} of ${CUTTING_JOBS.length} jobs cost something else than HiGHS finds.`);
  row(`packages, ${CUTTING_JOBS.length} random jobs, all equal to HiGHS`, milliseconds(oursMs));
  row('HiGHS, the same jobs', milliseconds(solverMs));
  row('times faster than HiGHS', (solverMs / oursMs).toFixed(0));
}

function estimates() {
  const before = heldBytes();
  const book = bookOf(
    seedPrices().map((item) => ({ ...item, revision: 1 })),
    1,
  );
  row('memory of the price book', megabytes(heldBytes() - before));
  const description = withAsOf(readDescription(DEMO_PROJECT.description), AS_OF);
  const { options } = description;
  row(
    `estimate of the demo, ${options.length} options, core`,
    milliseconds(middleMs(() => estimate(description, book, { parts: 'core' }))),
  );
  row('the same, all parts', milliseconds(middleMs(() => estimate(description, book, { parts: 'all' }))));
  rows.push(...rangeRows({ book, asOf: AS_OF, middleMs, milliseconds }));
  const beforeMany = heldBytes();
  for (let round = 0; round < 200; round += 1) estimate(description, book, { parts: 'core' });
  row('memory kept after 200 more estimates', megabytes(Math.max(0, heldBytes() - beforeMany)));
  row('memory of the process (RSS)', megabytes(process.memoryUsage().rss));
}

/** The most that may be asked: sixty pieces of sixty lengths, twenty offers. The search ends by its own limit. */
function largestCutting() {
  const pieces = Array.from({ length: 60 }, (_, at) => 3.7 + ((at * 37) % 60) * 1.9);
  const coils = Array.from({ length: 19 }, (_, at) => ({
    lengthFt: 120 + at * 23,
    priceCents: 9000 + ((at * 71) % 19) * 900,
  }));
  const offers = [{ lengthFt: null, priceCents: 95 }, ...coils];
  const start = performance.now();
  const { proven } = cheapestPackages({ pieces, offers });
  row(
    `packages, 60 pieces and 20 offers, ${proven ? 'proved least' : 'cut short, not proved'}`,
    milliseconds(performance.now() - start),
  );
}

estimates(); // first, so that the solver's memory is not counted
await packagesAgainstSolver();
largestCutting();
rows.push(...priceBookRows({ milliseconds }));
const width = Math.max(...rows.map(({ what }) => what.length));
for (const { what, figure } of rows) console.log(`${what.padEnd(width)}  ${figure.padStart(10)}`);
console.table(plannerRows());
