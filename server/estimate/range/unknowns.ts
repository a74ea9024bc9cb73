import type { Line, Unknown } from '../answer.ts';
import { legCosts } from '../leg-costs.ts';
import type { PlannedOption } from '../plan-types.ts';
import { lengthEffects, type PricedDraws, percentilesOf } from '../range.ts';
import { LINE_CLASSES, type LineClass } from '../vocabulary.ts';
import type { Known } from './mixture.ts';
import type { OpenFact } from './open-facts.ts';

/** The plan at its likely lengths and at all that were taken off, and the lines of the likely ones. */
interface Lengths {
  plan: PlannedOption;
  atLengths: readonly PlannedOption[];
  lines: readonly Line[];
}

/**
 * What is worth finding out, most money first: by how much the p10–p90 range narrows once the fact is known, on average
 * over what it may turn out to be. A guessed length is taken to turn out as its likely value.
 */
export function unknownsOf({
  priced,
  open,
  ...lengths
}: Lengths & { priced: PricedDraws; open: readonly OpenFact[] }): Unknown[] {
  const widthNow = widthOf(priced);
  const shares = lengthShares(lengths);
  const effects = lengthEffects(priced);
  const swings = open.map(({ leg, scenarios }) => {
    if (leg !== undefined) return widthNow - widthOf(priced, { withoutAtLength: shared(effects, shares[leg] ?? []) });
    const undecided = priced.drawn.scenarios.filter(({ name }) => (scenarios as readonly string[]).includes(name));
    return undecided.length > 0 ? widthNow - widthOnceKnown(priced, undecided) : 0;
  });
  return open
    .map(({ path, howToFindOut, whoCanTell }, at) => {
      const swingCents = Math.max(0, Math.round(swings[at] ?? 0));
      return { path, swingCents, howToFindOut, whoCanTell };
    })
    .sort((a, b) => b.swingCents - a.swingCents || (a.path < b.path ? -1 : 1));
}

function widthOf(priced: PricedDraws, known?: Known): number {
  const { p10, p90 } = percentilesOf(priced, known);
  return p90 - p10;
}

/** The width once it is known which of some scenarios are so: the mean over all that may turn out, each by its chance. */
function widthOnceKnown(
  priced: PricedDraws,
  undecided: readonly { name: string; givenChance: number }[],
  known: ReadonlyMap<string, boolean> = new Map(),
): number {
  const [first, ...others] = undecided;
  if (!first) return widthOf(priced, { scenarios: known });
  const { name, givenChance } = first;
  const when = (isSo: boolean) => widthOnceKnown(priced, others, new Map([...known, [name, isSo]]));
  const so = givenChance > 0 ? givenChance * when(true) : 0;
  return so + (givenChance < 1 ? (1 - givenChance) * when(false) : 0);
}

/** How much of what a length changes is each leg's, by leg and length: its feet off the likely ones, at what its feet cost. */
function lengthShares({ plan, atLengths, lines }: Lengths): number[][] {
  const { legs } = legCosts(
    { lines },
    plan.route.map(({ stated }) => stated),
  );
  const weights = atLengths.map(({ route }) =>
    plan.route.map(({ feet }, leg) => {
      const centsPerFt = Math.max(1, legs[leg]?.amountCents ?? 0) / feet.likely;
      return Math.abs((route[leg]?.feet.likely ?? feet.likely) - feet.likely) * centsPerFt;
    }),
  );
  const sums = weights.map((there) => there.reduce((sum, weight) => sum + weight, 0));
  return plan.route.map((_, leg) => weights.map((there, at) => (there[leg] ?? 0) / Math.max(1e-9, sums[at] ?? 0)));
}

function shared(effects: Record<LineClass, number[]>, shares: readonly number[]): Record<LineClass, number[]> {
  const of = (name: LineClass) => effects[name].map((cents, at) => cents * (shares[at] ?? 0));
  const [material, labor, equipment, fee] = LINE_CLASSES.map(of) as [number[], number[], number[], number[]];
  return { material, labor, equipment, fee };
}
