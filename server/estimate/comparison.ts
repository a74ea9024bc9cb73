import type { Comparison, EstimateOption } from './answer.ts';
import { whatItBuys } from './buys.ts';
import type { Description } from './description.ts';
import type { OptionEstimate } from './option-estimate.ts';
import { overnightOf } from './overnight.ts';

/**
 * Sets the options side by side. Only a buildable and complete option can be the cheapest; equal totals: the one
 * that was stated first.
 */
export function compare(options: readonly OptionEstimate[], description: Description): Comparison {
  const sound = options.filter(({ answer }) => answer.buildable && answer.complete);
  const cheapest = sound.reduce<OptionEstimate | null>(
    (least, option) => (least && totalOf(least) <= totalOf(option) ? least : option),
    null,
  );
  const base = cheapest ?? options[0];
  return {
    cheapest: cheapest?.answer.id ?? null,
    rows: options.map((option) => {
      const overnight = overnightOf(option.answer, description);
      return {
        option: option.answer.id,
        buildable: option.answer.buildable,
        differenceCents: totalOf(option) - (base ? totalOf(base) : 0),
        buys: base && option !== base ? whatItBuys({ option, base }) : [],
        ...(overnight && { overnight }),
      };
    }),
  };
}

const totalOf = ({ answer }: { answer: EstimateOption }) => answer.totals.totalCents;
