import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { BookRevision } from '../../db/book-revisions.ts';
import { counted, number } from '../../server/drawing/wording.ts';
import type { BookAsOf } from '../api.ts';
import { momentOf, today } from '../parts/dates.ts';
import { TextButton } from '../parts/word-fields.tsx';
import { listRevisions } from './book-api.ts';
import { CAUSE_WORDS } from './cause-words.ts';
import type { BookChanges } from './use-book-changes.ts';
import { REVISIONS_KEY } from './use-book-lists.ts';

interface RevisionsPartProps {
  changes: BookChanges;
  /** Shows the book as it was. */
  onAsOf: (asOf: BookAsOf) => void;
}

/** Every change that the book went through: to look at the book as it was then, and to take a change back. */
export function RevisionsPart({ changes, onAsOf }: RevisionsPartProps) {
  const [page, setPage] = useState(1);
  const [on, setOn] = useState(today);
  const revisions = useQuery({
    queryKey: [...REVISIONS_KEY, page],
    queryFn: () => listRevisions(page),
    placeholderData: keepPreviousData,
  });
  const { items = [], total = 0, pageSize = 50 } = revisions.data ?? {};
  const last = Math.max(1, Math.ceil(total / pageSize));
  return (
    <section className="part" aria-labelledby="revisions-head">
      <h2 id="revisions-head">What the book went through</h2>
      <form
        className="sentence"
        onSubmit={(event) => {
          event.preventDefault();
          onAsOf({ on });
        }}
      >
        Show the book as it was at the end of{' '}
        <input
          className="plain-field"
          type="date"
          aria-label="Day of the book"
          value={on}
          onChange={(event) => setOn(event.currentTarget.value)}
        />{' '}
        <button type="submit" className="paper-button">
          Show it
        </button>
      </form>
      {revisions.error && <p className="word-problem">{revisions.error.message}</p>}
      {changes.refusal?.key === '' && (
        <p className="word-problem" role="alert">
          {changes.refusal.message}
        </p>
      )}
      <div className="history-frame">
        <table className="history revisions">
          <caption>Revisions of the book, the newest first</caption>
          <tbody>
            {items.map((revision) => (
              <RevisionRow key={revision.revision} revision={revision} changes={changes} onAsOf={onAsOf} />
            ))}
          </tbody>
        </table>
      </div>
      {last > 1 && (
        <p className="pages">
          <TextButton disabled={page <= 1} onPress={() => setPage(page - 1)}>
            newer
          </TextButton>
          <span>
            page {page} of {last}
          </span>
          <TextButton disabled={page >= last} onPress={() => setPage(page + 1)}>
            older
          </TextButton>
        </p>
      )}
    </section>
  );
}

function RevisionRow({ revision, changes, onAsOf }: RevisionsPartProps & { revision: BookRevision }) {
  const { revision: of, cause, at, by, why, items, undoneBy } = revision;
  const words = `revision ${of}, ${counted(items, 'item')}`;
  const canUndo = cause !== 'seed' && undoneBy === undefined;
  return (
    <tr>
      <td className="figure">{of}</td>
      <td className="nowrap">{momentOf(at)}</td>
      <td>
        {counted(items, 'item')} by {causeWords(revision)}
        {by !== undefined && `, ${by}`}
        {why !== undefined && `, because: ${why}`}
        {undoneBy !== undefined && <small> undone by revision {undoneBy}</small>}
      </td>
      <td className="nowrap">
        <TextButton label={`Show the book as of revision ${of}`} onPress={() => onAsOf({ revision: of })}>
          show the book then
        </TextButton>{' '}
        {canUndo && (
          <TextButton label={`Undo revision ${of}`} onPress={() => changes.undo({ words, bookRevision: of })}>
            undo
          </TextButton>
        )}
      </td>
    </tr>
  );
}

function causeWords({ cause, index, undoes }: BookRevision): string {
  if (index) {
    const percent = (index.factor - 1) * 100;
    return `an index of ${index.category}, ${percent < 0 ? '−' : '+'}${number(Math.abs(percent), 2)} % as of ${index.on}`;
  }
  return undoes === undefined ? CAUSE_WORDS[cause] : `undoing revision ${undoes}`;
}
