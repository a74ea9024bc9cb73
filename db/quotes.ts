import { randomUUID } from 'node:crypto';
import type { Database } from 'better-sqlite3';
import { NotFoundError, StaleRevisionError } from './errors.ts';
import { PAGE_SIZE, type Page } from './page.ts';
import type { JsonObject } from './projects.ts';
import {
  actualsOf,
  frozenText,
  type JobDone,
  type ListedRow,
  listedOf,
  numberOf,
  type QuoteRow,
  quotedTasksOf,
  quoteOf,
  type RelatedRow,
  relatedOf,
  type StateRow,
} from './quote-rows.ts';
import { hasJob, insistOnHours, insistOnRevisable, insistOnStatus, type Line, revisedBy } from './quote-states.ts';
import { withTypedErrors } from './typed-errors.ts';

/** Where a quote stands. An issued one whose validity has passed reads as lapsed. */
export type QuoteStatus = 'issued' | 'accepted' | 'declined' | 'withdrawn' | 'lapsed';

/** A task as it was quoted: person-hours, and the labor unit of the book that they were reckoned with, in hours. */
export interface QuotedTask {
  key: string;
  hours: number;
  hoursPerUnit: number;
}

/** What the job took: person-hours by task, and what it cost in all, where that is known. */
export interface Actuals {
  tasks: { key: string; hours: number }[];
  totalCents?: number | undefined;
}

/** What is frozen when a quote is issued. Days are YYYY-MM-DD, money whole cents. */
export interface QuoteToIssue {
  projectId: string;
  /** The quote that this one takes the place of. */
  revisionOf?: string | undefined;
  issuedOn: string;
  validUntil: string;
  bookRevision: number;
  title: string;
  optionLabel: string;
  customerName: string;
  totalCents: number;
  /** What the job costs by the estimate, before markup, overhead and profit. */
  costCents: number;
  /** What was stated when it was issued. */
  stated: JsonObject;
  /** Who offers it, as the settings said then. */
  issuer: JsonObject;
  estimate: JsonObject;
  quotedTasks: readonly QuotedTask[];
  /** The form that `stated`, `issuer` and `estimate` have: who reads them later knows by it what they hold. */
  format: number;
}

/** One state that a quote had. */
export interface QuoteState {
  revision: number;
  status: QuoteStatus;
  at: string;
  actuals: Actuals | null;
}

/** A quote in a list. `number` counts per year, such as `2026-0001`. */
export interface ListedQuote {
  id: string;
  number: string;
  revision: number;
  status: QuoteStatus;
  projectId: string;
  title: string;
  optionLabel: string;
  customerName: string;
  totalCents: number;
  issuedOn: string;
  validUntil: string;
  hasActuals: boolean;
}

/** A quote whole. Moments are ISO 8601 texts in UTC. */
export interface Quote extends Omit<ListedQuote, 'hasActuals'> {
  bookRevision: number;
  costCents: number;
  stated: JsonObject;
  issuer: JsonObject;
  estimate: JsonObject;
  quotedTasks: QuotedTask[];
  format: number;
  actuals: Actuals | null;
  /** The quote that it revises; and the one that took its place, for as long as that is not closed. */
  revisionOf?: string;
  revisedBy?: string;
  issuedAt: string;
  updatedAt: string;
  history: QuoteState[];
}

export type { JobDone } from './quote-rows.ts';

/** A day as YYYY-MM-DD, on which it is asked: validity is judged by it. */
type Today = { today: string };

// A type, not an interface: see price-book.ts.
export type Quotes = {
  /** Issues a quote under the next number of its year. @throws {ConflictError} where what it revises may not be revised */
  issue(quote: QuoteToIssue): Quote;
  /** A quote that may be revised. @throws {NotFoundError} @throws {ConflictError} where it may not */
  revisable(id: string, day: Today): Quote;
  /** @throws {NotFoundError} */
  find(id: string, day: Today): Quote;
  /** The newest first, of one project where one is named; `page` counts from 1. */
  list(query: Today & { projectId?: string | undefined; page?: number | undefined }): Page<ListedQuote>;
  /** @throws {NotFoundError | StaleRevisionError} @throws {ConflictError} where this status may not follow */
  setStatus(id: string, revisionSeen: number, change: Today & { status: QuoteStatus }): Quote;
  /**
   * Enters what the job took; with nothing in it, what was entered is taken back.
   * @throws {NotFoundError | StaleRevisionError} @throws {ConflictError} where no job can have come of it
   */
  setActuals(id: string, revisionSeen: number, change: Today & { actuals: Actuals }): Quote;
  /** The jobs whose actuals were entered, in the order of issue; none that was declined, withdrawn or revised. */
  jobsDone(day: Today): JobDone[];
};

interface QuotesParts {
  db: Database;
  file: string;
  now: () => Date;
}

/** The repository of the quotes. What was issued is never rewritten; status and actuals move on, every state stays. */
export function quotesOf({ db, file, now }: QuotesParts): Quotes {
  const lineOf = lineReader(db);
  const read = quoteReader({ db, file, lineOf });
  return withTypedErrors(file, { ...read, ...quoteChanges({ db, now, read, lineOf }) });
}

type QuoteReader = Pick<Quotes, 'find' | 'list' | 'jobsDone' | 'revisable'>;
type LineOf = (id: string, day: Today) => Line;

const LISTED = `q.id, q.year, q.number_in_year, q.revision, q.status, q.project_id, q.title, q.option_label,
  q.customer_name, q.total_cents, q.issued_on, q.valid_until, q.actuals IS NOT NULL AS has_actuals`;
/** All quotes that revise one another: up to the first, and down to every revision of it. */
const LINE = `WITH RECURSIVE
  earlier (id, revision_of) AS (
    SELECT id, revision_of FROM quote WHERE id = ?
    UNION ALL SELECT q.id, q.revision_of FROM quote q JOIN earlier ON q.id = earlier.revision_of),
  line (id) AS (
    SELECT id FROM earlier WHERE revision_of IS NULL
    UNION ALL SELECT q.id FROM quote q JOIN line ON q.revision_of = line.id)
  SELECT q.id, q.year, q.number_in_year, q.revision_of, q.status, q.valid_until, q.actuals FROM quote q
  JOIN line ON q.id = line.id ORDER BY q.sequence`;

function lineReader(db: Database): LineOf {
  const line = db.prepare<[string], RelatedRow>(LINE);
  return (id, { today }) => {
    const all = line.all(id).map((row) => relatedOf(row, today));
    const quote = all.find((each) => each.id === id);
    if (quote) return { quote, all };
    throw new NotFoundError(`There is no quote "${id}".`);
  };
}

function quoteReader({ db, file, lineOf }: { db: Database; file: string; lineOf: LineOf }): QuoteReader {
  const one = db.prepare<[string], QuoteRow>('SELECT * FROM quote WHERE id = ?');
  const states = db.prepare<[string], StateRow>(
    'SELECT revision, status, actuals, at FROM quote_state WHERE quote_id = ? ORDER BY revision',
  );
  const ofProject = 'FROM quote q WHERE (@projectId IS NULL OR q.project_id = @projectId)';
  const rows = db.prepare<[object], ListedRow>(
    `SELECT ${LISTED} ${ofProject} ORDER BY q.sequence DESC LIMIT ${PAGE_SIZE} OFFSET @offset`,
  );
  const total = db.prepare<[object], number>(`SELECT count(*) ${ofProject}`).pluck();
  const done = db.prepare<[], DoneRow>(
    'SELECT id, year, number_in_year, cost_cents, quoted_tasks, actuals FROM quote WHERE actuals IS NOT NULL ORDER BY sequence',
  );
  const find = (id: string, day: Today): Quote => {
    const row = one.get(id);
    if (!row) throw new NotFoundError(`There is no quote "${id}".`);
    return quoteOf(row, { states: states.all(id), today: day.today, revisedBy: revisedBy(lineOf(id, day))?.id, file });
  };
  return {
    find,
    revisable: (id, day) => {
      insistOnRevisable(lineOf(id, day));
      return find(id, day);
    },
    list: db.transaction(({ today, projectId, page = 1 }: Parameters<Quotes['list']>[0]): Page<ListedQuote> => {
      const binding = { projectId: projectId ?? null, offset: (page - 1) * PAGE_SIZE };
      const items = rows.all(binding).map((row) => listedOf(row, today));
      return { items, page, pageSize: PAGE_SIZE, total: total.get(binding) ?? 0 };
    }),
    jobsDone: db.transaction((day: Today) =>
      done.all().flatMap((row) => jobDone(row, { line: lineOf(row.id, day), file })),
    ),
  };
}

type DoneRow = Pick<QuoteRow, 'id' | 'year' | 'number_in_year' | 'cost_cents' | 'quoted_tasks' | 'actuals'>;

function jobDone(row: DoneRow, { line, file }: { line: Line; file: string }): JobDone[] {
  if (!hasJob(line.quote) || revisedBy(line)) return [];
  const actuals = actualsOf(row.actuals, file);
  const quotedTasks = quotedTasksOf(row.quoted_tasks, file);
  return actuals ? [{ number: numberOf(row), costCents: row.cost_cents, quotedTasks, actuals }] : [];
}

type ChangesParts = Pick<QuotesParts, 'db' | 'now'> & { read: QuoteReader; lineOf: LineOf };

function quoteChanges({ db, now, read, lineOf }: ChangesParts) {
  const insert = db.prepare<[object]>(
    `INSERT INTO quote (id, year, number_in_year, revision, project_id, revision_of, status, issued_on, valid_until,
       book_revision, title, option_label, customer_name, total_cents, cost_cents, stated, issuer, estimate,
       quoted_tasks, actuals, issued_at, updated_at)
     VALUES (@id, @year, (SELECT coalesce(max(number_in_year), 0) + 1 FROM quote WHERE year = @year), 1, @projectId,
       @revisionOf, 'issued', @issuedOn, @validUntil, @bookRevision, @title, @optionLabel, @customerName, @totalCents,
       @costCents, @stated, @issuer, @estimate, @quotedTasks, NULL, @at, @at)`,
  );
  const update = db.prepare<[object]>(
    'UPDATE quote SET revision = revision + 1, status = @status, actuals = @actuals, updated_at = @at WHERE id = @id',
  );
  const remember = db.prepare<[string]>(
    `INSERT INTO quote_state (quote_id, revision, status, actuals, at)
     SELECT id, revision, status, actuals, updated_at FROM quote WHERE id = ?`,
  );
  const move = (id: string, { status, actuals }: { status: QuoteStatus; actuals: Actuals | null }) => {
    const text = actuals === null ? null : JSON.stringify(actuals);
    update.run({ id, status, actuals: text, at: now().toISOString() });
    remember.run(id);
  };

  const issue = db.transaction((quote: QuoteToIssue): Quote => {
    const id = randomUUID();
    if (quote.revisionOf !== undefined) read.revisable(quote.revisionOf, { today: quote.issuedOn });
    insert.run({ ...columnsOf(quote), id, at: now().toISOString() });
    remember.run(id);
    return read.find(id, { today: quote.issuedOn });
  });
  const setStatus = db.transaction((id: string, revisionSeen: number, { status, today }: StatusChange): Quote => {
    const quote = seen(read.find(id, { today }), revisionSeen);
    insistOnStatus(lineOf(id, { today }), status);
    move(id, { status, actuals: quote.actuals });
    return read.find(id, { today });
  });
  const setActuals = db.transaction((id: string, revisionSeen: number, { actuals, today }: ActualsChange): Quote => {
    const quote = seen(read.find(id, { today }), revisionSeen);
    insistOnHours(lineOf(id, { today }));
    // What lapsed by its date alone is kept as it was: a job that came of it was agreed in time.
    const status = quote.history.at(-1)?.status ?? quote.status;
    move(id, { status, actuals: saysAnything(actuals) ? actuals : null });
    return read.find(id, { today });
  });
  return { issue: issue.immediate, setStatus: setStatus.immediate, setActuals: setActuals.immediate };
}

type StatusChange = Today & { status: QuoteStatus };
type ActualsChange = Today & { actuals: Actuals };

function columnsOf({ stated, issuer, estimate, format, quotedTasks, revisionOf, ...quote }: QuoteToIssue) {
  return {
    ...quote,
    year: Number(quote.issuedOn.slice(0, 4)),
    revisionOf: revisionOf ?? null,
    stated: JSON.stringify(stated),
    issuer: JSON.stringify(issuer),
    estimate: frozenText(estimate, format),
    quotedTasks: JSON.stringify(quotedTasks),
  };
}

/** @throws {StaleRevisionError} */
function seen(quote: Quote, revisionSeen: number): Quote {
  const { number, revision } = quote;
  if (revision === revisionSeen) return quote;
  throw new StaleRevisionError(`Quote ${number} is at revision ${revision} by now, not ${revisionSeen}.`, { revision });
}

const saysAnything = ({ tasks, totalCents }: Actuals) => tasks.length > 0 || totalCents !== undefined;
