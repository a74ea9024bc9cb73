/*
 * How long the planner takes, and how near it can prove to be: the demo and its options over routes of growing length,
 * unchanged as when somebody else looks at it, and with another length each time as when somebody types. It judges nothing.
 */
import { performance } from 'node:perf_hooks';
import { fileURLToPath } from 'node:url';
import { DEMO_PROJECT } from '../../dist/db/demo.js';
import { readDescription } from '../../dist/server/estimate/description.js';
import { estimate, withAsOf } from '../../dist/server/estimate/estimate.js';
import { bookOf } from '../../dist/server/estimate/price-book.js';
import { seedPrices } from '../../dist/server/seed-prices.js';

const AS_OF = '2026-03-02';
const KINDS = ['joists', 'interior-surface', 'crawlspace', 'exterior-wall', 'lawn-trench', 'gravel-trench', 'attic'];
const LONG_ROUTES = [10, 20, 40];
/** An unchanged estimate takes milliseconds, a changed one is searched anew. */
const ROUNDS = { unchanged: 60, changed: 12 };

/** A route of so many legs, each kind as often as the others. */
const routeOf = (legs) =>
  Array.from({ length: legs }, (_, at) => ({
    kind: KINDS[Math.floor((at * KINDS.length) / legs)],
    lengthFt: 7 + ((at * 7) % 13),
  }));

/** The demo's options and a fourth one: the first in aluminum. */
function fourOptions({ options }) {
  const [first] = options;
  return [...options, { ...first, id: 'in-aluminum', label: `${first.label}, in aluminum`, metal: 'aluminum' }];
}

/** The job with one length that no round before it had. */
function changedIn(job, round) {
  const route = job.route.map((leg, at) => (at === 1 ? { ...leg, lengthFt: 20 + round / 4 } : leg));
  return { ...job, route };
}

/** Least and middle time of some rounds, in milliseconds: a busy machine lengthens the middle one first. */
function timesOf(descriptions, book) {
  let answer;
  const times = descriptions.map((description) => {
    const start = performance.now();
    answer = estimate(description, book, { parts: 'core' });
    return performance.now() - start;
  });
  times.sort((a, b) => a - b);
  return { leastMs: times[0], middleMs: times[times.length >> 1], answer };
}

/** What is proved of each option of an answer: the least cost, or how far below it the least could lie. */
function proofsOf({ options }) {
  const proofs = options.map(({ runs: [run], totals }) => {
    if (!run) return 'nothing run';
    const { proven, gapCents } = run.proof;
    return proven ? 'proven' : `gap ${((100 * gapCents) / totals.costCents).toFixed(1)} %`;
  });
  return proofs.join(', ');
}

/** Rows of what the planner takes, for the demo and for four options over long routes. */
export function plannerRows() {
  const book = bookOf(
    seedPrices().map((item) => ({ ...item, revision: 1 })),
    1,
  );
  const demo = DEMO_PROJECT.description;
  const long = LONG_ROUTES.map((legs) => ({
    what: `4 options over ${legs} legs`,
    job: { ...demo, options: fourOptions(demo), route: routeOf(legs) },
  }));
  const read = (job) => withAsOf(readDescription(job), AS_OF);
  return [{ what: `the demo, ${demo.options.length} options`, job: demo }, ...long].flatMap(({ what, job }) => {
    const same = read(job);
    const unchanged = Array.from({ length: ROUNDS.unchanged }, () => same);
    const changed = Array.from({ length: ROUNDS.changed }, (_, round) => read(changedIn(job, round)));
    return Object.entries({ unchanged, changed }).map(([how, descriptions]) => {
      const { leastMs, middleMs, answer } = timesOf(descriptions, book);
      const ms = { 'least ms': leastMs.toFixed(1), 'middle ms': middleMs.toFixed(1) };
      return {
        what: `${what}, ${how === 'changed' ? 'one length changed each time' : how}`,
        ...ms,
        proofs: proofsOf(answer),
      };
    });
  });
}

if (process.argv[1] === fileURLToPath(import.meta.url)) console.table(plannerRows());
