import { useState } from 'react';
import type { PriceItem } from '../../server/estimate/price-book.ts';
import type { FieldProblem } from '../api.ts';
import type { Edit } from './use-attempts.ts';

interface ItemOriginProps {
  item: PriceItem;
  problems: readonly FieldProblem[];
  onChange: (edit: Edit) => void;
}

/** Where a price comes from and who sells at it, to be written where it stands. */
export function ItemOrigin({ item, problems, onChange }: ItemOriginProps) {
  const problemAt = (path: string) => problems.find((problem) => problem.path === path)?.message;
  return (
    <>
      <OriginField
        name="Source"
        of={item.description}
        value={item.source}
        problem={problemAt('source')}
        onCommit={(source) => onChange((now) => ({ ...now, source }))}
      />{' '}
      <OriginField
        name="Supplier"
        of={item.description}
        value={item.supplier ?? ''}
        problem={problemAt('supplier')}
        onCommit={(supplier) => onChange((now) => withSupplier(now, supplier))}
      />
    </>
  );
}

/** An item with who sells at its price; an empty text says nobody. */
export function withSupplier(item: PriceItem, supplier: string): PriceItem {
  const { supplier: _supplier, ...without } = item;
  return supplier === '' ? without : { ...without, supplier };
}

interface OriginFieldProps {
  name: string;
  of: string;
  value: string;
  problem: string | undefined;
  onCommit: (value: string) => void;
}

function OriginField({ name, of, value, problem, onCommit }: OriginFieldProps) {
  const [typed, setTyped] = useState<string>();
  const [known, setKnown] = useState(value);
  if (value !== known) {
    setKnown(value);
    setTyped(undefined);
  }
  const commit = () => {
    const meant = typed?.trim();
    if (meant === undefined || meant === value) setTyped(undefined);
    else onCommit(meant);
  };
  return (
    <label className="origin">
      {name}{' '}
      <input
        aria-label={`${name} of ${of}`}
        aria-invalid={problem !== undefined}
        autoComplete="off"
        placeholder="none"
        value={typed ?? value}
        onChange={(event) => setTyped(event.currentTarget.value)}
        onBlur={commit}
        onKeyDown={(event) => {
          if (event.key === 'Enter') commit();
          if (event.key === 'Escape') setTyped(undefined);
        }}
      />
      {problem !== undefined && <span className="word-problem">{problem}</span>}
    </label>
  );
}
