import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { counted, exactDollars } from '../../server/drawing/wording.ts';
import type { Tagged } from '../api.ts';
import { PageLink } from '../navigation.tsx';
import { dayOf, momentOf } from '../parts/dates.ts';
import { Waiting } from '../parts/waiting.tsx';
import { ActualsForm } from './actuals-form.tsx';
import { leftOutOfRange } from './left-out.ts';
import { type Quote, type QuoteStatus, quotedOption, readQuote, sayStatus } from './quote-api.ts';
import { revisionPath } from './quote-list.tsx';
import { statusWords } from './status-words.ts';

/** One quote as it was issued, what became of it, and what the job took. */
export function QuoteSheet({ id }: { id: string }) {
  const queries = useQueryClient();
  const key = ['quote', id];
  const quote = useQuery({ queryKey: key, queryFn: () => readQuote(id) });
  const keep = (saved: Tagged<Quote>) => {
    queries.setQueryData(key, saved);
    queries.removeQueries({ queryKey: ['quotes'] });
    queries.removeQueries({ queryKey: ['learned'] });
  };
  if (quote.error) return <p className="screen-note">{quote.error.message}</p>;
  if (!quote.data) return <Waiting what="the quote" />;
  const { resource, etag } = quote.data;
  const mayTakeHours = resource.status !== 'declined' && resource.status !== 'withdrawn' && !resource.revisedBy;
  return (
    <main className="plain-screen quotes-screen quote-sheet">
      <header className="screen-head">
        <h1>Quote {resource.number}</h1>
        <PageLink href="/quotes">all quotes</PageLink>
      </header>
      <QuoteFacts quote={resource} />
      {resource.status === 'issued' && <StatusWords quote={resource} etag={etag} onSaid={keep} />}
      {mayTakeHours ? (
        <ActualsForm
          quote={resource}
          etag={etag}
          onSaved={keep}
          readAgain={async () => {
            const newest = await readQuote(id);
            keep(newest);
            return newest;
          }}
        />
      ) : (
        <p className="hint">
          No hours are entered here: {resource.revisedBy ? 'it was revised.' : 'no job came of it.'}
        </p>
      )}
    </main>
  );
}

function QuoteFacts({ quote }: { quote: Quote }) {
  const option = quotedOption(quote);
  const range = option?.range;
  const leftOut = option && leftOutOfRange(quote, option);
  return (
    <div className="quote-facts">
      <p>
        <b>{statusWords(quote)}</b>, for {quote.customerName}: {quote.title}, {quote.optionLabel}.
      </p>
      <p>
        Issued {dayOf(quote.issuedOn)} at revision {quote.bookRevision} of the price book.
        {quote.revisionOf && (
          <>
            {' '}
            It takes the place of <PageLink href={`/quotes/${quote.revisionOf}`}>an earlier one</PageLink>.
          </>
        )}
        {quote.revisedBy && (
          <>
            {' '}
            <PageLink href={`/quotes/${quote.revisedBy}`}>A later one</PageLink> took its place.
          </>
        )}
      </p>
      <p>
        Total <b>${exactDollars(quote.totalCents)}</b>
        {range && (
          <>
            , by the estimate ${exactDollars(range.p10Cents)} to ${exactDollars(range.p90Cents)} in 8 of 10 cases
            {leftOut !== undefined && ` (${leftOut} left out)`}
          </>
        )}
        ; the job itself costs ${exactDollars(quote.costCents)} before markup, overhead and profit.
      </p>
      <p>
        <a href={`/api/quotes/${quote.id}/pdf`}>the quote as PDF</a> ·{' '}
        <a href={`/api/quotes/${quote.id}/items.csv`}>line items as CSV</a> ·{' '}
        <a href={`/api/quotes/${quote.id}/picklist.csv`}>shopping list as CSV</a> ·{' '}
        <PageLink href={`/projects/${quote.projectId}`}>its project, as it is now</PageLink>
        {!quote.revisedBy && !quote.actuals && (
          <>
            {' '}
            · <PageLink href={revisionPath(quote.id)}>issue another in its place</PageLink>
          </>
        )}
      </p>
      <ol className="quote-history">
        {quote.history.map(({ revision, status, at, actuals }) => (
          <li key={revision}>
            {momentOf(at)}: {status}
            {actuals && `, with the hours of ${counted(actuals.tasks.length, 'task')}`}
          </li>
        ))}
      </ol>
    </div>
  );
}

const SAID: readonly { status: QuoteStatus; words: string }[] = [
  { status: 'accepted', words: 'It was accepted' },
  { status: 'declined', words: 'It was declined' },
  { status: 'withdrawn', words: 'Withdraw it' },
];

function StatusWords({ quote, etag, onSaid }: { quote: Quote; etag: string; onSaid: (saved: Tagged<Quote>) => void }) {
  const say = useMutation({
    mutationFn: (status: QuoteStatus) => sayStatus(quote.id, { status, etag }),
    onSuccess: onSaid,
  });
  return (
    <div className="quote-status">
      {SAID.map(({ status, words }) => (
        <button
          key={status}
          type="button"
          className="paper-button"
          disabled={say.isPending}
          onClick={() => say.mutate(status)}
        >
          {words}
        </button>
      ))}
      {say.error && (
        <span role="alert" className="word-problem">
          {say.error.message}
        </span>
      )}
    </div>
  );
}
