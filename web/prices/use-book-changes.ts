import { useQueryClient } from '@tanstack/react-query';
import { useCallback, useMemo, useRef, useState } from 'react';
import type { Estimate } from '../../server/estimate/answer.ts';
import type { PriceItem } from '../../server/estimate/price-book.ts';
import {
  ApiProblem,
  createItem,
  type FieldProblem,
  itemHistory,
  type PriceHistoryEntry,
  type PricePage,
  readItem,
  removeItem,
  saveItem,
} from '../api.ts';
import { lastProjectId } from '../parts/last-project.ts';
import { type ChangeStep, changeWords, effectWords } from './change-words.ts';

/** The key under which pages of the book are kept. */
export const ITEMS_KEY = ['items'];

/** A change of an item, to be made on whatever the item is when its turn comes. */
export type Edit = (item: PriceItem) => PriceItem;

/** A change that was made: what it is called, what it did, and how to take it back. */
export interface DoneChange {
  words: string;
  steps: ChangeStep[];
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

/** A refusal, at the item that it belongs to. */
export interface Refusal {
  key: string;
  message: string;
  errors: readonly FieldProblem[];
}

/** Changes the book one after the other, keeps what can be undone, and lets nothing be overwritten unseen. */
export function useBookChanges() {
  const queries = useQueryClient();
  const [done, setDone] = useState<readonly DoneChange[]>([]);
  const [refusal, setRefusal] = useState<Refusal>();
  const [conflict, setConflict] = useState<Conflict>();
  const [saved, setSaved] = useState<{ words: string; effect: string | undefined }>();
  const own = useRef(new Map<string, PriceItem>());
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
  /** Makes a change, and says what it did. @throws {ApiProblem} */
  const make = useCallback(
    async (wanted: readonly ChangeStep[]): Promise<DoneChange> => {
      const projectKey = ['estimate', 'project', lastProjectId()];
      const before = queries.getQueryData<Estimate>(projectKey);
      const steps: ChangeStep[] = [];
      for (const step of wanted) {
        const made = await send(step);
        const key = made.after?.key ?? made.before?.key ?? '';
        if (made.after) own.current.set(key, made.after);
        else own.current.delete(key);
        showInLists(made);
        steps.push(made);
      }
      await Promise.all(
        [ITEMS_KEY, ['estimate'], ['history']].map((queryKey) => queries.invalidateQueries({ queryKey })),
      );
      const effect = effectWords(before, queries.getQueryData<Estimate>(projectKey));
      return { words: changeWords(steps), steps, effect };

      /** Shows the new state in the lists at once, so that the next change starts from it. */
      function showInLists({ after }: ChangeStep) {
        if (!after) return;
        queries.setQueriesData<PricePage>({ queryKey: ITEMS_KEY }, (page) =>
          page?.items ? { ...page, items: page.items.map((item) => (item.key === after.key ? after : item)) } : page,
        );
      }
    },
    [queries],
  );
  const took = useCallback((change: DoneChange, kept: (before: readonly DoneChange[]) => readonly DoneChange[]) => {
    setRefusal(undefined);
    setSaved({ words: change.words, effect: change.effect });
    setDone(kept);
  }, []);
  const edit = useCallback(
    (item: PriceItem, edit: Edit) =>
      inTurn(async () => {
        const mine = own.current.get(item.key);
        const seen = mine && mine.revision > item.revision ? mine : item;
        const after = edit(seen);
        if (JSON.stringify(after) === JSON.stringify(seen)) return true; // nothing to save, and nothing to undo
        try {
          const change = await make([{ before: seen, after }]);
          took(change, (before) => [...before, change]);
          return true;
        } catch (error) {
          if (isStale(error)) setConflict(await conflictOf(seen, edit));
          else setRefusal(refusalOf(item.key, error));
          return false;
        }
      }),
    [inTurn, make, took],
  );
  const step = useCallback(
    (wanted: readonly ChangeStep[]) =>
      inTurn(async () => {
        try {
          const change = await make(wanted);
          took(change, (before) => [...before, change]);
          return true;
        } catch (error) {
          setRefusal(refusalOf(wanted[0]?.before?.key ?? '', error));
          return false;
        }
      }),
    [inTurn, make, took],
  );
  const undo = useCallback(
    () =>
      inTurn(async () => {
        const last = lastOf(doneNow.current);
        if (!last) return false;
        try {
          const change = await make([...last.steps].reverse().map(backwards));
          took({ ...change, words: `Undone: ${last.words}` }, (before) => before.filter((each) => each !== last));
          return true;
        } catch (error) {
          setRefusal(refusalOf(last.steps[0]?.after?.key ?? '', error));
          return false;
        }
      }),
    [inTurn, make, took],
  );
  const doneNow = useRef(done);
  doneNow.current = done;
  const settle = useCallback(
    (choice: 'theirs' | 'mine') => {
      setConflict(undefined);
      if (conflict?.theirs && choice === 'mine') return edit(conflict.theirs, conflict.edit);
      return queries.invalidateQueries({ queryKey: ITEMS_KEY });
    },
    [conflict, edit, queries],
  );
  return useMemo(
    () => ({ last: lastOf(done), saved, refusal, conflict, edit, step, undo, settle }),
    [done, saved, refusal, conflict, edit, step, undo, settle],
  );
}

const lastOf = (done: readonly DoneChange[]) => done.at(-1);

function backwards({ before, after }: ChangeStep): ChangeStep {
  return { ...(after && { before: after }), ...(before && { after: before }) };
}

/** Sends one step under the revision that was seen, and answers it with what was saved. @throws {ApiProblem} */
async function send({ before, after }: ChangeStep): Promise<ChangeStep> {
  if (!after) {
    if (before) await removeItem(before.key, `"${before.revision}"`);
    return before ? { before } : {};
  }
  const { revision: _revision, ...stated } = after;
  if (!before) return { after: (await createItem(stated)).resource };
  return { before, after: (await saveItem(stated, `"${before.revision}"`)).resource };
}

const isStale = (error: unknown) => error instanceof ApiProblem && (error.status === 412 || error.status === 404);

function refusalOf(key: string, error: unknown): Refusal {
  const errors = error instanceof ApiProblem ? error.errors : [];
  const said = error instanceof Error ? error.message : String(error);
  const isChanged = error instanceof ApiProblem && error.status === 412;
  return { key, errors, message: isChanged ? `Somebody changed it since, so it was left alone. ${said}` : said };
}

/** Asks who saved what meanwhile. */
async function conflictOf(seen: PriceItem, edit: Edit): Promise<Conflict> {
  const history = await itemHistory(seen.key).catch((): PriceHistoryEntry[] => []);
  const meanwhile = history.filter(({ revision }) => revision > seen.revision);
  const theirs = await readItem(seen.key).then(
    ({ resource }) => resource,
    () => undefined,
  );
  return { seen, theirs, meanwhile, edit };
}
