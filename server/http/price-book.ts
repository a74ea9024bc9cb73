import { Router } from 'express';
import { z } from 'zod';
import type { Data } from '../../db/open.ts';
import { oneOf } from '../estimate/description/fields.ts';
import { closed, InputError, readInput } from '../estimate/input-problems.ts';
import { PriceItemInput } from '../estimate/price-book.ts';
import { parsePriceCsv, writePriceCsv } from '../estimate/price-csv.ts';
import { withPricesOfPackages } from '../estimate/unit-prices.ts';
import { csvBody, jsonBody } from './bodies.ts';
import { etagOf } from './etag.ts';
import { PageNumber, SearchWords } from './queries.ts';
import { resource } from './resource.ts';
import { revisionSeenBy } from './revisions.ts';

export const ItemsQuery = closed({
  search: SearchWords.optional(),
  category: SearchWords.optional(),
  page: PageNumber.optional(),
});
export const ImportQuery = closed({ dryRun: oneOf(['true', 'false']).default('false') });
/** What an import did, or would do. */
export const ImportAnswer = z
  .object({
    added: z.int(),
    changed: z.int(),
    same: z.int(),
    revision: z.int(),
    refused: z.array(z.object({ row: z.int(), reason: z.string() })),
  })
  .meta({ id: 'PriceImport' });

/** /api/price-book: the items, their history, and the whole book as CSV. What an item once cost is never lost. */
export function priceBookRouter({ prices }: Pick<Data, 'prices'>): Router {
  const router = Router();
  resource(router, '/items', {
    GET: (req, res) => {
      const { search, category, page } = readInput(ItemsQuery, req.query);
      res.json(prices.list({ search: search ?? '', page: page ?? 1, ...(category !== undefined && { category }) }));
    },
    POST: [
      ...jsonBody,
      (req, res) => {
        const item = prices.create(readInput(PriceItemInput, req.body));
        res.status(201).location(`/api/price-book/items/${item.key}`).set('ETag', etagOf(item.revision)).json(item);
      },
    ],
  });
  resource(router, '/items/:key', {
    GET: (req, res) => {
      const item = prices.find(req.params.key);
      res.set('ETag', etagOf(item.revision)).json(item);
    },
    PUT: [
      ...jsonBody,
      (req, res) => {
        const { key } = req.params;
        const before = prices.find(key);
        const revision = revisionSeenBy(req, before.revision);
        const stated = withPricesOfPackages(readItem(req.body, key), before);
        const item = prices.replace(key, revision, stated);
        res.set('ETag', etagOf(item.revision)).json(item);
      },
    ],
    DELETE: (req, res) => {
      const { key } = req.params;
      prices.remove(key, revisionSeenBy(req, prices.find(key).revision));
      res.status(204).end();
    },
  });
  resource(router, '/items/:key/history', {
    GET: (req, res) => {
      res.json({ items: prices.history(req.params.key) });
    },
  });
  resource(router, '/export.csv', {
    GET: (_req, res) => {
      res.type('text/csv').attachment('feedrun-prices.csv').send(writePriceCsv(prices.snapshot().items));
    },
  });
  resource(router, '/import', {
    POST: [
      ...csvBody,
      (req, res) => {
        const dryRun = readInput(ImportQuery, req.query).dryRun === 'true';
        const { items, refused } = parsePriceCsv(req.body);
        if (refused.length > 0 && !dryRun) {
          throw new InputError(refused.map(({ row, reason }) => ({ path: `row ${row}`, message: reason })));
        }
        res.json({ ...prices.importItems(items, { dryRun }), refused });
      },
    ],
  });
  return router;
}

/** An item as stated; the revision that it was read with may come along, and its key must be the path's. */
function readItem(body: unknown, key: string): PriceItemInput {
  const isObject = typeof body === 'object' && body !== null && !Array.isArray(body);
  const { revision: _revision, ...stated } = isObject ? (body as Record<string, unknown>) : {};
  const item = readInput(PriceItemInput, isObject ? stated : body);
  if (item.key === key) return item;
  throw new InputError([{ path: 'key', message: `must be "${key}" as in the address, not "${item.key}"` }]);
}
