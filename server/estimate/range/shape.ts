import type { Range } from '../answer.ts';
import { toFourDecimals, wholeDollars } from '../money.ts';
import { DRAWS } from './draws.ts';
import { type DrawnJob, drawsBuiltWith, type Scenario } from './mixture.ts';
import { quantile } from './quantile.ts';

/** Bars of the drawn shape; ours, enough to see two humps on a phone. */
const BARS = 40;

/** How the draws are spread, as bars of one width from the least to the most; the shares add up to 1, each to four decimals. */
export function shapeOf(totals: Float64Array): Range['shape'] {
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  for (const total of totals) {
    least = Math.min(least, total);
    most = Math.max(most, total);
  }
  const fromCents = Math.floor(least);
  const stepCents = Math.max(1, Math.ceil((most - fromCents + 1) / BARS));
  const counts = new Array<number>(BARS).fill(0);
  for (const total of totals) {
    const bar = Math.floor((total - fromCents) / stepCents);
    counts[bar] = (counts[bar] ?? 0) + 1;
  }
  const last = counts.findLastIndex((count) => count > 0);
  return {
    fromCents,
    stepCents,
    shares: counts.slice(0, last + 1).map((count) => toFourDecimals(count / totals.length)),
  };
}

/** A hump of the range: how often it comes, its middle, and why. */
export interface Hump {
  chance: number;
  p50Cents: number;
  because: string;
}

/**
 * Two humps, where facts that nobody knows move the middle by more than the whole width that is left without them: then
 * hardly a case lies between, and one number in the middle would mislead. None elsewhere. Facts of one group that move it
 * about alike are one: a new service and a new panel part the range at the same place, a breaker more does not.
 * @param totals     of every draw, in the order of the draws
 * @param addsCents  what each scenario adds to the likeliest case, in the order of the scenarios
 */
export function humpsOf(drawn: DrawnJob, totals: Float64Array, addsCents: readonly number[]): Hump[] {
  const groups = [...new Set(drawn.scenarios.map(({ group }) => group))];
  const parted = groups.flatMap((group) => {
    const members = membersOfHump(drawn, group, addsCents);
    const names = members.map(({ name }) => name);
    const isSo = drawsBuiltWith(drawn, group, names);
    const [without, so] = partedBy(isSo, totals);
    if (without.length < FEWEST || so.length < FEWEST) return [];
    const gap = Math.abs(quantile(so, 0.5) - quantile(without, 0.5));
    return gap > quantile(without, 0.9) - quantile(without, 0.1) ? [{ members, without, so, gap }] : [];
  });
  const [widest] = parted.sort((a, b) => b.gap - a.gap);
  return widest ? twoHumps(totals.length, widest) : [];
}

/** The totals of the draws in which something is not so, and of those in which it is. */
function partedBy(isSo: Uint8Array, totals: Float64Array): [Float64Array, Float64Array] {
  const not = new Float64Array(totals.length);
  const so = new Float64Array(totals.length);
  let sos = 0;
  for (let draw = 0; draw < totals.length; draw++) {
    const total = totals[draw] ?? 0;
    if (isSo[draw] === 1) so[sos++] = total;
    else not[draw - sos] = total;
  }
  return [not.slice(0, totals.length - sos), so.slice(0, sos)];
}

/** A hump of fewer draws than one in a hundred is none: nobody would see it. Ours. */
const FEWEST = DRAWS / 100;
/** A fact that moves the total by less than this share of the largest of its group stays in the usual hump. Ours. */
const OF_THE_SIZE = 0.5;

/** The facts of a group that move the total about as far, and the same way, as the one that moves it most. */
function membersOfHump({ scenarios }: DrawnJob, group: string, addsCents: readonly number[]): Scenario[] {
  const possible = scenarios
    .map((scenario, at) => ({ scenario, adds: addsCents[at] ?? 0 }))
    .filter(({ scenario }) => scenario.group === group && scenario.chance > 0);
  const most = possible.reduce((far, { adds }) => (Math.abs(adds) > Math.abs(far) ? adds : far), 0);
  return possible.filter(({ adds }) => adds * most > 0 && adds / most >= OF_THE_SIZE).map(({ scenario }) => scenario);
}

function twoHumps(
  draws: number,
  { members, without, so }: { members: readonly Scenario[]; without: Float64Array; so: Float64Array },
): Hump[] {
  const names = members.map(({ name }) => name.replaceAll('-', ' ')).join(' or ');
  const part = (values: Float64Array) => ({
    chance: toFourDecimals(values.length / draws),
    p50Cents: Math.round(quantile(values, 0.5)),
  });
  const [usual, changed] = [part(without), part(so)];
  const said = ({ chance, p50Cents }: typeof usual) => `${Math.round(chance * 100)} % around ${wholeDollars(p50Cents)}`;
  return [
    { ...usual, because: `Two cases, not one wide one: ${said(usual)}, and, with ${names}, ${said(changed)}.` },
    { ...changed, because: members.map(({ because }) => because).join(' ') },
  ];
}
