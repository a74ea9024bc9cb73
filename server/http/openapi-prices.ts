import { z } from 'zod';
import type { ZodOpenApiPathsObject } from 'zod-openapi';
import { PriceItem, PriceItemInput } from '../estimate/price-book.ts';
import {
  BODY_REFUSALS,
  bodyOf,
  fileOperation,
  IfMatch,
  listOfItems,
  operation,
  removal,
} from './openapi-operations.ts';
import { AsOfQuery, ImportAnswer, ImportQuery, ItemsQuery } from './price-book.ts';
import {
  BookRevisionAnswer,
  RestoreBody,
  RevisionsQuery,
  SeveralAnswer,
  SeveralBody,
  StatedQuery,
  UndoBody,
} from './price-changes.ts';
import { AddedAnswer, LackingAnswer } from './starting-prices.ts';
import { MappingAnswer, MappingBody, SupplierImportAnswer, SupplierImportQuery } from './suppliers.ts';

const Item = PriceItem.meta({ id: 'PriceItem' });
const ItemBody = PriceItemInput.meta({ id: 'PriceItemInput' });
const Key = z.object({ key: z.string() });
const Supplier = z.object({ supplier: z.string() });
const PricePage = listOfItems(Item).extend({ categories: z.array(z.string()) });
const one = { answer: Item, tagged: true };
const csvBody = { requestBody: { required: true, content: { 'text/csv': { schema: z.string() } } } };

/**
 * Paths of the price book. Every change takes `by` and `why`: in the query where the body is an item, a list or none, in
 * the body where that is a change.
 */
export function pricePaths(): ZodOpenApiPathsObject {
  return { ...itemPaths(), ...bookPaths(), ...changePaths(), ...supplierPaths() };
}

function itemPaths(): ZodOpenApiPathsObject {
  const past = z.object({ items: z.array(z.record(z.string(), z.unknown())) });
  return {
    '/api/price-book/items': {
      get: {
        ...operation({
          summary: 'Search the price book, as it is or as it was.',
          answer: PricePage,
          refused: ['404', '422'],
        }),
        requestParams: { query: ItemsQuery },
      },
      post: {
        ...operation({ ...one, summary: 'Add an item.', status: '201', refused: [...BODY_REFUSALS, '409'] }),
        requestParams: { query: StatedQuery },
        ...bodyOf(ItemBody),
      },
    },
    '/api/price-book/items/{key}': {
      get: { ...operation({ ...one, summary: 'Read an item.', refused: ['404'] }), requestParams: { path: Key } },
      put: {
        ...operation({
          ...one,
          summary: 'Change an item; its history keeps what it was.',
          refused: [...BODY_REFUSALS, '404', '412', '428'],
        }),
        requestParams: { path: Key, header: IfMatch, query: StatedQuery },
        ...bodyOf(ItemBody),
      },
      delete: {
        ...removal('Remove an item; its history stays.'),
        requestParams: { path: Key, header: IfMatch, query: StatedQuery },
      },
    },
    '/api/price-book/items/{key}/history': {
      get: {
        ...operation({ summary: 'What an item was before.', answer: past, refused: ['404'] }),
        requestParams: { path: Key },
      },
    },
    '/api/price-book/items/{key}/restore': {
      post: {
        ...operation({
          ...one,
          summary: 'Put an item back as it was at one of its revisions; If-Match where it is in the book.',
          refused: [...BODY_REFUSALS, '404', '412', '428'],
        }),
        requestParams: { path: Key, header: IfMatch.partial() },
        ...bodyOf(RestoreBody),
      },
    },
  };
}

function bookPaths(): ZodOpenApiPathsObject {
  return {
    '/api/price-book/export.csv': {
      get: {
        ...fileOperation({
          summary: 'The whole book as CSV, as it is or as it was.',
          type: 'text/csv',
          refused: ['404', '422'],
        }),
        requestParams: { query: AsOfQuery },
      },
    },
    '/api/price-book/import': {
      post: {
        ...operation({
          summary: 'Take a book from CSV, all rows or none.',
          answer: ImportAnswer,
          refused: BODY_REFUSALS,
        }),
        requestParams: { query: ImportQuery },
        ...csvBody,
      },
    },
    '/api/price-book/starting-prices': {
      get: operation({
        summary: 'What the starting book has and this one never had.',
        answer: LackingAnswer,
        refused: [],
      }),
      post: {
        ...operation({
          summary: 'Add it as one revision; nothing else changes.',
          answer: AddedAnswer,
          refused: ['422'],
        }),
        requestParams: { query: StatedQuery },
      },
    },
    '/api/price-book/revisions': {
      get: {
        ...operation({
          summary: 'Every revision of the book, the newest first.',
          answer: listOfItems(BookRevisionAnswer),
          refused: ['422'],
        }),
        requestParams: { query: RevisionsQuery },
      },
    },
  };
}

function changePaths(): ZodOpenApiPathsObject {
  return {
    '/api/price-book/changes': {
      post: {
        ...operation({
          summary: 'Change several items as one revision.',
          answer: SeveralAnswer,
          refused: [...BODY_REFUSALS, '412'],
        }),
        ...bodyOf(SeveralBody),
      },
    },
    '/api/price-book/undo': {
      post: {
        ...operation({
          summary: 'Take back what a revision changed, as a new revision.',
          answer: SeveralAnswer,
          refused: [...BODY_REFUSALS, '404', '409'],
        }),
        ...bodyOf(UndoBody),
      },
    },
  };
}

function supplierPaths(): ZodOpenApiPathsObject {
  const mapping = { answer: MappingAnswer, tagged: true };
  return {
    '/api/price-book/suppliers/{supplier}/mapping': {
      get: {
        ...operation({
          ...mapping,
          summary: 'Which part of a supplier is which item, and what it calls the columns of a list.',
          refused: [],
        }),
        requestParams: { path: Supplier },
      },
      put: {
        ...operation({ ...mapping, summary: 'Keep a mapping.', refused: [...BODY_REFUSALS, '412', '428'] }),
        requestParams: { path: Supplier, header: IfMatch },
        ...bodyOf(MappingBody),
      },
    },
    '/api/price-book/suppliers/{supplier}/import': {
      post: {
        ...operation({
          summary:
            "Take prices from a supplier's list (part, price; package, date, description, unit, quantity), all or none.",
          answer: SupplierImportAnswer,
          refused: BODY_REFUSALS,
        }),
        requestParams: { path: Supplier, query: SupplierImportQuery },
        ...csvBody,
      },
    },
  };
}
