import { wholeDollars } from '../../server/drawing/wording.ts';
import type { Estimate, EstimateOption } from '../../server/estimate/answer.ts';
import { ChangeMark } from './change-mark.tsx';
import type { Changes } from './use-changes.ts';

interface TotalBarProps {
  option: EstimateOption;
  ranged: Estimate | undefined;
  changes: Changes;
}

/** On a narrow page: the open option's total and range at the foot of the window, in sight while one edits above. */
export function TotalBar({ option, ranged, changes }: TotalBarProps) {
  const range = ranged?.options.find(({ id }) => id === option.id)?.range;
  return (
    <p className="total-bar">
      <button type="button" onClick={() => document.querySelector('.schedule-frame')?.scrollIntoView()}>
        {option.label}
      </button>
      <strong>{wholeDollars(option.totals.totalCents)}</strong>
      {range && (
        <small>
          {wholeDollars(range.p10Cents)} to {wholeDollars(range.p90Cents)}
        </small>
      )}
      <ChangeMark changeCents={changes.get(option.id)} />
    </p>
  );
}
