import type { Finding } from './answer.ts';
import type { Description } from './description.ts';
import { rateByKey } from './labor.ts';
import { nearWord } from './near-words.ts';
import type { Book } from './price-book.ts';

type Terms = Description['terms'];

/**
 * What the terms make of the total: whether it is a cost that looks like a price, and whether a billed hour is charged
 * for twice; and rates that the book does not have. Common practice, no source.
 */
export function termsFindings({ terms }: Pick<Description, 'terms'>, book: Book): Finding[] {
  return [...costFindings(terms), ...rateFindings(terms, book)];
}

/**
 * Is the total what the work costs its maker, and no price: hours at cost, and no markup, overhead or profit on them?
 * Not for an owner, who pays himself neither.
 */
export function isBareCost({ who, laborRateIs, markup, overheadBp, profitBp }: Terms): boolean {
  const marksUp = Object.values(markup).some((shareBp) => shareBp > 0);
  return who !== 'owner' && laborRateIs === 'cost' && !marksUp && overheadBp === 0 && profitBp === 0;
}

/** Names that the book has no rate under: the hours that they should price are left without a price, or at the labor rate. */
function rateFindings({ who, laborRate, crew = [] }: Terms, book: Book): Finding[] {
  if (who === 'owner') return [];
  const unknown = (key: string) => rateByKey(book, key) === undefined;
  const meant = (key: string) => {
    const rates = book.items.flatMap(({ kind, key: name }) => (kind === 'rate' ? [name] : []));
    const near = nearWord(key, rates);
    return near ? ` Did you mean "${near}"?` : '';
  };
  const ofCrew = crew
    .filter(({ rate }) => unknown(rate))
    .map(
      ({ rate }): Finding => ({
        rule: 'unknown-rate',
        severity: 'caution',
        message: `crew names "${rate}", and the price book has no rate of that name: these hours count at the labor rate.${meant(rate)}`,
        numbers: { rate },
      }),
    );
  if (laborRate === undefined || !unknown(laborRate)) return ofCrew;
  const message = `laborRate names "${laborRate}", and the price book has no rate of that name: labor is left without a price.${meant(laborRate)}`;
  return [{ rule: 'unknown-rate', severity: 'caution', message, numbers: { rate: laborRate } }, ...ofCrew];
}

function costFindings(terms: Terms): Finding[] {
  const { who, laborRateIs, markup, overheadBp, profitBp } = terms;
  if (who === 'owner') return [];
  if (isBareCost(terms)) {
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
