import type { Line, Range, Totals } from './answer.ts';
import { betaQuantiles, pertShape } from './beta.ts';
import type { ClassCents } from './class-cost.ts';
import type { Description } from './description.ts';
import { groupsOf } from './groups.ts';
import { MINIMUM_CHARGE } from './minimum-charge.ts';
import { CAUSES, GROUPS, type Group, groupOf } from './range/causes.ts';
import { drawnTotal } from './range/drawn-total.ts';
import { addDraws, DRAWS, scoresOf, sharedScores, streams, valueAt } from './range/draws.ts';
import { normalChance, normalQuantile } from './range/normal.ts';
import { LINE_CLASSES } from './vocabulary.ts';

/** A line's cents are tabled at normal scores from −4 to 4, four to a score, and read between them. */
const TABLE = { lastScore: 4, perScore: 4 };
const TABLE_CHANCES = Array.from({ length: 2 * TABLE.lastScore * TABLE.perScore + 1 }, (_, at) =>
  normalChance(at / TABLE.perScore - TABLE.lastScore),
);
const MOST_DRIVERS = 6;
const SHARES = { low: 0.1, middle: 0.5, high: 0.9 };
const LOW_SCORE = normalQuantile(SHARES.low);
const HIGH_SCORE = normalQuantile(SHARES.high);

/** A line that is not known to the cent, as a table of its cents by normal score. */
interface Mover {
  line: Line;
  name: string;
  group: Group | undefined;
  table: Float64Array;
}
interface Job {
  movers: readonly Mover[];
  fixed: ClassCents;
  totalOf: (cost: ClassCents) => number;
}

/**
 * What the job may cost: each line drawn from the PERT beta of its low, likely and high, lines with a shared cause
 * together, and each draw taken through markup, overhead, profit, discount and tax. Without contingency, which is
 * money for what the range already shows. The same lines give the same range, to the byte.
 */
export function rangeOf(lines: readonly Line[], totals: Totals, { terms }: Description): Range {
  const movers = moversOf(lines);
  const job = { movers, fixed: fixedCost({ lines, movers, totals }), totalOf: drawnTotal(terms) };
  const drawn = drawTotals(job).sort();
  return {
    p10Cents: quantileOf(drawn, SHARES.low),
    p50Cents: quantileOf(drawn, SHARES.middle),
    p90Cents: quantileOf(drawn, SHARES.high),
    drivers: driversOf(job),
    chances: [],
  };
}

function moversOf(lines: readonly Line[]): Mover[] {
  const shapes = new Map<string, number[]>();
  return lines
    .filter(({ priced, lowCents, highCents }) => priced && highCents > lowCents)
    .map((line) => {
      const group = groupOf(line);
      const span = line.highCents - line.lowCents;
      const table = Float64Array.from(unitTable(line, shapes), (share) => line.lowCents + share * span);
      return { line, name: group?.name ?? line.description, group, table };
    });
}

/** Quantiles between a line's ends, 0 to 1. Lines whose likely price lies alike, to a hundredth, share them. */
function unitTable({ lowCents, amountCents, highCents }: Line, shapes: Map<string, number[]>): number[] {
  const likely = ((amountCents - lowCents) / (highCents - lowCents)).toFixed(2);
  const known = shapes.get(likely);
  if (known) return known;
  const table = betaQuantiles(TABLE_CHANCES, pertShape({ low: 0, likely: Number(likely), high: 1 }));
  shapes.set(likely, table);
  return table;
}

/** What does not move, in cents by class. What makes a job up to its minimum is reckoned anew with each draw. */
function fixedCost({
  lines,
  movers,
  totals,
}: {
  lines: readonly Line[];
  movers: readonly Mover[];
  totals: Totals;
}): ClassCents {
  const fixed = {
    material: totals.materialCents,
    labor: totals.laborCents,
    equipment: totals.equipmentCents,
    fee: totals.feeCents,
  };
  for (const { line } of movers) fixed[line.class] -= line.amountCents;
  for (const line of lines) if (line.key === MINIMUM_CHARGE) fixed[line.class] -= line.amountCents;
  return fixed;
}

function drawTotals({ movers, fixed, totalOf }: Job): Float64Array {
  const next = streams();
  const causes = CAUSES.map((cause) => ({ cause, scores: scoresOf(next()) }));
  const alone = sharedScores([]);
  const shared = new Map(
    GROUPS.map((group): [Group | undefined, typeof alone] => [
      group,
      sharedScores(causes.map(({ cause, scores }) => ({ weight: group.weights[cause] ?? 0, scores }))),
    ]),
  );
  const sumsOf = (name: (typeof LINE_CLASSES)[number]) => new Float64Array(DRAWS).fill(fixed[name]);
  const sums = {
    material: sumsOf('material'),
    labor: sumsOf('labor'),
    equipment: sumsOf('equipment'),
    fee: sumsOf('fee'),
  };
  for (const { line, group, table } of movers) {
    addDraws(sums[line.class], { own: next(), shared: shared.get(group) ?? alone, table, ...TABLE });
  }
  const cost = { ...fixed };
  return Float64Array.from({ length: DRAWS }, (_, draw) => {
    for (const name of LINE_CLASSES) cost[name] = sums[name][draw] ?? 0;
    return totalOf(cost);
  });
}

/** The total with one driver at its tenth and its ninetieth percentile and all else likely; the widest first. */
function driversOf({ movers, fixed, totalOf }: Job): Range['drivers'] {
  const likely = { ...fixed };
  for (const { line } of movers) likely[line.class] += line.amountCents;
  const totalWith = (moved: readonly Mover[], score: number) => {
    const cost = { ...likely };
    for (const { line, table } of moved) {
      cost[line.class] += valueAt(table, (score + TABLE.lastScore) * TABLE.perScore) - line.amountCents;
    }
    return Math.round(totalOf(cost));
  };
  return groupsOf(movers, ({ name }) => name)
    .map((moved) => ({
      name: moved[0].name,
      lowCents: totalWith(moved, LOW_SCORE),
      highCents: totalWith(moved, HIGH_SCORE),
    }))
    .filter(({ lowCents, highCents }) => highCents > lowCents)
    .sort((a, b) => b.highCents - b.lowCents - (a.highCents - a.lowCents) || (a.name < b.name ? -1 : 1))
    .slice(0, MOST_DRIVERS);
}

/** The value below which a share of sorted values lies, between two of them; whole cents. */
function quantileOf(sorted: Float64Array, share: number): number {
  return Math.round(valueAt(sorted, share * (sorted.length - 1)));
}
