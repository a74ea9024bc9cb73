import { useCallback, useState } from 'react';
import { counted } from '../../server/drawing/wording.ts';
import type { PriceItem } from '../../server/estimate/price-book.ts';
import { asOfQuery, type BookAsOf } from '../api.ts';
import { dayOf } from '../parts/dates.ts';
import { Waiting } from '../parts/waiting.tsx';
import { TextButton } from '../parts/word-fields.tsx';
import { BookFilters } from './book-filters.tsx';
import { type BookPart, BookParts, PartCommands } from './book-parts.tsx';
import { ConflictNote } from './conflict-note.tsx';
import { MarkedBar } from './marked-bar.tsx';
import { OpenProjectTotals } from './open-project-totals.tsx';
import { PriceTable } from './price-table.tsx';
import { RegionLine } from './region-line.tsx';
import { StartingNote } from './starting-note.tsx';
import { StatedLine, useStated } from './stated-line.tsx';
import { UndoBar } from './undo-bar.tsx';
import { useBookChanges } from './use-book-changes.ts';
import { allItemsOf, type BookFilter, type BookWindow, isPast } from './use-book-pages.ts';

/** The price book as a table that is changed where it stands; each change is kept with what it replaces. */
export default function PricesScreen() {
  const [filter, setFilter] = useState<BookFilter>({ search: '', category: '' });
  const [part, setPart] = useState<BookPart>();
  const { marked, onMark, onClear } = useMarked();
  const stated = useStated();
  const changes = useBookChanges(stated.stated);
  const past = isPast(filter);
  const { search, category } = filter;
  const showAsOf = (asOf: BookAsOf) => {
    onClear();
    setPart(undefined);
    setFilter({ search, category, ...asOf });
  };
  return (
    <main className="plain-screen prices-screen">
      <header className="screen-head">
        <h1>Price book</h1>
        <PartCommands part={part} exportQuery={new URLSearchParams(asOfQuery(filter)).toString()} onPart={setPart} />
      </header>
      <OpenProjectTotals />
      {past ? <PastNote filter={filter} onLeave={() => setFilter({ search, category })} /> : <StatedLine {...stated} />}
      {!past && <StartingNote stated={stated.stated} onAdded={changes.bookChanged} />}
      {!past && <RegionLine changes={changes} />}
      {changes.conflict && <ConflictNote conflict={changes.conflict} onSettle={changes.settle} />}
      <PriceTable filter={filter} changes={changes} marked={marked} onMark={onMark}>
        {(book) => (
          <>
            {part && (
              <BookParts
                {...{ part, changes, categories: book.categories, stated: stated.stated }}
                onAsOf={showAsOf}
                onAdded={(key) => {
                  setPart(undefined);
                  setFilter({ category: '', search: key });
                  return changes.bookChanged();
                }}
              />
            )}
            <BookFilters filter={filter} categories={book.categories} onFilter={setFilter} />
            <Found book={book} filter={filter} onMark={onMark} />
            <div className="book-foot">
              <MarkedBar marked={marked} changes={changes} onClear={onClear} />
              <UndoBar last={changes.last} saved={changes.saved} undo={changes.undo} />
            </div>
          </>
        )}
      </PriceTable>
    </main>
  );
}

/** The items that are marked, as they were when one marked them. */
function useMarked() {
  const [marked, setMarked] = useState<ReadonlyMap<string, PriceItem>>(new Map());
  const onMark = useCallback((items: readonly PriceItem[], isMarked: boolean) => {
    setMarked((before) => {
      const after = new Map(before);
      for (const item of items) {
        if (isMarked) after.set(item.key, item);
        else after.delete(item.key);
      }
      return after;
    });
  }, []);
  const onClear = useCallback(() => setMarked(new Map()), []);
  return { marked, onMark, onClear };
}

/** Says clearly that the book on the sheet is one of the past. */
function PastNote({ filter: { revision, on }, onLeave }: { filter: BookFilter; onLeave: () => void }) {
  return (
    <p className="past-note" role="status">
      <strong>
        This is the book as it was{' '}
        {revision === undefined ? `at the end of ${dayOf(on ?? '')}` : `at revision ${revision}`}.
      </strong>{' '}
      It can only be read. <TextButton onPress={onLeave}>back to the book as it is now</TextButton>
    </p>
  );
}

/** More are marked by narrowing the search first. */
const MOST_MARKED = 2000;

interface FoundProps {
  book: BookWindow;
  filter: BookFilter;
  onMark: (items: readonly PriceItem[], isMarked: boolean) => void;
}

/** How many items were found, and how one moves among them. */
function Found({ book: { total, error }, filter, onMark }: FoundProps) {
  const canMark = total !== undefined && total > 0 && total <= MOST_MARKED && !isPast(filter);
  return (
    <>
      <p className="found" id="price-keys">
        <span role="status">
          {error?.message}
          {total !== undefined && counted(total, 'item')}
        </span>{' '}
        {canMark && (
          <TextButton onPress={async () => onMark(await allItemsOf(filter), true)}>
            mark {total === 1 ? 'it' : `all ${counted(total, 'item')}`}
          </TextButton>
        )}
        {!isPast(filter) && (
          <span className="wide-only">
            Arrows go from price to price, and left to the item: Enter opens it, Shift and the arrows mark, F6 goes to
            what can be done with the marked. Enter takes a price, Escape leaves it, Ctrl+Z undoes.
          </span>
        )}
      </p>
      {total === undefined && !error && <Waiting what="the price book" />}
    </>
  );
}
