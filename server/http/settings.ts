import { Router } from 'express';
import { z } from 'zod';
import type { Data } from '../../db/open.ts';
import { text } from '../estimate/description/fields.ts';
import { Terms } from '../estimate/description/terms.ts';
import { closed, readInput } from '../estimate/input-problems.ts';
import { jsonBody } from './bodies.ts';
import { etagOf } from './etag.ts';
import { resource } from './resource.ts';
import { revisionSeenBy } from './revisions.ts';

/** Who prints the papers, and the terms that new projects start with. */
export const SettingsInput = closed({
  businessName: text().optional(),
  address: text().optional(),
  licenceNumber: text().optional(),
  defaultTerms: Terms.optional(),
});
export const Settings = z
  .object({
    revision: z.int().positive(),
    businessName: z.string().optional(),
    address: z.string().optional(),
    licenceNumber: z.string().optional(),
    defaultTerms: z.record(z.string(), z.unknown()).optional(),
  })
  .meta({ id: 'Settings' });

/** /api/settings: one set for the data folder. */
export function settingsRouter({ settings }: Pick<Data, 'settings'>): Router {
  const router = Router();
  resource(router, '/', {
    GET: (_req, res) => {
      const current = settings.read();
      res.set('ETag', etagOf(current.revision)).json(current);
    },
    PUT: [
      ...jsonBody,
      (req, res) => {
        const revision = revisionSeenBy(req, settings.read().revision);
        const { revision: _seen, ...stated } = asObject(req.body);
        const saved = settings.replace(revision, readInput(SettingsInput, stated));
        res.set('ETag', etagOf(saved.revision)).json(saved);
      },
    ],
  });
  return router;
}

/** The body's fields; what is no object is left to the schema to refuse. */
function asObject(body: unknown): Record<string, unknown> {
  return readInput(z.record(z.string(), z.unknown(), { error: 'must be an object' }), body);
}
