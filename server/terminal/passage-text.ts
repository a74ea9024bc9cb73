import type { Passage } from '../report/passages/passage.ts';
import type { Column, Row } from '../report/table.ts';
import { columns, wrapped } from './text-columns.ts';

/** Points of paper that a letter of the terminal stands for, so that columns keep about their shares. */
const PT_PER_LETTER = 5.4;
const LEAST_LETTERS = 4;
const GAP_LETTERS = 2;

/** A passage as lines of at most `width` letters: its title underlined, sentences, rows in columns, list. Pictures are left out. */
export function passageLines(
  { title, sentences = [], columns: heads, rows = [], list = [] }: Passage,
  width: number,
): string[] {
  return [
    title,
    '-'.repeat(Math.min(title.length, width)),
    ...sentences.filter((words) => words !== '').flatMap((words) => wrapped(words, width)),
    ...(heads && rows.length > 0 ? tableLines(heads, rows, width) : []),
    ...list.flatMap((words) => columns(['-', words], [1, width - 1 - GAP_LETTERS])),
  ];
}

function tableLines(heads: readonly Column[], rows: readonly Row[], width: number): string[] {
  const widths = lettersOf(heads, width);
  const right = heads.flatMap(({ align }, at) => (align === 'right' ? [at] : []));
  const named = heads.some(({ head }) => head !== '');
  return [
    ...(named
      ? columns(
          heads.map(({ head }) => head),
          widths,
          { right },
        )
      : []),
    ...rows.flatMap(({ kind, cells }) => {
      if (kind === 'group') return wrapped(cells.filter((words) => words !== '').join(', '), width);
      return columns(cells, widths, { right });
    }),
  ];
}

/** Breadths in letters: fixed columns by their points, the rest by their shares of what is left. */
function lettersOf(heads: readonly Column[], width: number): number[] {
  const fixed = heads.map(({ widthPt }) =>
    widthPt === undefined ? 0 : Math.max(LEAST_LETTERS, Math.ceil(widthPt / PT_PER_LETTER)),
  );
  const shares = heads.reduce((sum, { widthPt, share = 1 }) => sum + (widthPt === undefined ? share : 0), 0);
  const free = width - GAP_LETTERS * (heads.length - 1) - fixed.reduce((sum, letters) => sum + letters, 0);
  return heads.map(({ widthPt, share = 1 }, at) =>
    widthPt === undefined ? Math.max(LEAST_LETTERS, Math.floor((free * share) / shares)) : (fixed[at] ?? LEAST_LETTERS),
  );
}
