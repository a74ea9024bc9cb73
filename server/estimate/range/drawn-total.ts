import { markupBpOf } from '../class-cost.ts';
import type { Description } from '../description.ts';
import { LINE_CLASSES, type LineClass } from '../vocabulary.ts';

type Terms = Description['terms'];
type Weights = Record<LineClass, number>;

const BP = 10_000;

/** A total from what the four classes cost, all in cents. Four numbers, since it is asked for each of thousands of draws. */
export type TotalOf = (material: number, labor: number, equipment: number, fee: number) => number;

/**
 * The total of a drawn cost by the money formula, in fractions of a cent and without contingency: what makes a job up
 * to its minimum is reckoned anew, and a price that a discount takes below 0 is 0.
 */
export function drawnTotal(terms: Terms): TotalOf {
  const markedUp = weights((name) => 1 + markupBpOf(name, terms) / BP);
  const isTaxed = weights((name) => (terms.taxOn.includes(name) ? 1 : 0));
  const profit = 1 + (terms.profitOn === 'cost' ? terms.profitBp / BP : terms.profitBp / (BP - terms.profitBp));
  const minimumCents = terms.who === 'owner' ? 0 : terms.minimumCents;
  const tax = terms.taxBp / BP;
  return (material, drawnLabor, equipment, fee) => {
    const stated = material + drawnLabor + equipment + fee;
    const cost = Math.max(stated, minimumCents);
    const labor = drawnLabor + cost - stated;
    const materialPart = material * markedUp.material;
    const laborPart = labor * markedUp.labor;
    const equipmentPart = equipment * markedUp.equipment;
    const feePart = fee * markedUp.fee;
    const marked = materialPart + laborPart + equipmentPart + feePart;
    const price = Math.max(0, (marked + (cost * terms.overheadBp) / BP) * profit - terms.discountCents);
    if (terms.taxBase === 'cost') {
      const taxed =
        material * isTaxed.material + labor * isTaxed.labor + equipment * isTaxed.equipment + fee * isTaxed.fee;
      return price + tax * taxed;
    }
    const taxed =
      materialPart * isTaxed.material +
      laborPart * isTaxed.labor +
      equipmentPart * isTaxed.equipment +
      feePart * isTaxed.fee;
    return marked > 0 ? price * (1 + (tax * taxed) / marked) : price;
  };
}

function weights(of: (name: LineClass) => number): Weights {
  const made: Weights = { material: 0, labor: 0, equipment: 0, fee: 0 };
  for (const name of LINE_CLASSES) made[name] = of(name);
  return made;
}
