import { Router } from 'express';
import { z } from 'zod';
import { NotFoundError, StaleItemsError } from '../../db/errors.ts';
import type { Data } from '../../db/open.ts';
import type { StatedChange } from '../../db/price-book.ts';
import { flag, listOf, quantity, text } from '../estimate/description/fields.ts';
import { closed, InputError, readInput } from '../estimate/input-problems.ts';
import { PriceItem, PriceItemInput } from '../estimate/price-book.ts';
import { changedItem, SeveralChange } from '../estimate/several-prices.ts';
import { jsonBody } from './bodies.ts';
import { etagOf } from './etag.ts';
import { PageNumber } from './queries.ts';
import { resource } from './resource.ts';
import { revisionSeenBy } from './revisions.ts';

/** So many items may be named in one change; a category may have more. */
const MOST_NAMED = 10_000;

const revision = () => quantity({ unit: 'revisions', whole: true, least: 1 });
/** Who changes the book, and why: told, not checked, and kept in the history. */
export const statedFields = { by: text().optional(), why: text().optional() };
/** The same beside a body that has no room for it: an item, a list, none. */
export const StatedQuery = closed(statedFields);

/** Several items to be changed alike: those named with the revision that was seen, or a whole category. */
export const SeveralBody = closed({
  items: listOf(closed({ key: text(), revision: revision() }), MOST_NAMED, 'items').optional(),
  category: text().optional(),
  change: SeveralChange,
  ...statedFields,
  dryRun: flag().default(false),
})
  .superRefine(({ items, category, change }, context) => {
    const isIndex = 'indexFactor' in change;
    if ((items !== undefined ? 1 : 0) + (category !== undefined ? 1 : 0) + (isIndex ? 1 : 0) !== 1) {
      const message = 'must be stated, or category instead; neither where an index names its own category with "of"';
      context.addIssue({ code: 'custom', path: ['items'], message });
    }
    const keys = (items ?? []).map(({ key }) => key);
    const again = keys.findIndex((key, at) => keys.indexOf(key) !== at);
    if (again >= 0) {
      context.addIssue({ code: 'custom', path: ['items', again, 'key'], message: `names "${keys[again]}" again` });
    }
  })
  .meta({ id: 'PriceChange' });
export const UndoBody = closed({ revision: revision(), ...statedFields });
export const RestoreBody = UndoBody;
/** What a change of several items did: each before and after; null where it was not in the book. */
export const SeveralAnswer = z
  .object({
    bookRevision: z.int(),
    changed: z.array(z.object({ key: z.string(), before: PriceItem.nullable(), after: PriceItem.nullable() })),
  })
  .meta({ id: 'PriceChanged' });
export const RevisionsQuery = closed({ page: PageNumber.optional() });
/** One revision of the book. */
export const BookRevisionAnswer = z
  .object({
    revision: z.int(),
    cause: z.enum(['edit', 'import', 'seed', 'several', 'index', 'undo', 'restore', 'supplier-list']),
    at: z.string(),
    by: z.string().optional(),
    why: z.string().optional(),
    items: z.int(),
    index: z.object({ category: z.string(), factor: z.number(), on: z.string() }).optional(),
    undoes: z.int().optional(),
    undoneBy: z.int().optional(),
  })
  .meta({ id: 'BookRevision' });

/** Leaves out what was not told: the data side knows no undefined. */
export function statedOf({ by, why }: { by?: string | undefined; why?: string | undefined }): StatedChange {
  return { ...(by !== undefined && { by }), ...(why !== undefined && { why }) };
}

interface Parts {
  prices: Data['prices'];
  /** Today as YYYY-MM-DD: the day that a moved price stands for. */
  today: () => string;
}

/** /api/price-book: changes of several items as one revision, what takes them back, and the list of revisions. */
export function priceChangesRouter({ prices, today }: Parts): Router {
  const router = Router();
  resource(router, '/changes', {
    POST: [
      ...jsonBody,
      (req, res) => {
        const body = readInput(SeveralBody, req.body);
        res.json(changeSeveral(body, { prices, today }));
      },
    ],
  });
  resource(router, '/undo', {
    POST: [
      ...jsonBody,
      (req, res) => {
        const { revision, ...stated } = readInput(UndoBody, req.body);
        res.json(prices.undo(revision, statedOf(stated)));
      },
    ],
  });
  resource(router, '/items/:key/restore', {
    POST: [
      ...jsonBody,
      (req, res) => {
        const { key } = req.params;
        const { revision, ...stated } = readInput(RestoreBody, req.body);
        const [newest] = prices.history(key); // 404
        const isThere = newest !== undefined && newest.change !== 'removed';
        const seen = isThere ? { revisionSeen: revisionSeenBy(req, newest.revision) } : {};
        const item = prices.restore(key, revision, { ...statedOf(stated), ...seen });
        res.set('ETag', etagOf(item.revision)).json(item);
      },
    ],
  });
  resource(router, '/revisions', {
    GET: (req, res) => {
      res.json(prices.revisions(readInput(RevisionsQuery, req.query).page ?? 1));
    },
  });
  return router;
}

function changeSeveral(body: z.output<typeof SeveralBody>, { prices, today }: Parts) {
  const { change, dryRun } = body;
  const steps = itemsToChange(body, prices).map(({ item, revisionSeen }) => ({
    revisionSeen,
    item: checkedChange(item, change, today()),
  }));
  const index =
    'indexFactor' in change ? { category: change.of, factor: change.indexFactor, on: change.on ?? today() } : undefined;
  return prices.replaceSeveral(steps, {
    ...statedOf(body),
    cause: index ? 'index' : 'several',
    ...(index && { index }),
    dryRun,
  });
}

/** An item after the change, as the schema lets it in: a raise may go beyond what a price can be. */
function checkedChange({ revision: _revision, ...item }: PriceItem, change: SeveralChange, on: string): PriceItemInput {
  try {
    return readInput(PriceItemInput, changedItem(item, change, on));
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    throw new InputError(error.problems.map(({ message }) => ({ path: 'change', message: `${item.key}: ${message}` })));
  }
}

function itemsToChange({ items, category, change }: z.output<typeof SeveralBody>, prices: Data['prices']) {
  const current = new Map(prices.snapshot().items.map((item) => [item.key, item]));
  if (items) {
    refuseMissing(items, { current, prices });
    return items.flatMap(({ key, revision: revisionSeen }) => {
      const item = current.get(key);
      return item ? [{ item, revisionSeen }] : [];
    });
  }
  const wanted = 'indexFactor' in change ? change.of : category;
  const ofCategory = [...current.values()].filter((item) => item.category === wanted);
  if (ofCategory.length > 0) return ofCategory.map((item) => ({ item, revisionSeen: item.revision }));
  const categories = [...new Set([...current.values()].map((item) => item.category))].sort();
  const path = 'indexFactor' in change ? 'change.of' : 'category';
  throw new InputError([{ path, message: `must be one of ${categories.join(', ')}, not "${wanted ?? ''}"` }]);
}

/**
 * @throws {InputError} for items that never were in the book
 * @throws {StaleItemsError} for items that somebody removed meanwhile
 */
function refuseMissing(
  items: readonly { key: string; revision: number }[],
  { current, prices }: { current: ReadonlyMap<string, PriceItem>; prices: Data['prices'] },
): void {
  const missing = items.flatMap(({ key, revision: revisionSeen }, at) =>
    current.has(key) ? [] : [{ at, key, revisionSeen, revision: null }],
  );
  const unknown = missing.filter(({ key }) => !wasThere(key, prices));
  if (unknown.length > 0) {
    throw new InputError(
      unknown.map(({ at, key }) => ({ path: `items.${at}.key`, message: `names no item: "${key}"` })),
    );
  }
  if (missing.length > 0) throw new StaleItemsError(missing);
}

function wasThere(key: string, prices: Data['prices']): boolean {
  try {
    return prices.history(key).length > 0;
  } catch (error) {
    if (error instanceof NotFoundError) return false;
    throw error;
  }
}
