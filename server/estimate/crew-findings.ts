import type { Finding, Line } from './answer.ts';
import type { Description } from './description.ts';
import { laborRateKeyOf, rateByKey, rateOf } from './labor.ts';
import type { Book } from './price-book.ts';

/**
 * Says which members of the crew change no price: an hour is priced by the trade of its task, so that a rate whose trade
 * no task of the option has, such as a helper's, prices none. A rate that the book lacks is told of elsewhere.
 */
export function crewFindings(lines: readonly Line[], { terms }: Pick<Description, 'terms'>, book: Book): Finding[] {
  const named = terms.crew ?? [];
  if (named.length === 0) return [];
  const units = lines.flatMap((line) => (line.class === 'labor' ? (book.byKey(line.key) ?? []) : []));
  const worked = units.filter(({ kind }) => kind === 'labor-unit');
  if (worked.length === 0) return [];
  const paid = new Set(worked.map((unit) => rateOf(unit, { book, terms })?.key));
  const laborRate = laborRateKeyOf(terms);
  const unpaid = named.filter(({ rate }) => rateByKey(book, rate) && !paid.has(rate));
  return unpaid.map(({ rate, count }) => ({
    rule: 'crew-rate-unused',
    severity: 'note',
    message: `crew names "${rate}", and no task of this option is priced at it: its hours are reckoned at the rates of the tasks' trades, or at "${laborRate}". It makes the days fewer and no hour cheaper. Where an hour of this crew costs something else, give the book a rate for it and name that as laborRate.`,
    numbers: { rate, count },
  }));
}
