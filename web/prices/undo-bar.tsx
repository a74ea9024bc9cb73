import { useEffect } from 'react';
import type { BookChanges } from './use-book-changes.ts';

type Changes = Pick<BookChanges, 'last' | 'saved' | 'undo'>;

/** What the last change was and did, and the command that takes it back. */
export function UndoBar({ last, saved, undo }: Changes) {
  useEffect(() => {
    const onKeyDown = (event: KeyboardEvent) => {
      const isUndo = event.key.toLowerCase() === 'z' && (event.ctrlKey || event.metaKey) && !event.shiftKey;
      if (!isUndo || isTypedIn(document.activeElement)) return;
      event.preventDefault();
      undo();
    };
    window.addEventListener('keydown', onKeyDown);
    return () => window.removeEventListener('keydown', onKeyDown);
  }, [undo]);
  return (
    <div className="undo-bar" role="status">
      {saved && (
        <span>
          {saved.words}
          {saved.effect !== undefined && <strong>. {saved.effect}</strong>}
        </span>
      )}
      {last && (
        <button type="button" className="paper-button" onClick={() => undo()}>
          Undo: {last.words}
        </button>
      )}
    </div>
  );
}

/** A field that holds something half typed undoes its own letters first. */
function isTypedIn(element: Element | null): boolean {
  if (!(element instanceof HTMLInputElement)) return element instanceof HTMLTextAreaElement;
  if (element.type === 'checkbox') return false;
  return element.matches('.point') ? element.dataset.typed === 'true' : element.value !== '';
}
