import type { RequestHandler } from 'express';
import helmet from 'helmet';

/**
 * Hashes of the styles that React Aria puts into the document itself: how a finger scrolls over what can be pressed, and
 * that a dialog keeps the page beneath from scrolling. Each passes by what it says, none by `'unsafe-inline'`. A new
 * version of the library may say something else: then the test beside this file's names the new hash.
 */
export const STYLE_HASHES: readonly string[] = [
  "'sha256-38RhXrc7EdReTKsOm23ZPOCUgniTUUcjky8QOOrQx6o='",
  "'sha256-gYiS/BvZvRcK27JIXTuwhZ3hs2+VJ1X+2gUlE+farlg='",
];

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
