import { ConflictError } from './errors.ts';
import type { QuoteStatus } from './quotes.ts';

/** What holds of a quote by where it stands. */
interface Standing {
  /** What may be said of it next. */
  next: readonly QuoteStatus[];
  /** Does it take the place of the quote that it revises? Once it is closed, the earlier one stands again. */
  takesPlace: boolean;
  /** May a job have come of it? What lapsed by its date was perhaps agreed in time. */
  takesHours: boolean;
}

/** What may follow what, and what each state stands for. */
export const STANDING: Readonly<Record<QuoteStatus, Standing>> = {
  issued: { next: ['accepted', 'declined', 'withdrawn', 'lapsed'], takesPlace: true, takesHours: true },
  accepted: { next: [], takesPlace: true, takesHours: true },
  declined: { next: [], takesPlace: false, takesHours: false },
  withdrawn: { next: [], takesPlace: false, takesHours: false },
  lapsed: { next: [], takesPlace: false, takesHours: true },
};

/** A quote among those that revise one another. */
export interface Related {
  id: string;
  number: string;
  revisionOf: string | null;
  /** As it reads on the day that is asked about. */
  status: QuoteStatus;
  validUntil: string;
  hasActuals: boolean;
}

/** A quote, and all that it revises or is revised by, itself among them, in the order of issue. */
export interface Line {
  quote: Related;
  all: readonly Related[];
}

/** Is there a job that goes by this quote? Its hours count, and what was built is not offered anew. */
export function hasJob({ status, hasActuals }: Related): boolean {
  return hasActuals && STANDING[status].takesHours;
}

/** The quote that took the place of this one: the nearest of its revisions, or of theirs, that is not closed. */
export function revisedBy({ quote, all }: Line): Related | undefined {
  const revisions = all.filter(({ revisionOf }) => revisionOf === quote.id);
  const standing = revisions.find((each) => STANDING[each.status].takesPlace || hasJob(each));
  if (standing) return standing;
  return revisions.map((each) => revisedBy({ quote: each, all })).find((later) => later !== undefined);
}

/** @throws {ConflictError} where this status may not follow */
export function insistOnStatus(line: Line, next: QuoteStatus): void {
  const { number, status, validUntil } = line.quote;
  if (!STANDING[status].next.includes(next)) {
    if (status === 'lapsed') {
      throw new ConflictError(
        `Quote ${number} lapsed, valid until ${validUntil}: issue it again, with today's prices.`,
      );
    }
    if (status === 'issued') throw new ConflictError(`Quote ${number} is issued already.`);
    throw new ConflictError(`Quote ${number} was ${status}: it cannot become ${next} any more.`);
  }
  if (next !== 'accepted') return;
  insistOnNoOtherJob(line);
  const later = revisedBy(line);
  if (later) {
    throw new ConflictError(
      `Quote ${number} was revised by ${later.number}: accept that one, or let it be declined or withdrawn first.`,
    );
  }
}

/** @throws {ConflictError} where no job can have come of it, or its job goes by another quote */
export function insistOnHours(line: Line): void {
  const { number, status } = line.quote;
  if (!STANDING[status].takesHours) throw new ConflictError(`Quote ${number} was ${status}: no job came of it.`);
  insistOnNoOtherJob(line);
  const later = revisedBy(line);
  if (later) throw new ConflictError(`Quote ${number} was revised by ${later.number}: enter the hours there.`);
}

/**
 * A quote is revised once at a time, and not once the hours of its job are entered: what was built stays as it was sold.
 * @throws {ConflictError}
 */
export function insistOnRevisable(line: Line): void {
  const { number } = line.quote;
  const built = line.all.find(hasJob);
  if (built) {
    throw new ConflictError(
      `Quote ${number} cannot be revised: what its job took is entered${built === line.quote ? '' : ` at quote ${built.number}`}. ` +
        'Issue a quote of its own for what comes besides, or take the hours back first.',
    );
  }
  const later = revisedBy(line);
  if (later) throw new ConflictError(`Quote ${number} was revised by ${later.number}: revise that one.`);
}

function insistOnNoOtherJob({ quote, all }: Line): void {
  const other = all.find((each) => each.id !== quote.id && hasJob(each));
  if (!other) return;
  throw new ConflictError(
    `Quote ${quote.number} and quote ${other.number} are of one job, and what it took is entered at ${other.number}.`,
  );
}
