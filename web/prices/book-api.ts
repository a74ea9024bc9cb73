import { call } from '../api.ts';

/** What an import did or would do, in items, and the rows of the file that are refused. */
export interface PriceImport {
  added: number;
  changed: number;
  same: number;
  /** The book's revision after it. */
  revision: number;
  refused: { row: number; reason: string }[];
}

/** Imports a price list, or says what it would change. @throws {ApiProblem} 422 with the rows that are refused */
export async function importPrices(file: Blob, { isDryRun }: { isDryRun: boolean }): Promise<PriceImport> {
  const body = new Blob([file], { type: 'text/csv' });
  const answer = await call(`/api/price-book/import?dryRun=${isDryRun}`, { method: 'POST', body });
  return answer.json() as Promise<PriceImport>;
}
