import { useQueryClient } from '@tanstack/react-query';
import { useCallback, useState } from 'react';
import { Input, Label, SearchField } from 'react-aria-components';
import { counted } from '../../server/drawing/wording.ts';
import type { PriceItem } from '../../server/estimate/price-book.ts';
import { Waiting } from '../parts/waiting.tsx';
import { ConflictNote } from './conflict-note.tsx';
import { ImportPart } from './import-part.tsx';
import { NewItem } from './new-item.tsx';
import { OpenProjectTotals } from './open-project-totals.tsx';
import { PriceTable } from './price-table.tsx';
import { UndoBar } from './undo-bar.tsx';
import { ITEMS_KEY, useBookChanges } from './use-book-changes.ts';
import type { BookFilter } from './use-book-pages.ts';

type Part = 'item' | 'import';

/** The price book as a table that is changed where it stands; each change is kept with what it replaces. */
export default function PricesScreen() {
  const [filter, setFilter] = useState<BookFilter>({ search: '', category: '' });
  const [part, setPart] = useState<Part>();
  const [marked, setMarked] = useState<ReadonlyMap<string, PriceItem>>(new Map());
  const changes = useBookChanges();
  const bookChanged = useBookChanged();
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
  return (
    <main className="plain-screen prices-screen">
      <header className="screen-head">
        <h1>Price book</h1>
        <PartCommands part={part} onPart={setPart} />
      </header>
      <OpenProjectTotals />
      {part === 'item' && (
        <NewItem
          onAdded={(key) => {
            setPart(undefined);
            setFilter({ ...filter, search: key });
            return bookChanged();
          }}
        />
      )}
      {part === 'import' && <ImportPart onImported={bookChanged} />}
      {changes.conflict && <ConflictNote conflict={changes.conflict} onSettle={changes.settle} />}
      <PriceTable filter={filter} changes={changes} marked={marked} onMark={onMark}>
        {({ categories, total, error }) => (
          <>
            <Filters filter={filter} categories={categories} onFilter={setFilter} />
            <p className="found" role="status" id="price-keys">
              {error?.message}
              {total !== undefined && `${counted(total, 'item')}. `}
              <span className="aside wide-only">
                Arrows go from price to price, to the left of them lies the item: Enter opens it, Shift and the arrows
                mark. Enter takes a price and goes on, Escape leaves it, Ctrl+Z undoes.
              </span>
            </p>
            {total === undefined && !error && <Waiting what="the price book" />}
          </>
        )}
      </PriceTable>
      <UndoBar last={changes.last} saved={changes.saved} undo={changes.undo} />
    </main>
  );
}

/** Reads anew all that the book is in. */
function useBookChanged() {
  const queries = useQueryClient();
  return useCallback(
    () =>
      Promise.all([ITEMS_KEY, ['estimate'], ['history']].map((queryKey) => queries.invalidateQueries({ queryKey }))),
    [queries],
  );
}

function PartCommands({ part, onPart }: { part: Part | undefined; onPart: (part: Part | undefined) => void }) {
  const command = (each: Part, words: string) => (
    <button
      type="button"
      className="paper-button"
      aria-expanded={part === each}
      onClick={() => onPart(part === each ? undefined : each)}
    >
      {words}
    </button>
  );
  return (
    <span className="screen-commands">
      <a href="/api/price-book/export.csv" download>
        export as CSV
      </a>
      {command('import', 'Import a list')}
      {command('item', 'Add an item')}
    </span>
  );
}

interface FiltersProps {
  filter: BookFilter;
  categories: readonly string[];
  onFilter: (filter: BookFilter) => void;
}

function Filters({ filter, categories, onFilter }: FiltersProps) {
  return (
    <div className="filters">
      <SearchField className="search" value={filter.search} onChange={(search) => onFilter({ ...filter, search })}>
        <Label>Search the book</Label>
        <Input />
      </SearchField>
      <label className="category">
        Category{' '}
        <select
          value={filter.category}
          onChange={(event) => onFilter({ ...filter, category: event.currentTarget.value })}
        >
          <option value="">all</option>
          {categories.map((each) => (
            <option key={each} value={each}>
              {each}
            </option>
          ))}
        </select>
      </label>
    </div>
  );
}
