import express, { type Request } from 'express';
import { readJson } from '../estimate/json-text.ts';
import { HttpProblem } from './problems.ts';
import type { Handler } from './resource.ts';

/** The largest bodies that are read, in bytes. */
export const LIMITS = { json: 1024 * 1024, csv: 64 * 1024 * 1024 } as const;

/** Reads a JSON body; 415 for another content type, 413 beyond the limit, 400 for what is not JSON. */
export const jsonBody: Handler[] = bodyOf({ type: 'application/json', limit: LIMITS.json }).concat(
  (req, _res, next) => {
    req.body = readJson(textOf(req));
    next();
  },
);

/** Reads a CSV body as text; 415 for another content type, 413 beyond the limit, 400 for what is not UTF-8. */
export const csvBody: Handler[] = bodyOf({ type: 'text/csv', limit: LIMITS.csv }).concat((req, _res, next) => {
  req.body = textOf(req);
  next();
});

/** What a file of a meter may be sent as. */
export const METER_TYPES = ['text/csv', 'application/xml', 'text/xml'] as const;

/** Reads a utility's interval file as text; 415 for another content type, 413 beyond the limit, 400 for what is not UTF-8. */
export const meterBody: Handler[] = bodyOf({ type: [...METER_TYPES], limit: LIMITS.csv }).concat((req, _res, next) => {
  req.body = textOf(req);
  next();
});

function bodyOf({ type, limit }: { type: string | string[]; limit: number }): Handler[] {
  return [
    (req, _res, next) => {
      if (req.is(type) === false) {
        const types = [type].flat();
        throw new HttpProblem(
          415,
          `Send the body as ${types.join(' or ')}, not as ${req.get('content-type') ?? 'nothing'}.`,
          {
            Accept: types.join(', '), // RFC 9110, 15.5.16: says which content type would do
          },
        );
      }
      next();
    },
    express.raw({ type, limit }),
  ];
}

/** The body as text. JSON between systems is UTF-8 (RFC 8259, 8.1), and so is our CSV. */
function textOf(req: Pick<Request, 'body'>): string {
  if (!Buffer.isBuffer(req.body)) return '';
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(req.body);
  } catch {
    throw new HttpProblem(400, 'The body is not UTF-8.');
  }
}
