import type { KeyboardEvent } from 'react';

/*
 * The arrow keys in the table: up and down within a column, left and right from cell to cell. While something is typed
 * the caret goes first: one leaves the field at its ends.
 */

/** The cells that a line has, from left to right: what can hold the focus. */
const CELLS = 'input, th > button';
const LINES = 'tr.item, tr.offer';

/** Does this key move through the table, and not within the field? */
export function isSteering(event: KeyboardEvent<HTMLElement>): boolean {
  const { key, ctrlKey, metaKey, altKey, currentTarget } = event;
  if (ctrlKey || metaKey || altKey) return false;
  if (['ArrowDown', 'ArrowUp', 'PageDown', 'PageUp'].includes(key)) return true;
  if (key === 'Enter') return isPoint(currentTarget);
  if (key !== 'ArrowLeft' && key !== 'ArrowRight') return false;
  if (!isPoint(currentTarget)) return true;
  const { selectionStart, selectionEnd, value, dataset } = currentTarget;
  const end = key === 'ArrowLeft' ? 0 : value.length;
  return !event.shiftKey && (dataset.typed !== 'true' || (selectionStart === end && selectionEnd === end));
}

const isPoint = (element: HTMLElement): element is HTMLInputElement =>
  element instanceof HTMLInputElement && element.type === 'text';

/** So many lines are a page of the keys. */
const PAGE_LINES = 15;

/** Moves the focus as the key says. */
export function steer(event: KeyboardEvent<HTMLElement>): void {
  const { key, shiftKey, currentTarget } = event;
  const next =
    key === 'ArrowLeft' || key === 'ArrowRight'
      ? beside(currentTarget, key === 'ArrowRight' ? 1 : -1)
      : sameColumn(currentTarget, linesBy(key, shiftKey));
  if (key !== 'Enter' || next) event.preventDefault();
  next?.focus();
}

function linesBy(key: string, shiftKey: boolean): number {
  if (key === 'PageDown') return PAGE_LINES;
  if (key === 'PageUp') return -PAGE_LINES;
  if (key === 'Enter') return shiftKey ? -1 : 1;
  return key === 'ArrowDown' ? 1 : -1;
}

function cellsOf(line: Element): HTMLElement[] {
  return [...line.querySelectorAll<HTMLElement>(CELLS)];
}

function linesAround(element: HTMLElement): HTMLTableRowElement[] {
  return [...(element.closest('table')?.querySelectorAll<HTMLTableRowElement>(LINES) ?? [])];
}

/** The cell to the left or right; from a package's first price to the left lies the item that it belongs to. */
function beside(element: HTMLElement, step: 1 | -1): HTMLElement | undefined {
  const line = element.closest('tr');
  if (!line) return undefined;
  const cells = cellsOf(line);
  const next = cells[cells.indexOf(element) + step];
  if (next) return next;
  const lines = linesAround(element);
  const at = lines.indexOf(line);
  if (step < 0) return line.matches('.offer') ? itemAbove(lines, at) : undefined;
  const below = lines[at + 1];
  return line.matches('.item') && below?.matches('.offer') ? cellsOf(below)[0] : undefined;
}

function itemAbove(lines: readonly HTMLTableRowElement[], at: number): HTMLElement | undefined {
  const item = lines
    .slice(0, at)
    .reverse()
    .find((line) => line.matches('.item'));
  return item ? cellsOf(item).at(-1) : undefined;
}

/** The cell so many lines away in the same column; lines that have none there are passed over. */
function sameColumn(element: HTMLElement, by: number): HTMLElement | undefined {
  const column = element.closest<HTMLTableCellElement>('td, th')?.cellIndex ?? 0;
  const lines = linesAround(element);
  const at = lines.findIndex((line) => line.contains(element));
  const ahead = by > 0 ? lines.slice(at + 1) : lines.slice(0, at).reverse();
  const cells = ahead.flatMap((line) => {
    const cell = line.cells[column]?.querySelector<HTMLElement>(CELLS.replace('th > ', ''));
    return cell ? [cell] : [];
  });
  return cells[Math.min(Math.abs(by), cells.length) - 1];
}
