import { type Delimiter, readRecords } from './csv-records.ts';
import { shown } from './input-problems.ts';

/** A row that was not taken, by its place in the file: the heading is row 1, a quoted line break starts no row. */
export interface RefusedRow {
  row: number;
  reason: string;
}

/** A row below the heading, its cells in the order of the shape's columns; a column that the file lacks is empty. */
export interface CsvRow {
  row: number;
  cells: string[];
}

/** What a table of CSV must look like. */
export interface CsvShape<Column extends string> {
  columns: readonly Column[];
  /** Columns without which no row says anything; the others may be left out of the file. */
  needed: readonly Column[];
  /** Columns of numbers. */
  numbers: readonly Column[];
  /** What it is, for messages: `price list`. */
  what: string;
  /** A list of somebody else: what it calls our columns, and what else stands in it is left out. Ours has no others. */
  theirs?: { headings: Partial<Record<Column, string>> };
}

/** The table, with numbers as `1234.5` whatever the file's decimals are; and what could not be taken. */
export interface CsvTable {
  /** The headings as they stand in the file; none where it could not be read. */
  headings: string[];
  /** Columns that must be there and are not, by our names. */
  missing: string[];
  rows: CsvRow[];
  refused: (RefusedRow & { cells?: string[] })[];
}

/** Reads a cell by the name of its column. Rows are lists of cells, not objects: a file has a hundred thousand. */
export function cellReader<Column extends string>(columns: readonly Column[]) {
  const places = new Map<string, number>(columns.map((column, place) => [column, place]));
  return ({ cells }: Pick<CsvRow, 'cells'>, column: Column): string => cells[places.get(column) ?? -1] ?? '';
}

/**
 * Reads a table of CSV: columns in any order, with or without a byte order mark, any line ends. Columns are separated by
 * commas or, as spreadsheets of many countries write them, by semicolons; then decimals may stand after a comma. What
 * could be read in two ways is refused, never guessed.
 */
export function readCsvTable<Column extends string>(text: string, shape: CsvShape<Column>): CsvTable {
  const delimiter = delimiterOf(text);
  if (delimiter === undefined) {
    return refusedWhole('separates its columns by tabs: save it with commas or semicolons between them', []);
  }
  const read = readRecords(text, delimiter);
  if ('problem' in read) {
    const { row, problem } = read;
    return { headings: [], missing: [], rows: [], refused: [{ row, reason: `cannot be read as CSV: ${problem}` }] };
  }
  const { records } = read;
  const [heading = []] = records;
  const headings = heading.map((name) => name.trim());
  const places = shape.columns.map((column) => placeOf(column, headings, shape));
  const missing = missingColumns(headings, shape);
  const wrong = headingProblem(headings, missing, shape);
  if (wrong !== undefined) return { ...refusedWhole(wrong, headings), missing };
  const { rows, refused } = rowsBelow(records, headings.length, places);
  const numbers = shape.numbers.map((name) => ({ name, place: shape.columns.indexOf(name) }));
  const decimals = decimalsOf(rows, { delimiter, numbers });
  const sound = rows.filter((row) => {
    const reason = withPlainNumbers(row, { decimals, numbers });
    if (reason !== undefined) refused.push({ row: row.row, reason, cells: row.cells });
    return reason === undefined;
  });
  return { headings, missing, rows: sound, refused };
}

/** What a spreadsheet would take for a formula is written with an apostrophe before it; one more where there is one. */
export function withoutFormula(text: string): string {
  return /^'*[=+\-@\t\r]/.test(text) ? `'${text}` : text;
}

/** Takes the apostrophe off again that `withoutFormula` wrote. */
function asWritten(text: string): string {
  return text.startsWith("'") && /^'+[=+\-@\t\r]/.test(text) ? text.slice(1) : text;
}

const refusedWhole = (reason: string, headings: string[]): CsvTable => {
  return { headings, missing: [], rows: [], refused: [{ row: 1, reason }] };
};

/** What separates the columns of the heading; nothing where it is tabs alone. */
function delimiterOf(text: string): Delimiter | undefined {
  const end = text.search(/[\r\n]/);
  const heading = end < 0 ? text : text.slice(0, end);
  if (heading.includes(',')) return ',';
  if (heading.includes(';')) return ';';
  return heading.includes('\t') ? undefined : ',';
}

/** Where a column stands in the file, -1 where it does not: under our name for it, or under theirs. */
function placeOf<Column extends string>(column: Column, headings: readonly string[], { theirs }: CsvShape<Column>) {
  if (theirs === undefined) return headings.indexOf(column);
  const wanted = theirs.headings[column];
  if (wanted !== undefined) return headings.indexOf(wanted);
  return headings.findIndex((heading) => heading.toLowerCase() === column.toLowerCase());
}

/** What is needed, or was said to stand under a heading, and is not there. */
function missingColumns<Column extends string>(headings: readonly string[], shape: CsvShape<Column>): Column[] {
  const { columns, needed, theirs } = shape;
  const isAskedFor = (column: Column) => needed.includes(column) || theirs?.headings[column] !== undefined;
  return columns.filter((column) => isAskedFor(column) && placeOf(column, headings, shape) < 0);
}

function headingProblem<Column extends string>(
  headings: readonly string[],
  missing: readonly Column[],
  shape: CsvShape<Column>,
): string | undefined {
  const { columns, what, theirs } = shape;
  const unknown = theirs ? [] : headings.filter((heading) => !(columns as readonly string[]).includes(heading));
  if (unknown.length > 0) {
    return `has columns that a ${what} does not have: ${unknown.map(shown).join(', ')}; it has ${columns.join(', ')}`;
  }
  if (missing.length > 0) {
    const there = theirs ? `; it has ${headings.map(shown).join(', ')}: say which of them it is` : '';
    return `has no column ${missing.join(', ')}${there}`;
  }
  const used = columns.flatMap((column) => headings[placeOf(column, headings, shape)] ?? []);
  const twice = used.find((heading) => headings.indexOf(heading) !== headings.lastIndexOf(heading));
  return twice === undefined ? undefined : `has the column ${twice} twice`;
}

/** The rows under the first, a heading of so many cells; `places` says where each cell that is wanted stands. */
function rowsBelow(records: string[][], width: number, places: readonly number[]): Pick<CsvTable, 'rows' | 'refused'> {
  const inOrder = places.length === width && places.every((place, at) => place === at);
  const rows: CsvRow[] = [];
  const refused: CsvTable['refused'] = [];
  records.forEach((record, at) => {
    const row = at + 1;
    if (row === 1) return;
    if (record.length === 1 ? record[0]?.trim() === '' : record.every((cell) => cell.trim() === '')) return;
    const isWhole = record.length === width;
    const cells = isWhole && inOrder ? record : places.map((place) => record[place] ?? '');
    for (let place = 0; place < cells.length; place += 1) {
      const cell = cells[place];
      if (cell?.startsWith("'")) cells[place] = asWritten(cell);
    }
    if (isWhole) rows.push({ row, cells });
    else refused.push({ row, reason: `has ${record.length} cells where the heading has ${width}`, cells });
  });
  return { rows, refused };
}

type Decimals = 'points' | 'commas';

/** A column of numbers, and where it stands in a row. */
interface NumberColumn {
  name: string;
  place: number;
}

/** How a file writes decimals: after a comma only where semicolons part the columns and some number shows it. */
function decimalsOf(
  rows: readonly CsvRow[],
  { delimiter, numbers }: { delimiter: Delimiter | undefined; numbers: readonly NumberColumn[] },
): Decimals {
  if (delimiter !== ';') return 'points';
  const hasCommas = rows.some(({ cells }) => numbers.some(({ place }) => /^\s*-?\d+,\d+\s*$/.test(cells[place] ?? '')));
  return hasCommas ? 'commas' : 'points';
}

/** Writes the numbers of a row with points; or says which of them could be two. What is no number stays as it is. */
function withPlainNumbers(
  { cells }: CsvRow,
  { decimals, numbers }: { decimals: Decimals; numbers: readonly NumberColumn[] },
): string | undefined {
  for (const { name, place } of numbers) {
    const cell = cells[place] ?? '';
    const hasComma = cell.includes(',') && /^[\s$\d.,-]+$/.test(cell);
    if (decimals === 'points') {
      if (hasComma)
        return `${name} ${shown(cell)} has a comma: write decimals after a point and thousands without a sign`;
      continue;
    }
    if (/\d\.\d/.test(cell)) {
      return `${name} ${shown(cell)} has a point in a list whose decimals stand after a comma: it could be two numbers`;
    }
    if (hasComma) cells[place] = cell.replace(',', '.');
  }
  return undefined;
}
