import type { Database } from 'better-sqlite3';
import { NotFoundError } from './errors.ts';
import { PAGE_SIZE, type Page } from './page.ts';
import type { PriceCause } from './price-book.ts';

/** One revision of the book: who changed how many items, when, by what and why. */
export interface BookRevision {
  revision: number;
  cause: PriceCause;
  /** The moment, as an ISO 8601 text in UTC. */
  at: string;
  by?: string;
  why?: string;
  /** How many items it added, changed or removed. */
  items: number;
  /** Of a change by an index: every price of the category times the factor, as of that day. */
  index?: { category: string; factor: number; on: string };
  /** The revision that it took back. */
  undoes?: number;
  /** The revision that took it back. */
  undoneBy?: number;
}

export type RevisionReader = {
  /** The revisions of the book, the newest first. `page` counts from 1. */
  revisions(page?: number): Page<BookRevision>;
  /** @throws {NotFoundError} */
  revisionInfo(revision: number): BookRevision;
  /**
   * The revision that the book was at before a moment, an ISO 8601 text in UTC.
   * @throws {NotFoundError} where it had none yet
   */
  revisionBefore(moment: string): number;
  /** The keys of the items that a revision changed, in order. */
  changedKeys(revision: number): string[];
};

interface RevisionRow {
  revision: number;
  cause: PriceCause;
  changed_at: string;
  changed_by: string | null;
  why: string | null;
  items: number;
  category: string | null;
  index_factor: number | null;
  index_on: string | null;
  undoes: number | null;
  undone_by: number | null;
}

const REVISION = `SELECT r.*, (SELECT count(*) FROM price_history h WHERE h.book_revision = r.revision) AS items,
    (SELECT max(u.revision) FROM book_revision u WHERE u.undoes = r.revision) AS undone_by
  FROM book_revision r`;

/** Reads what each revision of the book was. */
export function revisionReader(db: Database): RevisionReader {
  const page = db.prepare<[number], RevisionRow>(`${REVISION} ORDER BY r.revision DESC LIMIT ${PAGE_SIZE} OFFSET ?`);
  const total = db.prepare<[], number>('SELECT count(*) FROM book_revision').pluck();
  const one = db.prepare<[number], RevisionRow>(`${REVISION} WHERE r.revision = ?`);
  const before = db
    .prepare<[string], number | null>('SELECT max(revision) FROM book_revision WHERE changed_at < ?')
    .pluck();
  const keys = db
    .prepare<[number], string>('SELECT item_key FROM price_history WHERE book_revision = ? ORDER BY item_key')
    .pluck();
  return {
    revisions: (number = 1) => ({
      items: page.all((number - 1) * PAGE_SIZE).map(revisionOf),
      page: number,
      pageSize: PAGE_SIZE,
      total: total.get() ?? 0,
    }),
    revisionInfo: (revision) => {
      const row = one.get(revision);
      if (row) return revisionOf(row);
      throw new NotFoundError(`The price book never had a revision ${revision}.`);
    },
    revisionBefore: (moment) => {
      const revision = before.get(moment) ?? undefined;
      if (revision !== undefined) return revision;
      throw new NotFoundError(`The price book held nothing yet before ${moment}.`);
    },
    changedKeys: (revision) => keys.all(revision),
  };
}

function revisionOf(row: RevisionRow): BookRevision {
  const { revision, cause, changed_at: at, changed_by: by, why, items, category, index_factor: factor } = row;
  const index =
    category !== null && factor !== null && row.index_on !== null ? { category, factor, on: row.index_on } : undefined;
  return {
    ...{ revision, cause, at },
    ...(by !== null && { by }),
    ...(why !== null && { why }),
    items,
    ...(index && { index }),
    ...(row.undoes !== null && { undoes: row.undoes }),
    ...(row.undone_by !== null && { undoneBy: row.undone_by }),
  };
}
