import { Fragment, useState } from 'react';
import { LEG_WORDS, number, wholeDollars, wiringMethod } from '../../server/drawing/wording.ts';
import type { Run, RunLeg } from '../../server/estimate/answer.ts';
import type { Leg } from '../../server/estimate/description.ts';
import { Article } from '../parts/severity.tsx';
import { ReasonsList } from './reasons-list.tsx';

interface RunLegsProps {
  run: Run;
  route: readonly Leg[];
  selectedLeg: number;
  onSelectLeg: (leg: number) => void;
}

/** How each leg of a run is laid. A leg opens into its reasons, and into what else could lie there and why it does not. */
export function RunLegs({ run, route, selectedLeg, onSelectLeg }: RunLegsProps) {
  if (run.legs.length === 0) return null;
  return (
    <table className="run-legs">
      <thead>
        <tr>
          <th scope="col">Leg</th>
          <th scope="col">Laid as</th>
          <th scope="col" className="figure wide-only">
            Fill
          </th>
          <th scope="col" className="figure">
            Cover
          </th>
        </tr>
      </thead>
      <tbody>
        {run.legs.map((leg) => (
          <LegRow
            key={leg.leg}
            leg={leg}
            name={route[leg.leg] ? LEG_WORDS[route[leg.leg]?.kind ?? 'joists'] : ''}
            isSelected={leg.leg === selectedLeg}
            onSelect={() => onSelectLeg(leg.leg)}
          />
        ))}
      </tbody>
    </table>
  );
}

interface LegRowProps {
  leg: RunLeg;
  name: string;
  isSelected: boolean;
  onSelect: () => void;
}

function LegRow({ leg, name, isSelected, onSelect }: LegRowProps) {
  const [isOpen, setOpen] = useState(false);
  const people = leg.leg + 1;
  return (
    <Fragment>
      <tr className={isSelected ? 'line selected' : 'line'}>
        <th scope="row">
          <button
            type="button"
            aria-expanded={isOpen}
            aria-label={`Reasons of leg ${people}, ${name}`}
            onClick={() => {
              setOpen(!isOpen);
              if (!isOpen) onSelect();
            }}
          >
            {people} · {name}
          </button>
        </th>
        <td>
          {wiringMethod(leg)} {leg.insulation !== leg.method && <small>{leg.insulation.toUpperCase()}</small>}
        </td>
        <td className="figure wide-only">{leg.conduit && `${number(leg.conduit.fillPercent, 0)} %`}</td>
        <td className="figure">{leg.coverIn !== undefined && `${number(leg.coverIn)} in`}</td>
      </tr>
      {isOpen && (
        <tr className="reasons">
          <td colSpan={4}>
            <div className="reasons-body">
              <ReasonsList because={leg.because} />
              <Others leg={leg} />
            </div>
          </td>
        </tr>
      )}
    </Fragment>
  );
}

/** The other methods, each with the rule that forbids it, or with what it would cost more. */
function Others({ leg: { leg, others } }: { leg: RunLeg }) {
  if (others.length === 0) return null;
  return (
    <table className="others" aria-label={`Other ways of laying leg ${leg + 1}`}>
      <thead>
        <tr>
          <th scope="col">Not taken</th>
          <th scope="col">Why not</th>
        </tr>
      </thead>
      <tbody>
        {others.map(({ method, forbiddenBy, moreCents, because }) => (
          <tr key={method}>
            <th scope="row">{wiringMethod({ method })}</th>
            <td>
              {moreCents !== undefined && <strong>{moneyMore(moreCents)}. </strong>}
              {because} {forbiddenBy && <Article citation={forbiddenBy} />}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function moneyMore(moreCents: number): string {
  if (moreCents === 0) return 'It costs the same';
  return `${wholeDollars(Math.abs(moreCents))} ${moreCents > 0 ? 'more' : 'less'}`;
}
