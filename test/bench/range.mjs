/*
 * How fast a range is made: three options of sixty lines, one of them guessed in its lengths, and facts that nobody
 * knows. Prints rows; it judges nothing.
 */
import { DEMO_PROJECT } from '../../dist/db/demo.js';
import { readDescription } from '../../dist/server/estimate/description.js';
import { withAsOf } from '../../dist/server/estimate/estimate.js';
import { priceTakeoff } from '../../dist/server/estimate/lines.js';
import { estimateOption } from '../../dist/server/estimate/option-estimate.js';
import { plansAtLengths } from '../../dist/server/estimate/range/lengths.js';
import { percentilesOf, pricedDraws } from '../../dist/server/estimate/range.js';
import { takeoffOf } from '../../dist/server/estimate/takeoff/takeoff.js';
import { uncertaintyOf } from '../../dist/server/estimate/uncertainty.js';

const LINES = 60;

/** Rows of the bench: what, and the milliseconds of one call in the middle of many. */
export function rangeRows({ book, asOf, middleMs, milliseconds }) {
  const description = withAsOf(readDescription(DEMO_PROJECT.description), asOf);
  const planned = description.options.map((option) => estimateOption({ description, option, book }));
  const linesOf = (plan) => priceTakeoff({ takeoff: takeoffOf(plan), plan, book }).lines;
  const shortened = planned.map(({ answer }) => ({
    lines: answer.lines.slice(0, LINES),
    atLengths: [],
    scenarios: [],
  }));
  const guessed = planned.map(({ plan, answer }) => ({
    lines: answer.lines.slice(0, LINES),
    atLengths: plansAtLengths(plan).map((changed) => linesOf(changed).slice(0, LINES)),
    scenarios: [],
  }));
  const draw = (jobs) => () => {
    for (const job of jobs) percentilesOf(pricedDraws(job, description.terms));
  };
  const all = () => {
    for (const one of planned) uncertaintyOf({ one, description, book });
  };
  const timed = (what, work) => ({ what, figure: milliseconds(middleMs(work)) });
  return [
    timed(`draws of three options, ${LINES} lines each, measured lengths`, draw(shortened)),
    timed(`draws of three options, ${LINES} lines each, guessed lengths`, draw(guessed)),
    timed('range, chances and unknowns of the three options, taken off at 17 lengths', all),
  ];
}
