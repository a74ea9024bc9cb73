import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Line } from '../../server/estimate/answer.ts';
import { LINE_COLUMNS, linesCsv } from '../../server/report/csv.ts';
import { PANEL_90 } from './fixture.ts';

const read = (csv: string): Record<string, string>[] => parse(csv, { columns: true });
const some = (over: Partial<Line>): Line => ({ ...(PANEL_90.lines[0] as Line), ...over });

describe('lines as CSV', () => {
  it('come back as they were, in their order', () => {
    const rows = read(linesCsv(PANEL_90));
    expect(Object.keys(rows[0] ?? {})).toEqual([...LINE_COLUMNS]);
    expect(rows.map(({ key, amountCents, quantity }) => [key, Number(amountCents), Number(quantity)])).toEqual(
      PANEL_90.lines.map(({ key, amountCents, quantity }) => [key, amountCents, quantity]),
    );
    expect(rows.reduce((sum, { amountCents }) => sum + Number(amountCents), 0)).toBe(PANEL_90.totals.costCents);
  });

  it('number legs as the drawing does', () => {
    expect(read(linesCsv({ lines: [some({ legs: [0, 2] })] }))[0]?.legNumbers).toBe('1 3');
  });

  it('leave a missing price empty, never 0', () => {
    const [row] = read(linesCsv({ lines: [some({ priced: false, amountCents: 0, unitPriceCents: 0 })] }));
    expect(row).toMatchObject({ unitPriceCents: '', amountCents: '', lowCents: '', highCents: '', priced: 'no' });
  });

  /** OWASP, CSV Injection: what begins with = + - @, a tab or a carriage return is run as a formula. */
  it.each(['=1+1', '+1', '-1', '@SUM(A1)', '\t=1', '\r=1'])('do not let a spreadsheet run %j', (description) => {
    expect(read(linesCsv({ lines: [some({ description })] }))[0]?.description).toBe(`'${description}`);
  });

  it('keep numbers below zero numbers', () => {
    expect(read(linesCsv({ lines: [some({ leftOver: -0.5 })] }))[0]?.leftOver).toBe('-0.5');
  });

  it('keep any words in their cell', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), fc.array(fc.string()), (description, because) => {
        const rows = read(linesCsv({ lines: [some({ description, because }), some({})] }));
        expect(rows).toHaveLength(2);
        expect([description, `'${description}`]).toContain(rows[0]?.description);
      }),
    );
  });
});
