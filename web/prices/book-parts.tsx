import type { BookAsOf } from '../api.ts';
import type { StatedChange } from './book-api.ts';
import { ImportPart } from './import-part.tsx';
import { IndexPart } from './index-part.tsx';
import { NewItem } from './new-item.tsx';
import { RevisionsPart } from './revisions-part.tsx';
import { SupplierListPart } from './supplier-part.tsx';
import type { BookChanges } from './use-book-changes.ts';

/** What can be opened above the table: one at a time. */
export type BookPart = 'item' | 'import' | 'supplier' | 'index' | 'revisions';

const PART_WORDS: Record<BookPart, string> = {
  revisions: 'Revisions',
  index: 'Move by an index',
  supplier: "Supplier's list",
  import: 'Import a list',
  item: 'Add an item',
};

interface PartCommandsProps {
  part: BookPart | undefined;
  /** Which book the export is of. */
  exportQuery: string;
  onPart: (part: BookPart | undefined) => void;
}

/** The commands of the whole book. */
export function PartCommands({ part, exportQuery, onPart }: PartCommandsProps) {
  const parts = Object.keys(PART_WORDS) as BookPart[]; // the keys are those of the record's type
  return (
    <span className="screen-commands">
      <a href={`/api/price-book/export.csv${exportQuery && `?${exportQuery}`}`} download>
        export as CSV
      </a>
      {parts.map((each) => (
        <button
          key={each}
          type="button"
          className="part-command"
          aria-expanded={part === each}
          onClick={() => onPart(part === each ? undefined : each)}
        >
          {PART_WORDS[each]}
        </button>
      ))}
    </span>
  );
}

interface BookPartsProps {
  part: BookPart;
  categories: readonly string[];
  stated: StatedChange;
  changes: BookChanges;
  onAsOf: (asOf: BookAsOf) => void;
  onAdded: (key: string) => unknown;
}

/** The part that is open above the table. */
export function BookParts({ part, categories, stated, changes, onAsOf, onAdded }: BookPartsProps) {
  switch (part) {
    case 'item':
      return <NewItem onAdded={onAdded} />;
    case 'import':
      return <ImportPart stated={stated} onImported={changes.bookChanged} />;
    case 'supplier':
      return <SupplierListPart stated={stated} onImported={changes.bookChanged} />;
    case 'index':
      return <IndexPart categories={categories} changes={changes} />;
    case 'revisions':
      return <RevisionsPart changes={changes} onAsOf={onAsOf} />;
  }
}
