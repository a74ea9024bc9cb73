import { listAt } from '../json.ts';
import type { Quote, quotedOption } from './quote-api.ts';

type Option = NonNullable<ReturnType<typeof quotedOption>>;

/** What the total of a quote holds and the range of its estimate does not, in words; undefined where they hold the same. */
export function leftOutOfRange(
  { stated }: Pick<Quote, 'stated'>,
  { totals }: { totals: Pick<Option['totals'], 'contingencyCents'> },
): string | undefined {
  const left = [
    ...(listAt(stated, 'allowances').length > 0 ? ['allowances'] : []),
    ...(totals.contingencyCents > 0 ? ['contingency'] : []),
  ];
  return left.length > 0 ? left.join(' and ') : undefined;
}
