import { keepPreviousData, useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { Input, Label, SearchField } from 'react-aria-components';
import type { PriceItem } from '../../server/estimate/price-book.ts';
import { ApiProblem, type FieldProblem, listItems, removeItem, saveItem } from '../api.ts';
import { Waiting } from '../parts/waiting.tsx';
import { TextButton } from '../parts/word-fields.tsx';
import { NewItem } from './new-item.tsx';
import { OpenProjectTotals } from './open-project-totals.tsx';
import { PriceRow } from './price-row.tsx';

const SEARCH_KEY = ['items'];

/** The price book as a table that is changed where it stands; each change is kept with what it replaces. */
export default function PricesScreen() {
  const queries = useQueryClient();
  const [filter, setFilter] = useState({ search: '', category: '', page: 1 });
  const [isAdding, setAdding] = useState(false);
  const items = useQuery({
    queryKey: [...SEARCH_KEY, filter],
    queryFn: ({ signal }) => listItems(filter, signal),
    placeholderData: keepPreviousData,
  });
  const bookChanged = () =>
    Promise.all([SEARCH_KEY, ['estimate'], ['history']].map((queryKey) => queries.invalidateQueries({ queryKey })));
  const setSearch = (search: string) => setFilter({ ...filter, search, page: 1 });
  return (
    <main className="plain-screen prices-screen">
      <header className="screen-head">
        <h1>Price book</h1>
        <span className="screen-commands">
          <a href="/api/price-book/export.csv" download>
            export as CSV
          </a>
          <button type="button" className="paper-button" aria-expanded={isAdding} onClick={() => setAdding(!isAdding)}>
            Add an item
          </button>
        </span>
      </header>
      <OpenProjectTotals />
      {isAdding && (
        <NewItem
          onAdded={(key) => {
            setAdding(false);
            setSearch(key);
            return bookChanged();
          }}
        />
      )}
      <div className="filters">
        <SearchField className="search" value={filter.search} onChange={setSearch}>
          <Label>Search the book</Label>
          <Input />
        </SearchField>
        <CategoryFilter
          categories={items.data?.categories ?? []}
          category={filter.category}
          onChoose={(category) => setFilter({ ...filter, category, page: 1 })}
        />
      </div>
      {items.error && <p role="status">{items.error.message}</p>}
      {items.data ? (
        <>
          <PriceTable items={items.data.items} onBookChanged={bookChanged} />
          <Pages list={items.data} onPage={(page) => setFilter({ ...filter, page })} />
        </>
      ) : (
        !items.error && <Waiting what="the price book" />
      )}
    </main>
  );
}

function CategoryFilter({
  categories,
  category,
  onChoose,
}: {
  categories: readonly string[];
  category: string;
  onChoose: (category: string) => void;
}) {
  return (
    <label className="category">
      Category{' '}
      <select value={category} onChange={(event) => onChoose(event.currentTarget.value)}>
        <option value="">all</option>
        {categories.map((each) => (
          <option key={each} value={each}>
            {each}
          </option>
        ))}
      </select>
    </label>
  );
}

function Pages({
  list,
  onPage,
}: {
  list: { page: number; pageSize: number; total: number };
  onPage: (page: number) => void;
}) {
  const last = Math.max(1, Math.ceil(list.total / list.pageSize));
  return (
    <p className="pages">
      <TextButton disabled={list.page <= 1} onPress={() => onPage(list.page - 1)}>
        earlier
      </TextButton>
      <span>
        page {list.page} of {last}, {list.total} items
      </span>
      <TextButton disabled={list.page >= last} onPress={() => onPage(list.page + 1)}>
        later
      </TextButton>
    </p>
  );
}

interface PriceTableProps {
  items: readonly PriceItem[];
  onBookChanged: () => Promise<unknown>;
}

interface Refusal {
  key: string;
  message: string;
  errors: readonly FieldProblem[];
}

/** Which row a refusal belongs to, so that it is said there. */
function refusalOf(key: string, error: unknown): Refusal {
  const errors = error instanceof ApiProblem ? error.errors : [];
  const isStale = error instanceof ApiProblem && error.status === 412;
  const said = error instanceof Error ? error.message : String(error);
  return {
    key,
    errors,
    message: isStale ? 'Somebody else changed this item meanwhile; the row shows theirs now.' : said,
  };
}

function PriceTable({ items, onBookChanged }: PriceTableProps) {
  const [openKey, setOpenKey] = useState<string>();
  const [refusal, setRefusal] = useState<Refusal>();
  const change = useMutation({
    mutationFn: (next: { item: PriceItem; isRemoved: boolean }) => sendChange(next),
    onSuccess: () => {
      setRefusal(undefined);
      return onBookChanged();
    },
    onError: (error, { item }) => {
      setRefusal(refusalOf(item.key, error));
      if (error instanceof ApiProblem && error.status === 412) return onBookChanged();
    },
  });
  return (
    <table className="prices">
      <thead>
        <tr>
          <th scope="col">Item</th>
          <th scope="col" className="wide-only">
            Category
          </th>
          <th scope="col" className="wide-only">
            Unit
          </th>
          {['Low', 'Likely', 'High'].map((point) => (
            <th key={point} scope="col" className="figure">
              {point}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {items.map((item) => (
          <PriceRow
            key={item.key}
            item={item}
            problem={refusal?.key === item.key && refusal.errors.length === 0 ? refusal.message : undefined}
            problems={refusal?.key === item.key ? refusal.errors : []}
            isOpen={item.key === openKey}
            onToggle={() => setOpenKey(item.key === openKey ? undefined : item.key)}
            onChange={(next) => change.mutate({ item: next, isRemoved: false })}
            onRemove={() => change.mutate({ item, isRemoved: true })}
          />
        ))}
      </tbody>
    </table>
  );
}

/** Sends a changed or removed item under the revision that the row was read with. */
async function sendChange({ item, isRemoved }: { item: PriceItem; isRemoved: boolean }): Promise<void> {
  const { revision, ...stated } = item;
  const etag = `"${revision}"`;
  if (isRemoved) await removeItem(item.key, etag);
  else await saveItem(stated, etag);
}
