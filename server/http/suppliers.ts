import { Router } from 'express';
import { z } from 'zod';
import type { Data } from '../../db/open.ts';
import type { SupplierKept, SupplierPart } from '../../db/suppliers.ts';
import { listOf, oneOf, text } from '../estimate/description/fields.ts';
import { closed, InputError, readInput, shown } from '../estimate/input-problems.ts';
import { PriceItem } from '../estimate/price-book.ts';
import { parseSupplierCsv, proposedHeadings, SUPPLIER_COLUMNS } from '../estimate/supplier-list.ts';
import { withSupplierPrices } from '../estimate/supplier-prices.ts';
import { csvBody, jsonBody } from './bodies.ts';
import { etagOf } from './etag.ts';
import { statedFields, statedOf } from './price-changes.ts';
import { resource } from './resource.ts';
import { revisionSeenBy } from './revisions.ts';

const MOST_PARTS = 100_000;
const parts = () => listOf(closed({ part: text(), key: text(), package: text().optional() }), MOST_PARTS, 'parts');
const heading = () => text().optional();
/** What a supplier calls the columns of a list; what is not stated is called as we call it. */
const columns = () =>
  closed({
    ...{ part: heading(), price: heading(), package: heading(), date: heading() },
    ...{ description: heading(), unit: heading(), quantity: heading() },
  });
/** A mapping as a client keeps it; the whole of it each time. */
export const MappingBody = closed({ parts: parts().default([]), columns: columns().default({}) })
  .superRefine(({ parts, columns }, context) => {
    const stated = SUPPLIER_COLUMNS.flatMap((column) => columns[column] ?? []);
    SUPPLIER_COLUMNS.forEach((column) => {
      const heading = columns[column];
      if (heading === undefined || stated.indexOf(heading) === stated.lastIndexOf(heading)) return;
      context.addIssue({ code: 'custom', path: ['columns', column], message: `names ${shown(heading)} again` });
    });
    const met = new Set<string>();
    parts.forEach(({ part }, at) => {
      if (met.has(part)) context.addIssue({ code: 'custom', path: ['parts', at, 'part'], message: 'is there twice' });
      met.add(part);
    });
  })
  .meta({ id: 'SupplierMappingInput' });
export const MappingAnswer = z
  .object({ supplier: z.string(), revision: z.int(), parts: parts(), columns: columns() })
  .meta({ id: 'SupplierMapping' });
export const SupplierImportQuery = closed({ dryRun: oneOf(['true', 'false']).default('false'), ...statedFields });
/** What a supplier's list did, or would do. */
export const SupplierImportAnswer = z
  .object({
    bookRevision: z.int(),
    matched: z.int(),
    unmatched: z.array(
      z.object({ row: z.int(), part: z.string(), description: z.string().optional(), reason: z.string() }),
    ),
    changed: z.array(z.object({ key: z.string(), before: PriceItem.nullable(), after: PriceItem.nullable() })),
    refused: z.array(z.object({ row: z.int(), reason: z.string() })),
    headings: z.array(z.string()),
    missing: z.array(z.enum(SUPPLIER_COLUMNS)),
    columns: columns(),
    proposed: columns(),
  })
  .meta({ id: 'SupplierImport' });

interface Parts extends Pick<Data, 'prices' | 'suppliers'> {
  /** Today as YYYY-MM-DD: the day of prices that state none. */
  today: () => string;
}

/** /api/price-book/suppliers: which parts of a supplier are which items, and the supplier's lists. */
export function suppliersRouter({ prices, suppliers, today }: Parts): Router {
  const router = Router();
  resource(router, '/:supplier/mapping', {
    GET: (req, res) => {
      const mapping = suppliers.mapping(supplierOf(req.params));
      res.set('ETag', etagOf(mapping.revision)).json(mapping);
    },
    PUT: [
      ...jsonBody,
      (req, res) => {
        const supplier = supplierOf(req.params);
        const revision = revisionSeenBy(req, suppliers.mapping(supplier).revision);
        const mapping = suppliers.keepMapping(supplier, revision, keptOf(readInput(MappingBody, req.body)));
        res.set('ETag', etagOf(mapping.revision)).json(mapping);
      },
    ],
  });
  resource(router, '/:supplier/import', {
    POST: [
      ...csvBody,
      (req, res) => {
        const { dryRun, ...stated } = readInput(SupplierImportQuery, req.query);
        const isTried = dryRun === 'true';
        const supplier = supplierOf(req.params);
        const { parts, columns } = suppliers.mapping(supplier);
        const { prices: listed, refused, headings, missing } = parseSupplierCsv(req.body, columns);
        if (refused.length > 0 && !isTried) {
          throw new InputError(refused.map(({ row, reason }) => ({ path: `row ${row}`, message: reason })));
        }
        const current = new Map(prices.snapshot().items.map((item) => [item.key, item]));
        const { items, matched, unmatched } = withSupplierPrices({
          ...{ supplier, prices: listed, mapping: parts, today: today() },
          itemOf: (key) => current.get(key),
        });
        const steps = items.map((item) => ({ item, revisionSeen: current.get(item.key)?.revision ?? 0 }));
        const done = prices.replaceSeveral(steps, { ...statedOf(stated), cause: 'supplier-list', dryRun: isTried });
        const list = { headings, missing, columns, proposed: proposedHeadings(headings) };
        res.json({ ...done, matched, unmatched, refused, ...list });
      },
    ],
  });
  return router;
}

/** The name of a supplier as the address says it; it becomes a text of items. */
function supplierOf({ supplier }: { supplier: string }): string {
  return readInput(closed({ supplier: text() }), { supplier }).supplier;
}

/** A mapping without what was not stated: the data side knows no undefined. */
function keptOf({ parts, columns }: z.output<typeof MappingBody>): SupplierKept {
  const stated = SUPPLIER_COLUMNS.flatMap((column) =>
    columns[column] === undefined ? [] : [[column, columns[column]]],
  );
  return { parts: parts.map(partOf), columns: Object.fromEntries(stated) };
}

function partOf({ part, key, package: name }: z.output<typeof MappingBody>['parts'][number]): SupplierPart {
  return { part, key, ...(name !== undefined && { package: name }) };
}
