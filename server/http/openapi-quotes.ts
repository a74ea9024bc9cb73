import { z } from 'zod';
import type { ZodOpenApiPathsObject } from 'zod-openapi';
import { PriceItem } from '../estimate/price-book.ts';
import { ActualsInput, QuoteInput, StatusInput } from '../estimate/quote.ts';
import { AcceptBody, LearnedAnswer } from './learned.ts';
import { BODY_REFUSALS, bodyOf, fileOperation, IfMatch, listOfItems, operation } from './openapi-operations.ts';
import { ListedQuoteAnswer, QuoteAnswer } from './quote-answers.ts';
import { QuotePdfQuery, QuotesQuery } from './quotes.ts';

const Id = z.object({ id: z.string() });
const Key = z.object({ key: z.string() });
const one = { answer: QuoteAnswer, tagged: true };
const list = listOfItems(ListedQuoteAnswer);

/** Paths of quotes, and of what jobs teach the price book. */
export function quotePaths(): ZodOpenApiPathsObject {
  return { ...issuePaths(), ...onePaths(), ...learnedPaths() };
}

function issuePaths(): ZodOpenApiPathsObject {
  const summary = "Issue a quote of a project at today's prices; what was issued stays as it is.";
  return {
    '/api/projects/{id}/quotes': {
      get: {
        ...operation({ summary: 'List the quotes of a project.', answer: list, refused: ['404', '422'] }),
        requestParams: { path: Id, query: QuotesQuery.omit({ project: true }) },
      },
      post: {
        ...operation({ ...one, summary, status: '201', refused: [...BODY_REFUSALS, '404', '409', '412', '428'] }),
        requestParams: { path: Id, header: IfMatch },
        ...bodyOf(QuoteInput),
      },
    },
    '/api/quotes': {
      get: {
        ...operation({ summary: 'List quotes, the newest first.', answer: list, refused: ['422'] }),
        requestParams: { query: QuotesQuery },
      },
    },
  };
}

function onePaths(): ZodOpenApiPathsObject {
  return {
    '/api/quotes/{id}': {
      get: { ...operation({ ...one, summary: 'Read a quote.', refused: ['404'] }), requestParams: { path: Id } },
    },
    '/api/quotes/{id}/status': {
      post: {
        ...operation({
          ...one,
          summary: 'Say what became of a quote; If-Match may be left out.',
          refused: [...BODY_REFUSALS, '404', '409', '412'],
        }),
        requestParams: { path: Id },
        ...bodyOf(StatusInput),
      },
    },
    '/api/quotes/{id}/actuals': {
      put: {
        ...operation({
          ...one,
          summary: 'Enter the person-hours and the cost that the job took; If-Match may be left out.',
          refused: [...BODY_REFUSALS, '404', '409', '412'],
        }),
        requestParams: { path: Id },
        ...bodyOf(ActualsInput),
      },
    },
    '/api/quotes/{id}/pdf': {
      get: {
        ...fileOperation({
          summary: 'The quote on paper, to be signed.',
          type: 'application/pdf',
          refused: ['404', '422'],
        }),
        requestParams: { path: Id, query: QuotePdfQuery },
      },
    },
    '/api/quotes/{id}/items.csv': {
      get: {
        ...fileOperation({ summary: 'The line items that were quoted, as CSV.', type: 'text/csv', refused: ['404'] }),
        requestParams: { path: Id },
      },
    },
    '/api/quotes/{id}/picklist.csv': {
      get: {
        ...fileOperation({ summary: 'What to buy and to rent for it, as CSV.', type: 'text/csv', refused: ['404'] }),
        requestParams: { path: Id },
      },
    },
  };
}

function learnedPaths(): ZodOpenApiPathsObject {
  return {
    '/api/price-book/learned': {
      get: operation({
        summary: 'Quoted against actual hours over all jobs, and the labor units that they propose.',
        answer: LearnedAnswer,
        refused: [],
      }),
    },
    '/api/price-book/learned/{key}/accept': {
      post: {
        ...operation({
          summary: 'Take over one proposed labor unit, as one change of the book.',
          answer: PriceItem,
          tagged: true,
          refused: [...BODY_REFUSALS, '404', '409', '412'],
        }),
        requestParams: { path: Key },
        ...bodyOf(AcceptBody),
      },
    },
  };
}
