import { useMutation } from '@tanstack/react-query';
import { useState } from 'react';
import type { SupplierColumn, SupplierHeadings } from '../../server/estimate/supplier-list.ts';
import { mapColumns, type SupplierImport } from './book-api.ts';

/** What each column is to us, in the order in which it is asked for; the first two must be there. */
const COLUMNS: readonly { column: SupplierColumn; name: string; isNeeded: boolean }[] = [
  { column: 'part', name: 'part number', isNeeded: true },
  { column: 'price', name: 'price', isNeeded: true },
  { column: 'unit', name: 'what the price is by: ft, each, C for a hundred, M for a thousand', isNeeded: false },
  { column: 'quantity', name: 'quantity in a package', isNeeded: false },
  { column: 'package', name: 'package', isNeeded: false },
  { column: 'description', name: 'description', isNeeded: false },
  { column: 'date', name: 'date of the price', isNeeded: false },
];

interface SupplierColumnsProps {
  supplier: string;
  found: Pick<SupplierImport, 'headings' | 'missing' | 'columns' | 'proposed'>;
  onKept: () => void;
}

/** Asks which column of a supplier's list is which; the answer is kept for the next list. */
export function SupplierColumns({ supplier, found, onKept }: SupplierColumnsProps) {
  const { headings, missing, columns, proposed } = found;
  const [chosen, setChosen] = useState<SupplierHeadings>(() => ({
    ...(missing.length > 0 && proposed),
    ...Object.fromEntries(Object.entries(columns).filter(([, heading]) => headings.includes(heading ?? ''))),
  }));
  const keep = useMutation({ mutationFn: () => mapColumns(supplier, chosen), onSuccess: onKept });
  const choose = (column: SupplierColumn, heading: string) => {
    const { [column]: _former, ...others } = chosen;
    setChosen(heading === '' ? others : { ...others, [column]: heading });
  };
  return (
    <details className="supplier-columns" open={missing.length > 0}>
      <summary>The list has the columns {headings.join(', ')}: say which is which</summary>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          keep.mutate();
        }}
      >
        {COLUMNS.map(({ column, name, isNeeded }) => (
          <label key={column}>
            {name}
            <select
              className="plain-choice"
              required={isNeeded}
              value={chosen[column] ?? ''}
              onChange={(event) => choose(column, event.currentTarget.value)}
            >
              <option value="">{headings.includes(column) ? `${column}, as it is called` : 'not in the list'}</option>
              {[...new Set(headings)].map((heading) => (
                <option key={heading} value={heading}>
                  {heading}
                </option>
              ))}
            </select>
          </label>
        ))}
        <p className="commands">
          <button type="submit" className="paper-button" disabled={keep.isPending}>
            Keep which column is which
          </button>
          {keep.error && <span className="word-problem">{keep.error.message}</span>}
        </p>
      </form>
    </details>
  );
}
