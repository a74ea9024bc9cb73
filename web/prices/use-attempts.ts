import { useQueryClient } from '@tanstack/react-query';
import { useCallback, useRef, useState } from 'react';
import type { Estimate } from '../../server/estimate/answer.ts';
import type { PriceItem } from '../../server/estimate/price-book.ts';
import { ApiProblem, type FieldProblem, type PriceHistoryEntry } from '../api.ts';
import { lastProjectId } from '../parts/last-project.ts';
import { effectWords } from './change-words.ts';
import { useBookLists } from './use-book-lists.ts';

/** A change of an item, to be made on whatever the item is when its turn comes. */
export type Edit = (item: PriceItem) => PriceItem;

/** A change that was made: what it is called, the revision that takes it back, and what it did. */
export interface DoneChange {
  words: string;
  bookRevision: number;
  /** What it did to the open project; undefined without one. */
  effect: string | undefined;
}

/** Somebody else saved meanwhile: their state, the last one that was seen here, and the change that waits. */
export interface Conflict {
  seen: PriceItem;
  /** Undefined where they removed it. */
  theirs: PriceItem | undefined;
  /** The entries of the history that are new since then, the newest first. */
  meanwhile: PriceHistoryEntry[];
  edit: Edit;
}

/** A refusal, at the item that it belongs to, or of several (then the key is empty). */
export interface Refusal {
  key: string;
  message: string;
  errors: readonly FieldProblem[];
}

/** What is sent, answered with its words and the revision of the book that it made. */
export type Task = () => Promise<Omit<DoneChange, 'effect'>>;

/** Tries changes one after the other: keeps those that were made, and says of each what became of it. */
export function useAttempts() {
  const { made, inTurn } = useTurns();
  const { bookChanged } = useBookLists();
  const [done, setDone] = useState<readonly DoneChange[]>([]);
  const [refusal, setRefusal] = useState<Refusal>();
  const [conflict, setConflict] = useState<Conflict>();
  const [saved, setSaved] = useState<Omit<DoneChange, 'bookRevision'>>();
  const attempt = useCallback(
    (key: string, task: Task, onStale?: () => Promise<Conflict>) =>
      inTurn(async () => {
        try {
          const change = await made(task);
          setRefusal(undefined);
          setSaved(change);
          setDone((before) => [...before, change]);
          return true;
        } catch (error) {
          if (onStale && isStale(error)) setConflict(await onStale());
          else setRefusal(refusalOf(key, error));
          if (!onStale && isStale(error)) await bookChanged(); // what is marked anew is as it is by now
          return false;
        }
      }),
    [inTurn, made, bookChanged],
  );
  /** Sends what takes a change back; the change is then no longer among those that can be undone. */
  const takeBack = useCallback(
    (change: Omit<DoneChange, 'effect'>, task: Task) =>
      inTurn(async () => {
        try {
          const { effect } = await made(task);
          setRefusal(undefined);
          setSaved({ words: `Undone: ${change.words}`, effect });
          setDone((before) => before.filter(({ bookRevision }) => bookRevision !== change.bookRevision));
          return true;
        } catch (error) {
          setRefusal(refusalOf('', error));
          return false;
        }
      }),
    [inTurn, made],
  );
  return { done, refusal, conflict, saved, setConflict, attempt, takeBack };
}

/** Makes one change after the other, and says of each what it did to the open project. */
function useTurns() {
  const queries = useQueryClient();
  const { bookChanged } = useBookLists();
  const turn = useRef(Promise.resolve());
  /** Runs a task after those before it; each says itself what went wrong, and answers whether it went well. */
  const inTurn = useCallback((task: () => Promise<boolean>): Promise<boolean> => {
    const ended = turn.current.then(task);
    turn.current = ended.then(
      () => undefined,
      () => undefined,
    );
    return ended;
  }, []);
  const made = useCallback(
    async (task: Task): Promise<DoneChange> => {
      const projectKey = ['estimate', 'project', lastProjectId()];
      const before = queries.getQueryData<Estimate>(projectKey);
      const change = await task();
      await bookChanged();
      return { ...change, effect: effectWords(before, queries.getQueryData<Estimate>(projectKey)) };
    },
    [queries, bookChanged],
  );
  return { made, inTurn };
}

const isStale = (error: unknown) => error instanceof ApiProblem && (error.status === 412 || error.status === 404);

function refusalOf(key: string, error: unknown): Refusal {
  const errors = error instanceof ApiProblem ? error.errors : [];
  const said = error instanceof Error ? error.message : String(error);
  const isChanged = error instanceof ApiProblem && error.status === 412;
  return { key, errors, message: isChanged ? `Somebody changed it meanwhile, so nothing was done. ${said}` : said };
}
