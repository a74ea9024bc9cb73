import { Router } from 'express';
import type { Data } from '../../db/open.ts';
import { chosenOption } from '../estimate/chosen-option.ts';
import { oneOf, text } from '../estimate/description/fields.ts';
import { Description, readDescription } from '../estimate/description.ts';
import { estimate, withAsOf } from '../estimate/estimate.ts';
import { closed, readInput } from '../estimate/input-problems.ts';
import { jsonText } from '../estimate/json-text.ts';
import { linesCsv } from '../report/csv.ts';
import { estimatePdf, PAPERS } from '../report/pdf.ts';
import { jsonBody } from './bodies.ts';
import type { Books } from './books.ts';
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
  /** Today as YYYY-MM-DD: what `asOf` is where a description does not state it. */
  today: () => string;
}

/** /api/estimates: a description in, an estimate out, as JSON, paper or table. Nothing is stored. */
export function estimatesRouter({ books, today, settings }: EstimateSources): Router {
  const router = Router();
  const estimateOf = (body: unknown, revision: number | undefined, parts: 'core' | 'all' = 'all') =>
    estimate(withAsOf(readDescription(body), today()), books(revision), { parts });

  resource(router, '/', {
    POST: [
      ...jsonBody,
      (req, res) => {
        const query = readInput(EstimateQuery, req.query);
        const answer = estimateOf(req.body, query.bookRevision, query.parts);
        res.type('application/json').send(jsonText(answer));
      },
    ],
  });
  resource(router, '/pdf', {
    POST: [
      ...jsonBody,
      async (req, res) => {
        const { paper, option, pageSize, bookRevision } = readInput(PdfQuery, req.query);
        const answer = estimateOf(req.body, bookRevision);
        const optionId = chosenOption(answer, option).id;
        const pdf = await estimatePdf({ estimate: answer, optionId, pageSize, paper, issuer: settings.read() });
        res.type('application/pdf').attachment(`feedrun-${paper}.pdf`).send(pdf);
      },
    ],
  });
  resource(router, '/lines.csv', {
    POST: [
      ...jsonBody,
      (req, res) => {
        const { option, bookRevision } = readInput(LinesQuery, req.query);
        const answer = estimateOf(req.body, bookRevision);
        res
          .type('text/csv')
          .attachment('feedrun-lines.csv')
          .send(linesCsv(chosenOption(answer, option)));
      },
    ],
  });
  return router;
}
