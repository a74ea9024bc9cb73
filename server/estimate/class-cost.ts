import type { Line } from './answer.ts';
import type { Description } from './description.ts';
import { LINE_CLASSES, type LineClass } from './vocabulary.ts';

type Markup = Pick<Description['terms'], 'markup'>;

/** Whole cents of each class. */
export type ClassCents = Record<LineClass, number>;

const BP_OF_WHOLE = 10_000n;

/** Σ amounts of the lines of each class. */
export function costByClass(lines: readonly Pick<Line, 'class' | 'amountCents'>[]): ClassCents {
  const cost: ClassCents = { material: 0, labor: 0, equipment: 0, fee: 0 };
  for (const line of lines) cost[line.class] += line.amountCents;
  return cost;
}

/** The markup of each class in its field of the terms, in basis points. */
export function markupBpOf(name: LineClass, { markup }: Markup): number {
  return markup[`${name}Bp`];
}

/**
 * The weight of some classes in the price: their cost with their markup, against that of all, as two whole numbers.
 * Overhead, profit and discount are spread by it.
 */
export function priceShareOf({
  classes,
  cost,
  terms,
}: {
  classes: readonly LineClass[];
  cost: ClassCents;
  terms: Markup;
}): { part: bigint; whole: bigint } {
  const weight = (name: LineClass) => BigInt(cost[name]) * (BP_OF_WHOLE + BigInt(markupBpOf(name, terms)));
  return {
    part: sum(LINE_CLASSES.filter((name) => classes.includes(name)).map(weight)),
    whole: sum(LINE_CLASSES.map(weight)),
  };
}

const sum = (values: readonly bigint[]) => values.reduce((total, value) => total + value, 0n);
