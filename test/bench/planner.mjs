/*
 * How long the planner takes, and how near it can prove to be: the demo's options over routes of growing length.
 * `npm run build:server` first. Prints a table; it judges nothing.
 */
import { performance } from 'node:perf_hooks';
import { DEMO_PROJECT } from '../../dist/db/demo.js';
import { readDescription } from '../../dist/server/estimate/description.js';
import { estimate, withAsOf } from '../../dist/server/estimate/estimate.js';
import { bookOf } from '../../dist/server/estimate/price-book.js';
import { seedPrices } from '../../dist/server/seed-prices.js';

const KINDS = ['joists', 'interior-surface', 'crawlspace', 'exterior-wall', 'lawn-trench', 'gravel-trench', 'attic'];
const ROUNDS = 10;

/** The demo over a route of so many legs; without a number, as it is. */
function demoOver(legs) {
  const { description } = DEMO_PROJECT;
  if (!legs) return withAsOf(readDescription(description), '2026-03-02');
  const route = Array.from({ length: legs }, (_, at) => ({
    kind: KINDS[Math.floor((at * KINDS.length) / legs)],
    lengthFt: 7 + ((at * 7) % 13),
  }));
  return withAsOf(readDescription({ ...description, route }), '2026-03-02');
}

const book = bookOf(
  seedPrices().map((item) => ({ ...item, revision: 1 })),
  1,
);
const rows = [undefined, 10, 20, 40].map((legs) => {
  const description = demoOver(legs);
  const times = [];
  let answer;
  for (let round = 0; round < ROUNDS; round += 1) {
    const start = performance.now();
    answer = estimate(description, book, { parts: 'core' });
    times.push(performance.now() - start);
  }
  const middleMs = times.sort((a, b) => a - b)[ROUNDS >> 1];
  const proofs = answer.options.map(({ runs: [run], totals }) =>
    run?.proof.proven ? 'proven' : `gap ${((100 * (run?.proof.gapCents ?? 0)) / totals.costCents).toFixed(1)} %`,
  );
  return { route: legs ? `${legs} legs` : 'the demo', ms: middleMs.toFixed(1), options: proofs.join(', ') };
});
console.table(rows);
