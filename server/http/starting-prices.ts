import { Router } from 'express';
import { z } from 'zod';
import type { Data } from '../../db/open.ts';
import { readInput } from '../estimate/input-problems.ts';
import { addStartingPrices, lackingStartingPrices } from '../starting-prices.ts';
import { StatedQuery, statedOf } from './price-changes.ts';
import { resource } from './resource.ts';

/** What the starting price book of this program has, and this book never had: how many, and each by name. */
export const LackingAnswer = z
  .object({
    lacking: z.int(),
    items: z.array(z.object({ key: z.string(), description: z.string(), category: z.string() })),
  })
  .meta({ id: 'LackingPrices' });
/** How many were added, and the revision of the book after it. */
export const AddedAnswer = z.object({ added: z.int(), revision: z.int() }).meta({ id: 'AddedPrices' });

/** /api/price-book/starting-prices: what a book of an older program lacks, and adding it. */
export function startingPricesRouter({ prices }: Pick<Data, 'prices'>): Router {
  const router = Router();
  resource(router, '/', {
    GET: (_req, res) => {
      const items = lackingStartingPrices(prices);
      const named = items.map(({ key, description, category }) => ({ key, description, category }));
      res.json({ lacking: items.length, items: named });
    },
    POST: (req, res) => {
      const { added, revision } = addStartingPrices(prices, statedOf(readInput(StatedQuery, req.query)));
      res.json({ added, revision });
    },
  });
  return router;
}
