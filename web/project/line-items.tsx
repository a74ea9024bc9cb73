import { Fragment, useState } from 'react';
import { counted, exactDollars, guessedFeet, LEG_WORDS, number, unitPrice } from '../../server/drawing/wording.ts';
import type { EstimateOption, Line } from '../../server/estimate/answer.ts';
import type { Leg } from '../../server/estimate/description.ts';
import { legNames } from '../parts/leg-names.ts';
import { Article, SeverityWord } from '../parts/severity.tsx';
import { type Choice, plain } from '../parts/words.ts';

interface LineItemsProps {
  option: EstimateOption;
  route: readonly Leg[];
  selectedLeg: number;
  onSelectLeg: (leg: number) => void;
}

type Grouping = 'route' | 'scope' | 'class';
interface Group {
  name: string;
  leg?: number;
  lines: Line[];
}

/** Lines by the first leg that they serve, so that reading down is walking from the panel to the car. */
function byRoute(lines: readonly Line[], route: readonly Leg[]): Group[] {
  const whole = lines.filter(({ legs }) => legs.length === 0);
  const ofLeg = (leg: number) => lines.filter(({ legs }) => legs.length > 0 && Math.min(...legs) === leg);
  return [
    ...route.map((leg, at) => ({
      name: `${at + 1} · ${LEG_WORDS[leg.kind]}, ${guessedFeet(leg.lengthFt)}`,
      leg: at,
      lines: ofLeg(at),
    })),
    { name: 'both ends and the whole job', lines: whole },
  ];
}

function byWord(lines: readonly Line[], word: (line: Line) => string): Group[] {
  return [...new Set(lines.map(word))].map((name) => ({
    name: plain(name),
    lines: lines.filter((line) => word(line) === name),
  }));
}

const GROUPINGS: (Choice & { value: Grouping })[] = [
  { value: 'route', label: 'along the route' },
  { value: 'scope', label: 'by scope' },
  { value: 'class', label: 'by class' },
];

/** Every line of the open option. Each figure opens into quantity × price, its reasons, and the rules that hold there. */
export function LineItems({ option, route, selectedLeg, onSelectLeg }: LineItemsProps) {
  const [grouping, setGrouping] = useState<Grouping>('route');
  const groups = grouping === 'route' ? byRoute(option.lines, route) : byWord(option.lines, (line) => line[grouping]);
  return (
    <section className="lines-part" id="lines">
      <header className="part-head">
        <h2>Line items of “{option.label}”</h2>
        <fieldset className="grouping" aria-label="Order of the lines">
          {GROUPINGS.map(({ value, label }) => (
            <button key={value} type="button" aria-pressed={grouping === value} onClick={() => setGrouping(value)}>
              {label}
            </button>
          ))}
        </fieldset>
      </header>
      <table className="lines">
        <thead>
          <tr>
            <th scope="col">Item</th>
            <th scope="col" className="figure">
              Quantity
            </th>
            <th scope="col" className="figure wide-only">
              Price
            </th>
            <th scope="col" className="figure">
              Amount
            </th>
            <th scope="col" className="figure wide-only">
              Low to high
            </th>
          </tr>
        </thead>
        {groups
          .filter(({ lines }) => lines.length > 0)
          .map((group) => (
            <tbody key={group.name} className={group.leg === selectedLeg ? 'selected' : undefined}>
              <tr className="group">
                <th colSpan={5} scope="rowgroup">
                  {group.leg === undefined ? (
                    group.name
                  ) : (
                    <button type="button" onClick={() => onSelectLeg(group.leg ?? 0)}>
                      {group.name}
                    </button>
                  )}
                </th>
              </tr>
              {group.lines.map((line) => (
                <LineRow key={keyOf(line)} line={line} option={option} />
              ))}
            </tbody>
          ))}
      </table>
      {option.lines.some(({ stale }) => stale) && <p className="hint">† older than prices of its kind keep</p>}
    </section>
  );
}

/** Lines of one key differ by their package, or by the legs that they serve. */
const keyOf = (line: Line) => [line.key, line.package?.size, line.class, ...line.legs].join(' ');

function LineRow({ line, option }: { line: Line; option: EstimateOption }) {
  const [isOpen, setOpen] = useState(false);
  // `1 × 10 ft stick`, but `27 ft`
  const quantity = `${number(line.quantity, 4)} ${/^\d/.test(line.unit) ? '× ' : ''}${line.unit}`;
  return (
    <Fragment>
      <tr className={line.priced ? 'line' : 'line unpriced'}>
        <th scope="row">
          <button type="button" aria-expanded={isOpen} onClick={() => setOpen(!isOpen)}>
            {line.description}
          </button>
          {line.legs.length > 1 && <small> {legNames(line.legs)}</small>}
          {line.stale && (
            <small>
              {' '}
              <span aria-hidden="true">†</span>
              <span className="visually-hidden">old price</span>
            </small>
          )}
        </th>
        <td className="figure">{quantity}</td>
        <td className="figure wide-only">{line.priced ? unitPrice(line.unitPriceCents) : ''}</td>
        <td className="figure">{line.priced ? exactDollars(line.amountCents) : 'no price'}</td>
        <td className="figure wide-only">
          {line.priced ? `${exactDollars(line.lowCents)} to ${exactDollars(line.highCents)}` : ''}
        </td>
      </tr>
      {isOpen && (
        <tr className="reasons">
          <td colSpan={5}>
            <Reasons line={line} option={option} />
          </td>
        </tr>
      )}
    </Fragment>
  );
}

/** Figure → quantity × price → why → rule → article. */
function Reasons({ line, option }: { line: Line; option: EstimateOption }) {
  const rules = option.findings.filter(({ leg, citation }) => citation && leg !== undefined && line.legs.includes(leg));
  return (
    <div className="reasons-body">
      {line.priced ? (
        <p>
          {number(line.quantity, 4)} {line.unit} × ${unitPrice(line.unitPriceCents)} = ${exactDollars(line.amountCents)}
          ; low ${exactDollars(line.lowCents)}, high ${exactDollars(line.highCents)}
        </p>
      ) : (
        <p>The price book has no price for this. The total lacks it, and is not a whole one.</p>
      )}
      {line.package && (
        <p>
          Sold as {number(line.package.size)} {line.package.unit}; {number(line.taken, 4)} {line.takenUnit} are taken,{' '}
          {number(line.leftOver, 4)} {line.takenUnit} are left over.
        </p>
      )}
      {line.hours !== undefined && <p>{counted(line.hours, 'person-hour')}</p>}
      {line.because.length > 0 && (
        <ul className="plain-list">
          {line.because.map((reason) => (
            <li key={reason}>{reason}</li>
          ))}
        </ul>
      )}
      {rules.length > 0 && (
        <ul className="plain-list rules">
          {rules.map(({ rule, severity, message, citation, run }) => (
            <li key={`${rule} ${run ?? ''} ${message}`}>
              <SeverityWord severity={severity} /> {message} {citation && <Article citation={citation} />}
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}
