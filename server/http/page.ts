import { existsSync } from 'node:fs';
import { join } from 'node:path';
import express, { Router } from 'express';

const YEAR_S = 365 * 24 * 3600;

/**
 * The page: files of the build, and its first document for every other address, which the page itself then reads. Files
 * under `assets/` carry a hash of what they hold in their names, so that they may be kept for a year.
 */
export function pageRouter(folder: string): Router {
  const router = Router();
  const index = join(folder, 'index.html');
  router.use(
    '/assets',
    express.static(join(folder, 'assets'), {
      immutable: true,
      maxAge: YEAR_S * 1000,
      index: false,
      fallthrough: false,
    }),
  );
  router.use(
    express.static(folder, {
      index: false,
      cacheControl: false,
      setHeaders: (res) => res.set('Cache-Control', 'no-cache'),
    }),
  );
  router.get('/{*path}', (req, res, next) => {
    if (!existsSync(index) || req.accepts(['html', 'json']) !== 'html') next();
    else res.set('Cache-Control', 'no-cache').sendFile(index);
  });
  return router;
}
