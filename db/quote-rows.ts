import { z } from 'zod';
import { CorruptDataError } from './errors.ts';
import type { JsonObject } from './projects.ts';
import type { Related } from './quote-states.ts';
import type { Actuals, ListedQuote, Quote, QuotedTask, QuoteState, QuoteStatus } from './quotes.ts';

/** A job whose actuals were entered, beside what was quoted for it. */
export interface JobDone {
  /** The number of its quote. */
  number: string;
  costCents: number;
  quotedTasks: QuotedTask[];
  actuals: Actuals;
}

/** A quote as a list takes it from the table. */
export interface ListedRow {
  id: string;
  year: number;
  number_in_year: number;
  revision: number;
  status: QuoteStatus;
  project_id: string;
  title: string;
  option_label: string;
  customer_name: string;
  total_cents: number;
  issued_on: string;
  valid_until: string;
  has_actuals: number;
}

/** A quote as it lies in the table. */
export interface QuoteRow extends Omit<ListedRow, 'has_actuals'> {
  revision_of: string | null;
  book_revision: number;
  cost_cents: number;
  stated: string;
  issuer: string;
  estimate: string;
  quoted_tasks: string;
  actuals: string | null;
  issued_at: string;
  updated_at: string;
}

/** A quote among those that revise one another, as it lies in the table. */
export type RelatedRow = Pick<
  QuoteRow,
  'id' | 'year' | 'number_in_year' | 'revision_of' | 'status' | 'valid_until' | 'actuals'
>;

/** A state as it lies in the table. */
export interface StateRow {
  revision: number;
  status: QuoteStatus;
  actuals: string | null;
  at: string;
}

/** The number of a quote: its year, and how many there were in it. */
export function numberOf({ year, number_in_year }: Pick<ListedRow, 'year' | 'number_in_year'>): string {
  return `${year}-${String(number_in_year).padStart(4, '0')}`;
}

/** An issued quote is valid through its last day, and has lapsed on the next. */
function statusOn(today: string, row: Pick<QuoteRow, 'status' | 'valid_until'>): QuoteStatus {
  return row.status === 'issued' && today > row.valid_until ? 'lapsed' : row.status;
}

/** A quote among those that revise one another, as it reads on a day. */
export function relatedOf(row: RelatedRow, today: string): Related {
  return {
    id: row.id,
    number: numberOf(row),
    revisionOf: row.revision_of,
    status: statusOn(today, row),
    validUntil: row.valid_until,
    hasActuals: row.actuals !== null,
  };
}

/** What both a list and one quote say. */
function commonOf(row: Omit<ListedRow, 'has_actuals'>, today: string): Omit<ListedQuote, 'hasActuals'> {
  return {
    id: row.id,
    number: numberOf(row),
    revision: row.revision,
    status: statusOn(today, row),
    projectId: row.project_id,
    title: row.title,
    optionLabel: row.option_label,
    customerName: row.customer_name,
    totalCents: row.total_cents,
    issuedOn: row.issued_on,
    validUntil: row.valid_until,
  };
}

/** A quote of a list, as it reads on a day. */
export function listedOf(row: ListedRow, today: string): ListedQuote {
  return { ...commonOf(row, today), hasActuals: row.has_actuals === 1 };
}

interface Around {
  states: readonly StateRow[];
  today: string;
  /** The quote that took its place. */
  revisedBy: string | undefined;
  /** The data file, for the messages. */
  file: string;
}

/** A quote whole, as it reads on a day. @throws {CorruptDataError} where a column does not hold what was written */
export function quoteOf(row: QuoteRow, { states, today, revisedBy, file }: Around): Quote {
  const { format, ...estimate } = readColumn(Frozen, row.estimate, { file, column: 'estimate' });
  return {
    ...commonOf(row, today),
    bookRevision: row.book_revision,
    costCents: row.cost_cents,
    stated: readColumn(AnyObject, row.stated, { file, column: 'stated' }),
    issuer: readColumn(AnyObject, row.issuer, { file, column: 'issuer' }),
    estimate,
    quotedTasks: quotedTasksOf(row.quoted_tasks, file),
    format,
    actuals: actualsOf(row.actuals, file),
    ...(row.revision_of !== null && { revisionOf: row.revision_of }),
    ...(revisedBy !== undefined && { revisedBy }),
    issuedAt: row.issued_at,
    updatedAt: row.updated_at,
    history: states.map((state) => stateOf(state, file)),
  };
}

function stateOf({ revision, status, at, actuals }: StateRow, file: string): QuoteState {
  return { revision, status, at, actuals: actualsOf(actuals, file) };
}

const AnyObject = z.record(z.string(), z.unknown());
/** The format lies with the estimate, where nothing is ever rewritten; quotes of the first format do not name it. */
const Frozen = z.looseObject({ format: z.int().positive().default(1) });
const Hours = z.number().nonnegative();
const QuotedTasks = z.array(z.object({ key: z.string(), hours: Hours, hoursPerUnit: Hours }));
const ActualsEntered = z.object({
  tasks: z.array(z.object({ key: z.string(), hours: Hours })),
  totalCents: z.int().nonnegative().optional(),
});

interface Column {
  file: string;
  column: string;
}

/** What a column holds, by its schema. @throws {CorruptDataError} where it is not what was written */
function readColumn<Schema extends z.ZodType>(
  schema: Schema,
  text: string,
  { file, column }: Column,
): z.output<Schema> {
  const read = schema.safeParse(JSON.parse(text));
  if (read.success) return read.data;
  const [issue] = read.error.issues;
  const found = `the column ${column} of a quote says at ${issue?.path.join('.') || 'its top'}: ${issue?.message}`;
  throw new CorruptDataError({ file, found, cause: read.error });
}

/** An estimate as it is frozen, with the format that it has. */
export function frozenText(estimate: JsonObject, format: number): string {
  return JSON.stringify({ ...estimate, format });
}

/** The tasks that were quoted, from their column. @throws {CorruptDataError} */
export function quotedTasksOf(text: string, file: string): QuotedTask[] {
  return readColumn(QuotedTasks, text, { file, column: 'quoted_tasks' });
}

/** What was entered of a job, from its column; null where nothing was. @throws {CorruptDataError} */
export function actualsOf(text: string | null, file: string): Actuals | null {
  return text === null ? null : readColumn(ActualsEntered, text, { file, column: 'actuals' });
}
