import { z } from 'zod';
import { shown } from '../estimate/input-problems.ts';

/** A whole number in a query, from `least`. */
export function queryNumber({ least, most }: { least: number; most: number }) {
  const error = ({ input }: { input?: unknown }) =>
    `must be a whole number, at least ${least} and at most ${most}, not ${shown(input)}`;
  return z
    .string({ error })
    .regex(/^\d+$/, { error })
    .transform(Number)
    .pipe(
      z
        .number({ error })
        .gte(least, { error: `must be at least ${least}` })
        .lte(most, { error: `must be at most ${most}` }),
    )
    .meta({
      override: ({ jsonSchema }: { jsonSchema: Record<string, unknown> }) => {
        delete jsonSchema.pattern;
        Object.assign(jsonSchema, { type: 'integer', minimum: least, maximum: most });
      },
    });
}

/** Words to search for. */
export const SearchWords = z
  .string({ error: 'must be one text' })
  .max(200, { error: 'must have at most 200 characters' });

/** The number of a page of a list, from 1. */
export const PageNumber = queryNumber({ least: 1, most: 1_000_000 });
