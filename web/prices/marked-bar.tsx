import { useState } from 'react';
import { counted } from '../../server/drawing/wording.ts';
import type { PriceItem } from '../../server/estimate/price-book.ts';
import { read } from '../parts/field.ts';
import { TextButton } from '../parts/word-fields.tsx';
import type { SeveralChange } from './book-api.ts';
import type { BookChanges } from './use-book-changes.ts';

interface MarkedBarProps {
  marked: ReadonlyMap<string, PriceItem>;
  changes: BookChanges;
  onClear: () => void;
}

/** What can be done to all marked items at once, as one change that one undo takes back. */
export function MarkedBar({ marked, changes, onClear }: MarkedBarProps) {
  const [percent, setPercent] = useState('');
  const [supplier, setSupplier] = useState('');
  if (marked.size === 0) return null;
  const apply = async (change: SeveralChange) => {
    const items = [...marked.values()].map(({ key, revision }) => ({ key, revision }));
    if (await changes.several({ items }, change)) onClear();
  };
  const { refusal } = changes;
  return (
    <section className="marked-bar" aria-label="Marked items">
      <strong>{counted(marked.size, 'item')} marked</strong>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          // What is no number goes as it was typed, and the server says so.
          apply({ raiseBp: read(percent, { scale: 'percent', emptied: 'missing' }) as number });
        }}
      >
        <label>
          raise by{' '}
          <input
            className="point"
            inputMode="decimal"
            value={percent}
            placeholder="8"
            aria-label="Percent to raise by; a minus lowers"
            onChange={(event) => setPercent(event.currentTarget.value)}
          />{' '}
          %
        </label>{' '}
        <button type="submit" className="paper-button">
          Raise
        </button>
      </form>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          apply({ supplier: supplier.trim() === '' ? null : supplier.trim() });
        }}
      >
        <label>
          supplier{' '}
          <input
            value={supplier}
            placeholder="none"
            autoComplete="off"
            aria-label="Supplier of the marked items"
            onChange={(event) => setSupplier(event.currentTarget.value)}
          />
        </label>{' '}
        <button type="submit" className="paper-button">
          Note it
        </button>
      </form>
      <span>
        <TextButton onPress={() => apply({ available: false })}>not to be had</TextButton>{' '}
        <TextButton onPress={() => apply({ available: true })}>to be had again</TextButton>{' '}
        <TextButton onPress={onClear}>mark none</TextButton>
      </span>
      {refusal?.key === '' && (
        <p className="word-problem" role="alert">
          {refusal.message}
        </p>
      )}
    </section>
  );
}
