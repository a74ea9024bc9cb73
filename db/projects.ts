import { randomUUID } from 'node:crypto';
import type { Database } from 'better-sqlite3';
import { NotFoundError, StaleRevisionError } from './errors.ts';
import { PAGE_SIZE, type Page } from './page.ts';
import { searchQuery } from './search-words.ts';
import { withTypedErrors } from './typed-errors.ts';

/** A JSON object that this side only keeps: its shape is the business of who writes and reads it. */
export type JsonObject = Readonly<Record<string, unknown>>;

/** What a client states of a project. */
export interface ProjectInput {
  title: string;
  /** Valid, or null before the first one was. */
  description: JsonObject | null;
  /** What the page holds half typed: any JSON, never estimated. */
  draft?: unknown;
  archived?: boolean;
}

/** A project as it is kept; moments are ISO 8601 texts in UTC. */
export interface Project {
  id: string;
  revision: number;
  title: string;
  description: JsonObject | null;
  draft?: unknown;
  archived: boolean;
  createdAt: string;
  updatedAt: string;
}

/** A project in a list: without its draft, which may be large. */
export type ListedProject = Omit<Project, 'draft'>;

/** A removed project can be brought back for so long. */
export const RESTORE_DAYS = 30;
const DAY_MS = 24 * 60 * 60 * 1000;

// A type, not an interface: see price-book.ts.
export type Projects = {
  create(project: ProjectInput): Project;
  /** @throws {NotFoundError} also for one that was removed */
  find(id: string): Project;
  /** Those with all the words of `search` in the title, the one saved last first, archived ones after the others. */
  list(query?: { search?: string; page?: number }): Page<ListedProject>;
  /** Replaces what was read at `revisionSeen`. @throws {NotFoundError | StaleRevisionError} */
  replace(id: string, revisionSeen: number, project: ProjectInput): Project;
  /** Removes it, for RESTORE_DAYS not for good. @throws {NotFoundError | StaleRevisionError} */
  remove(id: string, revisionSeen: number): void;
  /** Brings a removed project back; one that is there stays as it is. @throws {NotFoundError} when it is gone */
  restore(id: string): Project;
  /** Drops for good what was removed longer ago than RESTORE_DAYS. Returns how many. */
  purge(): number;
};

interface ProjectRow {
  id: string;
  revision: number;
  title: string;
  description: string | null;
  draft: string | null;
  archived: number;
  created_at: string;
  updated_at: string;
  deleted_at: string | null;
}

interface ProjectsParts {
  db: Database;
  file: string;
  now: () => Date;
}

/** The repository of the projects. */
export function projectsOf({ db, file, now }: ProjectsParts): Projects {
  const read = projectReader({ db, now });
  return withTypedErrors(file, { ...read, ...projectChanges({ db, now, read }) });
}

type ProjectReader = Pick<Projects, 'find' | 'list'> & { row(id: string): ProjectRow | undefined };

const LISTED = 'id, revision, p.title, description, NULL AS draft, archived, created_at, updated_at, deleted_at';
const LIST_ORDER = 'archived, updated_at DESC, number DESC';

function projectReader({ db, now }: Pick<ProjectsParts, 'db' | 'now'>): ProjectReader {
  const one = db.prepare<[string], ProjectRow>(
    `SELECT ${LISTED.replace('NULL AS draft', 'draft')} FROM project p WHERE id = ?`,
  );
  const listing = (from: string) => ({
    rows: db.prepare<[{ words?: string; offset: number }], ProjectRow>(
      `SELECT ${LISTED} FROM ${from} AND deleted_at IS NULL ORDER BY ${LIST_ORDER} LIMIT ${PAGE_SIZE} OFFSET @offset`,
    ),
    total: db
      .prepare<[{ words?: string; offset: number }], number>(`SELECT count(*) FROM ${from} AND deleted_at IS NULL`)
      .pluck(),
  });
  const all = listing('project p WHERE true');
  const found = listing(
    'project_search JOIN project p ON p.number = project_search.rowid WHERE project_search MATCH @words',
  );
  return {
    row: (id) => one.get(id),
    find: (id) => {
      const row = one.get(id);
      if (row && row.deleted_at === null) return projectOf(row);
      const kept = row !== undefined && isKept(row, now());
      throw new NotFoundError(
        kept ? `The project "${id}" was removed; it can be restored.` : `There is no project "${id}".`,
      );
    },
    list: db.transaction(({ search = '', page = 1 }: { search?: string; page?: number } = {}): Page<ListedProject> => {
      const words = searchQuery(search);
      const offset = (page - 1) * PAGE_SIZE;
      if (words === undefined && search.trim() !== '') return { items: [], page, pageSize: PAGE_SIZE, total: 0 };
      const { rows, total } = words === undefined ? all : found;
      const binding = words === undefined ? { offset } : { offset, words };
      return { items: rows.all(binding).map(projectOf), page, pageSize: PAGE_SIZE, total: total.get(binding) ?? 0 };
    }),
  };
}

function projectChanges({ db, now, read }: Pick<ProjectsParts, 'db' | 'now'> & { read: ProjectReader }) {
  const insert = db.prepare<[object]>(
    `INSERT INTO project (id, revision, title, description, draft, archived, created_at, updated_at)
     VALUES (@id, 1, @title, @description, @draft, @archived, @at, @at)`,
  );
  const update = db.prepare<[object]>(
    `UPDATE project SET revision = revision + 1, title = @title, description = @description, draft = @draft,
       archived = @archived, updated_at = @at WHERE id = @id`,
  );
  const setRemoved = db.prepare<[object]>(
    'UPDATE project SET revision = revision + 1, deleted_at = @removedAt, updated_at = @at WHERE id = @id',
  );
  const drop = db.prepare<[string]>('DELETE FROM project WHERE deleted_at < ?');
  const at = () => now().toISOString();

  const create = db.transaction((project: ProjectInput): Project => {
    const id = randomUUID();
    insert.run({ ...columnsOf(project), id, at: at() });
    return read.find(id);
  });
  const replace = db.transaction((id: string, revisionSeen: number, project: ProjectInput): Project => {
    insistOnRevision(read.find(id), revisionSeen);
    update.run({ ...columnsOf(project), id, at: at() });
    return read.find(id);
  });
  const remove = db.transaction((id: string, revisionSeen: number): void => {
    insistOnRevision(read.find(id), revisionSeen);
    setRemoved.run({ id, removedAt: at(), at: at() });
  });
  const restore = db.transaction((id: string): Project => {
    const row = read.row(id);
    if (row && row.deleted_at !== null && isKept(row, now())) setRemoved.run({ id, removedAt: null, at: at() });
    return read.find(id);
  });
  return {
    create: create.immediate,
    replace: replace.immediate,
    remove: remove.immediate,
    restore: restore.immediate,
    purge: () => drop.run(new Date(now().getTime() - RESTORE_DAYS * DAY_MS).toISOString()).changes,
  };
}

/** Can this removed project still be brought back? */
function isKept({ deleted_at }: ProjectRow, moment: Date): boolean {
  return deleted_at !== null && moment.getTime() - Date.parse(deleted_at) <= RESTORE_DAYS * DAY_MS;
}

/** @throws {StaleRevisionError} */
function insistOnRevision({ title, revision }: Project, revisionSeen: number): void {
  if (revision === revisionSeen) return;
  throw new StaleRevisionError(`"${title}" is at revision ${revision} by now, not ${revisionSeen}.`, { revision });
}

function columnsOf({ title, description, draft, archived = false }: ProjectInput) {
  return {
    title,
    description: description === null ? null : JSON.stringify(description),
    draft: draft === undefined ? null : JSON.stringify(draft),
    archived: archived ? 1 : 0,
  };
}

function projectOf(row: ProjectRow): Project {
  return {
    id: row.id,
    revision: row.revision,
    title: row.title,
    description: row.description === null ? null : (JSON.parse(row.description) as JsonObject),
    ...(row.draft !== null && { draft: JSON.parse(row.draft) as unknown }),
    archived: row.archived === 1,
    createdAt: row.created_at,
    updatedAt: row.updated_at,
  };
}
