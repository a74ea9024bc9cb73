import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach } from 'vitest';
import { type Data, type OpenOptions, openData } from '../../db/open.ts';
import type { QuoteToIssue } from '../../db/quotes.ts';
import { PriceItem, type PriceItemInput } from '../../server/estimate/price-book.ts';

const folders: string[] = [];
const opened: Data[] = [];

afterEach(() => {
  for (const data of opened.splice(0)) data.close();
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
});

/** A path in a new folder on the disk; gone after the test. */
export function scratchPath(name = 'data'): string {
  const folder = mkdtempSync(join(tmpdir(), 'feedrun-db-'));
  folders.push(folder);
  return join(folder, name);
}

/** Opens a data folder with items checked by their schema; closed after the test. */
export function opens(dir: string, options: OpenOptions = {}): Data {
  const data = openData(dir, { readItem: (stored) => PriceItem.parse(stored), ...options });
  opened.push(data);
  return data;
}

/** What a call throws; a call that throws nothing is a failure of the test. */
export function thrownBy(run: () => unknown): Error {
  try {
    run();
  } catch (error) {
    if (error instanceof Error) return error;
    throw error;
  }
  throw new Error('Nothing was thrown.');
}

/** As `thrownBy`, of what takes its time. */
export async function thrownLaterBy(run: () => Promise<unknown>): Promise<Error> {
  const result = await run().then(
    () => undefined,
    (error: unknown) => error,
  );
  return thrownBy(() => {
    if (result !== undefined) throw result;
  });
}

/** An invented cable with everything that an item can have. */
export function cable(changes: Partial<PriceItemInput> = {}): PriceItemInput {
  return {
    key: 'nm-b-6-3-cu',
    kind: 'price',
    description: 'NM-B 6/3, copper',
    class: 'material',
    scope: 'wire',
    category: 'wire',
    unit: 'ft',
    low: 310.25,
    likely: 355.5,
    high: 420,
    spec: { is: 'cable', form: 'nm-b', metal: 'copper', size: '6', conductors: 3 },
    offers: [
      { package: 'by the foot', quantity: 1, lowCents: 310, likelyCents: 355, highCents: 420, available: true },
      {
        package: '125 ft coil',
        quantity: 125,
        lowCents: 34_000,
        likelyCents: 39_000,
        highCents: 45_000,
        available: false,
      },
    ],
    date: '2025-11-04',
    region: 'US',
    source: 'invented for a test',
    supplier: 'nobody',
    available: true,
    ...changes,
  };
}

/** An invented labor unit: no package, no supplier, a trade. */
export function task(changes: Partial<PriceItemInput> = {}): PriceItemInput {
  return {
    key: 'pull-wire',
    kind: 'labor-unit',
    description: 'Pull wire into conduit',
    class: 'labor',
    scope: 'wire',
    category: 'labor',
    unit: 'ft',
    low: 0.008,
    likely: 0.012,
    high: 0.03,
    spec: { is: 'task', task: 'pull-wire' },
    offers: [],
    trade: 'electrician',
    date: '2025-11-04',
    region: 'US',
    source: 'invented for a test',
    available: true,
    ...changes,
  };
}

/** An invented quote. */
export function quoteToIssue(changes: Partial<QuoteToIssue> = {}): QuoteToIssue {
  return {
    projectId: 'a-project',
    issuedOn: '2026-03-02',
    validUntil: '2026-03-17',
    bookRevision: 1,
    title: 'Carport at Quince Court',
    optionLabel: 'One circuit, 48 A',
    customerName: 'An invented household',
    totalCents: 250_000,
    costCents: 190_000,
    stated: { optionId: 'a' },
    issuer: { businessName: 'The invented electricians' },
    estimate: { options: [] },
    quotedTasks: [{ key: 'pull-wire', hours: 4, hoursPerUnit: 0.012 }],
    format: 1,
    ...changes,
  };
}
