import type { PriceCause } from '../../db/price-book.ts';

/** By what a price was changed, in plain words. */
export const CAUSE_WORDS: Record<PriceCause, string> = {
  edit: 'edit',
  import: 'import',
  seed: 'the starting book',
  several: 'a change of several',
  index: 'an index',
  undo: 'undoing',
  restore: 'restoring',
  'supplier-list': "a supplier's list",
};
