import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { PriceItem } from '../../server/estimate/price-book.ts';
import { listItems } from '../api.ts';
import { dayOf, today } from '../parts/dates.ts';
import { read, written } from '../parts/field.ts';
import type { BookChanges } from './use-book-changes.ts';
import { ITEMS_KEY } from './use-book-lists.ts';

/** What material and labor cost here, of what the book says: each a factor of the book with its date. */
export function RegionLine({ changes }: { changes: BookChanges }) {
  const found = useQuery({
    queryKey: [...ITEMS_KEY, 'region'],
    queryFn: ({ signal }) => listItems({ search: 'region', category: '', page: 1 }, signal),
  });
  const factors = Object.keys(WORDS).flatMap((key) => found.data?.items.find((item) => item.key === key) ?? []);
  if (factors.length === 0) return null;
  return (
    <p className="stated">
      <span>Where the work is,</span>{' '}
      {factors.map((item) => (
        <RegionFactor key={item.key} item={item} changes={changes} />
      ))}
    </p>
  );
}

const WORDS: Readonly<Record<string, string>> = { 'region-material': 'material', 'region-labor': 'labor' };

function RegionFactor({ item, changes }: { item: PriceItem; changes: BookChanges }) {
  const [typed, setTyped] = useState<string>();
  const name = WORDS[item.key] ?? item.description;
  const problem = changes.refusal?.key === item.key ? changes.refusal : undefined;
  const commit = async () => {
    if (typed === undefined) return;
    const value = read(typed, { scale: 'plain', emptied: 'missing' }) as number; // the server refuses what is none
    const isKept = await changes.edit(item, (now) => ({
      ...now,
      ...(value === now.likely ? {} : { low: value, likely: value, high: value, date: today(), source: 'own figure' }),
    }));
    if (isKept) setTyped(undefined);
  };
  return (
    <label>
      {name} costs the book's price ×{' '}
      <input
        className="short"
        inputMode="decimal"
        autoComplete="off"
        aria-label={`Regional factor of ${name}`}
        aria-invalid={problem !== undefined}
        value={typed ?? written(item.likely, 'plain')}
        onChange={(event) => setTyped(event.currentTarget.value)}
        onBlur={commit}
        onKeyDown={(event) => {
          if (event.key === 'Enter') commit();
          if (event.key === 'Escape') setTyped(undefined);
        }}
      />{' '}
      <small>({dayOf(item.date)})</small>
      {problem && <span className="word-problem">{problem.errors[0]?.message ?? problem.message}</span>}{' '}
    </label>
  );
}
