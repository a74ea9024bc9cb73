import express, { type Express } from 'express';
import type { Logger } from 'pino';
import type { Data } from '../../db/open.ts';
import { dayOf } from '../calendar-day.ts';
import type { Config } from '../config.ts';
import { descriptionJsonSchema } from '../estimate/description.ts';
import { booksOf } from './books.ts';
import { calculationsRouter } from './calculations.ts';
import { estimatesRouter } from './estimates.ts';
import { type Estimator, estimator as estimatorOf } from './estimator.ts';
import { guardHost } from './host-guard.ts';
import { learnedRouter } from './learned.ts';
import { meterReadingsRouter } from './meter-readings.ts';
import { openApiDocument } from './openapi.ts';
import { pageRouter } from './page.ts';
import { guardPassphrase } from './passphrase.ts';
import { priceBookRouter } from './price-book.ts';
import { priceChangesRouter } from './price-changes.ts';
import { answerProblems, HttpProblem } from './problems.ts';
import { projectsRouter } from './projects.ts';
import { issueRouter, quotesRouter } from './quotes.ts';
import { resource } from './resource.ts';
import { safeHeaders } from './safe-headers.ts';
import { settingsRouter } from './settings.ts';
import { suppliersRouter } from './suppliers.ts';

/** What the app is made of: an open data folder, the settings of the server, a clock and a log. */
export interface AppParts {
  data: Data;
  config: Config;
  now: () => Date;
  logger: Logger;
  /** Makes the estimates; without one, all are made in this thread. */
  estimator?: Estimator;
  /** The folder of the built page; without one only the API answers. */
  pageFolder?: string;
}

/** Every address of the server, behind its guards. It listens to nothing yet, so that tests may ask it in process. */
export function createApp({ data, config, now, logger, estimator, pageFolder }: AppParts): Express {
  const app = express();
  app.disable('x-powered-by');
  app.disable('etag'); // entity tags are revisions, set where there is one
  app.use(safeHeaders({ https: config.origin?.protocol === 'https:' }));
  app.use(logRequests(logger));
  app.use(guardHost(config));
  if (config.passphrase !== undefined) app.use(guardPassphrase(config.passphrase));
  app.use('/api', apiRouter({ data, now, estimator: estimator ?? estimatorOf({ most: 0 }) }));
  resource(app, '/healthz', { GET: (_req, res) => res.set('Cache-Control', 'no-store').json({ status: 'ok' }) });
  if (pageFolder !== undefined) app.use(pageRouter(pageFolder));
  app.use((req) => {
    throw new HttpProblem(404, `There is nothing at ${req.path}.`);
  });
  app.use(answerProblems(logger));
  return app;
}

function apiRouter({ data, now, estimator }: Pick<Required<AppParts>, 'data' | 'now' | 'estimator'>): express.Router {
  const router = express.Router();
  const sources = { books: booksOf(data), estimator, settings: data.settings, today: () => dayOf(now()) };
  router.use((_req, res, next) => {
    res.set('Cache-Control', 'private, no-cache');
    next();
  });
  router.use('/estimates', estimatesRouter(sources));
  router.use('/projects', projectsRouter({ data, ...sources }));
  router.use('/projects', issueRouter({ data, ...sources }));
  router.use('/quotes', quotesRouter({ data, ...sources }));
  router.use('/price-book/learned', learnedRouter({ data, ...sources }));
  router.use('/price-book', priceBookRouter({ prices: data.prices, now }));
  router.use('/price-book/suppliers', suppliersRouter({ ...data, today: sources.today }));
  router.use('/price-book', priceChangesRouter({ prices: data.prices, today: sources.today }));
  router.use('/calculations', calculationsRouter());
  router.use('/meter-readings', meterReadingsRouter());
  router.use('/settings', settingsRouter(data));
  const openApi = openApiDocument();
  resource(router, '/openapi.json', { GET: (_req, res) => res.json(openApi) });
  const descriptionSchema = descriptionJsonSchema();
  resource(router, '/description.schema.json', {
    GET: (_req, res) => res.type('application/schema+json').send(JSON.stringify(descriptionSchema)),
  });
  router.use((req) => {
    throw new HttpProblem(404, `There is nothing at ${req.baseUrl}${req.path}.`);
  });
  return router;
}

/** One entry for each answer, without what was sent or asked for: that is other people's. */
function logRequests(logger: Logger): express.RequestHandler {
  return (req, res, next) => {
    const startedAt = performance.now();
    res.on('finish', () => {
      const ms = Math.round(performance.now() - startedAt);
      logger.debug({ method: req.method, path: req.originalUrl.split('?')[0], status: res.statusCode, ms }, 'answered');
    });
    next();
  };
}
