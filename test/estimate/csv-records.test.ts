import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Delimiter, readRecords } from '../../server/estimate/csv-records.ts';

const cell = fc.string({ unit: fc.constantFrom('a', '1', ' ', ',', ';', '"', '\n', '\r', "'", 'é', '\u{1F50C}') });
const table = fc.array(fc.array(cell, { minLength: 1, maxLength: 4 }), { minLength: 1, maxLength: 6 });
const delimiter = fc.constantFrom<Delimiter>(',', ';');
const lineEnd = fc.constantFrom('\n', '\r\n', '\r');

/** A cell as RFC 4180, rules 5 to 7, writes it: in quotes where it must be, and now and then where it need not. */
const written = (text: string, isQuoted: boolean) =>
  isQuoted || /[",;\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;

describe('the rows of a CSV file', () => {
  it('are the cells that were written, whatever stands in them and however the lines end', () => {
    fc.assert(
      fc.property(table, delimiter, lineEnd, fc.boolean(), fc.boolean(), (rows, separator, end, isQuoted, isMarked) => {
        const lines = rows.map((row) => row.map((text) => written(text, isQuoted)).join(separator) + end);
        const text = `${isMarked ? '\uFEFF' : ''}${lines.join('')}`;
        expect(readRecords(text, separator)).toEqual({ records: rows });
      }),
    );
  });

  it('are those that another reader of RFC 4180 finds, or both refuse', () => {
    const anything = fc.string({ unit: fc.constantFrom('a', ',', ';', '"', '\n', ' '), maxLength: 30 });
    fc.assert(
      fc.property(anything, delimiter, (text, separator) => {
        const read = readRecords(text, separator);
        const other = readOtherwise(text, separator);
        if (other === undefined) expect(read).toHaveProperty('problem');
        else expect(read).toEqual({ records: other });
      }),
      { numRuns: 2000 },
    );
  });

  it.each([
    ['a,b\nc,"d', 2, 'a quote is opened and never closed'],
    ['a,b\n"c\nd",e"\n', 2, 'a quote stands within a cell that does not begin with one'],
    ['"a" ,b\n', 1, 'something stands between the closing quote of a cell and what ends the cell'],
  ])('of %j end in row %i, for %s', (text, row, problem) => {
    expect(readRecords(text, ',')).toEqual({ row, problem });
  });

  it.each([
    ['', []],
    ['\uFEFF', []],
    ['a,b', [['a', 'b']]],
    ['a,', [['a', '']]],
    ['\n\na', [[''], [''], ['a']]],
    ['a\r\n\rb', [['a'], [''], ['b']]],
  ])('of %j are %j', (text, records) => {
    expect(readRecords(text, ',')).toEqual({ records });
  });
});

function readOtherwise(text: string, separator: Delimiter): string[][] | undefined {
  try {
    return parse(text, { delimiter: separator, relax_column_count: true, record_delimiter: '\n' });
  } catch {
    return undefined;
  }
}
