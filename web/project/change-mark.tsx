import { wholeDollars } from '../../server/drawing/wording.ts';

/** By how much a total changed with the last answer; gone after a moment. Always takes its line, so nothing jumps. */
export function ChangeMark({ changeCents }: { changeCents: number | undefined }) {
  const isDearer = (changeCents ?? 0) > 0;
  return (
    <span className={changeCents === undefined ? 'change' : 'change marked'} role="status">
      {changeCents !== undefined && `${wholeDollars(Math.abs(changeCents))} ${isDearer ? 'dearer' : 'cheaper'}`}
    </span>
  );
}
