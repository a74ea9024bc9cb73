import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { number, wholeDollars } from '../../server/drawing/wording.ts';
import { Waiting } from '../parts/waiting.tsx';
import { acceptLearned, type LearnedAnswer, type LearnedTask, readLearned } from './quote-api.ts';

const KEY = ['learned'];

/** Quoted against actual hours by task over all jobs, and the labor units that they propose: accepted one by one. */
export function LearnedPart() {
  const queries = useQueryClient();
  const learned = useQuery({ queryKey: KEY, queryFn: readLearned });
  const accept = useMutation({
    mutationFn: acceptLearned,
    onSettled: () => queries.invalidateQueries({ queryKey: KEY }), // refused or not, it shows what holds now
  });
  if (!learned.data) return learned.error ? <p>{learned.error.message}</p> : <Waiting what="what jobs teach" />;
  const { items, jobs } = learned.data;
  return (
    <section aria-label="What jobs teach">
      <h2>What jobs teach the price book</h2>
      {jobs === 0 ? (
        <p>Nothing yet. Open a quote whose job is done, and enter the hours that it took.</p>
      ) : (
        <p className="hint">{inAll(learned.data)} Nothing changes but what you accept.</p>
      )}
      <p role="status" className="screen-status">
        {accept.error?.message ?? (accept.data && `${accept.data.description}: ${accept.data.source}.`)}
      </p>
      {items.length > 0 && (
        <LearnedTable items={items} isBusy={accept.isPending} onAccept={(task) => accept.mutate(task)} />
      )}
    </section>
  );
}

function inAll({ jobs, totals }: LearnedAnswer): string {
  const counted = `${jobs === 1 ? '1 job has' : `${jobs} jobs have`} hours entered.`;
  if (totals.jobs === 0) return counted;
  const costs = `${wholeDollars(totals.actualCents)} where ${wholeDollars(totals.quotedCents)} were estimated`;
  return `${counted} In all ${totals.jobs === 1 ? 'one of them' : `${totals.jobs} of them`} cost ${costs}.`;
}

interface TableProps {
  items: readonly LearnedTask[];
  isBusy: boolean;
  onAccept: (task: LearnedTask) => void;
}

function LearnedTable({ items, isBusy, onAccept }: TableProps) {
  return (
    <table className="projects learned stacked">
      <thead>
        <tr>
          <th scope="col">Task</th>
          <th scope="col" className="figure">
            Jobs
          </th>
          <th scope="col" className="figure">
            Quoted
          </th>
          <th scope="col" className="figure">
            Took
          </th>
          <th scope="col" className="figure">
            Book, a unit
          </th>
          <th scope="col" className="figure">
            Proposed, a unit
          </th>
          <td />
        </tr>
      </thead>
      <tbody>
        {items.map((task) => (
          <LearnedRow key={task.key} task={task} isBusy={isBusy} onAccept={() => onAccept(task)} />
        ))}
      </tbody>
    </table>
  );
}

function LearnedRow({ task, isBusy, onAccept }: { task: LearnedTask; isBusy: boolean; onAccept: () => void }) {
  const { description, unit, jobs, quotedHours, actualHours, ratio, book, proposed, differs, because } = task;
  return (
    <tr>
      <th scope="row">
        <details className="more">
          <summary>{description}</summary>
          <ul className="plain-list">
            {because.map((reason) => (
              <li key={reason}>{reason}</li>
            ))}
            {jobs.map((job) => (
              <li key={job.number}>
                Quote {job.number}: {number(job.actualHours)} h,{' '}
                {job.ratio === null
                  ? 'not quoted.'
                  : `${number(job.ratio)} times the ${number(job.quotedHours)} h that were quoted.`}
              </li>
            ))}
          </ul>
        </details>
      </th>
      <td data-head="Jobs" className="figure">
        {jobs.length}
      </td>
      <td data-head="Quoted" className="figure">
        {number(quotedHours)} h
      </td>
      <td data-head="Took" className="figure">
        <div>
          {number(actualHours)} h {ratio !== null && <small className="block">{number(ratio)} times</small>}
        </div>
      </td>
      <td data-head="Book, a unit" className="figure">
        {book ? `${book.likely} h/${unit}` : 'not in the book'}
      </td>
      <td data-head="Proposed, a unit" className="figure">
        {proposed ? (
          <div>
            {proposed.likely} h/{unit}{' '}
            <small className="block">
              8 in 10: {proposed.interval.low} to {proposed.interval.high}
            </small>
          </div>
        ) : (
          'nothing'
        )}
      </td>
      <td className="figure">
        {differs ? (
          <button
            type="button"
            className="paper-button"
            aria-label={`Accept for ${description}`}
            disabled={isBusy}
            onClick={onAccept}
          >
            accept
          </button>
        ) : (
          proposed && <small>as in the book</small>
        )}
      </td>
    </tr>
  );
}
