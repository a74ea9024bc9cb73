import type { Line, Totals } from './answer.ts';
import { type ClassCents, costByClass, markupBpOf, priceShareOf } from './class-cost.ts';
import type { Description } from './description.ts';
import { incentivesOf } from './incentives.ts';
import { InputError } from './input-problems.ts';
import { roundHalfAway, shareOfCents } from './money.ts';
import { BOUNDS, LINE_CLASSES } from './vocabulary.ts';

type Terms = Description['terms'];
const BP = 10_000n;

/**
 * The money formula: every total follows from the lines and the terms, each step rounded once, half away from zero.
 * Whole cents; a discount and an incentive are positive numbers that are taken off.
 * @throws {InputError} at `terms.discountCents` when a discount takes the price below 0, and where a total grows
 *   beyond the bound on sums
 */
export function totalsOf(lines: readonly Pick<Line, 'class' | 'amountCents'>[], description: Description): Totals {
  const { terms } = description;
  const cost = costByClass(lines);
  const costCents = sumOf(cost);
  const markupCents = roundHalfAway(sumOfBig(markupParts(cost, terms)), BP);
  const overheadCents = shareOfCents({ cents: costCents, bp: terms.overheadBp });
  const subtotal = costCents + markupCents + overheadCents;
  const contingencyCents = shareOfCents({ cents: subtotal, bp: terms.contingencyBp });
  const profitCents = profitOf(subtotal + contingencyCents, terms);
  const before = subtotal + contingencyCents + profitCents;
  const { discountCents } = terms;
  if (discountCents > before) {
    const message = `must be at most ${before} cents, the price before it, not ${discountCents}`;
    throw new InputError([{ path: 'terms.discountCents', message }]);
  }
  const priceCents = before - discountCents;
  const taxCents = taxOf({ cost, priceCents, terms });
  const totalCents = withinBounds(priceCents + taxCents);
  const certain = incentivesOf({ cost, priceCents, totalCents, description }).filter((incentive) => incentive.certain);
  const incentiveCents = certain.reduce((sum, { cents }) => sum + cents, 0);
  return {
    materialCents: cost.material,
    laborCents: cost.labor,
    equipmentCents: cost.equipment,
    feeCents: cost.fee,
    costCents,
    markupCents,
    overheadCents,
    contingencyCents,
    profitCents,
    discountCents,
    taxCents,
    totalCents,
    incentiveCents,
    netCents: totalCents - incentiveCents,
  };
}

const sumOf = (cost: ClassCents) => LINE_CLASSES.reduce((sum, name) => sum + cost[name], 0);
const sumOfBig = (values: readonly bigint[]) => values.reduce((sum, value) => sum + value, 0n);

/** Class cost × basis points, not yet divided: the sum is rounded once. */
function markupParts(cost: ClassCents, terms: Terms): bigint[] {
  return LINE_CLASSES.map((name) => BigInt(cost[name]) * BigInt(markupBpOf(name, terms)));
}

/** Profit on the cost, or on the price: then the price is what leaves that share over. */
function profitOf(baseCents: number, { profitBp, profitOn }: Terms): number {
  if (profitOn === 'cost') return shareOfCents({ cents: baseCents, bp: profitBp });
  return roundHalfAway(BigInt(baseCents) * BigInt(profitBp), BP - BigInt(profitBp));
}

function taxOf({ cost, priceCents, terms }: { cost: ClassCents; priceCents: number; terms: Terms }): number {
  const { taxBp, taxOn, taxBase } = terms;
  if (taxBase === 'cost') {
    const taxed = LINE_CLASSES.filter((name) => taxOn.includes(name)).reduce((sum, name) => sum + cost[name], 0);
    return shareOfCents({ cents: taxed, bp: taxBp });
  }
  const { part, whole } = priceShareOf({ classes: taxOn, cost, terms });
  return whole === 0n ? 0 : roundHalfAway(BigInt(priceCents) * part * BigInt(taxBp), whole * BP);
}

function withinBounds(totalCents: number): number {
  if (totalCents < BOUNDS.maxCents) return totalCents;
  const message = `gives a total of ${totalCents} cents; sums must stay below ${BOUNDS.maxCents} cents`;
  throw new InputError([{ path: 'terms', message }]);
}
