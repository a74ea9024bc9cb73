import { randomUUID } from 'node:crypto';
import type { Database } from 'better-sqlite3';
import { ConflictError, NotFoundError, StaleRevisionError } from './errors.ts';
import { PAGE_SIZE, type Page } from './page.ts';
import type { JsonObject } from './projects.ts';
import {
  type JobDone,
  type ListedRow,
  listedOf,
  numberOf,
  type QuoteRow,
  quoteOf,
  type StateRow,
} from './quote-rows.ts';
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
  actuals: Actuals | null;
  /** The quote that it took the place of, and the one that took its place. */
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
  /** Issues a quote under the next number of its year. */
  issue(quote: QuoteToIssue): Quote;
  /** @throws {NotFoundError} */
  find(id: string, day: Today): Quote;
  /** The newest first, of one project where one is named; `page` counts from 1. */
  list(query: Today & { projectId?: string | undefined; page?: number | undefined }): Page<ListedQuote>;
  /** @throws {NotFoundError | StaleRevisionError} @throws {ConflictError} where this status may not follow */
  setStatus(id: string, revisionSeen: number, change: Today & { status: QuoteStatus }): Quote;
  /** @throws {NotFoundError | StaleRevisionError} @throws {ConflictError} where no job can have come of it */
  setActuals(id: string, revisionSeen: number, change: Today & { actuals: Actuals }): Quote;
  /** The jobs whose actuals were entered, in the order of issue; none that was declined, withdrawn or revised. */
  jobsDone(): JobDone[];
};

interface QuotesParts {
  db: Database;
  file: string;
  now: () => Date;
}

/** The repository of the quotes. What was issued is never rewritten; status and actuals move on, every state stays. */
export function quotesOf({ db, file, now }: QuotesParts): Quotes {
  const read = quoteReader(db);
  return withTypedErrors(file, { ...read, ...quoteChanges({ db, now, read }) });
}

type QuoteReader = Pick<Quotes, 'find' | 'list' | 'jobsDone'>;

const REVISED_BY = '(SELECT later.id FROM quote later WHERE later.revision_of = q.id ORDER BY later.sequence LIMIT 1)';
const LISTED = `q.id, q.year, q.number_in_year, q.revision, q.status, q.project_id, q.title, q.option_label,
  q.customer_name, q.total_cents, q.issued_on, q.valid_until, q.actuals IS NOT NULL AS has_actuals`;
const DONE = `FROM quote q WHERE q.actuals IS NOT NULL AND q.status NOT IN ('declined', 'withdrawn')
  AND NOT EXISTS (SELECT 1 FROM quote later WHERE later.revision_of = q.id)`;

function quoteReader(db: Database): QuoteReader {
  const one = db.prepare<[string], QuoteRow>(`SELECT q.*, ${REVISED_BY} AS revised_by FROM quote q WHERE q.id = ?`);
  const states = db.prepare<[string], StateRow>(
    'SELECT revision, status, actuals, at FROM quote_state WHERE quote_id = ? ORDER BY revision',
  );
  const ofProject = 'FROM quote q WHERE (@projectId IS NULL OR q.project_id = @projectId)';
  const rows = db.prepare<[object], ListedRow>(
    `SELECT ${LISTED} ${ofProject} ORDER BY q.sequence DESC LIMIT ${PAGE_SIZE} OFFSET @offset`,
  );
  const total = db.prepare<[object], number>(`SELECT count(*) ${ofProject}`).pluck();
  const done = db.prepare<[], QuoteRow>(
    `SELECT q.year, q.number_in_year, q.cost_cents, q.quoted_tasks, q.actuals ${DONE} ORDER BY q.sequence`,
  );
  return {
    find: (id, { today }) => {
      const row = one.get(id);
      if (row) return quoteOf(row, { states: states.all(id), today });
      throw new NotFoundError(`There is no quote "${id}".`);
    },
    list: db.transaction(({ today, projectId, page = 1 }: Parameters<Quotes['list']>[0]): Page<ListedQuote> => {
      const binding = { projectId: projectId ?? null, offset: (page - 1) * PAGE_SIZE };
      const items = rows.all(binding).map((row) => listedOf(row, today));
      return { items, page, pageSize: PAGE_SIZE, total: total.get(binding) ?? 0 };
    }),
    jobsDone: () =>
      done.all().map((row) => ({
        number: numberOf(row),
        costCents: row.cost_cents,
        quotedTasks: JSON.parse(row.quoted_tasks) as QuotedTask[],
        actuals: JSON.parse(row.actuals ?? 'null') as Actuals,
      })),
  };
}

function quoteChanges({ db, now, read }: Pick<QuotesParts, 'db' | 'now'> & { read: QuoteReader }) {
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
    insert.run({ ...columnsOf(quote), id, at: now().toISOString() });
    remember.run(id);
    return read.find(id, { today: quote.issuedOn });
  });
  const setStatus = db.transaction((id: string, revisionSeen: number, { status, today }: StatusChange): Quote => {
    const quote = seen(read.find(id, { today }), revisionSeen);
    insistOnOpen(quote, status);
    move(id, { status, actuals: quote.actuals });
    return read.find(id, { today });
  });
  const setActuals = db.transaction((id: string, revisionSeen: number, { actuals, today }: ActualsChange): Quote => {
    const quote = seen(read.find(id, { today }), revisionSeen);
    insistOnJob(quote, (other) => read.find(other, { today }).number);
    // What lapsed by its date alone is kept as it was: a job that came of it was agreed in time.
    const status = quote.history.at(-1)?.status ?? quote.status;
    move(id, { status, actuals });
    return read.find(id, { today });
  });
  return { issue: issue.immediate, setStatus: setStatus.immediate, setActuals: setActuals.immediate };
}

type StatusChange = Today & { status: QuoteStatus };
type ActualsChange = Today & { actuals: Actuals };

function columnsOf({ stated, issuer, estimate, quotedTasks, revisionOf, ...quote }: QuoteToIssue) {
  return {
    ...quote,
    year: Number(quote.issuedOn.slice(0, 4)),
    revisionOf: revisionOf ?? null,
    stated: JSON.stringify(stated),
    issuer: JSON.stringify(issuer),
    estimate: JSON.stringify(estimate),
    quotedTasks: JSON.stringify(quotedTasks),
  };
}

/** @throws {StaleRevisionError} */
function seen(quote: Quote, revisionSeen: number): Quote {
  const { number, revision } = quote;
  if (revision === revisionSeen) return quote;
  throw new StaleRevisionError(`Quote ${number} is at revision ${revision} by now, not ${revisionSeen}.`, { revision });
}

/**
 * Only a quote that is still open gets another status, and one that was revised is accepted in its new form.
 * @throws {ConflictError}
 */
function insistOnOpen({ number, status, validUntil, revisedBy }: Quote, next: QuoteStatus): void {
  if (status === 'lapsed') {
    throw new ConflictError(`Quote ${number} lapsed, valid until ${validUntil}: issue it again, with today's prices.`);
  }
  if (status !== 'issued') throw new ConflictError(`Quote ${number} was ${status}: it cannot become ${next} any more.`);
  if (next === 'issued') throw new ConflictError(`Quote ${number} is issued already.`);
  if (next !== 'accepted' || revisedBy === undefined) return;
  throw new ConflictError(`Quote ${number} was revised: accept the later one, or withdraw that first.`);
}

/** @throws {ConflictError} for a quote that no job can have come of, or whose job goes by a later quote */
function insistOnJob({ number, status, revisedBy }: Quote, numberOfQuote: (id: string) => string): void {
  if (status === 'declined' || status === 'withdrawn') {
    throw new ConflictError(`Quote ${number} was ${status}: no job came of it.`);
  }
  if (revisedBy === undefined) return;
  throw new ConflictError(`Quote ${number} was revised by ${numberOfQuote(revisedBy)}: enter the hours there.`);
}
