import { trying } from '../../server/estimate/changed-option.ts';
import type { Description } from '../../server/estimate/description.ts';
import { changedOptions, estimateOption, type OptionEstimate } from '../../server/estimate/option-estimate.ts';
import type { Book } from '../../server/estimate/price-book.ts';
import { SEEDED } from './fields/priced.ts';

/** The options of a description as estimated, and how changed ones are asked for: what is planned anew starts from this. */
export function around(description: Description, book: Book = SEEDED) {
  const planned = description.options.map((option) => estimateOption({ description, option, book }));
  return { planned, tryChanged: trying(changedOptions({ description, book }, planned)) };
}

/** The first of them; a description has one at least. */
export function firstOf(planned: readonly OptionEstimate[]): OptionEstimate {
  const [first] = planned;
  if (!first) throw new Error('A description has an option.');
  return first;
}
