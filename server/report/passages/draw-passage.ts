import { type Sheet, STYLES } from '../sheet.ts';
import { drawTable, type Row, tableHeightPt } from '../table.ts';
import type { Passage } from './passage.ts';

/** A passage that is no higher than this stays on one page, in points. */
const KEPT_WHOLE_PT = 230;
/** So many rows of a longer one stay with its heading. */
const KEPT_ROWS = 2;

/** Draws a passage below its heading: sentences, drawings, table, list. */
export function drawPassage(sheet: Sheet, passage: Passage, { level = 2 }: { level?: 2 | 3 } = {}): void {
  const { title, sentences = [], drawings = [], list = [] } = passage;
  const { columns, rows } = tableOf(passage);
  const heightPt = heightOf(sheet, passage);
  const beginning = { ...passage, rows: rows.slice(0, KEPT_ROWS), list: [] };
  sheet.heading(title, { keepPt: heightPt <= KEPT_WHOLE_PT ? heightPt : heightOf(sheet, beginning), level });
  for (const sentence of sentences.filter((one) => one !== '')) {
    sheet.paragraph(sentence);
    sheet.y += 2;
  }
  for (const drawing of drawings) {
    sheet.y += 4;
    sheet.drawing(drawing);
  }
  if (columns && rows.length > 0) {
    sheet.y += 2;
    drawTable(sheet, { columns, rows, rowHeads: true });
  }
  if (list.length > 0) {
    sheet.y += 3;
    sheet.list(list);
  }
}

/** Draws one after the other. */
export function drawPassages(sheet: Sheet, passages: readonly Passage[]): void {
  for (const passage of passages) drawPassage(sheet, passage);
}

function tableOf({
  columns,
  rows = [],
  isDrawn = false,
}: Passage): Pick<Passage, 'columns'> & { rows: readonly Row[] } {
  return isDrawn || !columns ? { rows: [] } : { columns, rows };
}

function drawnPt({ drawings = [] }: Passage): number {
  return drawings.reduce((sum, { heightPt }) => sum + heightPt + 4, 0);
}

function heightOf(sheet: Sheet, passage: Passage): number {
  const { sentences = [], list = [] } = passage;
  const { columns, rows } = tableOf(passage);
  const lines = (text: string, widthPt: number) =>
    sheet.wrap(text, widthPt, STYLES.text).length * sheet.lineHeightPt(STYLES.text);
  const said = sentences.reduce((sum, text) => sum + lines(text, sheet.widthPt) + 2, 0);
  const listed = list.reduce((sum, text) => sum + lines(text, sheet.widthPt - 12) + 1.5, 3);
  const table = columns && rows.length > 0 ? tableHeightPt(sheet, { columns, rows, rowHeads: true }) + 2 : 0;
  return said + drawnPt(passage) + table + listed;
}
