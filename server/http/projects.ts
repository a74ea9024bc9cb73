import { Router } from 'express';
import { z } from 'zod';
import type { Data } from '../../db/open.ts';
import { flag, text } from '../estimate/description/fields.ts';
import { Description } from '../estimate/description.ts';
import { closed, InputError, readInput } from '../estimate/input-problems.ts';
import { jsonBody } from './bodies.ts';
import { DescriptionBody, EstimateQuery, type EstimateSources, estimateText } from './estimates.ts';
import { etagOf } from './etag.ts';
import { HttpProblem } from './problems.ts';
import { PageNumber, SearchWords } from './queries.ts';
import { resource } from './resource.ts';
import { revisionSeenBy } from './revisions.ts';

/** What a page holds half typed may be so long, as JSON. */
const MOST_DRAFT_BYTES = 256 * 1024;

const Draft = z.unknown().refine((draft) => Buffer.byteLength(JSON.stringify(draft) ?? '') <= MOST_DRAFT_BYTES, {
  error: `must be at most ${MOST_DRAFT_BYTES} bytes long, as JSON`,
});

/** What a client states of a project. The description is valid or null; the draft is whatever the page holds. */
export const ProjectInput = closed({
  title: text(),
  description: DescriptionBody.nullable(),
  draft: Draft.optional(),
  archived: flag().default(false),
});
/** A new project may say less: its title is the description's, its terms those of the settings. */
export const NewProject = closed({
  title: text().optional(),
  description: DescriptionBody.nullable().default(null),
  draft: Draft.optional(),
  archived: flag().default(false),
});

const FILE_FORMAT = 'feedrun-project';
/** A project as a file, to be kept or handed on. */
export const ProjectFile = closed({
  format: z.literal(FILE_FORMAT, { error: `must be "${FILE_FORMAT}": this is not a project file` }),
  version: z.literal(1, { error: 'must be 1: this file was written by a newer program' }),
  title: text(),
  description: DescriptionBody.nullable(),
  draft: Draft.optional(),
});

/** The same file as it is answered. */
export const ProjectFileAnswer = z.object({
  format: z.literal(FILE_FORMAT),
  version: z.literal(1),
  title: z.string(),
  description: z.record(z.string(), z.unknown()).nullable(),
  draft: z.unknown().optional(),
});

/** A project as it is answered. */
export const Project = z
  .object({
    id: z.string(),
    revision: z.int().positive(),
    title: z.string(),
    description: z.record(z.string(), z.unknown()).nullable(),
    draft: z.unknown().optional(),
    archived: z.boolean(),
    createdAt: z.iso.datetime(),
    updatedAt: z.iso.datetime(),
  })
  .meta({ id: 'Project' });

export const ProjectsQuery = closed({ search: SearchWords.optional(), page: PageNumber.optional() });

interface ProjectSources extends EstimateSources {
  data: Data;
}

/** /api/projects: what people keep. A project is never overwritten unseen, and comes back for 30 days once removed. */
export function projectsRouter(sources: ProjectSources): Router {
  const router = Router();
  addCollection(router, sources);
  addProject(router, sources);
  addWhatFollows(router, sources);
  return router;
}

/** The list, and the two ways in: as stated, and from a file. */
function addCollection(router: Router, { data: { projects, settings } }: ProjectSources): void {
  resource(router, '/', {
    GET: (req, res) => {
      const { search, page } = readInput(ProjectsQuery, req.query);
      res.json(projects.list({ search: search ?? '', page: page ?? 1 }));
    },
    POST: [
      ...jsonBody,
      (req, res) => {
        const stated = readInput(NewProject, withDefaultTerms(req.body, settings.read().defaultTerms));
        const project = projects.create({ ...stated, title: titleOf(stated) });
        res.status(201).location(`/api/projects/${project.id}`).set('ETag', etagOf(project.revision)).json(project);
      },
    ],
  });
  resource(router, '/import', {
    POST: [
      ...jsonBody,
      (req, res) => {
        const { title, description, draft } = readInput(ProjectFile, req.body);
        const project = projects.create({ title, description, archived: false, ...(draft !== undefined && { draft }) });
        res.status(201).location(`/api/projects/${project.id}`).set('ETag', etagOf(project.revision)).json(project);
      },
    ],
  });
}

/** One project: read, saved, removed and brought back. */
function addProject(router: Router, { data: { projects } }: ProjectSources): void {
  resource(router, '/:id', {
    GET: (req, res) => {
      const project = projects.find(req.params.id);
      res.set('ETag', etagOf(project.revision)).json(project);
    },
    PUT: [
      ...jsonBody,
      (req, res) => {
        const { id } = req.params;
        const revision = revisionSeenBy(req, projects.find(id).revision);
        const project = projects.replace(id, revision, readInput(ProjectInput, withoutReadOnly(req.body)));
        res.set('ETag', etagOf(project.revision)).json(project);
      },
    ],
    DELETE: (req, res) => {
      const { id } = req.params;
      projects.remove(id, revisionSeenBy(req, projects.find(id).revision));
      res.status(204).end();
    },
  });
  resource(router, '/:id/restore', {
    POST: (req, res) => {
      const project = projects.restore(req.params.id);
      res.set('ETag', etagOf(project.revision)).json(project);
    },
  });
}

/** What is made of a project: its estimate, and its file. */
function addWhatFollows(router: Router, sources: ProjectSources): void {
  const { projects } = sources.data;
  resource(router, '/:id/estimate', {
    GET: async (req, res) => {
      const { description } = projects.find(req.params.id);
      const { parts, bookRevision } = readInput(EstimateQuery, req.query);
      if (description === null) throw new HttpProblem(409, 'This project has no valid description yet.');
      const read = readInput(Description, description);
      const text = await estimateText(res, { description: read, bookRevision, parts }, sources);
      if (text !== undefined) res.type('application/json').send(text);
    },
  });
  resource(router, '/:id/export', {
    GET: (req, res) => {
      const { id, title, description, draft } = projects.find(req.params.id);
      res.attachment(`feedrun-project-${id}.json`);
      res.json({ format: FILE_FORMAT, version: 1, title, description, ...(draft !== undefined && { draft }) });
    },
  });
}

/** What a client read may come back as it was: fields that only the server writes are passed over. */
function withoutReadOnly(body: unknown): unknown {
  if (typeof body !== 'object' || body === null || Array.isArray(body)) return body;
  const {
    id: _id,
    revision: _revision,
    createdAt: _created,
    updatedAt: _updated,
    ...stated
  } = body as Record<string, unknown>;
  return stated;
}

/** A new description that states no terms gets those of the settings; an estimate itself never reads settings. */
function withDefaultTerms(body: unknown, defaultTerms: unknown): unknown {
  const description = (body as { description?: unknown } | null | undefined)?.description;
  if (typeof description !== 'object' || description === null || 'terms' in description) return body;
  if (defaultTerms === undefined || defaultTerms === null) return body;
  return { ...(body as object), description: { ...description, terms: defaultTerms } };
}

function titleOf({ title, description }: z.output<typeof NewProject>): string {
  const chosen = title ?? description?.title;
  if (chosen !== undefined) return chosen;
  throw new InputError([{ path: 'title', message: 'must be stated where there is no description to take it from' }]);
}
