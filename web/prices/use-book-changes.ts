import { useCallback, useMemo, useRef } from 'react';
import type { PriceItem } from '../../server/estimate/price-book.ts';
import { itemHistory, type PriceHistoryEntry, readItem } from '../api.ts';
import {
  changeSeveral,
  removeItem,
  restoreItem,
  type SeveralChange,
  type SeveralItems,
  type StatedChange,
  saveItem,
  undoRevision,
} from './book-api.ts';
import { changeWords, severalWords } from './change-words.ts';
import { type Conflict, type DoneChange, type Edit, type Task, useAttempts } from './use-attempts.ts';
import { useBookLists } from './use-book-lists.ts';

/** Changes of the book, and what became of them. */
export type BookChanges = ReturnType<typeof useBookChanges>;

/** Changes the book, keeps what can be undone, and lets nothing be overwritten unseen. */
export function useBookChanges(stated: StatedChange) {
  const { done, refusal, conflict, saved, setConflict, attempt, takeBack } = useAttempts();
  const { bookChanged } = useBookLists();
  const latest = useRef({ stated, done });
  latest.current = { stated, done };
  const statedNow = useCallback(() => latest.current.stated, []);
  const { edit, remove, restore } = useItemChanges(attempt, statedNow);
  const several = useCallback(
    (items: SeveralItems, change: SeveralChange) =>
      attempt('', async () => {
        const { bookRevision, changed } = await changeSeveral(items, change, statedNow());
        return { words: severalWords(changed.length, change), bookRevision };
      }),
    [attempt, statedNow],
  );
  const undo = useCallback(
    (change: Omit<DoneChange, 'effect'> | undefined = latest.current.done.at(-1)) =>
      change
        ? takeBack(change, async () => {
            const { bookRevision } = await undoRevision(change.bookRevision, statedNow());
            return { words: change.words, bookRevision };
          })
        : Promise.resolve(false),
    [takeBack, statedNow],
  );
  const settle = useCallback(
    (choice: 'theirs' | 'mine') => {
      setConflict(undefined);
      if (conflict?.theirs && choice === 'mine') return edit(conflict.theirs, conflict.edit);
      return bookChanged();
    },
    [conflict, setConflict, edit, bookChanged],
  );
  return useMemo(
    () => ({ last: done.at(-1), saved, refusal, conflict, edit, remove, restore, several, undo, settle, bookChanged }),
    [done, saved, refusal, conflict, edit, remove, restore, several, undo, settle, bookChanged],
  );
}

type Attempt = ReturnType<typeof useAttempts>['attempt'];

/** Changes of one item, each under the revision that was last seen here, one's own changes included. */
function useItemChanges(attempt: Attempt, statedNow: () => StatedChange) {
  const { showInLists } = useBookLists();
  const own = useRef(new Map<string, PriceItem>());
  const newest = useCallback((item: PriceItem) => {
    const mine = own.current.get(item.key);
    return mine && mine.revision > item.revision ? mine : item;
  }, []);
  /** Sends a changed item, and shows what was saved. */
  const replaced = useCallback(
    async (item: PriceItem, send: (before: PriceItem, etag: string) => Promise<{ resource: PriceItem }>) => {
      const before = newest(item);
      const { resource: after } = await send(before, `"${before.revision}"`);
      own.current.set(item.key, after);
      showInLists(after);
      return { words: changeWords({ before, after }), bookRevision: await bookRevisionOf(item.key) };
    },
    [newest, showInLists],
  );
  const edit = useCallback(
    (item: PriceItem, edit: Edit): Promise<boolean> => {
      if (isSameItem(edit(newest(item)), newest(item))) return Promise.resolve(true); // nothing to save, nor to undo
      const task: Task = () =>
        replaced(item, (before, etag) => {
          const { revision: _revision, ...after } = edit(before);
          return saveItem(after, etag, statedNow());
        });
      return attempt(item.key, task, () => conflictOf(newest(item), edit));
    },
    [attempt, newest, replaced, statedNow],
  );
  const restore = useCallback(
    (item: PriceItem, revision: number) => {
      const { key } = item;
      return attempt(key, () => replaced(item, (_, etag) => restoreItem({ key, revision }, etag, statedNow())));
    },
    [attempt, replaced, statedNow],
  );
  const remove = useCallback(
    (item: PriceItem) =>
      attempt(item.key, async () => {
        await removeItem(item.key, `"${newest(item).revision}"`, statedNow());
        return { words: changeWords({ before: item }), bookRevision: await bookRevisionOf(item.key) };
      }),
    [attempt, newest, statedNow],
  );
  return { edit, remove, restore };
}

const isSameItem = (one: PriceItem, other: PriceItem) => JSON.stringify(one) === JSON.stringify(other);

/** The revision of the book that an item changed with last. */
async function bookRevisionOf(key: string): Promise<number> {
  const [newest] = await itemHistory(key);
  return newest?.bookRevision ?? 0;
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
