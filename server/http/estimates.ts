import { type Response, Router } from 'express';
import type { Data } from '../../db/open.ts';
import type { Estimate } from '../estimate/answer.ts';
import { chosenOption } from '../estimate/chosen-option.ts';
import { oneOf, text } from '../estimate/description/fields.ts';
import { Description, readDescription } from '../estimate/description.ts';
import { type Parts, withAsOf } from '../estimate/estimate.ts';
import { closed, readInput } from '../estimate/input-problems.ts';
import { linesCsv } from '../report/csv.ts';
import { estimatePdf, PAPERS } from '../report/pdf.ts';
import { jsonBody } from './bodies.ts';
import type { Books } from './books.ts';
import type { Estimator } from './estimator.ts';
import { queryNumber } from './queries.ts';
import { resource } from './resource.ts';

/** The description under the name that the OpenAPI document gives it. */
export const DescriptionBody = Description.meta({ id: 'Description' });

/** The sizes of paper. */
export const PAGE_SIZES = ['letter', 'a4'] as const;

const bookRevision = queryNumber({ least: 1, most: Number.MAX_SAFE_INTEGER }).optional();
/** `parts=core` leaves out what takes long; `bookRevision` asks for the book as it was. */
export const EstimateQuery = closed({ parts: oneOf(['core', 'all']).default('all'), bookRevision });
export const LinesQuery = closed({ option: text().optional(), bookRevision });
export const PdfQuery = closed({
  paper: oneOf(PAPERS).default('estimate'),
  option: text().optional(),
  pageSize: oneOf(PAGE_SIZES).default('letter'),
  bookRevision,
});

/** What the routers that estimate are given: the books, and the day. */
export interface EstimateSources {
  /** Who hands papers over. */
  settings: Pick<Data['settings'], 'read'>;
  books: Books;
  estimator: Estimator;
  /** Today as YYYY-MM-DD: what `asOf` is where a description does not state it. */
  today: () => string;
}

interface Question {
  description: Description;
  bookRevision: number | undefined;
  parts: Parts;
}

/** The estimate for a client as JSON text, by the book and the day; undefined where the client has gone. */
export function estimateText(
  client: Response,
  { description, bookRevision, parts }: Question,
  { books, estimator, today }: EstimateSources,
): Promise<string | undefined> {
  return estimator.textFor(client, {
    description: withAsOf(description, today()),
    book: books(bookRevision),
    parts,
  });
}

/** /api/estimates: a description in, an estimate out, as JSON, paper or table. Nothing is stored. */
export function estimatesRouter(sources: EstimateSources): Router {
  const router = Router();
  resource(router, '/', {
    POST: [
      ...jsonBody,
      async (req, res) => {
        const { parts, bookRevision } = readInput(EstimateQuery, req.query);
        const description = readDescription(req.body);
        const text = await estimateText(res, { description, bookRevision, parts }, sources);
        if (text !== undefined) res.type('application/json').send(text);
      },
    ],
  });
  resource(router, '/pdf', {
    POST: [
      ...jsonBody,
      async (req, res) => {
        const { paper, option, pageSize, bookRevision } = readInput(PdfQuery, req.query);
        const description = readDescription(req.body);
        const text = await estimateText(res, { description, bookRevision, parts: 'all' }, sources);
        if (text === undefined) return;
        const answer = JSON.parse(text) as Estimate; // ours, a moment ago
        const optionId = chosenOption(answer, option).id;
        const issuer = sources.settings.read();
        const pdf = await estimatePdf({ estimate: answer, optionId, pageSize, paper, issuer });
        res.type('application/pdf').attachment(`feedrun-${paper}.pdf`).send(pdf);
      },
    ],
  });
  resource(router, '/lines.csv', {
    POST: [
      ...jsonBody,
      async (req, res) => {
        const { option, bookRevision } = readInput(LinesQuery, req.query);
        const description = readDescription(req.body);
        const text = await estimateText(res, { description, bookRevision, parts: 'core' }, sources); // holds all lines
        if (text === undefined) return;
        res
          .type('text/csv')
          .attachment('feedrun-lines.csv')
          .send(linesCsv(chosenOption(JSON.parse(text) as Estimate, option)));
      },
    ],
  });
  return router;
}
