import jstat from 'jstat';
import { describe, expect, it } from 'vitest';
import type { Line } from '../../server/estimate/answer.ts';
import { CAUSES, GROUPS, groupOf } from '../../server/estimate/range/causes.ts';
import { type Stream, scoresOf, sharedScores, streamsOf } from '../../server/estimate/range/draws.ts';
import type { UncertainJob } from '../../server/estimate/range/mixture.ts';
import { percentilesOf, pricedDraws } from '../../server/estimate/range.ts';
import { jobOf, line, termsOf } from '../estimate/range-lines.ts';

/*
 * Ranges against jStat, a library from the registry that was written without this program, and against plain draws
 * that are made here, of its quantiles. The tolerance is that of the work: a half percent of the figure.
 */
const { beta, normal, corrcoeff, stdev } = jstat.jStat;
const HALF_A_PERCENT = 0.005;

interface Points {
  low: number;
  likely: number;
  high: number;
}
/** PERT, weight 4: α = 1 + 4 (likely − low) / (high − low), β = 1 + 4 (high − likely) / (high − low). */
const shapeOf = ({ low, likely, high }: Points) => ({
  a: 1 + (4 * (likely - low)) / (high - low),
  b: 1 + (4 * (high - likely)) / (high - low),
});
const pointsOf = ({ lowCents, amountCents, highCents }: Line): Points => ({
  low: lowCents,
  likely: amountCents,
  high: highCents,
});
const drawn = (job: UncertainJob, seed?: number) => percentilesOf(pricedDraws(job, termsOf(), seed ? { seed } : {}));
const near = (found: number, expected: number) => Math.abs(found / expected - 1);

/** A fee moves alone; its name tells it apart. */
const fee = (name: string, low: number, likely: number, high: number) =>
  line({ key: name, class: 'fee', lowCents: low, amountCents: likely, highCents: high });

describe('quantiles of known distributions, by jStat', () => {
  it.each([
    { low: 100_000, likely: 200_000, high: 600_000 },
    { low: 100_000, likely: 100_000, high: 200_000 },
    { low: 300_000, likely: 590_000, high: 600_000 },
  ])('one line from $low over $likely to $high', (points) => {
    const { a, b } = shapeOf(points);
    const at = (chance: number) => points.low + (points.high - points.low) * beta.inv(chance, a, b);
    const found = drawn(jobOf([fee('one', points.low, points.likely, points.high)]));
    expect(near(found.p10, at(0.1))).toBeLessThan(HALF_A_PERCENT);
    expect(near(found.p50, at(0.5))).toBeLessThan(HALF_A_PERCENT);
    expect(near(found.p90, at(0.9))).toBeLessThan(HALF_A_PERCENT);
  });

  /** The chance of a sum up to s is ∫ f(x) G(s − x) dx, added up here at 4,000 places. */
  it('the sum of two lines that move alone, by folding their densities', () => {
    const [one, other] = [
      { low: 100_000, likely: 200_000, high: 600_000 },
      { low: 50_000, likely: 300_000, high: 400_000 },
    ] as const;
    const places = 4_000;
    const step = (one.high - one.low) / places;
    const [f, g] = [shapeOf(one), shapeOf(other)];
    const densities = Array.from({ length: places }, (_, at) => {
      const x = (at + 0.5) / places;
      return { x: one.low + x * (one.high - one.low), chance: (beta.pdf(x, f.a, f.b) * step) / (one.high - one.low) };
    });
    const chanceUpTo = (sum: number) =>
      densities.reduce((total, { x, chance }) => {
        const left = Math.max(0, Math.min(1, (sum - x - other.low) / (other.high - other.low)));
        return total + chance * beta.cdf(left, g.a, g.b);
      }, 0);
    const found = drawn(jobOf([fee('one', 100_000, 200_000, 600_000), fee('other', 50_000, 300_000, 400_000)]));
    // A half percent either way of what was found must take in the chance itself.
    for (const [value, chance] of [
      [found.p10, 0.1],
      [found.p50, 0.5],
      [found.p90, 0.9],
    ] as const) {
      expect(chanceUpTo(value * (1 - HALF_A_PERCENT))).toBeLessThan(chance);
      expect(chanceUpTo(value * (1 + HALF_A_PERCENT))).toBeGreaterThan(chance);
    }
  });

  /** Below 65 % nothing is added; above it the chance within the added fee is (p − 0.65) / 0.35. */
  it('a job that has a new service at 35 %, as a mixture', () => {
    const certain = fee('certain', 500_000, 500_000, 500_000);
    const service = fee('service', 200_000, 350_000, 700_000);
    const scenario = {
      name: 'new-service',
      chance: 0.35,
      givenChance: 0.35,
      group: 'panel',
      because: '',
      lines: [certain, service],
    };
    const found = drawn(jobOf([certain], { scenarios: [scenario] }));
    const { a, b } = shapeOf(pointsOf(service));
    expect(found.p10).toBe(500_000);
    expect(found.p50).toBe(500_000);
    const p90 = 500_000 + 200_000 + 500_000 * beta.inv((0.9 - 0.65) / 0.35, a, b);
    expect(near(found.p90, p90)).toBeLessThan(HALF_A_PERCENT);
  });
});

describe('lines with shared causes', () => {
  const wire = line({ key: 'thwn-2-6-cu', scope: 'wire', lowCents: 80, amountCents: 100, highCents: 150 });
  const aluminum = { ...wire, key: 'ser-2-3-al' };
  const panel = { ...wire, key: 'panel', scope: 'panel' as const };
  const pvc = { ...wire, key: 'pvc-40-1', scope: 'conduit' as const };
  const indoors = { ...wire, class: 'labor' as const, key: 'pull' };
  const digging = { ...wire, class: 'labor' as const, scope: 'trench' as const, key: 'dig' };
  const permit = { ...wire, class: 'fee' as const, scope: 'permit' as const };

  /** The draws of a line's score, as the range draws them. */
  function scoresOfLine(of: Line, own: Stream, causes: readonly Float32Array[]): number[] {
    const weights = groupOf(of)?.weights ?? {};
    const parts = CAUSES.map((cause, at) => ({
      weight: weights[cause] ?? 0,
      scores: causes[at] ?? new Float32Array(),
    }));
    const { scores, ownWeight } = sharedScores(parts);
    return [...scoresOf(own)].map((score, draw) => ownWeight * score + (scores[draw] ?? 0));
  }

  /** The correlations that the groups state. 0.02: the scatter of 8,191 draws is 1/√8,191 = 0.011. */
  it.each([
    ['two copper lines', wire, wire, 0.9],
    ['copper and aluminum', wire, aluminum, 0.8],
    ['two aluminum lines', aluminum, aluminum, 0.9],
    ['copper wire and panels', wire, panel, 0.3],
    ['copper wire and plastic conduit', wire, pvc, 0.1],
    ['two tasks indoors', indoors, indoors, 0.6],
    ['two tasks of digging', digging, digging, 0.8],
    ['indoors and digging', indoors, digging, 0.32],
    ['two fees', permit, permit, 0],
    ['copper and labor', wire, indoors, 0],
  ])('%s', (_, one, other, expected) => {
    const next = streamsOf(7);
    const causes = CAUSES.map(() => scoresOf(next()));
    const found = corrcoeff(scoresOfLine(one, next(), causes), scoresOfLine(other, next(), causes));
    expect(Math.abs(found - expected)).toBeLessThan(0.02);
  });

  it('has weights that leave every line something of its own', () => {
    for (const { weights, name } of GROUPS) {
      const shared = Object.values(weights).reduce((sum, weight) => sum + weight * weight, 0);
      expect(shared, name).toBeLessThan(1);
    }
  });
});

/** A job of a dozen lines of all groups, and one that may have a new service. Cents; invented. */
const LINES: Line[] = [
  line({ key: 'ser-2-3-al', scope: 'wire', lowCents: 31_000, amountCents: 40_000, highCents: 70_000 }),
  line({ key: 'thwn-2-8-cu', scope: 'wire', lowCents: 12_000, amountCents: 15_000, highCents: 19_000 }),
  line({ key: 'nm-b-6-3-cu', scope: 'wire', lowCents: 21_000, amountCents: 26_000, highCents: 33_000 }),
  line({ key: 'panel-100', scope: 'panel', lowCents: 9_000, amountCents: 12_000, highCents: 21_000 }),
  line({ key: 'pvc-40-1', scope: 'conduit', lowCents: 5_000, amountCents: 7_000, highCents: 10_000 }),
  line({ key: 'dig', class: 'labor', scope: 'trench', lowCents: 40_000, amountCents: 70_000, highCents: 140_000 }),
  line({ key: 'fill', class: 'labor', scope: 'trench', lowCents: 15_000, amountCents: 25_000, highCents: 50_000 }),
  line({ key: 'pull', class: 'labor', scope: 'wire', lowCents: 20_000, amountCents: 35_000, highCents: 60_000 }),
  line({ key: 'mount', class: 'labor', scope: 'panel', lowCents: 12_000, amountCents: 20_000, highCents: 38_000 }),
  line({ key: 'trencher', class: 'equipment', lowCents: 10_000, amountCents: 16_500, highCents: 26_000 }),
  line({ key: 'permit', class: 'fee', lowCents: 6_000, amountCents: 17_000, highCents: 50_000 }),
];
const SERVICE = line({ key: 'service', class: 'fee', lowCents: 200_000, amountCents: 320_000, highCents: 600_000 });
const HUMPED = jobOf(LINES, {
  scenarios: [
    { name: 'new-service', chance: 0.35, givenChance: 0.35, group: 'panel', because: '', lines: [...LINES, SERVICE] },
  ],
});

/** Plain draws: a generator of its own (Numerical Recipes' quick one, from memory), normals by Box and Muller. */
function plainDraws(job: UncertainJob, count: number, seed: number): Float64Array {
  let state = seed >>> 0;
  const uniform = () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return (state + 0.5) / 2 ** 32;
  };
  const score = () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
  const extra = job.scenarios.map(({ lines, chance }) => ({
    chance,
    tables: lines.slice(job.lines.length).map(tabled),
  }));
  const tables = job.lines.map(tabled);
  return Float64Array.from({ length: count }, () => {
    const causes = Object.fromEntries(CAUSES.map((cause) => [cause, score()]));
    const drawnFrom = ({ weights, own, quantiles }: Tabled) => {
      let z = own * score();
      for (const [cause, weight] of weights) z += weight * (causes[cause] ?? 0);
      const place = chanceOf(z) * (quantiles.length - 1);
      const below = Math.min(quantiles.length - 2, Math.floor(place));
      const low = quantiles[below] ?? 0;
      return low + (place - below) * ((quantiles[below + 1] ?? 0) - low);
    };
    let total = 0;
    for (const table of tables) total += drawnFrom(table);
    for (const one of extra) if (uniform() < one.chance) for (const table of one.tables) total += drawnFrom(table);
    return total;
  });
}

interface Tabled {
  weights: [string, number][];
  own: number;
  quantiles: number[];
}
const TABLE = 1_000;
function tabled(of: Line): Tabled {
  const points = pointsOf(of);
  const { a, b } = shapeOf(points);
  const weights = Object.entries(groupOf(of)?.weights ?? {});
  const own = Math.sqrt(1 - weights.reduce((sum, [, weight]) => sum + weight * weight, 0));
  const quantiles = Array.from(
    { length: TABLE + 1 },
    (_, at) => points.low + (points.high - points.low) * beta.inv(at / TABLE, a, b),
  );
  return { weights, own, quantiles };
}
/** Chances of normal scores from −6 to 6 by jStat, read between a thousandth of a score. */
const CHANCES = Float64Array.from({ length: 12_001 }, (_, at) => normal.cdf(at / 1_000 - 6, 0, 1));
function chanceOf(z: number): number {
  const place = Math.max(0, Math.min(11_999, (z + 6) * 1_000));
  const below = Math.floor(place);
  const low = CHANCES[below] ?? 0;
  return low + (place - below) * ((CHANCES[below + 1] ?? 0) - low);
}

const sortedQuantile = (sorted: Float64Array, share: number) => sorted[Math.round(share * (sorted.length - 1))] ?? 0;

describe('against plain draws', () => {
  it.each([
    ['a job of prices, hours and fees', jobOf(LINES)],
    ['the same with a new service at 35 %', HUMPED],
  ])(
    '%s has the percentiles of 1,000,000 of them',
    (_, job) => {
      const plain = plainDraws(job, 1_000_000, 11).sort();
      const found = drawn(job);
      expect(near(found.p10, sortedQuantile(plain, 0.1))).toBeLessThan(HALF_A_PERCENT);
      expect(near(found.p50, sortedQuantile(plain, 0.5))).toBeLessThan(HALF_A_PERCENT);
      expect(near(found.p90, sortedQuantile(plain, 0.9))).toBeLessThan(HALF_A_PERCENT);
    },
    60_000,
  );

  it.each([
    ['a job of prices, hours and fees', jobOf(LINES)],
    ['the same with a new service at 35 %', HUMPED],
  ])(
    '%s scatters between seeds no more than 10,000 of them do',
    (_, job) => {
      const seeds = Array.from({ length: 60 }, (_, at) => 1_000 + 77 * at);
      const ours = seeds.map((seed) => drawn(job, seed));
      const plain = seeds.map((seed) => plainDraws(job, 10_000, seed).sort());
      for (const [name, share] of [
        ['p10', 0.1],
        ['p90', 0.9],
      ] as const) {
        const scatter = stdev(
          ours.map((found) => found[name]),
          true,
        );
        const plainScatter = stdev(
          plain.map((sorted) => sortedQuantile(sorted, share)),
          true,
        );
        expect(scatter / plainScatter, name).toBeLessThanOrEqual(1);
      }
      for (const name of ['p10', 'p50', 'p90'] as const) {
        const values = ours.map((found) => found[name]);
        const middle = values.reduce((sum, value) => sum + value, 0) / values.length;
        expect(Math.max(...values.map((value) => near(value, middle))), name).toBeLessThan(HALF_A_PERCENT);
      }
    },
    120_000,
  );
});
