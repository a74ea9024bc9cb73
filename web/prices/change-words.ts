import { counted, exactDollars, number, unitPrice, wholeDollars } from '../../server/drawing/wording.ts';
import type { Estimate } from '../../server/estimate/answer.ts';
import type { Offer, PriceItem, PriceItemInput } from '../../server/estimate/price-book.ts';
import type { SeveralChange } from './book-api.ts';
import { OFFER_FIELD, POINTS } from './points.ts';

/** An item before and after a change; one of them is missing where it was added or removed. */
export interface ChangeStep {
  before?: PriceItem;
  after?: PriceItem;
}

/** A point as its item counts it: money as `$2.62`, hours and factors as they are. */
export function pointText(value: number, { kind }: Pick<PriceItem, 'kind'>): string {
  return kind === 'price' || kind === 'rate' ? `$${unitPrice(value)}` : number(value, 4);
}

const fromTo = (before: string, after: string) => `${before} → ${after}`;

function offerWords(before: Offer, after: Offer): string[] {
  const points = POINTS.filter((point) => before[OFFER_FIELD[point]] !== after[OFFER_FIELD[point]]).map((point) => {
    const text = (offer: Offer) => `$${exactDollars(offer[OFFER_FIELD[point]])}`;
    return `${point} of ${after.package} ${fromTo(text(before), text(after))}`;
  });
  if (before.available === after.available) return points;
  return [...points, `${after.package} ${after.available ? 'to be had again' : 'not to be had'}`];
}

function offersWords(before: readonly Offer[], after: readonly Offer[]): string[] {
  const same = (one: Offer, other: Offer) => one.package === other.package && one.quantity === other.quantity;
  const gone = before.filter((offer) => !after.some((other) => same(offer, other)));
  return [
    ...after.flatMap((offer) => {
      const was = before.find((other) => same(offer, other));
      return was ? offerWords(was, offer) : [`${offer.package} added at $${exactDollars(offer.likelyCents)}`];
    }),
    ...gone.map((offer) => `${offer.package} taken out`),
  ];
}

/** What differs between two states of one item, in words; the date and source that come along are not said. */
export function differences(before: PriceItemInput, after: PriceItemInput): string[] {
  const packages = offersWords(before.offers, after.offers);
  const points = POINTS.filter((point) => before[point] !== after[point]).map(
    (point) => `${point} ${fromTo(pointText(before[point], before), pointText(after[point], after))}`,
  );
  const prices = packages.length > 0 ? packages : points; // the price by the unit follows from the packages
  const said = [
    ...prices,
    ...(before.available === after.available ? [] : [after.available ? 'to be had again' : 'not to be had']),
    ...(before.supplier === after.supplier
      ? []
      : [`supplier ${fromTo(before.supplier ?? 'none', after.supplier ?? 'none')}`]),
  ];
  if (said.length > 0) return said;
  const others = [
    ...(before.source === after.source ? [] : [`source ${fromTo(before.source, after.source)}`]),
    ...(before.date === after.date ? [] : [`date ${fromTo(before.date, after.date)}`]),
  ];
  return others.length > 0 ? others : ['other words of it'];
}

/** One change in words, as the command that undoes it names it. */
export function changeWords({ before, after }: ChangeStep): string {
  if (!before) return `${after?.description ?? ''} added`;
  if (!after) return `${before.description} removed`;
  const [said = '', ...others] = differences(before, after);
  return `${before.description}: ${said}${others.length > 0 ? ` and ${counted(others.length, 'more point')}` : ''}`;
}

/** A change of several items in words. */
export function severalWords(count: number, change: SeveralChange): string {
  const items = counted(count, 'item');
  if ('raiseBp' in change) return `${items} ${percentWords(change.raiseBp / 100)}`;
  if ('indexFactor' in change) return `${change.of}: ${items} ${percentWords((change.indexFactor - 1) * 100)} by index`;
  if ('available' in change) return `${items} marked as ${change.available ? 'to be had' : 'not to be had'}`;
  return change.supplier === null ? `${items} without a supplier` : `${items} at ${change.supplier}`;
}

/** `raised by 8 %`, `cut by 2.5 %`. */
function percentWords(percent: number): string {
  return `${percent < 0 ? 'cut' : 'raised'} by ${number(Math.abs(percent), 2)} %`;
}

/** What a change of the book did to the options of a project, in words. */
export function effectWords(before: Estimate | undefined, after: Estimate | undefined): string | undefined {
  if (!before || !after) return undefined;
  const was = new Map(before.options.map(({ id, totals }) => [id, totals.totalCents]));
  const moved = after.options.flatMap(({ id, label, totals }) => {
    const cents = totals.totalCents - (was.get(id) ?? totals.totalCents);
    if (cents === 0) return [];
    const by = Math.abs(cents) < 100 ? `${number(Math.abs(cents))} ¢` : wholeDollars(Math.abs(cents));
    return [`${label} ${by} ${cents > 0 ? 'dearer' : 'cheaper'}`];
  });
  return moved.length > 0 ? moved.join(', ') : 'no total changes';
}
