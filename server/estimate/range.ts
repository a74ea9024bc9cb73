import type { Range } from './answer.ts';
import { costByClass } from './class-cost.ts';
import type { Terms } from './description.ts';
import { groupsOf } from './groups.ts';
import { MINIMUM_CHARGE } from './minimum-charge.ts';
import { wholeDollars } from './money.ts';
import { drawnTotal, type TotalOf } from './range/drawn-total.ts';
import { placeOf, SEED, TABLE_SIZE, valueAt } from './range/draws.ts';
import { type DrawnJob, drawJob, drawnTotals, type Known, type UncertainJob } from './range/mixture.ts';
import { normalQuantile } from './range/normal.ts';
import { quantiles } from './range/quantile.ts';
import { humpsOf, shapeOf } from './range/shape.ts';
import { type Mover, writeTable } from './range/tables.ts';
import type { LineClass } from './vocabulary.ts';

const MOST_DRIVERS = 6;
const SHARES = { low: 0.1, middle: 0.5, high: 0.9 };
const RISING_SHARES = [SHARES.low, SHARES.middle, SHARES.high];
const LOW_SCORE = normalQuantile(SHARES.low);
const HIGH_SCORE = normalQuantile(SHARES.high);

/** A job drawn, and what its likeliest case comes to. */
export interface PricedDraws {
  drawn: DrawnJob;
  totalOf: TotalOf;
  /** Of the likeliest case, by class, without what makes it up to its minimum. */
  likely: Record<LineClass, number>;
}

/** The tenth, the middle and the ninetieth percentile of what a job may come to, in fractions of a cent. */
export interface Percentiles {
  p10: number;
  p50: number;
  p90: number;
}

/** Draws a job, once for all that is asked of it. */
export function pricedDraws(job: UncertainJob, terms: Terms, { seed = SEED }: { seed?: number } = {}): PricedDraws {
  const lines = job.lines.filter(({ key }) => key !== MINIMUM_CHARGE);
  return { drawn: drawJob(job, { seed }), totalOf: drawnTotal(terms), likely: costByClass(lines) };
}

/** The percentiles with what is known beyond the draws. */
export function percentilesOf({ drawn, totalOf }: Pick<PricedDraws, 'drawn' | 'totalOf'>, known?: Known): Percentiles {
  const totals = drawnTotals(drawn, totalOf, known);
  const [p10, p50, p90] = quantiles(totals, RISING_SHARES) as [number, number, number];
  return { p10, p50, p90 };
}

/** What a scenario adds to the likeliest case, in whole cents. */
export function addedCents({ drawn, totalOf, likely }: PricedDraws, scenario: number): number {
  const way = 1 + drawn.lengths + scenario;
  return Math.round(totalFor(totalOf, costIn(drawn, way)) - totalFor(totalOf, likely));
}

/**
 * What the job may cost: each line drawn from the PERT beta of its low, likely and high, lines with a shared cause
 * together, lengths and facts by what may be, and each draw taken through markup, overhead, profit, discount and tax.
 * Without contingency, which is money for what the range already shows. The same job gives the same range, to the byte.
 */
export function rangeOf(priced: PricedDraws): Range {
  const { drawn, totalOf, likely } = priced;
  const totals = drawnTotals(drawn, totalOf);
  const addsCents = drawn.scenarios.map((_, at) => addedCents(priced, at));
  const humps = humpsOf(drawn, totals, addsCents); // before a quantile changes the order of the draws
  const [p10Cents, p50Cents, p90Cents] = quantiles(totals, RISING_SHARES).map(Math.round) as [number, number, number];
  const likelyCents = Math.round(totalFor(totalOf, likely));
  return {
    p10Cents,
    p50Cents,
    p90Cents,
    likelyCents,
    because: [whyApart({ likelyCents, p50Cents }), ...humps.slice(0, 1).map(({ because }) => because)],
    shape: shapeOf(totals),
    ...(humps.length > 0 && { humps: humps.map(({ chance, p50Cents: middle }) => ({ chance, p50Cents: middle })) }),
    drivers: driversOf(priced),
    chances: drawn.scenarios.map(({ name, chance, because }, at) => ({
      name,
      chance,
      addsCents: addsCents[at] ?? 0,
      because,
    })),
  };
}

/** Why the middle of the range and the sum of likely values are two numbers. */
function whyApart({ likelyCents, p50Cents }: { likelyCents: number; p50Cents: number }): string {
  const apart = Math.abs(p50Cents - likelyCents);
  if (apart * 200 < likelyCents) {
    return `Likely prices, hours and lengths add up to ${wholeDollars(likelyCents)}, and half of all cases lie below ${wholeDollars(p50Cents)}.`;
  }
  const side = p50Cents > likelyCents ? 'more' : 'less';
  const way = p50Cents > likelyCents ? 'up than down' : 'down than up';
  return (
    `Likely prices, hours and lengths add up to ${wholeDollars(likelyCents)}; half of all cases lie below ${wholeDollars(p50Cents)}, ` +
    `${wholeDollars(apart)} ${side}, for most of them can go further ${way}, and what nobody has looked at yet counts by its chance.`
  );
}

const totalFor = (totalOf: TotalOf, { material, labor, equipment, fee }: Record<LineClass, number>) =>
  totalOf(material, labor, equipment, fee);

/** The likely cost by class in one of the ways that the job may be. */
function costIn({ matched: { movers, fixed } }: DrawnJob, way: number): Record<LineClass, number> {
  const cost = {
    material: fixed.material[way] ?? 0,
    labor: fixed.labor[way] ?? 0,
    equipment: fixed.equipment[way] ?? 0,
    fee: fixed.fee[way] ?? 0,
  };
  for (const { line, ends } of movers) cost[line.class] += ends[way]?.likely ?? 0;
  return cost;
}

/** What the job comes to at each of the lengths it was taken off at, by class, beyond the likeliest. */
export function lengthEffects({ drawn, likely }: PricedDraws): Record<LineClass, number[]> {
  const costs = Array.from({ length: drawn.lengths }, (_, at) => costIn(drawn, 1 + at));
  const effect = (name: LineClass) => costs.map((cost) => cost[name] - likely[name]);
  return {
    material: effect('material'),
    labor: effect('labor'),
    equipment: effect('equipment'),
    fee: effect('fee'),
  };
}

type Driver = Range['drivers'][number];

/**
 * What moves the total: the total with one driver at its tenth and its ninetieth percentile, and all else likely. A fact
 * that nobody knows stands with the total without and with it. The widest first.
 */
function driversOf(priced: PricedDraws): Driver[] {
  const drivers = [...lineDrivers(priced), ...lengthDriver(priced), ...scenarioDrivers(priced)];
  return drivers
    .filter(({ lowCents, highCents }) => highCents > lowCents)
    .sort((a, b) => b.highCents - b.lowCents - (a.highCents - a.lowCents) || (a.name < b.name ? -1 : 1))
    .slice(0, MOST_DRIVERS);
}

function lineDrivers({ drawn, totalOf, likely }: PricedDraws): Driver[] {
  const here = drawn.matched.movers.filter(({ ends: [now] }) => now && now.high > now.low);
  const table = new Float64Array(TABLE_SIZE);
  const totalWith = (moved: readonly Mover[], score: number) => {
    const cost = { ...likely };
    for (const { line, ends } of moved) {
      const [now] = ends;
      if (!now) continue;
      writeTable(table, 0, now);
      cost[line.class] += valueAt(table, placeOf(score)) - now.likely;
    }
    return Math.round(totalFor(totalOf, cost));
  };
  return groupsOf(here, ({ name }) => name).map((moved) => ({
    name: moved[0].name,
    lowCents: totalWith(moved, LOW_SCORE),
    highCents: totalWith(moved, HIGH_SCORE),
  }));
}

function lengthDriver({ drawn, totalOf }: PricedDraws): Driver[] {
  if (drawn.lengths < 2) return [];
  const at = (share: number) => 1 + Math.min(drawn.lengths - 1, Math.floor(share * drawn.lengths));
  const ends = [SHARES.low, SHARES.high].map((share) => Math.round(totalFor(totalOf, costIn(drawn, at(share)))));
  return [{ name: 'guessed lengths', lowCents: Math.min(...ends), highCents: Math.max(...ends) }];
}

function scenarioDrivers(priced: PricedDraws): Driver[] {
  const likelyCents = Math.round(totalFor(priced.totalOf, priced.likely));
  return priced.drawn.scenarios.flatMap(({ name, chance }, at) => {
    if (chance <= 0) return [];
    const changedCents = likelyCents + addedCents(priced, at);
    return [
      {
        name,
        lowCents: Math.min(likelyCents, changedCents),
        highCents: Math.max(likelyCents, changedCents),
      },
    ];
  });
}
