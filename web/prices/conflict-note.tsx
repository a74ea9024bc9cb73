import { useEffect, useRef } from 'react';
import { momentOf } from '../parts/dates.ts';
import { differences } from './change-words.ts';
import type { Conflict } from './use-attempts.ts';

interface ConflictNoteProps {
  conflict: Conflict;
  onSettle: (choice: 'theirs' | 'mine') => void;
}

/** Says that somebody saved the item meanwhile, and what; nothing is written before one chose. */
export function ConflictNote({ conflict, onSettle }: ConflictNoteProps) {
  const note = useRef<HTMLDivElement>(null);
  useEffect(() => note.current?.focus(), []);
  const { seen, theirs, meanwhile, edit } = conflict;
  const [latest] = meanwhile;
  const mine = differences(seen, edit(seen)).join(', ');
  return (
    <div className="conflict" role="alertdialog" aria-labelledby="conflict-head" tabIndex={-1} ref={note}>
      <p id="conflict-head">
        <strong>
          {latest?.by ?? 'Somebody else'} changed {seen.description} meanwhile.
        </strong>{' '}
        Nothing of yours was saved yet.
      </p>
      <dl>
        <dt>
          {latest?.by ?? 'Theirs'}
          {latest && `, ${momentOf(latest.at)}`}
        </dt>
        <dd>
          {theirs ? differences(seen, theirs).join(', ') : 'taken out of the book'}
          {latest?.why !== undefined && `, because: ${latest.why}`}
        </dd>
        <dt>Yours</dt>
        <dd>{mine}</dd>
      </dl>
      <p className="commands">
        <button type="button" className="paper-button" onClick={() => onSettle('theirs')}>
          Keep theirs
        </button>
        {theirs && (
          <button type="button" className="paper-button" onClick={() => onSettle('mine')}>
            Put mine over it
          </button>
        )}
      </p>
    </div>
  );
}
