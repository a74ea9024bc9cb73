import { z } from 'zod';
import { QUOTE_STATUSES } from '../estimate/quote.ts';

const Tasks = z.array(z.object({ key: z.string(), hours: z.number() }));
const Actuals = z.object({ tasks: Tasks, totalCents: z.int().optional() });
const record = z.record(z.string(), z.unknown());
const shared = {
  id: z.string(),
  number: z.string(),
  revision: z.int().positive(),
  status: z.enum(QUOTE_STATUSES),
  projectId: z.string(),
  title: z.string(),
  optionLabel: z.string(),
  customerName: z.string(),
  totalCents: z.int(),
  issuedOn: z.iso.date(),
  validUntil: z.iso.date(),
};
/** A quote in a list. */
export const ListedQuoteAnswer = z.object({ ...shared, hasActuals: z.boolean() }).meta({ id: 'ListedQuote' });
/** A quote as it is answered; `estimate` is frozen, of the options that are offered, the quoted one first. */
export const QuoteAnswer = z
  .object({
    ...shared,
    bookRevision: z.int(),
    costCents: z.int(),
    /** The format that `stated`, `issuer` and `estimate` were frozen in. */
    format: z.int().positive(),
    stated: record,
    issuer: record,
    estimate: record,
    quotedTasks: z.array(z.object({ key: z.string(), hours: z.number(), hoursPerUnit: z.number() })),
    actuals: Actuals.nullable(),
    revisionOf: z.string().optional(),
    revisedBy: z.string().optional(),
    issuedAt: z.iso.datetime(),
    updatedAt: z.iso.datetime(),
    history: z.array(
      z.object({ revision: z.int(), status: z.enum(QUOTE_STATUSES), at: z.string(), actuals: Actuals.nullable() }),
    ),
  })
  .meta({ id: 'Quote' });
