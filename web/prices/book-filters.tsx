import { Input, Label, SearchField } from 'react-aria-components';
import type { BookFilter } from './use-book-pages.ts';

interface BookFiltersProps {
  filter: BookFilter;
  categories: readonly string[];
  onFilter: (filter: BookFilter) => void;
}

/** Words to search for, and one category alone. */
export function BookFilters({ filter, categories, onFilter }: BookFiltersProps) {
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
