import type { JsonObject } from './projects.ts';
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
  revised_by: string | null;
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

/** What both a list and one quote say. An issued one is valid through its last day, and has lapsed on the next. */
function commonOf(row: Omit<ListedRow, 'has_actuals'>, today: string): Omit<ListedQuote, 'hasActuals'> {
  const hasLapsed = row.status === 'issued' && today > row.valid_until;
  return {
    id: row.id,
    number: numberOf(row),
    revision: row.revision,
    status: hasLapsed ? 'lapsed' : row.status,
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

/** A quote whole, as it reads on a day. */
export function quoteOf(row: QuoteRow, { states, today }: { states: readonly StateRow[]; today: string }): Quote {
  return {
    ...commonOf(row, today),
    bookRevision: row.book_revision,
    costCents: row.cost_cents,
    stated: JSON.parse(row.stated) as JsonObject,
    issuer: JSON.parse(row.issuer) as JsonObject,
    estimate: JSON.parse(row.estimate) as JsonObject,
    quotedTasks: JSON.parse(row.quoted_tasks) as QuotedTask[],
    actuals: actualsOf(row.actuals),
    ...(row.revision_of !== null && { revisionOf: row.revision_of }),
    ...(row.revised_by !== null && { revisedBy: row.revised_by }),
    issuedAt: row.issued_at,
    updatedAt: row.updated_at,
    history: states.map(stateOf),
  };
}

function stateOf({ revision, status, at, actuals }: StateRow): QuoteState {
  return { revision, status, at, actuals: actualsOf(actuals) };
}

function actualsOf(text: string | null): Actuals | null {
  return text === null ? null : (JSON.parse(text) as Actuals);
}
