import { createHash, timingSafeEqual } from 'node:crypto';
import { setTimeout as pause } from 'node:timers/promises';
import type { RequestHandler } from 'express';
import { HttpProblem } from './problems.ts';

/** What a wrong guess waits, so that guessing is slow. */
const WRONG_GUESS_MS = 400;

/**
 * Asks for the passphrase by HTTP Basic (RFC 7617), under any user name. Digests are compared, so that neither the time
 * nor the length of the comparison tells anything.
 */
export function guardPassphrase(passphrase: string): RequestHandler {
  const wanted = digest(passphrase);
  return async (req, _res, next) => {
    const given = passphraseIn(req.get('authorization'));
    if (given !== undefined && timingSafeEqual(digest(given), wanted)) {
      next();
      return;
    }
    if (given !== undefined) await pause(WRONG_GUESS_MS);
    throw new HttpProblem(401, 'This server asks for its passphrase, as HTTP Basic under any user name.', {
      'WWW-Authenticate': 'Basic realm="Feedrun", charset="UTF-8"',
    });
  };
}

const digest = (text: string) => createHash('sha256').update(text, 'utf8').digest();

/** The password of `Basic base64(user:password)`. */
function passphraseIn(header: string | undefined): string | undefined {
  const encoded = /^Basic ([A-Za-z0-9+/]+=*)$/i.exec(header ?? '')?.[1];
  if (encoded === undefined) return undefined;
  const text = Buffer.from(encoded, 'base64').toString('utf8');
  const colon = text.indexOf(':');
  return colon < 0 ? undefined : text.slice(colon + 1);
}
