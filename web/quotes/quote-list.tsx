import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { wholeDollars } from '../../server/drawing/wording.ts';
import { PageLink } from '../navigation.tsx';
import { dayOf } from '../parts/dates.ts';
import { Waiting } from '../parts/waiting.tsx';
import { TextButton } from '../parts/word-fields.tsx';
import { IssueForm } from './issue-form.tsx';
import { type ListedQuote, listQuotes, readQuote } from './quote-api.ts';
import { statusWords } from './status-words.ts';

/** In the address of this screen: the quote that another is to take the place of. */
const REVISED = 'revises';

/** Where a quote is issued that takes the place of one. */
export const revisionPath = (id: string) => `/quotes?${REVISED}=${encodeURIComponent(id)}`;

/** Quotes that were issued, the newest first, and the way to issue another. */
export function QuoteList() {
  const [page, setPage] = useState(1);
  const revisedId = new URLSearchParams(window.location.search).get(REVISED);
  const [isIssuing, setIssuing] = useState(revisedId !== null);
  const quotes = useQuery({
    queryKey: ['quotes', page],
    queryFn: () => listQuotes(page),
    placeholderData: keepPreviousData,
  });
  const pages = quotes.data ? Math.ceil(quotes.data.total / quotes.data.pageSize) : 1;
  return (
    <section aria-label="Quotes">
      <header className="screen-head">
        <h1>Quotes</h1>
        <button type="button" className="paper-button" aria-expanded={isIssuing} onClick={() => setIssuing(!isIssuing)}>
          {isIssuing ? 'Close' : 'Issue a quote'}
        </button>
      </header>
      {isIssuing && (revisedId === null ? <IssueForm /> : <RevisionForm id={revisedId} />)}
      <p role="status" className="screen-status">
        {quotes.error?.message}
      </p>
      {quotes.data ? <QuoteTable quotes={quotes.data.items} /> : !quotes.error && <Waiting what="the quotes" />}
      {pages > 1 && (
        <p className="page-steps">
          page {page} of {pages}{' '}
          <TextButton onPress={() => setPage(page - 1)} disabled={page === 1}>
            newer
          </TextButton>{' '}
          <TextButton onPress={() => setPage(page + 1)} disabled={page === pages}>
            older
          </TextButton>
        </p>
      )}
    </section>
  );
}

/** The form with what an earlier quote states. */
function RevisionForm({ id }: { id: string }) {
  const revised = useQuery({ queryKey: ['quote', id], queryFn: () => readQuote(id) });
  if (revised.error) return <p className="screen-note">{revised.error.message}</p>;
  if (!revised.data) return <Waiting what="the quote" />;
  return <IssueForm key={id} revised={revised.data.resource} />;
}

function QuoteTable({ quotes }: { quotes: readonly ListedQuote[] }) {
  if (quotes.length === 0)
    return <p>Nothing was quoted yet. Issue one of a project that can be built and has all its prices.</p>;
  return (
    <table className="projects quotes stacked">
      <thead>
        <tr>
          <th scope="col">Number</th>
          <th scope="col">For</th>
          <th scope="col">What</th>
          <th scope="col">Status</th>
          <th scope="col" className="figure">
            Issued
          </th>
          <th scope="col" className="figure">
            Total
          </th>
        </tr>
      </thead>
      <tbody>
        {quotes.map((quote) => (
          <tr key={quote.id}>
            <th scope="row">
              <PageLink href={`/quotes/${quote.id}`}>{quote.number}</PageLink>
            </th>
            <td data-head="For">{quote.customerName}</td>
            <td data-head="What">
              <div>
                {quote.title} <small>{quote.optionLabel}</small>
              </div>
            </td>
            <td data-head="Status">
              <div>
                {statusWords(quote)}
                {quote.hasActuals && <small> · hours entered</small>}
              </div>
            </td>
            <td data-head="Issued" className="figure">
              {dayOf(quote.issuedOn)}
            </td>
            <td data-head="Total" className="figure">
              {wholeDollars(quote.totalCents)}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
