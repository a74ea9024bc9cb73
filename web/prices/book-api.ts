import type { BookRevision } from '../../db/book-revisions.ts';
import type { StatedChange } from '../../db/price-book.ts';
import type { ItemChange, SeveralOutcome } from '../../db/price-changes.ts';
import type { ImportOutcome } from '../../db/price-import.ts';
import type { SupplierMapping, SupplierPart } from '../../db/suppliers.ts';
import type { PriceItem, PriceItemInput } from '../../server/estimate/price-book.ts';
import type { SeveralChange } from '../../server/estimate/several-prices.ts';
import type { SupplierColumn, SupplierHeadings } from '../../server/estimate/supplier-list.ts';
import { call, itemPath, type Page, type Tagged, tagged } from '../api.ts';

/** Who changes the book, and why. */
export type { StatedChange } from '../../db/price-book.ts';
/** What is done to several items at once. */
export type { SeveralChange } from '../../server/estimate/several-prices.ts';

/** Beside a body that has no room for who and why. */
function statedQuery(stated: StatedChange, more: Record<string, string> = {}): string {
  const query = new URLSearchParams({ ...more, ...stated }).toString();
  return query === '' ? '' : `?${query}`;
}

/** @throws {ApiProblem} 412 when somebody else changed it meanwhile, 422 with paths */
export async function saveItem(item: PriceItemInput, etag: string, stated: StatedChange): Promise<Tagged<PriceItem>> {
  return tagged(await call(`${itemPath(item.key)}${statedQuery(stated)}`, { method: 'PUT', body: item, etag }));
}

/** @throws {ApiProblem} 412 when somebody else changed it meanwhile */
export async function removeItem(key: string, etag: string, stated: StatedChange): Promise<void> {
  await call(`${itemPath(key)}${statedQuery(stated)}`, { method: 'DELETE', etag });
}

/** Puts an item back as it was at one of its own revisions. @throws {ApiProblem} 412 */
export async function restoreItem(
  { key, revision }: { key: string; revision: number },
  etag: string,
  stated: StatedChange,
): Promise<Tagged<PriceItem>> {
  return tagged(await call(`${itemPath(key)}/restore`, { method: 'POST', body: { revision, ...stated }, etag }));
}

/** Which items are changed alike: those named with the revision that was seen, or what the change itself names. */
export interface SeveralItems {
  items?: { key: string; revision: number }[];
}

/** Changes several items as one revision. @throws {ApiProblem} 412 naming each that somebody changed meanwhile */
export async function changeSeveral(
  { items }: SeveralItems,
  change: SeveralChange,
  stated: StatedChange,
): Promise<SeveralOutcome> {
  const body = { ...(items && { items }), change, ...stated };
  return (await call('/api/price-book/changes', { method: 'POST', body })).json() as Promise<SeveralOutcome>;
}

/** Takes a revision of the book back, as a new one. @throws {ApiProblem} 412 naming what was changed since */
export async function undoRevision(revision: number, stated: StatedChange): Promise<SeveralOutcome> {
  const body = { revision, ...stated };
  return (await call('/api/price-book/undo', { method: 'POST', body })).json() as Promise<SeveralOutcome>;
}

/** The revisions of the book, the newest first. @throws {ApiProblem} */
export async function listRevisions(page: number): Promise<Page<BookRevision>> {
  return (await call(`/api/price-book/revisions?page=${page}`)).json() as Promise<Page<BookRevision>>;
}

/** What an import did or would do, in items, and the rows of the file that are refused. */
export type PriceImport = ImportOutcome & { refused: { row: number; reason: string }[] };

/** How an import is meant. */
export interface ImportManner {
  isDryRun: boolean;
  /** Takes out of the book what the list does not name. */
  removesMissing: boolean;
}

/** Imports a price list, or says what it would change. @throws {ApiProblem} 422 with the rows that are refused */
export async function importPrices(
  file: Blob,
  { isDryRun, removesMissing }: ImportManner,
  stated: StatedChange,
): Promise<PriceImport> {
  const body = new Blob([file], { type: 'text/csv' });
  const query = statedQuery(stated, { dryRun: String(isDryRun), removeMissing: String(removesMissing) });
  return (await call(`/api/price-book/import${query}`, { method: 'POST', body })).json() as Promise<PriceImport>;
}

/** Which item of the book a supplier's part is, and of which package its price is. */
export type { SupplierPart } from '../../db/suppliers.ts';

/** What a supplier's list did or would do. */
export interface SupplierImport {
  bookRevision: number;
  /** Rows that found their item. */
  matched: number;
  unmatched: { row: number; part: string; description?: string; reason: string }[];
  changed: ItemChange[];
  refused: { row: number; reason: string }[];
  /** The headings of the list, and the columns that are not among them. */
  headings: string[];
  missing: SupplierColumn[];
  /** What the supplier calls the columns, as it is kept, and as it probably is. */
  columns: SupplierHeadings;
  proposed: SupplierHeadings;
}

const supplierPath = (supplier: string) => `/api/price-book/suppliers/${encodeURIComponent(supplier)}`;

/** Adds to what is known of a supplier's parts; a part that is there already is said anew. @throws {ApiProblem} 412 */
export async function mapParts(supplier: string, added: readonly SupplierPart[]): Promise<void> {
  await changeMapping(supplier, ({ parts, columns }) => {
    const anew = new Set(added.map(({ part }) => part));
    return { parts: [...parts.filter(({ part }) => !anew.has(part)), ...added], columns };
  });
}

/** Keeps what a supplier calls the columns of a list. @throws {ApiProblem} 412 */
export async function mapColumns(supplier: string, columns: SupplierHeadings): Promise<void> {
  await changeMapping(supplier, ({ parts }) => ({ parts, columns }));
}

type Mapping = Pick<SupplierMapping, 'parts' | 'columns'>;

async function changeMapping(supplier: string, change: (mapping: Mapping) => Mapping): Promise<void> {
  const path = `${supplierPath(supplier)}/mapping`;
  const { resource, etag } = await tagged<SupplierMapping>(await call(path));
  await call(path, { method: 'PUT', body: change(resource), etag });
}

/** What the starting prices have and the book never had. @throws {ApiProblem} */
export async function lackingPrices(signal: AbortSignal): Promise<LackingPrices> {
  return (await call('/api/price-book/starting-prices', { signal })).json() as Promise<LackingPrices>;
}

/** How many items the book lacks, and which. */
export interface LackingPrices {
  lacking: number;
  items: { key: string; description: string; category: string }[];
}

/** Adds them as one revision. @throws {ApiProblem} */
export async function addStartingPrices(stated: StatedChange): Promise<{ added: number; revision: number }> {
  const path = `/api/price-book/starting-prices${statedQuery(stated)}`;
  return (await call(path, { method: 'POST' })).json() as Promise<{ added: number; revision: number }>;
}

/** Imports a supplier's prices, or says what they would change. @throws {ApiProblem} 422 with the rows refused */
export async function importSupplierList(
  supplier: string,
  file: Blob,
  { isDryRun, stated }: { isDryRun: boolean; stated: StatedChange },
): Promise<SupplierImport> {
  const body = new Blob([file], { type: 'text/csv' });
  const path = `${supplierPath(supplier)}/import${statedQuery(stated, { dryRun: String(isDryRun) })}`;
  return (await call(path, { method: 'POST', body })).json() as Promise<SupplierImport>;
}
