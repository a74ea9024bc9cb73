import type { Request } from 'express';
import { etagOf } from './etag.ts';
import { HttpProblem } from './problems.ts';

/**
 * The revision that the client saw, which must be the current one: nothing is overwritten unseen. RFC 9110, 13.1.1: `*`
 * is any, several tags are alternatives, and a weak tag never matches.
 * @throws {HttpProblem} 428 where If-Match is missing (RFC 6585, 3), 412 where somebody saved meanwhile
 */
export function revisionSeenBy(req: Request, current: number): number {
  const stated = req.get('if-match');
  if (stated === undefined) {
    throw new HttpProblem(428, `Send If-Match with the ETag that you read, such as ${etagOf(current)}.`);
  }
  const tags = stated.split(',').map((tag) => tag.trim());
  if (tags.includes('*') || tags.includes(etagOf(current))) return current;
  throw new HttpProblem(412, `Somebody saved meanwhile: this is at revision ${etagOf(current)} now, not ${stated}.`, {
    ETag: etagOf(current),
  });
}
