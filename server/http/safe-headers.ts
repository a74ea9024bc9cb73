import type { RequestHandler } from 'express';
import helmet from 'helmet';

/**
 * Hashes of styles that a library of the page puts into the document itself, as `'sha256-…'`: each passes by what it
 * says, none by `'unsafe-inline'`. A new version of the library may need a new one; the browser's console prints it.
 */
export const STYLE_HASHES: readonly string[] = [];

/** Headers that keep a browser from doing what the page never asks for. HSTS only where people come by https. */
export function safeHeaders({ https }: { https: boolean }): RequestHandler {
  return helmet({
    contentSecurityPolicy: {
      useDefaults: false,
      directives: {
        defaultSrc: ["'self'"],
        styleSrc: ["'self'", ...STYLE_HASHES],
        imgSrc: ["'self'", 'data:', 'blob:'],
        objectSrc: ["'none'"],
        baseUri: ["'none'"],
        formAction: ["'self'"],
        frameAncestors: ["'none'"],
      },
    },
    strictTransportSecurity: https,
    referrerPolicy: { policy: 'no-referrer' },
  });
}
