import { wholeDollars } from '../../server/drawing/wording.ts';
import type { Estimate, EstimateOption } from '../../server/estimate/answer.ts';
import { ChangeMark } from './change-mark.tsx';
import { headlineOf } from './headline.ts';
import type { Changes } from './use-changes.ts';

interface TotalBarProps {
  option: EstimateOption;
  ranged: Estimate | undefined;
  changes: Changes;
}

/** On a narrow page: the open option's total and range at the foot of the window, in sight while one edits above. */
export function TotalBar({ option, ranged, changes }: TotalBarProps) {
  const range = ranged?.options.find(({ id }) => id === option.id)?.range;
  const { cents, ifNothingTurnsUpCents } = headlineOf(option.totals, range);
  return (
    <p className="total-bar">
      <button type="button" onClick={() => document.querySelector('.schedule-frame')?.scrollIntoView()}>
        {option.label}
      </button>
      <strong>{wholeDollars(cents)}</strong>
      {range && (
        <small>
          {wholeDollars(range.p10Cents)} to {wholeDollars(range.p90Cents)}
          {option.totals.contingencyCents > 0 && ' without contingency'}
          {ifNothingTurnsUpCents !== undefined && `; ${wholeDollars(ifNothingTurnsUpCents)} if nothing turns up`}
        </small>
      )}
      <ChangeMark changeCents={changes.get(option.id)} />
    </p>
  );
}
