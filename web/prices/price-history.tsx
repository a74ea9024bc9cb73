import { useQuery } from '@tanstack/react-query';
import { exactDollars, number } from '../../server/drawing/wording.ts';
import type { Offer, PriceItem } from '../../server/estimate/price-book.ts';
import { itemHistory, type PriceHistoryEntry } from '../api.ts';
import { momentOf } from '../parts/dates.ts';
import { TextButton } from '../parts/word-fields.tsx';
import { CAUSE_WORDS } from './cause-words.ts';
import { differences, pointText } from './change-words.ts';
import { HistoryChart } from './history-chart.tsx';
import { OFFER_FIELD, POINTS } from './points.ts';
import type { BookChanges } from './use-book-changes.ts';

interface HistoryProps {
  item: PriceItem;
  changes: BookChanges;
}

/** Every price that an item had, drawn and listed, the newest first; each can be put back. */
export function PriceHistory({ item, changes }: HistoryProps) {
  const history = useQuery({
    queryKey: ['history', item.key, item.revision],
    queryFn: () => itemHistory(item.key),
  });
  if (history.error) return <p>{history.error.message}</p>;
  const entries = history.data ?? [];
  return (
    <div className="past">
      <HistoryChart item={item} entries={entries} />
      <div className="history-frame">
        <table className="history">
          <caption>Every price that it had, the newest first</caption>
          <HistoryHead />
          <tbody>
            {entries.flatMap((entry, at) => [
              <tr key={entry.revision}>
                <td>
                  <ChangeOf entry={entry} before={entries[at + 1]} />
                </td>
                <td className="nowrap">revision {entry.bookRevision}</td>
                {POINTS.map((name) => (
                  <td key={name} className="figure">
                    {pointText(entry.item[name], item)}
                  </td>
                ))}
                <td>
                  {at > 0 && (
                    <TextButton
                      label={`Restore ${item.description} as of revision ${entry.bookRevision}`}
                      onPress={() => changes.restore(item, entry.revision)}
                    >
                      restore
                    </TextButton>
                  )}
                </td>
              </tr>,
              ...changedOffers(entry, entries[at + 1]).map((offer) => (
                <tr key={`${entry.revision} ${offer.package} ${offer.quantity}`} className="past-offer">
                  <td colSpan={2}>{offer.package}</td>
                  {POINTS.map((name) => (
                    <td key={name} className="figure">
                      ${exactDollars(offer[OFFER_FIELD[name]])}
                    </td>
                  ))}
                  <td />
                </tr>
              )),
            ])}
          </tbody>
        </table>
      </div>
    </div>
  );
}

/** The packages that this state has otherwise than the one before it; of the first state all. */
function changedOffers({ item }: PriceHistoryEntry, before: PriceHistoryEntry | undefined): Offer[] {
  const were = new Set(before?.item.offers.map((offer) => JSON.stringify(offer)));
  return item.offers.filter((offer) => !were.has(JSON.stringify(offer)));
}

function HistoryHead() {
  return (
    <thead>
      <tr>
        <th scope="col">Changed</th>
        <th scope="col">Book</th>
        {['Low', 'Likely', 'High'].map((point) => (
          <th key={point} scope="col" className="figure">
            {point}
          </th>
        ))}
        <th scope="col">
          <span className="visually-hidden">Put back</span>
        </th>
      </tr>
    </thead>
  );
}

/** When it was changed, by what, from what, and on whose word. */
function ChangeOf({ entry, before }: { entry: PriceHistoryEntry; before: PriceHistoryEntry | undefined }) {
  const { change, at, cause, by, why, item } = entry;
  const from = change === 'changed' && before ? differences(before.item, item).join(', ') : '';
  return (
    <>
      {change} {momentOf(at)}, {by === undefined ? `by ${CAUSE_WORDS[cause]}` : `by ${by}, ${CAUSE_WORDS[cause]}`}
      {from && `: ${from}`}
      {why !== undefined && `, because: ${why}`}{' '}
      <small>
        {item.source}
        {item.supplier !== undefined && `, ${item.supplier}`}
        {before && moved(before.item, item)}
      </small>
    </>
  );
}

/** By how much the likely price moved. */
function moved(before: PriceItem, after: PriceItem): string {
  if (before.likely === after.likely || before.likely === 0) return '';
  const percent = (after.likely / before.likely - 1) * 100;
  return `, ${percent > 0 ? '+' : '−'}${number(Math.abs(percent), 1)} %`;
}
