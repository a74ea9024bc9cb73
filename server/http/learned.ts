import { Router } from 'express';
import { z } from 'zod';
import { NotFoundError } from '../../db/errors.ts';
import type { Data } from '../../db/open.ts';
import { quantity, text } from '../estimate/description/fields.ts';
import { closed, InputError, readInput } from '../estimate/input-problems.ts';
import { jobsInAll, type LearnedTask, learnedTasks, type UnitOfTask, withProposal } from '../estimate/learned-tasks.ts';
import { jsonBody } from './bodies.ts';
import { etagOf } from './etag.ts';
import { HttpProblem } from './problems.ts';
import { resource } from './resource.ts';

/** The revision of the labor unit that was seen; and the likely hours that were proposed, where they should still hold. */
export const AcceptBody = closed({
  revision: quantity({ unit: 'revisions', whole: true, least: 1 }),
  likely: quantity({ unit: 'hours', more: 0 }).optional(),
  by: text().optional(),
});

/** Actual over quoted; null where nothing was quoted. */
const ratio = z.number().nullable();
const points = { low: z.number(), likely: z.number(), high: z.number() };
/** What jobs teach: quoted against actual, by task and in all. */
export const LearnedAnswer = z
  .object({
    bookRevision: z.int(),
    jobs: z.int(),
    totals: z.object({ jobs: z.int(), quotedCents: z.int(), actualCents: z.int(), ratio }),
    items: z.array(
      z.object({
        key: z.string(),
        description: z.string(),
        unit: z.string(),
        jobs: z.array(z.object({ number: z.string(), quotedHours: z.number(), actualHours: z.number(), ratio })),
        learnedFrom: z.int(),
        quotedHours: z.number(),
        actualHours: z.number(),
        ratio,
        book: z.object({ ...points, revision: z.int() }).nullable(),
        stated: z.object(points).nullable(),
        proposed: z
          .object({ ...points, interval: z.object({ low: z.number(), high: z.number() }), weight: z.number() })
          .nullable(),
        differs: z.boolean(),
        because: z.array(z.string()),
      }),
    ),
  })
  .meta({ id: 'Learned' });
export type LearnedAnswer = z.output<typeof LearnedAnswer>;

interface LearnedSources {
  data: Pick<Data, 'prices' | 'quotes' | 'learned'>;
  /** Today as YYYY-MM-DD: the date of what is accepted. */
  today: () => string;
}

/** /api/price-book/learned: what jobs teach the book about its labor units; nothing changes but what is accepted. */
export function learnedRouter({ data, today }: LearnedSources): Router {
  const router = Router();
  resource(router, '/', {
    GET: (_req, res) => {
      res.json(learnedOfAll({ data, today }));
    },
  });
  resource(router, '/:key/accept', {
    POST: [
      ...jsonBody,
      (req, res) => {
        const { key } = req.params;
        const seen = readInput(AcceptBody, req.body);
        const item = acceptOne(key, { seen, data, today });
        res.set('ETag', etagOf(item.revision)).json(item);
      },
    ],
  });
  return router;
}

function learnedOfAll({ data, today }: LearnedSources): LearnedAnswer {
  const jobs = data.quotes.jobsDone({ today: today() });
  return {
    bookRevision: data.prices.revision(),
    jobs: jobs.length,
    totals: jobsInAll(jobs),
    items: learnedTasks(jobs, (key) => unitOf(key, data)),
  };
}

/** The labor unit of a key, as it is and as it was stated; undefined where the book has none. */
function unitOf(key: string, { prices, learned }: LearnedSources['data']): UnitOfTask | undefined {
  try {
    const current = prices.find(key);
    return current.kind === 'labor-unit' ? { current, stated: learned.stated(key) } : undefined;
  } catch (error) {
    if (error instanceof NotFoundError) return undefined;
    throw error;
  }
}

interface Acceptance extends LearnedSources {
  seen: z.output<typeof AcceptBody>;
}

function acceptOne(key: string, { seen, data, today }: Acceptance) {
  const current = data.prices.find(key); // 404
  const task = learnedOfAll({ data, today }).items.find((each) => each.key === key);
  const { proposed, learnedFrom } = insistOnProposal(key, task);
  if (seen.likely !== undefined && seen.likely !== proposed.likely) {
    const message = `is ${proposed.likely} h by now, not ${seen.likely} h: other jobs were entered meanwhile`;
    throw new InputError([{ path: 'likely', message }]);
  }
  return data.learned.accept({
    revisionSeen: seen.revision,
    item: withProposal(current, { proposed, learnedFrom, day: today() }),
    jobs: learnedFrom,
    ...(seen.by !== undefined && { by: seen.by }),
  });
}

/** @throws {HttpProblem} 409 where no job proposes anything, or the book says so already */
function insistOnProposal(key: string, task: LearnedTask | undefined) {
  if (!task?.proposed) throw new HttpProblem(409, `No job proposes anything for "${key}".`);
  if (!task.differs) throw new HttpProblem(409, `The book says of "${key}" what the jobs propose already.`);
  return { proposed: task.proposed, learnedFrom: task.learnedFrom };
}
