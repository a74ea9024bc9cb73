import { Router } from 'express';
import { NotFoundError } from '../../db/errors.ts';
import { calculate, calculationNamed, calculationSheets } from '../calculations.ts';
import { jsonBody } from './bodies.ts';
import { resource } from './resource.ts';

/** /api/calculations: every rule and formula that may be asked alone, with the schema of its input. */
export function calculationsRouter(): Router {
  const router = Router();
  const sheets = calculationSheets();
  resource(router, '/', {
    GET: (_req, res) => {
      res.json({ items: sheets });
    },
  });
  resource(router, '/:name', {
    POST: [
      ...jsonBody,
      (req, res) => {
        const { name } = req.params;
        const calculation = calculationNamed(name);
        if (!calculation) throw new NotFoundError(`There is no calculation "${name}".`);
        res.json(calculate(calculation, req.body));
      },
    ],
  });
  return router;
}
