import { type ClassCents, markupBpOf } from '../class-cost.ts';
import type { Description } from '../description.ts';
import { LINE_CLASSES, type LineClass } from '../vocabulary.ts';

type Terms = Description['terms'];
type Weights = Record<LineClass, number>;

const BP = 10_000;

/**
 * The total of a drawn cost by the money formula, in fractions of a cent and without contingency: what makes a job up
 * to its minimum is reckoned anew, and a price that a discount takes below 0 is 0.
 */
export function drawnTotal(terms: Terms): (drawn: ClassCents) => number {
  const markedUp = weights((name) => 1 + markupBpOf(name, terms) / BP);
  const taxable = weights((name) => (terms.taxOn.includes(name) ? 1 : 0));
  const taxableMarkedUp = weights((name) => taxable[name] * markedUp[name]);
  const profit = 1 + (terms.profitOn === 'cost' ? terms.profitBp / BP : terms.profitBp / (BP - terms.profitBp));
  const minimumCents = terms.who === 'owner' ? 0 : terms.minimumCents;
  return (drawn) => {
    const stated = drawn.material + drawn.labor + drawn.equipment + drawn.fee;
    const missing = Math.max(0, minimumCents - stated);
    const cost = missing > 0 ? { ...drawn, labor: drawn.labor + missing } : drawn;
    const marked = weighted(cost, markedUp);
    const subtotal = marked + ((stated + missing) * terms.overheadBp) / BP;
    const price = Math.max(0, subtotal * profit - terms.discountCents);
    const share = marked > 0 ? weighted(cost, taxableMarkedUp) / marked : 0;
    const taxed = terms.taxBase === 'cost' ? weighted(cost, taxable) : price * share;
    return price + (taxed * terms.taxBp) / BP;
  };
}

function weights(of: (name: LineClass) => number): Weights {
  const made: Weights = { material: 0, labor: 0, equipment: 0, fee: 0 };
  for (const name of LINE_CLASSES) made[name] = of(name);
  return made;
}

function weighted(cost: ClassCents, by: Weights): number {
  return cost.material * by.material + cost.labor * by.labor + cost.equipment * by.equipment + cost.fee * by.fee;
}
