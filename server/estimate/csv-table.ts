import { CsvError, parse } from 'csv-parse/sync';
import { shown } from './input-problems.ts';

/** A row that was not taken, by its place in the file: the heading is row 1, a quoted line break starts no row. */
export interface RefusedRow {
  row: number;
  reason: string;
}

/** A row below the heading, its cells by column; a column that the file lacks is an empty cell. */
export interface CsvRow<Column extends string> {
  row: number;
  cells: Record<Column, string>;
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
}

/** The table, with numbers as `1234.5` whatever the file's decimals are; and what could not be taken. */
export interface CsvTable<Column extends string> {
  rows: CsvRow<Column>[];
  refused: (RefusedRow & { cells?: Record<Column, string> })[];
}

/**
 * Reads a table of CSV: columns in any order, with or without a byte order mark, any line ends. Columns are separated by
 * commas or, as spreadsheets of many countries write them, by semicolons; then decimals may stand after a comma. What
 * could be read in two ways is refused, never guessed.
 */
export function readCsvTable<Column extends string>(text: string, shape: CsvShape<Column>): CsvTable<Column> {
  const delimiter = delimiterOf(text);
  const records = delimiter === undefined ? undefined : readRecords(text, delimiter);
  if (records === undefined) {
    return refusedWhole('separates its columns by tabs: save it with commas or semicolons between them');
  }
  if (records instanceof CsvError) return { rows: [], refused: [unreadable(records)] };
  const [heading = [], ...below] = records;
  const columns = heading.map((name) => name.trim());
  const wrong = headingProblem(columns, shape);
  if (wrong !== undefined) return refusedWhole(wrong);
  const { rows, refused } = rowsBelow(below, columns as Column[], shape);
  const decimals = decimalsOf(rows, { delimiter, numbers: shape.numbers });
  const sound = rows.filter((row) => {
    const reason = withPlainNumbers(row, { decimals, numbers: shape.numbers });
    if (reason !== undefined) refused.push({ row: row.row, reason, cells: row.cells });
    return reason === undefined;
  });
  return { rows: sound, refused };
}

/** What a spreadsheet would take for a formula is written with an apostrophe before it; one more where there is one. */
export function withoutFormula(text: string): string {
  return /^'*[=+\-@\t\r]/.test(text) ? `'${text}` : text;
}

/** Takes the apostrophe off again that `withoutFormula` wrote. */
function asWritten(text: string): string {
  return text.startsWith("'") && /^'+[=+\-@\t\r]/.test(text) ? text.slice(1) : text;
}

const refusedWhole = (reason: string) => ({ rows: [], refused: [{ row: 1, reason }] });

type Delimiter = ',' | ';';

/** What separates the columns of the heading; nothing where it is tabs alone. */
function delimiterOf(text: string): Delimiter | undefined {
  const end = text.search(/[\r\n]/);
  const heading = end < 0 ? text : text.slice(0, end);
  if (heading.includes(',')) return ',';
  if (heading.includes(';')) return ';';
  return heading.includes('\t') ? undefined : ',';
}

function readRecords(text: string, delimiter: Delimiter): string[][] | CsvError {
  try {
    return parse(text, { bom: true, relax_column_count: true, delimiter });
  } catch (error) {
    if (error instanceof CsvError) return error;
    throw error;
  }
}

function unreadable(error: CsvError): RefusedRow {
  const row = typeof error.lines === 'number' ? error.lines : 1;
  return { row, reason: `cannot be read as CSV: ${error.message}` };
}

function headingProblem<Column extends string>(columns: readonly string[], shape: CsvShape<Column>) {
  const unknown = columns.filter((column) => !(shape.columns as readonly string[]).includes(column));
  if (unknown.length > 0) {
    return `has columns that a ${shape.what} does not have: ${unknown.map(shown).join(', ')}; it has ${shape.columns.join(', ')}`;
  }
  const missing = shape.needed.filter((column) => !columns.includes(column));
  if (missing.length > 0) return `has no column ${missing.join(', ')}`;
  const twice = columns.filter((column, at) => columns.indexOf(column) !== at);
  return twice.length > 0 ? `has the column ${twice[0]} twice` : undefined;
}

function rowsBelow<Column extends string>(
  records: readonly string[][],
  columns: readonly Column[],
  shape: CsvShape<Column>,
): CsvTable<Column> {
  const empty = Object.fromEntries(shape.columns.map((column) => [column, ''])) as Record<Column, string>;
  const rows: CsvRow<Column>[] = [];
  const refused: CsvTable<Column>['refused'] = [];
  records.forEach((record, at) => {
    const row = at + 2;
    if (record.length === 1 ? record[0]?.trim() === '' : record.every((cell) => cell.trim() === '')) return;
    const cells = { ...empty };
    for (let place = 0; place < columns.length; place += 1) {
      const column = columns[place];
      if (column !== undefined) cells[column] = asWritten(record[place] ?? '');
    }
    if (record.length === columns.length) rows.push({ row, cells });
    else refused.push({ row, reason: `has ${record.length} cells where the heading has ${columns.length}`, cells });
  });
  return { rows, refused };
}

type Decimals = 'points' | 'commas';

/** How a file writes decimals: after a comma only where semicolons part the columns and some number shows it. */
function decimalsOf<Column extends string>(
  rows: readonly CsvRow<Column>[],
  { delimiter, numbers }: { delimiter: Delimiter | undefined; numbers: readonly Column[] },
): Decimals {
  if (delimiter !== ';') return 'points';
  const hasCommas = rows.some(({ cells }) => numbers.some((column) => /^\s*-?\d+,\d+\s*$/.test(cells[column])));
  return hasCommas ? 'commas' : 'points';
}

/** Writes the numbers of a row with points; or says which of them could be two. What is no number stays as it is. */
function withPlainNumbers<Column extends string>(
  { cells }: CsvRow<Column>,
  { decimals, numbers }: { decimals: Decimals; numbers: readonly Column[] },
): string | undefined {
  for (const column of numbers) {
    const cell = cells[column];
    const hasComma = cell.includes(',') && /^[\s$\d.,-]+$/.test(cell);
    if (decimals === 'points') {
      if (hasComma)
        return `${column} ${shown(cell)} has a comma: write decimals after a point and thousands without a sign`;
      continue;
    }
    if (/\d\.\d/.test(cell)) {
      return `${column} ${shown(cell)} has a point in a list whose decimals stand after a comma: it could be two numbers`;
    }
    if (hasComma) cells[column] = cell.replace(',', '.');
  }
  return undefined;
}
