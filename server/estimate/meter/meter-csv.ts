import { CsvError, parse } from 'csv-parse/sync';
import { InputError, type InputProblem, shown } from '../input-problems.ts';
import {
  columnsOf,
  isPower,
  METER_UNITS,
  type MeterColumns,
  type MeterUnit,
  startAt,
  startWords,
  unitOf,
} from './columns.ts';
import { intervalOf, type MeterFile, MOST_READINGS, plausible, refusedFile } from './meter-file.ts';

/** Files begin with lines about the account; the heading is looked for in so many rows. */
const HEADING_WITHIN_ROWS = 40;
/** Nobody mends more at once. */
const MOST_PROBLEMS = 20;
const COLUMNS_NAMED = 12;

type Delimiter = ',' | ';' | '\t';

/** A value as it is read, before the length of its interval is known. */
interface Value {
  start: string;
  amount: number;
  unit: MeterUnit;
}

/**
 * Reads a utility's interval data as CSV: a column with the start of each interval, or two with its day and its time, and
 * one with what was drawn in kWh, Wh, kW or W.
 * @throws {InputError} with row, column and value of what cannot be read
 */
export function readMeterCsv(text: string): MeterFile {
  const { rows, delimiter } = rowsOf(text);
  const { columns, headingAt } = headingOf(rows);
  const problems: InputProblem[] = [];
  const values: Value[] = [];
  const unreadStarts: string[] = [];
  let sendsBack = false;
  for (let at = headingAt + 1; at < rows.length; at += 1) {
    const cells = rows[at] ?? [];
    if (cells.every((cell) => cell.trim() === '')) continue;
    const value = valueIn(cells, columns, { row: at + 1, delimiter });
    if ('unreadStart' in value) unreadStarts.push(value.unreadStart);
    else if (Array.isArray(value)) problems.push(...value);
    else values.push(value);
    sendsBack ||= isSentBack(cells, columns, delimiter);
    if (problems.length >= MOST_PROBLEMS) break;
  }
  if (problems.length > 0) throw new InputError(problems);
  if (values.length > MOST_READINGS) {
    throw refusedFile(`holds ${values.length} readings; at most ${MOST_READINGS} are read`);
  }
  return { ...fileOf(values, { columns, unreadStarts }), unread: unreadStarts.length, sendsBack };
}

/** So many readings that never fall are a register that counts up, not what ran through in each interval. */
const REGISTER_READINGS = 48;

/** Are the values the register of a meter, that only grows? */
function isRegister(values: readonly Value[]): boolean {
  const [first] = values;
  const last = values.at(-1);
  if (!first || !last || values.length < REGISTER_READINGS || last.amount <= first.amount) return false;
  return values.every(({ amount }, at) => amount >= (values[at - 1]?.amount ?? amount));
}

/** The file; rows without a value tell how long an interval is, too. */
function fileOf(
  values: readonly Value[],
  { columns, unreadStarts }: { columns: MeterColumns; unreadStarts: readonly string[] },
): Omit<MeterFile, 'unread' | 'sendsBack'> {
  if (isRegister(values)) {
    throw refusedFile(
      `counts up in "${columns.names[columns.amount]}": that is the meter's register. Save what was used in each interval`,
    );
  }
  const intervalMinutes = intervalOf([...values.map(({ start }) => start), ...unreadStarts]);
  const readings = values.map(({ start, amount, unit }) => {
    const inKilo = amount * METER_UNITS[unit];
    return { start, kWh: isPower(unit) ? (inKilo * intervalMinutes) / 60 : inKilo };
  });
  return {
    format: 'csv',
    readings: plausible(readings),
    intervalMinutes,
    unit: [...new Set(values.map(({ unit }) => unit))].join(', '),
    startColumn: startWords(columns).column,
    amountColumn: columns.names[columns.amount] ?? '',
  };
}

function rowsOf(text: string): { rows: string[][]; delimiter: Delimiter } {
  const beginning = text.slice(0, 4000);
  const counts = ([',', ';', '\t'] as const).map((mark) => ({ mark, count: beginning.split(mark).length }));
  const [first] = counts.sort((a, b) => b.count - a.count);
  const delimiter = first?.mark ?? ',';
  try {
    const rows: string[][] = parse(text, {
      bom: true,
      relax_column_count: true,
      relax_quotes: true,
      record_delimiter: ['\r\n', '\n', '\r'],
      delimiter,
    });
    return { rows, delimiter };
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    const row = typeof error.lines === 'number' ? error.lines : 1;
    throw new InputError([{ path: `row ${row}`, message: `cannot be read as CSV: ${error.message}` }]);
  }
}

function headingOf(rows: readonly string[][]): { columns: MeterColumns; headingAt: number } {
  for (let at = 0; at < Math.min(rows.length, HEADING_WITHIN_ROWS); at += 1) {
    const columns = columnsOf(
      (rows[at] ?? []).map((name) => name.trim()),
      rows[at + 1] ?? [],
    );
    if (columns) return { columns, headingAt: at };
  }
  const widest = rows
    .slice(0, HEADING_WITHIN_ROWS)
    .reduce<string[]>((most, row) => (row.length > most.length ? row : most), []);
  throw refusedFile(
    'has no heading with the start of each interval (such as "Start time" or "Date" and "Time", in the form 2026-03-02 17:15 ' +
      `or 3/2/2026 5:15 PM) and with its amount and unit (such as "Usage (kWh)"); it has ${widest.slice(0, COLUMNS_NAMED).map(shown).join(', ') || 'nothing'}`,
  );
}

interface RowAt {
  row: number;
  delimiter: Delimiter;
}

function valueIn(
  cells: readonly string[],
  columns: MeterColumns,
  at: RowAt,
): Value | { unreadStart: string } | InputProblem[] {
  const problem = (column: string, message: string): InputProblem => ({
    path: `row ${at.row}, column ${column}`,
    message,
  });
  const start = startAt(columns, cells);
  if (start === undefined) {
    const { column, written } = startWords(columns, cells);
    return [problem(column, `must be a time such as 2026-03-02 17:15 or 3/2/2026 5:15 PM, not ${shown(written)}`)];
  }
  const written = cells[columns.amount] ?? '';
  if (written.trim() === '') return { unreadStart: start };
  const amount = numberOf(written, at.delimiter);
  const amountColumn = columns.names[columns.amount] ?? '';
  if (amount === undefined) return [problem(amountColumn, `must be a number, not ${shown(written)}`)];
  if (typeof columns.unit === 'string') return { start, amount, unit: columns.unit };
  const stated = cells[columns.unit.column] ?? '';
  const unit = unitOf(stated);
  if (unit !== undefined) return { start, amount, unit };
  const units = Object.keys(METER_UNITS).join(', ');
  return [problem(columns.names[columns.unit.column] ?? '', `must be one of ${units}, not ${shown(stated)}`)];
}

/** A number as files write it: `1,234.5`, `2.5e-3`; among semicolons or tabs also `0,35`. */
function numberOf(written: string, delimiter: Delimiter): number | undefined {
  const text = written.trim();
  if (/^[-+]?\d+(?:\.\d+)?e[-+]?\d{1,2}$/i.test(text)) return Number(text);
  if (/^[-+]?(?:\d+|\d{1,3}(?:,\d{3})+)(?:\.\d*)?$|^[-+]?\.\d+$/.test(text)) {
    const isDecimalComma = delimiter !== ',' && /,/.test(text) && !/\./.test(text);
    return isDecimalComma ? undefined : Number(text.replaceAll(',', ''));
  }
  return delimiter !== ',' && /^[-+]?\d+,\d+$/.test(text) ? Number(text.replace(',', '.')) : undefined;
}

function isSentBack(cells: readonly string[], { sentBack }: MeterColumns, delimiter: Delimiter): boolean {
  const amount = sentBack === undefined ? undefined : numberOf(cells[sentBack] ?? '', delimiter);
  return amount !== undefined && amount !== 0;
}
