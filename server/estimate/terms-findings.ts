import type { Finding } from './answer.ts';
import type { Description } from './description.ts';

/**
 * What the terms make of the total: whether it is a cost that looks like a price, and whether a billed hour is charged
 * for twice. Common practice, no source.
 */
export function termsFindings({ terms }: Pick<Description, 'terms'>): Finding[] {
  const { who, laborRateIs, markup, overheadBp, profitBp } = terms;
  if (who === 'owner') return [];
  const marksUp = Object.values(markup).some((shareBp) => shareBp > 0);
  if (laborRateIs === 'cost' && !marksUp && overheadBp === 0 && profitBp === 0) {
    return [
      {
        rule: 'cost-without-overhead',
        severity: 'caution',
        message:
          "These are costs: no overhead and no profit is in the total. A contractor's bid has both: state them in the terms, or take the total for what the work costs its maker.",
        numbers: { overheadBp, profitBp },
      },
    ];
  }
  if (laborRateIs === 'billed' && (markup.laborBp > 0 || overheadBp > 0 || profitBp > 0)) {
    return [
      {
        rule: 'billed-rate-counts-twice',
        severity: 'caution',
        message:
          'A billed hour already holds overhead and profit; with a markup of labor, overhead or profit on top they count twice. State what an hour costs, or leave these at 0.',
        numbers: { laborBp: markup.laborBp, overheadBp, profitBp },
      },
    ];
  }
  return [];
}
