import { useQuery } from '@tanstack/react-query';
import { exactDollars, number, unitPrice } from '../../server/drawing/wording.ts';
import type { PriceItem } from '../../server/estimate/price-book.ts';
import { itemHistory } from '../api.ts';
import { dayOf } from '../parts/dates.ts';
import { OFFER_FIELD, POINTS } from './points.ts';

/** Every price that an item had, newest first. */
export function PriceHistory({ item }: { item: PriceItem }) {
  const history = useQuery({
    queryKey: ['history', item.key, item.revision],
    queryFn: () => itemHistory(item.key),
  });
  const isMoney = item.kind === 'price' || item.kind === 'rate';
  const point = (value: number) => (isMoney ? `$${unitPrice(value)}` : number(value, 4));
  if (history.error) return <p>{history.error.message}</p>;
  return (
    <table className="history">
      <caption>Every price that it had, the newest first</caption>
      <thead>
        <tr>
          <th scope="col">Changed</th>
          <th scope="col">Book</th>
          <th scope="col" className="figure">
            Low
          </th>
          <th scope="col" className="figure">
            Likely
          </th>
          <th scope="col" className="figure">
            High
          </th>
        </tr>
      </thead>
      <tbody>
        {(history.data ?? []).flatMap((row) => [
          <tr key={row.revision}>
            <td>
              {row.change} {dayOf(row.at)}, by {row.cause}: {row.item.source}
              {row.item.supplier !== undefined && `, ${row.item.supplier}`}
            </td>
            <td>revision {row.bookRevision}</td>
            {POINTS.map((name) => (
              <td key={name} className="figure">
                {point(row.item[name])}
              </td>
            ))}
          </tr>,
          ...row.item.offers.map((offer) => (
            <tr key={`${row.revision} ${offer.package} ${offer.quantity}`} className="past-offer">
              <td colSpan={2}>{offer.package}</td>
              {POINTS.map((name) => (
                <td key={name} className="figure">
                  ${exactDollars(offer[OFFER_FIELD[name]])}
                </td>
              ))}
            </tr>
          )),
        ])}
      </tbody>
    </table>
  );
}
