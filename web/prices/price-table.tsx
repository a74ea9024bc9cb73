import { type RefObject, useLayoutEffect, useMemo, useRef, useState } from 'react';
import type { PriceItem } from '../../server/estimate/price-book.ts';
import type { BookLine } from './book-layout.ts';
import { ItemDetail } from './item-detail.tsx';
import { ItemLine, type LineActions, OfferLine } from './price-lines.tsx';
import type { Refusal } from './use-attempts.ts';
import type { BookChanges } from './use-book-changes.ts';
import { type BookFilter, type BookWindow, isPast, useBookPages, useLineHeights } from './use-book-pages.ts';

interface PriceTableProps {
  filter: BookFilter;
  changes: BookChanges;
  marked: ReadonlyMap<string, PriceItem>;
  onMark: (items: readonly PriceItem[], isMarked: boolean) => void;
  /** What is said around the table of what it shows. */
  children: (book: BookWindow) => React.ReactNode;
}

/** The book as a table of which only what one looks at is drawn. */
export function PriceTable({ filter, changes, marked, onMark, children }: PriceTableProps) {
  const table = useRef<HTMLTableElement>(null);
  const [openKey, setOpenKey] = useState<string>();
  const [focusedKey, setFocusedKey] = useState<string>();
  const [detailPx, setDetailPx] = useState(320);
  const { refusal, edit } = changes;
  const heights = useLineHeights(detailPx);
  const kept = useMemo(
    () => new Set([focusedKey, refusal?.key].filter((key) => key !== undefined)),
    [focusedKey, refusal?.key],
  );
  const past = isPast(filter);
  const book = useBookPages({ filter, table, heights, openKey: past ? undefined : openKey, kept });
  const actions = useLineActions({ table, book, edit, onMark, setOpenKey });
  return (
    <>
      {children(book)}
      <table
        className="prices"
        ref={table}
        aria-describedby="price-keys"
        onKeyDown={(event) => {
          if (event.key !== 'F6') return;
          event.preventDefault();
          document.querySelector<HTMLElement>('.book-foot input, .book-foot button')?.focus();
        }}
        onFocus={({ target }) =>
          setFocusedKey(target.closest<HTMLElement>('[data-key]')?.dataset.key ?? itemOf(target))
        }
        onBlur={({ relatedTarget }) => {
          if (!table.current?.contains(relatedTarget as Node | null)) setFocusedKey(undefined);
        }}
      >
        <TableHead />
        <tbody>
          {book.pieces.map((piece) =>
            'gap' in piece ? (
              <Gap key={`gap ${piece.below}`} px={piece.gap} />
            ) : (
              <Line
                key={lineKey(piece.line)}
                line={piece.line}
                {...{ actions, changes, marked, openKey, past }}
                onHeight={setDetailPx}
              />
            ),
          )}
        </tbody>
      </table>
    </>
  );
}

function lineKey(line: BookLine): string {
  const { key } = line.item;
  if (line.is === 'offer') return `${key} ${line.at}`;
  return line.is === 'detail' ? `${key} more` : key;
}

interface LineParts {
  line: BookLine;
  actions: LineActions;
  changes: BookChanges;
  marked: ReadonlyMap<string, PriceItem>;
  openKey: string | undefined;
  past: boolean;
  onHeight: (px: number) => void;
}

/** One line of the table, whatever it is. */
function Line({ line, actions, changes, marked, openKey, past, onHeight }: LineParts) {
  const { item } = line;
  const { refusal } = changes;
  const problems = problemsOf(refusal, item.key);
  if (line.is === 'offer') {
    return <OfferLine item={item} at={line.at} problems={problems} actions={actions} isPast={past} />;
  }
  if (line.is === 'detail') {
    return (
      <Detail onHeight={onHeight}>
        <ItemDetail item={item} problems={problems ?? []} changes={changes} />
      </Detail>
    );
  }
  return (
    <ItemLine
      {...{ item, problems, actions }}
      isPast={past}
      isOpen={item.key === openKey}
      isMarked={marked.has(item.key)}
      message={refusal?.key === item.key && refusal.errors.length === 0 ? refusal.message : undefined}
    />
  );
}

/** The item that a line of a package or of the detail belongs to. */
function itemOf(element: Element): string | undefined {
  let line = element.closest('tr')?.previousElementSibling;
  while (line && !line.matches('[data-key]')) line = line.previousElementSibling;
  return line instanceof HTMLElement ? line.dataset.key : undefined;
}

function problemsOf(refusal: Refusal | undefined, key: string) {
  return refusal?.key === key && refusal.errors.length > 0 ? refusal.errors : undefined;
}

interface ActionParts {
  table: RefObject<HTMLTableElement | null>;
  book: BookWindow;
  edit: LineActions['edit'];
  onMark: PriceTableProps['onMark'];
  setOpenKey: (change: (before: string | undefined) => string | undefined) => void;
}

/** What lines do. It stays the same object, so that lines which did not change are not drawn anew. */
function useLineActions(parts: ActionParts): LineActions {
  const latest = useRef(parts);
  latest.current = parts;
  const lastMarked = useRef<string>(undefined);
  return useMemo(
    () => ({
      edit: (item, edit) => latest.current.edit(item, edit),
      toggle: (key) => latest.current.setOpenKey((before) => (before === key ? undefined : key)),
      mark: (item, isMarked) => {
        lastMarked.current = item.key;
        latest.current.onMark([item], isMarked);
      },
      markUpTo: (key) => {
        const drawn = latest.current.book.pieces.flatMap((piece) =>
          'line' in piece && piece.line.is === 'item' ? [piece.line.item] : [],
        );
        const from = drawn.findIndex((item) => item.key === lastMarked.current);
        const to = drawn.findIndex((item) => item.key === key);
        if (from < 0 || to < 0) return;
        latest.current.onMark(drawn.slice(Math.min(from, to), Math.max(from, to) + 1), true);
        lastMarked.current = key;
      },
    }),
    [],
  );
}

function TableHead() {
  return (
    <thead>
      <tr>
        <th scope="col" className="mark">
          <span className="visually-hidden">Marked</span>
        </th>
        <th scope="col">Item</th>
        <th scope="col" className="wide-only category-column">
          Category
        </th>
        <th scope="col" className="unit-column">
          Unit
        </th>
        {['Low', 'Likely', 'High'].map((point) => (
          <th key={point} scope="col" className="figure">
            {point}
          </th>
        ))}
        <th scope="col" className="wide-only age-column">
          Age
        </th>
      </tr>
    </thead>
  );
}

/** Room for lines that are not drawn. */
function Gap({ px }: { px: number }) {
  return (
    <tr className="gap">
      <td colSpan={8} style={{ height: px }} />
    </tr>
  );
}

/** The line below an open item; it says how high it is, so that the rest stands where it should. */
function Detail({ onHeight, children }: { onHeight: (px: number) => void; children: React.ReactNode }) {
  const line = useRef<HTMLTableRowElement>(null);
  useLayoutEffect(() => {
    const { current } = line;
    if (!current) return;
    const observer = new ResizeObserver(() => onHeight(Math.round(current.getBoundingClientRect().height)));
    observer.observe(current);
    return () => observer.disconnect();
  }, [onHeight]);
  return (
    <tr className="item-more" ref={line}>
      <td colSpan={8}>{children}</td>
    </tr>
  );
}
