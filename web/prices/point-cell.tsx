import { type KeyboardEvent, useRef, useState } from 'react';
import { read, type Scale, written } from '../parts/field.ts';
import { inUnits } from '../parts/in-units.ts';
import { isSteering, steer } from './steering.ts';

interface PointCellProps {
  label: string;
  value: number;
  scale: Scale;
  problem: string | undefined;
  onCommit: (value: number) => void;
}

/** One price, changed where it stands: Enter takes it and goes on below, Escape puts back what was there. */
export function PointCell({ label, value, scale, problem, onCommit }: PointCellProps) {
  const [typed, setTyped] = useState<string>();
  const [known, setKnown] = useState(value);
  if (value !== known) {
    setKnown(value);
    setTyped(undefined);
  }
  const sent = useRef<string>(undefined);
  const commit = () => {
    if (typed === undefined || typed === sent.current) return; // leaving the field does not send it once more
    sent.current = typed;
    const meant = read(typed, { scale, emptied: 'missing' });
    if (meant === value) setTyped(undefined);
    else onCommit(meant as number); // what is no number goes as it was typed: the server refuses it at its path
  };
  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>) => {
    if (event.key === 'Escape') setTyped(undefined);
    if (event.key === 'Enter') commit();
    if (isSteering(event)) steer(event);
  };
  return (
    <td className="figure">
      <input
        className="point"
        aria-label={label}
        aria-invalid={problem !== undefined}
        inputMode="decimal"
        autoComplete="off"
        data-typed={typed !== undefined}
        value={typed ?? priceText(value, scale)}
        onChange={(event) => {
          sent.current = undefined;
          setTyped(event.currentTarget.value);
        }}
        onFocus={(event) => event.currentTarget.select()}
        onBlur={commit}
        onKeyDown={onKeyDown}
      />
      {problem !== undefined && <span className="word-problem">{inUnits(problem, scale)}</span>}
    </td>
  );
}

/** Dollars stand with their cents below each other; a unit price may hold parts of a cent. */
function priceText(value: number, scale: Scale): string {
  return scale === 'dollars' && Number.isInteger(value) ? (value / 100).toFixed(2) : written(value, scale);
}
