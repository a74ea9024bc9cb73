import { Router } from 'express';
import { z } from 'zod';
import { oneOf, quantity } from '../estimate/description/fields.ts';
import { closed, readInput } from '../estimate/input-problems.ts';
import { meterAnswer } from '../estimate/meter/meter-answer.ts';
import { EDITIONS } from '../estimate/vocabulary.ts';
import { meterBody } from './bodies.ts';
import { resource } from './resource.ts';

const volts = quantity({ unit: 'volts', least: 100, most: 600 });
/** What a file does not say of its house. */
export const MeterQuery = closed({
  voltageV: z.preprocess((text) => (typeof text === 'string' ? Number(text) : text), volts).default(240),
  solar: oneOf(['true', 'false']).default('false'),
  edition: oneOf(EDITIONS).default('2023'),
});

/** /api/meter-readings: what a utility's interval file says of the load; nothing is stored. */
export function meterReadingsRouter(): Router {
  const router = Router();
  resource(router, '/', {
    POST: [
      ...meterBody,
      (req, res) => {
        const { voltageV, solar, edition } = readInput(MeterQuery, req.query);
        res.json(meterAnswer({ text: req.body, voltageV, solar: solar === 'true', edition }));
      },
    ],
  });
  return router;
}
