import type { Page } from '../db/page.ts';
import type { PriceHistoryEntry, PricePage } from '../db/price-book.ts';
import type { ListedProject, Project } from '../db/projects.ts';
import type { Settings } from '../db/settings.ts';
import type { CalculationAnswer, CalculationSheet } from '../server/calculations.ts';
import type { Estimate } from '../server/estimate/answer.ts';
import type { PriceItem } from '../server/estimate/price-book.ts';
import type { Paper } from '../server/report/pdf.ts';
import type { Json } from './json.ts';

/** One thing that the server refuses, at its dotted path. */
export interface FieldProblem {
  path: string;
  message: string;
}

/** An answer that is a problem (RFC 9457), or no answer at all: then `status` is 0. */
export class ApiProblem extends Error {
  readonly status: number;
  readonly errors: readonly FieldProblem[];
  constructor({ status, message, errors = [] }: { status: number; message: string; errors?: readonly FieldProblem[] }) {
    super(message);
    this.name = 'ApiProblem';
    this.status = status;
    this.errors = errors;
  }
}

/** A resource as it was read: what it holds, and the tag that a change of it has to show. */
export interface Tagged<Resource> {
  resource: Resource;
  etag: string;
}

/** A page of a list. */
export type { Page } from '../db/page.ts';
/** What an item once was, with the book's revision that it came with, and a page of the book. */
export type { PriceHistoryEntry, PricePage } from '../db/price-book.ts';
/** A project in the list, and as it is kept. */
export type { ListedProject, Project } from '../db/projects.ts';
/** Settings of the whole installation. */
export type { Settings } from '../db/settings.ts';

/** What a request brings along; a body is sent as JSON unless it is a file of its own type. */
export interface Call {
  method?: 'GET' | 'POST' | 'PUT' | 'DELETE';
  body?: unknown;
  etag?: string;
  signal?: AbortSignal | undefined;
  /** Lets the request end after the page was left; bodies up to 64 kB. */
  keepalive?: boolean;
}

/** Asks the server. @throws {ApiProblem} for every answer that is a problem, and where none came */
export async function call(
  path: string,
  { method = 'GET', body, etag, signal, keepalive }: Call = {},
): Promise<Response> {
  const headers: Record<string, string> = { accept: 'application/json, application/pdf' };
  const isFile = body instanceof Blob;
  if (body !== undefined) headers['content-type'] = isFile ? body.type : 'application/json';
  if (etag !== undefined) headers['if-match'] = etag;
  const request: RequestInit = { method, headers, keepalive: keepalive ?? false };
  if (body !== undefined) request.body = isFile ? body : JSON.stringify(body);
  if (signal) request.signal = signal;
  let response: Response;
  try {
    response = await fetch(path, request);
  } catch (error) {
    if (signal?.aborted) throw error;
    throw new ApiProblem({ status: 0, message: 'The server does not answer. What you typed is kept on this page.' });
  }
  if (response.ok) return response;
  throw await problemOf(response);
}

async function problemOf(response: Response): Promise<ApiProblem> {
  const { status } = response;
  const problem: unknown = await response.json().catch(() => undefined);
  const { detail, title, errors } = (problem ?? {}) as { detail?: string; title?: string; errors?: FieldProblem[] };
  return new ApiProblem({
    status,
    message: detail ?? title ?? `The server answered ${status} without saying why.`,
    ...(errors && { errors }),
  });
}

/** A resource with the tag that it came with. */
export async function tagged<Resource>(response: Response): Promise<Tagged<Resource>> {
  return { resource: (await response.json()) as Resource, etag: response.headers.get('etag') ?? '' };
}

const segment = encodeURIComponent;

/** Asks for the estimate of a description, saved or not. @throws {ApiProblem} 422 with the path of each bad field */
export async function postEstimate({
  description,
  parts,
  signal,
}: {
  description: Json;
  parts: 'core' | 'all';
  signal?: AbortSignal;
}): Promise<Estimate> {
  const path = parts === 'core' ? '/api/estimates?parts=core' : '/api/estimates';
  return (await call(path, { method: 'POST', body: description, signal })).json() as Promise<Estimate>;
}

/** One of the papers of an option as a PDF. @throws {ApiProblem} */
export async function estimatePdf(
  description: Json,
  { optionId, paper }: { optionId: string; paper: Paper },
): Promise<Blob> {
  const path = `/api/estimates/pdf?paper=${paper}&pageSize=letter&option=${segment(optionId)}`;
  return (await call(path, { method: 'POST', body: description })).blob();
}

/** The line items of an option as CSV. @throws {ApiProblem} */
export async function estimateCsv(description: Json, optionId: string): Promise<Blob> {
  return (
    await call(`/api/estimates/lines.csv?option=${segment(optionId)}`, { method: 'POST', body: description })
  ).blob();
}

/** Projects, newest change first. @throws {ApiProblem} */
export async function listProjects(search: string): Promise<Page<ListedProject>> {
  return (await call(`/api/projects?search=${segment(search)}`)).json() as Promise<Page<ListedProject>>;
}

/** @throws {ApiProblem} 404 */
export async function readProject(id: string): Promise<Tagged<Project>> {
  return tagged(await call(`/api/projects/${segment(id)}`));
}

/** What a project is saved with. */
export interface ProjectBody {
  title: string;
  description: Json | null;
  draft?: Json;
}

/** @throws {ApiProblem} */
export async function createProject(body: ProjectBody): Promise<Tagged<Project>> {
  return tagged(await call('/api/projects', { method: 'POST', body }));
}

/** @throws {ApiProblem} 412 when somebody else saved meanwhile */
export async function saveProject(
  id: string,
  { body, etag, keepalive = false }: { body: ProjectBody; etag: string; keepalive?: boolean },
): Promise<Tagged<Project>> {
  return tagged(await call(`/api/projects/${segment(id)}`, { method: 'PUT', body, etag, keepalive }));
}

/** Takes a project away; it can be restored for 30 days. @throws {ApiProblem} */
export async function deleteProject(id: string): Promise<void> {
  const { etag } = await readProject(id);
  await call(`/api/projects/${segment(id)}`, { method: 'DELETE', etag });
}

/** @throws {ApiProblem} 404 after 30 days */
export async function restoreProject(id: string): Promise<void> {
  await call(`/api/projects/${segment(id)}/restore`, { method: 'POST' });
}

/** The estimate of a project as it was saved. @throws {ApiProblem} */
export async function projectEstimate(id: string, signal?: AbortSignal): Promise<Estimate> {
  return (await call(`/api/projects/${segment(id)}/estimate?parts=core`, { signal })).json() as Promise<Estimate>;
}

/** Which book: as it was at a revision, or at the end of a day; as it is now where neither is stated. */
export interface BookAsOf {
  revision?: number;
  on?: string;
}

/** The book that is asked for, as the server wants it in an address. */
export function asOfQuery({ revision, on }: BookAsOf): Record<string, string> {
  if (revision !== undefined) return { revision: String(revision) };
  return on === undefined ? {} : { on };
}

/** A page of the price book. @throws {ApiProblem} 404 for a revision that never was */
export async function listItems(
  { search, category, page, ...asOf }: { search: string; category: string; page: number } & BookAsOf,
  signal?: AbortSignal,
): Promise<PricePage> {
  const query = new URLSearchParams({ page: String(page), ...asOfQuery(asOf) });
  if (search) query.set('search', search);
  if (category) query.set('category', category);
  return (await call(`/api/price-book/items?${query}`, { signal })).json() as Promise<PricePage>;
}

/** All labor rates of the price book. @throws {ApiProblem} */
export async function listRates(signal?: AbortSignal): Promise<PriceItem[]> {
  const rates: PriceItem[] = [];
  for (let page = 1; ; page += 1) {
    const found = await listItems({ search: '', category: 'rate', page }, signal);
    rates.push(...found.items.filter(({ kind }) => kind === 'rate'));
    if (found.items.length === 0 || page * found.pageSize >= found.total) return rates;
  }
}

/** The address of an item. */
export const itemPath = (key: string) => `/api/price-book/items/${segment(key)}`;

/** @throws {ApiProblem} 404 */
export async function readItem(key: string): Promise<Tagged<PriceItem>> {
  return tagged(await call(itemPath(key)));
}

/** @throws {ApiProblem} 409 when the key is taken, 422 with paths */
export async function createItem(item: Json): Promise<Tagged<PriceItem>> {
  return tagged(await call('/api/price-book/items', { method: 'POST', body: item }));
}

/** Prices that an item had, newest first. @throws {ApiProblem} */
export async function itemHistory(key: string): Promise<PriceHistoryEntry[]> {
  const { items } = (await (await call(`${itemPath(key)}/history`)).json()) as { items: PriceHistoryEntry[] };
  return items;
}

/** @throws {ApiProblem} */
export async function readSettings(): Promise<Tagged<Settings>> {
  return tagged(await call('/api/settings'));
}

/** @throws {ApiProblem} 412, 422 */
export async function saveSettings(settings: Json, etag: string): Promise<Tagged<Settings>> {
  return tagged(await call('/api/settings', { method: 'PUT', body: settings, etag }));
}

/** What can be calculated alone, with the schemas that forms are made from. @throws {ApiProblem} */
export async function listCalculations(): Promise<CalculationSheet[]> {
  return ((await (await call('/api/calculations')).json()) as { items: CalculationSheet[] }).items;
}

/** Asks one calculation. @throws {ApiProblem} 422 with the path of each bad field */
export async function postCalculation(name: string, input: Json, signal?: AbortSignal): Promise<CalculationAnswer> {
  return (
    await call(`/api/calculations/${segment(name)}`, { method: 'POST', body: input, signal })
  ).json() as Promise<CalculationAnswer>;
}
