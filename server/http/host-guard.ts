import { isIP } from 'node:net';
import type { RequestHandler } from 'express';
import { type Config, isLoopback } from '../config.ts';
import { HttpProblem } from './problems.ts';

/** Methods that change nothing (RFC 9110, 9.2.1). */
const SAFE_METHODS = ['GET', 'HEAD', 'OPTIONS'];

/**
 * Refuses requests that a foreign page makes a browser send: by a name that was bound to this machine's address
 * (the Host is foreign: 421), or from a page of another origin (403). A client that is no browser sends no Origin.
 */
export function guardHost({ origin, host }: Pick<Config, 'origin' | 'host'>): RequestHandler {
  return (req, _res, next) => {
    const stated = req.get('host') ?? '';
    if (!isOurHost({ stated, origin, listening: host })) {
      throw new HttpProblem(
        421,
        `This server is not "${stated.slice(0, 100)}". Behind a proxy, set FEEDRUN_ORIGIN to the address that people type.`,
      );
    }
    const from = req.get('origin');
    const ours = origin?.origin ?? `http://${stated.toLowerCase()}`;
    if (!SAFE_METHODS.includes(req.method) && from !== undefined && from !== ours) {
      throw new HttpProblem(403, `A page of another origin (${from.slice(0, 100)}) may not change anything here.`);
    }
    next();
  };
}

interface HostQuestion {
  stated: string;
  origin: URL | undefined;
  listening: string;
}

/**
 * Is this Host ours? With an origin it must be the origin's. Listening at the loopback alone, only its own names will
 * do. Listening to others without an origin, any bare address will: only a name can be bound to a foreign machine.
 */
function isOurHost({ stated, origin, listening }: HostQuestion): boolean {
  if (origin) return stated.toLowerCase() === origin.host;
  const name = stated.replace(/:\d+$/, '').toLowerCase();
  if (isLoopback(name)) return true;
  return !isLoopback(listening) && (isIP(name.replace(/^\[(.*)\]$/, '$1')) !== 0 || name === listening.toLowerCase());
}
