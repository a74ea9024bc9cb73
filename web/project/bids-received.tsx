import { wholeDollars } from '../../server/drawing/wording.ts';
import type { EstimateOption, LevelledBid } from '../../server/estimate/answer.ts';
import { Article, SeverityWord } from '../parts/severity.tsx';
import { plain } from '../parts/words.ts';
import { ReasonsList } from './reasons-list.tsx';

const PLACES: Record<NonNullable<LevelledBid['place']>, string> = {
  below: 'below the range',
  within: 'within the range',
  above: 'above the range',
};

interface BidsProps {
  bids: readonly LevelledBid[];
  options: readonly EstimateOption[];
}

/** Bids made comparable: what each leaves out is added, and what it offers is held against the rules. */
export function BidsReceived({ bids, options }: BidsProps) {
  if (bids.length === 0) return null;
  return (
    <section className="detail-part" id="bids">
      <h2>Bids received</h2>
      <table className="bids">
        <thead>
          <tr>
            <th scope="col">Bid</th>
            <th scope="col" className="figure">
              Asks
            </th>
            <th scope="col" className="figure">
              Made comparable
            </th>
            <th scope="col">Place</th>
          </tr>
        </thead>
        {bids.map((bid) => (
          <BidRows
            key={`${bid.from} ${bid.optionId} ${bid.totalCents}`}
            bid={bid}
            label={options.find(({ id }) => id === bid.optionId)?.label ?? bid.optionId}
          />
        ))}
      </table>
    </section>
  );
}

function BidRows({ bid, label }: { bid: LevelledBid; label: string }) {
  const { from, totalCents, levelledCents, place, missing, findings, questions } = bid;
  const warns = findings.filter(({ severity }) => severity !== 'ok');
  return (
    <tbody>
      <tr>
        <th scope="row">
          {from} <small>for “{label}”</small>
        </th>
        <td className="figure">{wholeDollars(totalCents)}</td>
        <td className="figure">{wholeDollars(levelledCents)}</td>
        <td>{place && PLACES[place]}</td>
      </tr>
      <tr className="reasons">
        <td colSpan={4}>
          {missing.length > 0 && <p>It leaves out: {missing.map(plain).join(', ')}.</p>}
          <ul className="plain-list rules">
            {warns.map(({ rule, severity, message, citation }) => (
              <li key={`${rule} ${message}`}>
                <SeverityWord severity={severity} /> {message} {citation && <Article citation={citation} />}
              </li>
            ))}
          </ul>
          {questions.length > 0 && (
            <details className="more">
              <summary>To ask of {from}</summary>
              <ReasonsList because={questions} />
            </details>
          )}
        </td>
      </tr>
    </tbody>
  );
}
