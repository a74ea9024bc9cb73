import { trying } from '../../server/estimate/changed-option.ts';
import type { Description } from '../../server/estimate/description.ts';
import { estimatesOnce, type OptionEstimate } from '../../server/estimate/option-estimate.ts';
import type { Book } from '../../server/estimate/price-book.ts';
import { SEEDED } from './fields/priced.ts';

/** The options of a description as estimated, and how changed ones are asked for: what is planned anew starts from this. */
export function around(description: Description, book: Book = SEEDED) {
  const estimateChanged = estimatesOnce(description, book);
  const planned = description.options.map((option) => estimateChanged(option));
  return { planned, tryChanged: trying(estimateChanged) };
}

/** The first of them; a description has one at least. */
export function firstOf(planned: readonly OptionEstimate[]): OptionEstimate {
  const [first] = planned;
  if (!first) throw new Error('A description has an option.');
  return first;
}
