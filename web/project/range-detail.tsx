import { number, wholeDollars } from '../../server/drawing/wording.ts';
import type { EstimateOption, Range } from '../../server/estimate/answer.ts';
import type { BarScale } from '../parts/range-bar.tsx';
import { plain } from '../parts/words.ts';
import { contingencyInWords } from './headline.ts';
import { RangeShape } from './range-shape.tsx';
import { ReasonsList } from './reasons-list.tsx';

interface RangeDetailProps {
  option: EstimateOption;
  onShowField: (path: string) => void;
}

/** Where the range comes from: how often the total lies where, what draws it apart, and what may be so. */
export function RangeDetail({ option: { range, totals }, onShowField }: RangeDetailProps) {
  if (!range) return null;
  const contingency = contingencyInWords(totals);
  return (
    <section className="detail-part" id="range">
      <h2>
        Range: {wholeDollars(range.p10Cents)} to {wholeDollars(range.p90Cents)}, half of the time below{' '}
        {wholeDollars(range.p50Cents)}
        {contingency && <small>; {contingency}</small>}
      </h2>
      {range.shape?.shares.length > 0 && <RangeShape range={range} />}
      <ReasonsList because={range.because ?? []} />
      <Drivers range={range} />
      <Chances range={range} onShowField={onShowField} />
    </section>
  );
}

/** One scale for all drivers, so that they can be compared by eye. */
function driverScale({ drivers, p10Cents, p90Cents }: Range): BarScale {
  return {
    fromCents: Math.min(p10Cents, ...drivers.map(({ lowCents }) => lowCents)),
    toCents: Math.max(p90Cents, ...drivers.map(({ highCents }) => highCents)),
  };
}

function Drivers({ range }: { range: Range }) {
  if (range.drivers.length === 0) return null;
  const { fromCents, toCents } = driverScale(range);
  const at = (cents: number) => (100 * (cents - fromCents)) / Math.max(1, toCents - fromCents);
  return (
    <table className="drivers">
      <thead>
        <tr>
          <th scope="col">What draws it apart</th>
          <th scope="col" className="wide-only" />
          <th scope="col" className="figure">
            Total from, to
          </th>
        </tr>
      </thead>
      <tbody>
        {range.drivers.map(({ name, lowCents, highCents }) => (
          <tr key={name}>
            <th scope="row">{plain(name)}</th>
            <td className="wide-only driver-bar">
              <svg className="range-bar" viewBox="0 0 100 8" preserveAspectRatio="none" aria-hidden="true">
                <line className="range-base" x1="0" x2="100" y1="4" y2="4" />
                <line className="range-span" x1={at(lowCents)} x2={at(highCents)} y1="4" y2="4" />
              </svg>
            </td>
            <td className="figure">
              {wholeDollars(lowCents)} to {wholeDollars(highCents)}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Chances({ range: { chances }, onShowField }: { range: Range; onShowField: (path: string) => void }) {
  if (chances.length === 0) return null;
  return (
    <table className="chances">
      <thead>
        <tr>
          <th scope="col">What may be so</th>
          <th scope="col" className="figure">
            Chance
          </th>
          <th scope="col" className="figure">
            Then it adds
          </th>
        </tr>
      </thead>
      <tbody>
        {chances.map(({ name, chance, addsCents, because }) => (
          <tr key={name}>
            <th scope="row">
              {plain(name)}
              <small className="block">{because}</small>
            </th>
            <td className="figure">
              <button
                type="button"
                aria-label={`State another chance of ${plain(name)}`}
                onClick={() => onShowField(`chances.${name}`)}
              >
                {number(chance * 100, 1)} %
              </button>
            </td>
            <td className="figure">{wholeDollars(addsCents)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
