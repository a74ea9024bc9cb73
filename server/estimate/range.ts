import type { Line, Range, Totals } from './answer.ts';
import { betaQuantile, pertShape } from './beta.ts';
import { CAUSES, type Cause, groupOf } from './causes.ts';
import { type ClassCents, markupBpOf } from './class-cost.ts';
import type { Description } from './description.ts';
import { groupsOf } from './groups.ts';
import { MINIMUM_CHARGE } from './minimum-charge.ts';
import { normalChance, normalQuantile } from './normal.ts';
import { LINE_CLASSES } from './vocabulary.ts';

type Terms = Description['terms'];

/** How many times the job is drawn, and where the draws start: the same lines always give the same range. */
const DRAWS = 4_000;
const SEED = 20_250_701;
/** A line's cents are tabled at normal scores from −4 to 4, and read between them. */
const LAST_SCORE = 4;
const STEPS_PER_SCORE = 4;
const TABLE_SIZE = 2 * LAST_SCORE * STEPS_PER_SCORE + 1;
const TABLE_CHANCES = Array.from({ length: TABLE_SIZE }, (_, at) => normalChance(at / STEPS_PER_SCORE - LAST_SCORE));
/** One normal score from the middle of each of so many equal chances: shuffled, they fill the whole width every time. */
const SCORES = Float64Array.from({ length: DRAWS }, (_, at) => normalQuantile((at + 0.5) / DRAWS));
const MOST_DRIVERS = 6;
const EIGHTY = { low: 0.1, middle: 0.5, high: 0.9 };

/** A line that is not known to the cent, as a table of its cents by normal score. */
interface Mover {
  line: Line;
  name: string;
  weights: Partial<Record<Cause, number>>;
  cents: Float64Array;
}

/**
 * What the job may cost: each line drawn from the PERT beta of its low, likely and high, lines with a shared cause
 * together, and each draw taken through markup, overhead, profit, discount and tax. Without contingency, which is
 * money for what the range already shows. Stratified, and the same for the same lines to the byte.
 */
export function rangeOf(lines: readonly Line[], totals: Totals, { terms }: Description): Range {
  const movers = moversOf(lines);
  const fixed = fixedCost({ lines, movers, totals });
  const drawn = drawTotals({ movers, fixed, terms }).sort();
  return {
    p10Cents: quantileOf(drawn, EIGHTY.low),
    p50Cents: quantileOf(drawn, EIGHTY.middle),
    p90Cents: quantileOf(drawn, EIGHTY.high),
    drivers: driversOf({ movers, fixed, terms }),
    chances: [],
  };
}

function moversOf(lines: readonly Line[]): Mover[] {
  const shapes = new Map<string, number[]>();
  return lines
    .filter(({ priced, lowCents, highCents }) => priced && highCents > lowCents)
    .map((line) => {
      const group = groupOf(line);
      const cents = Float64Array.from(
        unitTable(line, shapes),
        (x) => line.lowCents + x * (line.highCents - line.lowCents),
      );
      return { line, name: group?.name ?? line.description, weights: group?.weights ?? {}, cents };
    });
}

/** The quantiles of a line's shape between its ends, 0 to 1. Lines whose likely price lies alike share them. */
function unitTable({ lowCents, amountCents, highCents }: Line, shapes: Map<string, number[]>): number[] {
  const likely = ((amountCents - lowCents) / (highCents - lowCents)).toFixed(3);
  const known = shapes.get(likely);
  if (known) return known;
  const shape = pertShape({ low: 0, likely: Number(likely), high: 1 });
  const table = TABLE_CHANCES.map((chance) => betaQuantile(chance, shape));
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

interface Job {
  movers: readonly Mover[];
  fixed: ClassCents;
  terms: Terms;
}

function drawTotals({ movers, fixed, terms }: Job): Float64Array {
  const random = randomFrom(SEED);
  const causes = new Map(CAUSES.map((cause) => [cause, shuffled(random)]));
  const byClass = new Map(LINE_CLASSES.map((name) => [name, new Float64Array(DRAWS).fill(fixed[name])]));
  for (const { line, weights, cents } of movers) {
    const scores = shuffled(random);
    mix(scores, { weights, causes });
    const sums = byClass.get(line.class);
    if (sums)
      for (let draw = 0; draw < DRAWS; draw++) sums[draw] = (sums[draw] ?? 0) + centsAt(cents, scores[draw] ?? 0);
  }
  const [material, labor, equipment, fee] = LINE_CLASSES.map((name) => byClass.get(name));
  return Float64Array.from({ length: DRAWS }, (_, draw) =>
    totalOf(
      {
        material: material?.[draw] ?? 0,
        labor: labor?.[draw] ?? 0,
        equipment: equipment?.[draw] ?? 0,
        fee: fee?.[draw] ?? 0,
      },
      terms,
    ),
  );
}

/** Adds the causes' scores to a line's own, so that what results is again a normal score. */
function mix(
  own: Float64Array,
  { weights, causes }: { weights: Mover['weights']; causes: ReadonlyMap<Cause, Float64Array> },
): void {
  const shared = CAUSES.flatMap((cause) => {
    const weight = weights[cause];
    const scores = causes.get(cause);
    return weight === undefined || !scores ? [] : [{ weight, scores }];
  });
  if (shared.length === 0) return;
  const ownWeight = Math.sqrt(1 - shared.reduce((sum, { weight }) => sum + weight * weight, 0));
  for (let draw = 0; draw < own.length; draw++) own[draw] = (own[draw] ?? 0) * ownWeight;
  for (const { weight, scores } of shared) {
    for (let draw = 0; draw < own.length; draw++) own[draw] = (own[draw] ?? 0) + weight * (scores[draw] ?? 0);
  }
}

/** A line's cents at a normal score, between the two of its table. */
function centsAt(cents: Float64Array, score: number): number {
  const place = Math.min(Math.max((score + LAST_SCORE) * STEPS_PER_SCORE, 0), TABLE_SIZE - 1);
  const below = Math.floor(place);
  const low = cents[below] ?? 0;
  return low + (place - below) * ((cents[below + 1] ?? low) - low);
}

/** The total of a draw by the money formula, in fractions of a cent and without contingency. */
function totalOf(drawn: ClassCents, terms: Terms): number {
  const missing = terms.who === 'owner' ? 0 : terms.minimumCents - sumOf(drawn, () => 1);
  const cost = missing > 0 ? { ...drawn, labor: drawn.labor + missing } : drawn;
  const inAll = sumOf(cost, () => 1);
  const marked = sumOf(cost, (name) => 1 + markupBpOf(name, terms) / 10_000);
  const subtotal = marked + (inAll * terms.overheadBp) / 10_000;
  const profitShare = terms.profitOn === 'cost' ? terms.profitBp / 10_000 : terms.profitBp / (10_000 - terms.profitBp);
  const price = Math.max(0, subtotal * (1 + profitShare) - terms.discountCents);
  const onTax = (name: keyof ClassCents) => (terms.taxOn.includes(name) ? 1 : 0);
  const taxedMarked = sumOf(cost, (name) => onTax(name) * (1 + markupBpOf(name, terms) / 10_000));
  const taxed = terms.taxBase === 'cost' ? sumOf(cost, onTax) : marked > 0 ? (price * taxedMarked) / marked : 0;
  return price + (taxed * terms.taxBp) / 10_000;
}

function sumOf(cost: ClassCents, weight: (name: keyof ClassCents) => number): number {
  return (
    cost.material * weight('material') +
    cost.labor * weight('labor') +
    cost.equipment * weight('equipment') +
    cost.fee * weight('fee')
  );
}

/** The total with one driver at its tenth and its ninetieth percentile and all else likely; the widest first. */
function driversOf({ movers, fixed, terms }: Job): Range['drivers'] {
  const low = normalQuantile(EIGHTY.low);
  const high = normalQuantile(EIGHTY.high);
  const likely = { ...fixed };
  for (const { line } of movers) likely[line.class] += line.amountCents;
  const totalWith = (moved: readonly Mover[], score: number) => {
    const cost = { ...likely };
    for (const { line, cents } of moved) cost[line.class] += centsAt(cents, score) - line.amountCents;
    return Math.round(totalOf(cost, terms));
  };
  return groupsOf(movers, ({ name }) => name)
    .map((moved) => ({ name: moved[0].name, lowCents: totalWith(moved, low), highCents: totalWith(moved, high) }))
    .filter(({ lowCents, highCents }) => highCents > lowCents)
    .sort((a, b) => b.highCents - b.lowCents - (a.highCents - a.lowCents) || (a.name < b.name ? -1 : 1))
    .slice(0, MOST_DRIVERS);
}

/** The value below which a share of sorted values lies, between two of them; whole cents. */
function quantileOf(sorted: Float64Array, share: number): number {
  const place = share * (sorted.length - 1);
  const below = Math.floor(place);
  const low = sorted[below] ?? 0;
  return Math.round(low + (place - below) * ((sorted[below + 1] ?? low) - low));
}

/** The scores in an order of chance. */
function shuffled(random: () => number): Float64Array {
  const scores = SCORES.slice();
  for (let at = scores.length - 1; at > 0; at--) {
    const other = Math.floor(random() * (at + 1));
    const score = scores[at] ?? 0;
    scores[at] = scores[other] ?? 0;
    scores[other] = score;
  }
  return scores;
}

/** Numbers from 0 up to 1, the same ones for one seed: a counter, mixed in 32 bits (the mulberry32 mixing, from memory). */
function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}
