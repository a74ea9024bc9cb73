import { GREY, type Sheet, STYLES, type Style } from './sheet.ts';
import { type Element, elementOf } from './tags.ts';

/** A column: its head, its breadth in points or its share of what is left, and on which side its words stand. */
export interface Column {
  head: string;
  widthPt?: number;
  share?: number;
  align?: 'left' | 'right';
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
  /** Hide the heads of the columns from sight; they are still there for who listens. */
  headless?: boolean;
}

const GAP_PT = 8;
const PAD_PT = 2.2;

interface Edges {
  leftX: number;
  widthPt: number;
}

/** A table with repeated heads, tagged with its rows and head cells. Rows stay whole. */
export function drawTable(sheet: Sheet, { columns, rows, rowHeads = false, headless = false }: Table): void {
  const edges = edgesOf(sheet, columns);
  const table = elementOf(sheet.doc, 'Table');
  sheet.doc.addStructure(table);
  const body = { columns, edges, rowHeads };
  const heights = rows.map((row) => rowHeightPt(sheet, row, body));
  if (!headless) {
    sheet.ensure(headHeightPt(sheet, body) + (heights[0] ?? 0) + (heights[1] ?? 0));
    drawHead(sheet, body, table);
  }
  rows.forEach((row, nth) => {
    const heightPt = heights[nth] ?? 0;
    const keepPt = row.kind === 'group' ? (heights[nth + 1] ?? 0) : 0;
    if (sheet.y + heightPt + keepPt > sheet.bottomY) {
      sheet.newPage();
      if (!headless) drawHead(sheet, body);
    }
    drawRow(sheet, row, { ...body, table, heightPt });
  });
  table.end();
}

function edgesOf(sheet: Sheet, columns: readonly Column[]): Edges[] {
  const fixedPt = columns.reduce((sum, { widthPt }) => sum + (widthPt ?? 0), 0);
  const shares = columns.reduce((sum, { share }) => sum + (share ?? 0), 0);
  const freePt = sheet.widthPt - fixedPt - GAP_PT * (columns.length - 1);
  let leftX = sheet.leftX;
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
    const style: Style = heavy ? STYLES['cell-heavy'] : STYLES.cell;
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
  const lines = cellsOf(row, body).map(({ words, widthPt, style }) => sheet.wrap(words, widthPt, style).length);
  const abovePt = row.kind === 'group' ? 6 : row.kind === 'total' ? 3 : 0;
  return Math.max(1, ...lines) * sheet.lineHeightPt(STYLES.cell) + 2 * PAD_PT + abovePt;
}

function headHeightPt(sheet: Sheet, { columns, edges }: Body): number {
  const lines = columns.map(({ head }, nth) => sheet.wrap(head, edges[nth]?.widthPt ?? 0, STYLES.small).length);
  return Math.max(...lines) * sheet.lineHeightPt(STYLES.small) + PAD_PT * 2;
}

/** The heads of the columns: tagged where the table begins, an artifact where they are repeated. */
function drawHead(sheet: Sheet, body: Body, table?: Element): void {
  const { columns, edges } = body;
  const heightPt = headHeightPt(sheet, body);
  const bottomY = sheet.y + heightPt;
  const row = table && elementOf(sheet.doc, 'TR');
  if (row) table.add(row);
  columns.forEach(({ head, align = 'left' }, nth) => {
    const { leftX, widthPt } = edges[nth] ?? { leftX: 0, widthPt: 0 };
    const lines = sheet.wrap(head, widthPt, STYLES.small);
    const topY = bottomY - PAD_PT - lines.length * sheet.lineHeightPt(STYLES.small);
    const draw = () =>
      sheet.setLines(lines, { x: align === 'right' ? leftX + widthPt : leftX, topY, style: STYLES.small, align });
    if (!row) {
      sheet.artifact(draw, 'Pagination');
      return;
    }
    const cell = elementOf(sheet.doc, 'TH', { scope: 'Column' }, draw);
    row.add(cell);
    cell.end();
  });
  row?.end();
  sheet.rule(bottomY, { weightPt: 0.75 });
  sheet.y = bottomY;
}

function drawRow(sheet: Sheet, row: Row, drawn: Body & { table: Element; heightPt: number }): void {
  const { table, heightPt, rowHeads } = drawn;
  const { kind = 'body' } = row;
  const element = elementOf(sheet.doc, 'TR');
  table.add(element);
  const bottomY = sheet.y + heightPt;
  const topY = sheet.y + PAD_PT + (kind === 'group' ? 6 : kind === 'total' ? 3 : 0);
  if (kind === 'sum' || kind === 'total') sheet.rule(sheet.y + 0.5, { weightPt: kind === 'total' ? 1 : 0.5 });
  cellsOf(row, drawn).forEach(({ words, style, align, leftX, widthPt, colSpan }, nth) => {
    const isHead = (rowHeads || kind === 'group') && nth === 0;
    const lines = sheet.wrap(words, widthPt, style);
    const draw = () => sheet.setLines(lines, { x: align === 'right' ? leftX + widthPt : leftX, topY, style, align });
    const cell = elementOf(sheet.doc, isHead ? 'TH' : 'TD', { ...(isHead && { scope: 'Row' }), colSpan }, draw);
    element.add(cell);
    cell.end();
  });
  element.end();
  if (kind === 'body') sheet.rule(bottomY, { weightPt: 0.25, color: GREY });
  sheet.y = bottomY;
}
