import { Router } from 'express';
import type { Data } from '../../db/open.ts';
import type { JsonObject, Project } from '../../db/projects.ts';
import type { Quote } from '../../db/quotes.ts';
import type { Estimate } from '../estimate/answer.ts';
import { oneOf, text } from '../estimate/description/fields.ts';
import { Description } from '../estimate/description.ts';
import {
  type FrozenParts,
  type FrozenQuote,
  frozenQuote,
  QUOTE_FORMAT,
  UnreadableQuoteError,
} from '../estimate/frozen-quote.ts';
import { closed, readInput } from '../estimate/input-problems.ts';
import {
  ActualsInput,
  offered,
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
  const parts = { format: QUOTE_FORMAT, stated, issuer, estimate: answer };
  frozenQuote(parts); // what could not be read again is not issued
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
    format: parts.format,
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

/** @throws {ConflictError} where it may not be revised @throws {HttpProblem} 409 where it is of another project */
function revisedQuote(
  id: string,
  { data, project, today }: Pick<QuoteSources, 'data' | 'today'> & { project: { id: string } },
): Quote {
  const revised = data.quotes.revisable(id, { today: today() });
  if (revised.projectId === project.id) return revised;
  throw new HttpProblem(409, `Quote ${revised.number} is of another project: it cannot be revised by this one.`);
}

/** What was frozen of a quote. @throws {HttpProblem} where a newer program wrote it, or it is not as it was written */
function readFrozen({ number, ...parts }: FrozenParts & { number: string }): FrozenQuote {
  try {
    return frozenQuote(parts);
  } catch (error) {
    if (!(error instanceof UnreadableQuoteError)) throw error;
    throw new HttpProblem(error.reason === 'newer' ? 409 : 500, `Quote ${number} ${error.message}`);
  }
}

/** The revision that was seen, where the client says so: If-Match may be left out, and is honoured where it is sent. */
function revisionIfStated(req: Parameters<Handler>[0], current: number): number {
  return req.get('if-match') === undefined ? current : revisionSeenBy(req, current);
}

/** /api/quotes: what was issued, what became of it, and what the job then took. */
export function quotesRouter({ data: { quotes }, today }: Pick<QuoteSources, 'data' | 'today'>): Router {
  const router = Router();
  const find = (id: string): Quote => {
    const quote = quotes.find(id, { today: today() });
    readFrozen(quote);
    return quote;
  };
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
        const seen = revisionIfStated(req, revision); // what may follow what is checked either way
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
        const seen = revisionIfStated(req, before.revision);
        const actuals = readInput(ActualsInput, req.body);
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
      const { number, issuedOn, validUntil: until } = quote;
      const onPaper = { ...readFrozen(quote), number, issuedOn, validUntil: until, revises };
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
        const [option] = readFrozen(quote).estimate.options;
        if (!option) throw new Error('A frozen quote without an option was read.'); // its schema asks for one
        const csv = csvOf(option);
        res.type('text/csv').attachment(`quote-${quote.number}-${name}.csv`).send(csv);
      },
    });
  }
}
