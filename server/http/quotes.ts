import { Router } from 'express';
import { z } from 'zod';
import type { Data } from '../../db/open.ts';
import type { JsonObject, Project } from '../../db/projects.ts';
import type { Quote } from '../../db/quotes.ts';
import type { Estimate, EstimateOption } from '../estimate/answer.ts';
import { oneOf, text } from '../estimate/description/fields.ts';
import { Description } from '../estimate/description.ts';
import { closed, readInput } from '../estimate/input-problems.ts';
import {
  ActualsInput,
  insistOnQuoted,
  offered,
  QUOTE_STATUSES,
  QuoteInput,
  quotable,
  quotedCents,
  quotedTasks,
  StatusInput,
  validUntil,
} from '../estimate/quote.ts';
import { linesCsv, picklistCsv } from '../report/csv.ts';
import { quotePdf } from '../report/quote-paper.ts';
import { jsonBody } from './bodies.ts';
import { type EstimateSources, estimateText, PAGE_SIZES } from './estimates.ts';
import { etagOf } from './etag.ts';
import { HttpProblem } from './problems.ts';
import { PageNumber } from './queries.ts';
import { type Handler, resource } from './resource.ts';
import { revisionSeenBy } from './revisions.ts';

/** A list of quotes: of one project where one is named. */
export const QuotesQuery = closed({ project: text().optional(), page: PageNumber.optional() });
/** Which paper a quote is printed on. */
export const QuotePdfQuery = closed({ pageSize: oneOf(PAGE_SIZES).default('letter') });

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

interface QuoteSources extends EstimateSources {
  data: Data;
}

/** /api/projects/:id/quotes: issues a quote of what a project says, at today's prices. */
export function issueRouter(sources: QuoteSources): Router {
  const router = Router();
  const { data, today } = sources;
  resource(router, '/:id/quotes', {
    GET: (req, res) => {
      const { id } = data.projects.find(req.params.id); // 404
      const { page } = readInput(QuotesQuery.omit({ project: true }), req.query);
      res.json(data.quotes.list({ today: today(), projectId: id, page }));
    },
    POST: [
      ...jsonBody,
      async (req, res) => {
        const asked = askedOf(req, sources);
        const text = await estimateText(res, { ...asked, parts: 'all' }, sources);
        if (text === undefined) return; // whoever asked has gone: nothing is issued unseen
        const again = askedOf(req, sources); // somebody may have saved, or changed a price, meanwhile
        if (again.project.revision !== asked.project.revision) {
          throw new HttpProblem(412, 'Somebody saved the project while it was estimated: look at its total again.');
        }
        insistOnBook(asked, again.bookRevision);
        const quote = issue(again, { answer: JSON.parse(text) as Estimate, sources }); // ours, a moment ago
        res.status(201).location(`/api/quotes/${quote.id}`).set('ETag', etagOf(quote.revision)).json(quote);
      },
    ],
  });
  return router;
}

/** What is asked for when a quote is to be issued, by the project and the book as they are. */
interface Asked {
  project: Project;
  stated: QuoteInput;
  /** Of the options that are offered alone. */
  description: Description;
  bookRevision: number;
  revisionOf: string | undefined;
}

function askedOf(req: Parameters<Handler>[0], { data, today }: QuoteSources): Asked {
  const project = data.projects.find(req.params.id);
  revisionSeenBy(req, project.revision);
  const stated = readInput(QuoteInput, req.body);
  if (project.description === null) throw new HttpProblem(409, 'This project has no valid description yet.');
  const bookRevision = data.prices.revision();
  insistOnBook(stated, bookRevision);
  const revised =
    stated.revisionOf === undefined ? undefined : revisedQuote(stated.revisionOf, { data, project, today });
  const description = offered(readInput(Description, project.description), stated);
  return { project, stated, description, bookRevision, revisionOf: revised?.id };
}

/** Freezes the answer. @throws {InputError} where it cannot be built or lacks a price */
function issue(
  { project, stated, revisionOf }: Asked,
  { answer, sources: { data, settings, today } }: { answer: Estimate; sources: QuoteSources },
): Quote {
  const option = quotable(answer, stated);
  const { revision: _revision, defaultTerms: _terms, ...issuer } = settings.read();
  return data.quotes.issue({
    projectId: project.id,
    revisionOf,
    issuedOn: today(),
    validUntil: validUntil(today(), stated.validDays),
    bookRevision: answer.bookRevision,
    title: project.title,
    optionLabel: option.label,
    customerName: stated.customer.name,
    totalCents: quotedCents(option, stated),
    costCents: option.totals.costCents,
    stated: stated as JsonObject,
    issuer,
    estimate: answer as unknown as JsonObject,
    quotedTasks: quotedTasks(option),
  });
}

/** @throws {HttpProblem} 409 where the book moved on since it was seen */
function insistOnBook({ bookRevision }: Pick<QuoteInput, 'bookRevision'>, current: number): void {
  if (bookRevision === undefined || bookRevision === current) return;
  throw new HttpProblem(
    409,
    `The price book moved on: it is at revision ${current}, not ${bookRevision}. Look at the total again.`,
  );
}

function revisedQuote(
  id: string,
  { data, project, today }: Pick<QuoteSources, 'data' | 'today'> & { project: { id: string } },
): Quote {
  const revised = data.quotes.find(id, { today: today() });
  if (revised.projectId !== project.id) {
    throw new HttpProblem(409, `Quote ${revised.number} is of another project: it cannot be revised by this one.`);
  }
  if (revised.revisedBy === undefined) return revised;
  const later = data.quotes.find(revised.revisedBy, { today: today() });
  throw new HttpProblem(409, `Quote ${revised.number} was revised by ${later.number}: revise that one.`);
}

/** /api/quotes: what was issued, what became of it, and what the job then took. */
export function quotesRouter({ data: { quotes }, today }: Pick<QuoteSources, 'data' | 'today'>): Router {
  const router = Router();
  const find = (id: string) => quotes.find(id, { today: today() });
  resource(router, '/', {
    GET: (req, res) => {
      const { project, page } = readInput(QuotesQuery, req.query);
      res.json(quotes.list({ today: today(), projectId: project, page }));
    },
  });
  resource(router, '/:id', {
    GET: (req, res) => {
      const quote = find(req.params.id);
      res.set('ETag', etagOf(quote.revision)).json(quote);
    },
  });
  resource(router, '/:id/status', {
    POST: [
      ...jsonBody,
      (req, res) => {
        const { id, revision } = find(req.params.id);
        const isStated = req.get('if-match') !== undefined; // what may follow what is checked either way
        const seen = isStated ? revisionSeenBy(req, revision) : revision;
        const { status } = readInput(StatusInput, req.body);
        const quote = quotes.setStatus(id, seen, { status, today: today() });
        res.set('ETag', etagOf(quote.revision)).json(quote);
      },
    ],
  });
  resource(router, '/:id/actuals', {
    PUT: [
      ...jsonBody,
      (req, res) => {
        const before = find(req.params.id);
        const seen = revisionSeenBy(req, before.revision);
        const actuals = readInput(ActualsInput, req.body);
        insistOnQuoted(actuals, before.quotedTasks);
        const quote = quotes.setActuals(before.id, seen, { actuals, today: today() });
        res.set('ETag', etagOf(quote.revision)).json(quote);
      },
    ],
  });
  addPapers(router, find);
  return router;
}

/** What is handed over of a quote: the paper to sign, and its lines. */
function addPapers(router: Router, find: (id: string) => Quote): void {
  resource(router, '/:id/pdf', {
    GET: async (req, res) => {
      const quote = find(req.params.id);
      const { pageSize } = readInput(QuotePdfQuery, req.query);
      const revises = quote.revisionOf === undefined ? undefined : find(quote.revisionOf).number;
      const { number, issuedOn, validUntil: until, issuer } = quote;
      // Frozen by us when it was issued, in the shape that it had then.
      const frozen = { estimate: quote.estimate as unknown as Estimate, stated: quote.stated as QuoteInput };
      const onPaper = { ...frozen, number, issuedOn, validUntil: until, issuer, revises };
      res
        .type('application/pdf')
        .attachment(`quote-${number}.pdf`)
        .send(await quotePdf(onPaper, { pageSize }));
    },
  });
  for (const [name, csvOf] of Object.entries({ items: linesCsv, picklist: picklistCsv })) {
    resource(router, `/:id/${name}.csv`, {
      GET: (req, res) => {
        const quote = find(req.params.id);
        const csv = csvOf(quotedOption(quote));
        res.type('text/csv').attachment(`quote-${quote.number}-${name}.csv`).send(csv);
      },
    });
  }
}

/** The option that was quoted, as it was frozen: the first of its estimate. */
function quotedOption({ estimate: frozen }: Quote): EstimateOption {
  const [option] = (frozen as unknown as { options: [EstimateOption] }).options;
  return option;
}
