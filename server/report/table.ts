import { FAINT, INK, type Sheet, STYLES, type Style } from './sheet.ts';
import { type Element, elementOf } from './tags.ts';

/** A column: its head, its breadth in points or its share of what is left, and on which side its words stand. */
export interface Column {
  head: string;
  widthPt?: number;
  share?: number;
  align?: 'left' | 'right';
  /**
   * `small` for units beside their numbers; `heavy-head` for heads that name what the columns compare; `tick` for a box
   * to tick with a pen, `to-fill` for a line to write on, both without words.
   */
  set?: 'small' | 'heavy-head' | 'tick' | 'to-fill';
}

/** A row. `group` heads those below it and spans the table but for its last cell; `sum` closes them with a rule. */
export interface Row {
  kind?: 'body' | 'group' | 'sum' | 'total';
  cells: readonly string[];
}

interface Table {
  columns: readonly Column[];
  rows: readonly Row[];
  /** Is the first cell of each row the head of that row? */
  rowHeads?: boolean;
  /** Where the table begins, where not at the left edge of the sheet. */
  fromX?: number;
}

const GAP_PT = 8;
const PAD_PT = 1.2;

interface Edges {
  leftX: number;
  widthPt: number;
}

/** The height of a whole table, so that a heading can keep it together. In points. */
export function tableHeightPt(sheet: Sheet, table: Table): number {
  const body = bodyOf(sheet, table);
  return table.rows.reduce((sum, row) => sum + rowHeightPt(sheet, row, body), headHeightPt(sheet, body));
}

/** A table with repeated heads, tagged with its rows and head cells. Rows stay whole. */
export function drawTable(sheet: Sheet, table: Table): void {
  const body = bodyOf(sheet, table);
  const rows = table.rows.flatMap((row) => pageHighParts(sheet, row, body));
  const element = elementOf(sheet.doc, 'Table');
  sheet.root.add(element);
  const heights = rows.map((row) => rowHeightPt(sheet, row, body));
  sheet.ensure(headHeightPt(sheet, body) + (heights[0] ?? 0) + (heights[1] ?? 0));
  drawHead(sheet, body, element);
  rows.forEach((row, nth) => {
    const heightPt = heights[nth] ?? 0;
    const keepPt = row.kind === 'group' ? (heights[nth + 1] ?? 0) : 0;
    if (sheet.y + heightPt + keepPt > sheet.bottomY) {
      sheet.newPage();
      drawHead(sheet, body);
    }
    drawRow(sheet, row, { ...body, table: element, heightPt, before: rows[nth + 1]?.kind ?? 'body' });
  });
  element.end();
}

function bodyOf(sheet: Sheet, { columns, rowHeads = false, fromX = sheet.leftX }: Table): Body {
  return { columns, edges: edgesOf(sheet, columns, fromX), rowHeads };
}

function edgesOf(sheet: Sheet, columns: readonly Column[], fromX: number): Edges[] {
  const fixedPt = columns.reduce((sum, { widthPt }) => sum + (widthPt ?? 0), 0);
  const shares = columns.reduce((sum, { share }) => sum + (share ?? 0), 0);
  const freePt = sheet.rightX - fromX - fixedPt - GAP_PT * (columns.length - 1);
  let leftX = fromX;
  return columns.map(({ widthPt, share = 0 }) => {
    const edges = { leftX, widthPt: widthPt ?? (freePt * share) / shares };
    leftX += edges.widthPt + GAP_PT;
    return edges;
  });
}

interface Body {
  columns: readonly Column[];
  edges: readonly Edges[];
  rowHeads: boolean;
}

/** The cells of a row with their place: a group's first cell reaches over all but the last column. */
function cellsOf({ cells, kind = 'body' }: Row, { columns, edges }: Body) {
  const heavy = kind !== 'body';
  const spans = kind === 'group' && cells.length < columns.length;
  return cells.map((words, nth) => {
    const last = spans && nth === cells.length - 1 && nth > 0;
    const at = last ? columns.length - 1 : nth;
    const edge = edges[at] ?? { leftX: 0, widthPt: 0 };
    const colSpan = spans && nth === 0 ? columns.length - cells.length + 1 : 1;
    const end = edges[colSpan - 1] ?? edge;
    const plain = columns[at]?.set === 'small' ? STYLES.small : STYLES.cell;
    const style: Style = heavy ? STYLES['cell-heavy'] : plain;
    return {
      words,
      style,
      align: columns[at]?.align ?? 'left',
      leftX: edge.leftX,
      widthPt: colSpan > 1 ? end.leftX + end.widthPt - edge.leftX : edge.widthPt,
      colSpan,
    };
  });
}

function rowHeightPt(sheet: Sheet, row: Row, body: Body): number {
  const heights = cellsOf(row, body).map(
    ({ words, widthPt, style }) =>
      sheet.wrap(words, widthPt, style).length * sheet.lineHeightPt(style) + loweredPt(style),
  );
  const abovePt = row.kind === 'group' ? 6 : row.kind === 'total' ? 3 : 0;
  return Math.max(sheet.lineHeightPt(STYLES.cell), ...heights) + 2 * PAD_PT + abovePt;
}

/** Smaller words stand on the same base line. */
function loweredPt({ sizePt }: Style): number {
  return (STYLES.cell.sizePt - sizePt) * 0.95;
}

/** A row that is higher than a page as several rows, each no higher than one; others as they are. */
function pageHighParts(sheet: Sheet, row: Row, body: Body): Row[] {
  const roomPt = sheet.bodyHeightPt - headHeightPt(sheet, body);
  if (rowHeightPt(sheet, row, body) <= roomPt) return [row];
  // What a group or a total has above it counts as one line.
  const most = Math.max(1, Math.floor((roomPt - 2 * PAD_PT) / sheet.lineHeightPt(STYLES.cell)) - 1);
  const cells = cellsOf(row, body).map(({ words, widthPt, style }) => sheet.wrap(words, widthPt, style));
  const parts = Math.ceil(Math.max(...cells.map((lines) => lines.length)) / most);
  return Array.from({ length: parts }, (_, nth) => ({
    ...row,
    cells: cells.map((lines) => lines.slice(nth * most, (nth + 1) * most).join(' ')),
  }));
}

function headHeightPt(sheet: Sheet, { columns, edges }: Body): number {
  const heights = columns.map((column, nth) => {
    const style = headStyle(column);
    return sheet.wrap(column.head, edges[nth]?.widthPt ?? 0, style).length * sheet.lineHeightPt(style);
  });
  return Math.max(...heights) + PAD_PT * 2;
}

function headStyle({ set }: Column): Style {
  return set === 'heavy-head' ? STYLES['cell-heavy'] : STYLES.small;
}

/** The heads of the columns: tagged where the table begins, an artifact where they are repeated. */
function drawHead(sheet: Sheet, body: Body, table?: Element): void {
  const { columns, edges } = body;
  const heightPt = headHeightPt(sheet, body);
  const bottomY = sheet.y + heightPt;
  const row = table && elementOf(sheet.doc, 'TR');
  if (row) table.add(row);
  columns.forEach((column, nth) => {
    const { head, align = 'left' } = column;
    const style = headStyle(column);
    const { leftX, widthPt } = edges[nth] ?? { leftX: 0, widthPt: 0 };
    const lines = sheet.wrap(head, widthPt, style);
    const topY = bottomY - PAD_PT - lines.length * sheet.lineHeightPt(style);
    const x = align === 'right' ? leftX + widthPt : leftX;
    const draw = () => sheet.setLines(lines, { x, topY: topY + loweredPt(style), style, align });
    if (!row) {
      sheet.artifact(draw, 'Pagination');
      return;
    }
    const cell = elementOf(sheet.doc, 'TH', { scope: 'Column' }, draw);
    row.add(cell);
    cell.end();
  });
  row?.end();
  sheet.rule(bottomY, { ...acrossOf(body), weightPt: 0.75 });
  sheet.y = bottomY;
}

interface Drawn extends Body {
  table: Element;
  heightPt: number;
  /** The kind of the row below this one. */
  before: NonNullable<Row['kind']>;
}

function acrossOf({ edges }: Body): { fromX: number; toX: number } {
  const last = edges.at(-1);
  return { fromX: edges[0]?.leftX ?? 0, toX: last ? last.leftX + last.widthPt : 0 };
}

function drawRow(sheet: Sheet, row: Row, drawn: Drawn): void {
  const { table, heightPt, rowHeads, before } = drawn;
  const { kind = 'body' } = row;
  const element = elementOf(sheet.doc, 'TR');
  table.add(element);
  const bottomY = sheet.y + heightPt;
  const topY = sheet.y + PAD_PT + (kind === 'group' ? 6 : kind === 'total' ? 3 : 0);
  if (kind === 'sum' || kind === 'total') {
    sheet.rule(sheet.y + 0.5, { ...acrossOf(drawn), weightPt: kind === 'total' ? 1 : 0.5 });
  }
  cellsOf(row, drawn).forEach(({ words, style, align, leftX, widthPt, colSpan }, nth) => {
    const isHead = (rowHeads || kind === 'group') && nth === 0;
    const lines = sheet.wrap(words, widthPt, style);
    const x = align === 'right' ? leftX + widthPt : leftX;
    const draw = () => sheet.setLines(lines, { x, topY: topY + loweredPt(style), style, align });
    const { set } = drawn.columns[nth] ?? {};
    if (kind === 'body' && (set === 'tick' || set === 'to-fill')) {
      sheet.artifact(() => drawForPen(sheet, set, { leftX, widthPt, topY, bottomY }));
    }
    const cell = elementOf(sheet.doc, isHead ? 'TH' : 'TD', { ...(isHead && { scope: 'Row' }), colSpan }, draw);
    element.add(cell);
    cell.end();
  });
  element.end();
  if (before === 'body' && kind !== 'group') sheet.rule(bottomY, { ...acrossOf(drawn), weightPt: 0.4, color: FAINT });
  sheet.y = bottomY;
}

/** A box to tick beside the first line of its row, or a line to write on above the rule of the row. */
function drawForPen(
  { doc }: Sheet,
  set: 'tick' | 'to-fill',
  { leftX, widthPt, topY, bottomY }: { leftX: number; widthPt: number; topY: number; bottomY: number },
): void {
  if (set === 'tick') doc.rect(leftX + 0.5, topY + 2, 8, 8);
  else doc.moveTo(leftX, bottomY - 4).lineTo(leftX + widthPt, bottomY - 4);
  doc.lineWidth(0.6).strokeColor(INK).stroke();
}
