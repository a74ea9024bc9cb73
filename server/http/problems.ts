import { STATUS_CODES } from 'node:http';
import type { ErrorRequestHandler, Response } from 'express';
import type { Logger } from 'pino';
import { z } from 'zod';
import {
  ChangedSinceError,
  ConflictError,
  DataError,
  NotFoundError,
  ReadOnlyError,
  StaleItemsError,
  StaleRevisionError,
} from '../../db/errors.ts';
import { RefusedInputError } from '../electrical/errors.ts';
import { InputError } from '../estimate/input-problems.ts';
import { NotJsonError } from '../estimate/json-text.ts';
import { etagOf } from './etag.ts';

/** What went wrong, in the form of RFC 9457. `errors` name the fields by path, such as `route.0.lengthFt`. */
export const ProblemDetails = z
  .object({
    type: z.string(),
    title: z.string(),
    status: z.int(),
    detail: z.string(),
    errors: z.array(z.object({ path: z.string(), message: z.string() })).optional(),
  })
  .meta({ id: 'Problem' });
export type ProblemDetails = z.output<typeof ProblemDetails>;

/** A request that is refused for a reason of HTTP itself; everything else has a typed error of its own. */
export class HttpProblem extends Error {
  readonly status: number;
  readonly headers: Readonly<Record<string, string>>;
  constructor(status: number, detail: string, headers: Readonly<Record<string, string>> = {}) {
    super(detail);
    this.name = 'HttpProblem';
    this.status = status;
    this.headers = headers;
  }
}

/** How many problems the summary names; all of them stand in `errors`. */
const MOST_IN_DETAIL = 3;

/** Turns what was thrown into problem details; what nobody expected is a 500 that tells nothing of the inside. */
export function problemOf(error: unknown): ProblemDetails {
  if (error instanceof InputError) return { ...problem(422, summary(error)), errors: [...error.problems] };
  if (error instanceof RefusedInputError) return refusedProblem(error);
  if (error instanceof HttpProblem) return problem(error.status, error.message);
  if (error instanceof NotJsonError) return problem(400, error.message);
  if (error instanceof DataError) return dataProblem(error);
  const refused = error instanceof Error ? bodyProblem(error) : undefined;
  return refused ?? problem(500, 'Something went wrong in the server. Nothing was changed; its log says more.');
}

/** What the data layer throws; its words are passed on but where they name files of this machine. */
function dataProblem(error: DataError): ProblemDetails {
  if (error instanceof NotFoundError) return problem(404, error.message);
  if (error instanceof StaleRevisionError) return problem(412, error.message);
  if (error instanceof StaleItemsError) {
    const status = error instanceof ChangedSinceError ? 409 : 412;
    return { ...problem(status, error.message), errors: staleItems(error) };
  }
  if (error instanceof ConflictError) return problem(409, error.message);
  const isFull = error instanceof ReadOnlyError && error.reason === 'disk-full';
  if (isFull) return problem(507, 'The disk of the server is full. Nothing was changed.'); // RFC 4918, 11.5
  return problem(503, 'The server cannot use its data file just now. Nothing was changed; its log says more.');
}

/** Each item that somebody changed meanwhile, at its place among those that were sent. */
function staleItems({ items }: StaleItemsError): ProblemDetails['errors'] {
  return items.map(({ at, key, revision, revisionSeen }) => {
    const now = revision === null ? 'is not in the book any more' : `is at revision ${revision} by now`;
    return { path: `items.${at}`, message: `"${key}" ${now}, not at ${revisionSeen}` };
  });
}

/** What a rule of the code book cannot work with: the last net under the checks of the description. */
function refusedProblem({ field, message }: RefusedInputError): ProblemDetails {
  return { ...problem(422, message), errors: [{ path: field, message: message.replace(`${field} `, '') }] };
}

/** RFC 9457, 4.2.1: with `about:blank` the title is the status's own phrase. */
function problem(status: number, detail: string): ProblemDetails {
  return { type: 'about:blank', title: STATUS_CODES[status] ?? 'Error', status, detail };
}

function summary({ problems }: InputError): string {
  const named = problems.slice(0, MOST_IN_DETAIL).map(({ path, message }) => (path ? `${path} ${message}` : message));
  const more = problems.length - named.length;
  return [...named, ...(more > 0 ? [`and ${more} more`] : [])].join('; ');
}

/** Express' own readers of requests throw errors with a status below 500; their words may be passed on. */
function bodyProblem(error: Error): ProblemDetails | undefined {
  const { status, limit } = error as { status?: unknown; limit?: unknown };
  if (typeof status !== 'number' || status < 400 || status >= 500) return undefined;
  if (status === 413) return problem(413, `The body is too large: at most ${limit} bytes are read.`);
  return problem(status, error.message);
}

/** The one place where errors become answers. */
export function answerProblems(logger: Logger): ErrorRequestHandler {
  return (error, req, res, next) => {
    const details = problemOf(error);
    if (details.status >= 500) logger.error({ err: error, method: req.method, path: req.path }, 'request failed');
    if (res.headersSent) next(error);
    else {
      if (error instanceof HttpProblem) res.set(error.headers);
      if (error instanceof StaleRevisionError) res.set('ETag', etagOf(error.revision));
      sendProblem(res, details);
    }
  };
}

function sendProblem(res: Response, details: ProblemDetails): void {
  res.status(details.status).type('application/problem+json').send(JSON.stringify(details));
}
