import type { Database } from 'better-sqlite3';
import type { PriceItem } from '../server/estimate/price-book.ts';
import { ConflictError } from './errors.ts';
import type { PriceBook } from './price-book.ts';
import { withTypedErrors } from './typed-errors.ts';

/** A change that jobs taught: what the item becomes, and how many jobs it was learned from. */
export interface LearnedChange {
  revisionSeen: number;
  item: PriceItem;
  jobs: number;
  by?: string;
}

// A type, not an interface: see price-book.ts.
export type Learned = {
  /**
   * An item as it was stated by people, before jobs taught it anything: its newest state that was not learned. What is
   * learned next starts from there, so that no job counts twice. @throws {NotFoundError}
   */
  stated(key: string): PriceItem;
  /**
   * Takes over what was learned as one change of the book, by the way of every other change.
   * @throws {NotFoundError | StaleRevisionError} @throws {ConflictError} where the item says so already
   */
  accept(change: LearnedChange): PriceItem;
};

interface LearnedParts {
  db: Database;
  file: string;
  prices: PriceBook;
}

/** What the book learned from jobs. */
export function learnedOf({ db, file, prices }: LearnedParts): Learned {
  const revisions = db.prepare<[string], number>('SELECT item_revision FROM learned_state WHERE item_key = ?').pluck();
  const remember = db.prepare<[object]>(
    'INSERT INTO learned_state (item_key, item_revision, jobs) VALUES (@key, @revision, @jobs)',
  );
  const stated = (key: string): PriceItem => {
    const learned = new Set(revisions.all(key));
    const states = prices.history(key);
    // A learned state that was undone and restored again is learned all the same: its points tell.
    const points = new Set(states.filter(({ revision }) => learned.has(revision)).map(({ item }) => pointsOf(item)));
    return states.find(({ item }) => !points.has(pointsOf(item)))?.item ?? prices.find(key);
  };
  const accept = db.transaction(({ revisionSeen, item, jobs, by }: LearnedChange): PriceItem => {
    const { revision: _revision, ...wanted } = item;
    const why = `learned from ${jobs} ${jobs === 1 ? 'job' : 'jobs'}`;
    const after = prices.replace(item.key, revisionSeen, wanted, { why, ...(by !== undefined && { by }) });
    if (after.revision === revisionSeen) throw new ConflictError(`"${item.key}" says so already.`);
    remember.run({ key: item.key, revision: after.revision, jobs });
    return after;
  });
  return withTypedErrors(file, { stated, accept: accept.immediate });
}

const pointsOf = ({ low, likely, high }: PriceItem) => `${low} ${likely} ${high}`;
