import { type Request, Router } from 'express';
import { z } from 'zod';
import type { Data } from '../../db/open.ts';
import { revisionAsOf } from '../book-as-of.ts';
import { day, oneOf } from '../estimate/description/fields.ts';
import { closed, InputError, readInput } from '../estimate/input-problems.ts';
import { withOldestDay } from '../estimate/offer-days.ts';
import { PriceItem, PriceItemInput } from '../estimate/price-book.ts';
import { parsePriceCsv, writePriceCsv } from '../estimate/price-csv.ts';
import { withPricesOfPackages } from '../estimate/unit-prices.ts';
import { csvBody, jsonBody } from './bodies.ts';
import { etagOf } from './etag.ts';
import { StatedQuery, statedFields, statedOf } from './price-changes.ts';
import { PageNumber, queryNumber, SearchWords } from './queries.ts';
import { resource } from './resource.ts';
import { revisionSeenBy } from './revisions.ts';
import { startingPricesRouter } from './starting-prices.ts';

/** The book as it was: at a revision, or at the end of a day; not both. */
const asOfFields = {
  revision: queryNumber({ least: 1, most: Number.MAX_SAFE_INTEGER }).optional(),
  on: day().optional(),
};
export const AsOfQuery = closed(asOfFields);
export const ItemsQuery = closed({
  ...asOfFields,
  search: SearchWords.optional(),
  category: SearchWords.optional(),
  page: PageNumber.optional(),
});
const yesOrNo = () => oneOf(['true', 'false']).default('false');
/** `removeMissing` takes out of the book what the list does not name; without it nothing is ever removed. */
export const ImportQuery = closed({ dryRun: yesOrNo(), removeMissing: yesOrNo(), ...statedFields });
/** What an import did, or would do. */
export const ImportAnswer = z
  .object({
    added: z.int(),
    changed: z.int(),
    same: z.int(),
    removed: z.int(),
    revision: z.int(),
    changes: z.array(z.object({ key: z.string(), before: PriceItem.nullable(), after: PriceItemInput.nullable() })),
    refused: z.array(z.object({ row: z.int(), reason: z.string() })),
  })
  .meta({ id: 'PriceImport' });

/** /api/price-book: the items, their history, and the whole book as CSV. What an item once cost is never lost. */
export function priceBookRouter({ prices, now }: Pick<Data, 'prices' | 'now'>): Router {
  const router = Router();
  itemRoutes(router, { prices, now });
  listRoutes(router, { prices, now });
  router.use('/starting-prices', startingPricesRouter({ prices }));
  return router;
}

type RouteParts = Pick<Data, 'prices' | 'now'>;

/** The items, one by one and by the page. */
function itemRoutes(router: Router, { prices, now }: RouteParts): void {
  resource(router, '/items', {
    GET: (req, res) => {
      const { search, category, page, ...asOf } = readInput(ItemsQuery, req.query);
      const revision = revisionAsOf(asOf, { prices, now: now() });
      res.json(
        prices.list({
          search: search ?? '',
          page: page ?? 1,
          ...(category !== undefined && { category }),
          ...(revision !== undefined && { revision }),
        }),
      );
    },
    POST: [
      ...jsonBody,
      (req, res) => {
        const item = prices.create(readInput(PriceItemInput, req.body), statedBy(req));
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
        const stated = withOldestDay(withPricesOfPackages(readItem(req.body, key), before));
        const item = prices.replace(key, revision, stated, statedBy(req));
        res.set('ETag', etagOf(item.revision)).json(item);
      },
    ],
    DELETE: (req, res) => {
      const { key } = req.params;
      prices.remove(key, revisionSeenBy(req, prices.find(key).revision), statedBy(req));
      res.status(204).end();
    },
  });
  resource(router, '/items/:key/history', {
    GET: (req, res) => {
      res.json({ items: prices.history(req.params.key) });
    },
  });
}

/** The whole book as CSV, out and in. */
function listRoutes(router: Router, { prices, now }: RouteParts): void {
  resource(router, '/export.csv', {
    GET: (req, res) => {
      const revision = revisionAsOf(readInput(AsOfQuery, req.query), { prices, now: now() });
      const name = revision === undefined ? 'feedrun-prices.csv' : `feedrun-prices-${revision}.csv`;
      res
        .type('text/csv')
        .attachment(name)
        .send(writePriceCsv(prices.snapshot(revision).items));
    },
  });
  resource(router, '/import', {
    POST: [
      ...csvBody,
      (req, res) => {
        const query = readInput(ImportQuery, req.query);
        const dryRun = query.dryRun === 'true';
        const { items, refused, refusedKeys } = parsePriceCsv(req.body);
        if (refused.length > 0 && !dryRun) {
          throw new InputError(refused.map(({ row, reason }) => ({ path: `row ${row}`, message: reason })));
        }
        const removeMissing = query.removeMissing === 'true';
        const options = { ...statedOf(query), dryRun, removeMissing, kept: refusedKeys };
        res.json({ ...prices.importItems(items, options), refused });
      },
    ],
  });
}

/** Who changes an item, and why, from the address: an item's own body has no room for it. */
const statedBy = (req: Pick<Request, 'query'>) => statedOf(readInput(StatedQuery, req.query));

/** An item as stated; the revision that it was read with may come along, and its key must be the path's. */
function readItem(body: unknown, key: string): PriceItemInput {
  const isObject = typeof body === 'object' && body !== null && !Array.isArray(body);
  const { revision: _revision, ...stated } = isObject ? (body as Record<string, unknown>) : {};
  const item = readInput(PriceItemInput, isObject ? stated : body);
  if (item.key === key) return item;
  throw new InputError([{ path: 'key', message: `must be "${key}" as in the address, not "${item.key}"` }]);
}
