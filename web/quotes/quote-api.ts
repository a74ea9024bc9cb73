import type { ListedQuote, Quote, QuoteStatus } from '../../db/quotes.ts';
import type { Estimate, EstimateOption } from '../../server/estimate/answer.ts';
import type { PriceItem } from '../../server/estimate/price-book.ts';
import type { LearnedAnswer } from '../../server/http/learned.ts';
import { call, type Page, type Tagged, tagged } from '../api.ts';
import type { Json } from '../json.ts';

export type { ListedQuote, Quote, QuoteStatus } from '../../db/quotes.ts';
export type { LearnedAnswer } from '../../server/http/learned.ts';
/** One task of what jobs teach. */
export type LearnedTask = LearnedAnswer['items'][number];

const quotePath = (id: string) => `/api/quotes/${encodeURIComponent(id)}`;

/** A page of all quotes, the newest first. @throws {ApiProblem} */
export async function listQuotes(page: number): Promise<Page<ListedQuote>> {
  return (await call(`/api/quotes?page=${page}`)).json() as Promise<Page<ListedQuote>>;
}

/** The quotes of a project, the newest first. @throws {ApiProblem} 404 */
export async function listProjectQuotes(projectId: string): Promise<Page<ListedQuote>> {
  return (await call(`/api/projects/${encodeURIComponent(projectId)}/quotes`)).json() as Promise<Page<ListedQuote>>;
}

/** What a saved project costs now. @throws {ApiProblem} 404, 409 where it has no valid description */
export async function projectEstimate(projectId: string, signal: AbortSignal): Promise<Estimate> {
  const path = `/api/projects/${encodeURIComponent(projectId)}/estimate`;
  return (await call(path, { signal })).json() as Promise<Estimate>;
}

/** @throws {ApiProblem} 404 */
export async function readQuote(id: string): Promise<Tagged<Quote>> {
  return tagged(await call(quotePath(id)));
}

/** Issues a quote of a project. @throws {ApiProblem} 412 where the project moved on, 422 with paths */
export async function issueQuote(projectId: string, { body, etag }: { body: Json; etag: string }): Promise<Quote> {
  const path = `/api/projects/${encodeURIComponent(projectId)}/quotes`;
  return (await call(path, { method: 'POST', body, etag })).json() as Promise<Quote>;
}

/** Says what became of a quote. @throws {ApiProblem} 409 where that may not follow, 412 */
export async function sayStatus(id: string, { status, etag }: { status: QuoteStatus; etag: string }) {
  return tagged<Quote>(await call(`${quotePath(id)}/status`, { method: 'POST', body: { status }, etag }));
}

/** Enters what the job took. @throws {ApiProblem} 412, 422 with the path of each bad field */
export async function saveActuals(id: string, { actuals, etag }: { actuals: Json; etag: string }) {
  return tagged<Quote>(await call(`${quotePath(id)}/actuals`, { method: 'PUT', body: actuals, etag }));
}

/** What jobs teach the price book. @throws {ApiProblem} */
export async function readLearned(): Promise<LearnedAnswer> {
  return (await call('/api/price-book/learned')).json() as Promise<LearnedAnswer>;
}

/** Takes over one proposal, as it was seen. @throws {ApiProblem} 409, 412, 422 where it moved on */
export async function acceptLearned({ key, book, proposed }: LearnedTask): Promise<PriceItem> {
  const body = { revision: book?.revision, likely: proposed?.likely };
  const path = `/api/price-book/learned/${encodeURIComponent(key)}/accept`;
  return (await call(path, { method: 'POST', body })).json() as Promise<PriceItem>;
}

/** The option that was quoted, as it was frozen: the first of its estimate. */
export function quotedOption({ estimate }: Quote): EstimateOption | undefined {
  return (estimate as { options?: EstimateOption[] }).options?.[0];
}
