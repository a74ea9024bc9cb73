import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import request from 'supertest';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Estimate } from '../../server/estimate/answer.ts';
import { exactDollars } from '../../server/report/wording.ts';
import { qpdfCheck, readPdf } from '../report/reading.ts';
import { openApp } from './running-app.ts';

/*
 * Quotes as programs of their day left them in the data file, a file for each format. They are never changed and never
 * removed: what was signed must be readable for ever. Where a test here fails, the shape of an estimate or of a quote
 * has moved on: QUOTE_FORMAT counts up, UPGRADES takes the former shape over, and a quote of the new format comes in.
 */

interface FrozenRow extends Record<string, unknown> {
  id: string;
  total_cents: number;
  stated: Record<string, unknown>;
  estimate: Estimate & { format?: number };
}

/** A row of the table of quotes; columns that hold JSON are written as it. */
function frozenRow(name: string): FrozenRow {
  return JSON.parse(readFileSync(join(import.meta.dirname, 'golden', name), 'utf8')) as FrozenRow;
}

let running: ReturnType<typeof openApp>;
beforeEach(() => {
  running = openApp();
});
afterEach(() => running.close());

/** Puts a row into the data file as it is, past the program. */
function put(row: FrozenRow): void {
  const db = new Database(join(running.dataDir, 'feedrun.db'));
  const values = Object.values(row).map((value) =>
    typeof value === 'object' && value !== null ? JSON.stringify(value) : value,
  );
  db.prepare(`INSERT INTO quote (${Object.keys(row)}) VALUES (${values.map(() => '?')})`).run(values);
  db.close();
}
const get = (path: string) => request(running.app).get(path);

describe.each(['quote-format-1.json'])('%s', (name) => {
  it('is answered as it was frozen', async () => {
    const row = frozenRow(name);
    put(row);
    const { status, body } = await get(`/api/quotes/${row.id}`);
    expect(status).toBe(200);
    const { format, ...estimate } = row.estimate;
    expect(body).toMatchObject({ format: format ?? 1, totalCents: row.total_cents, stated: row.stated });
    expect(body.estimate).toEqual(estimate);
  });

  it.each(['letter', 'a4'])('is printed with its number, price and lines on %s', async (pageSize) => {
    const row = frozenRow(name);
    put(row);
    const { status, body } = await get(`/api/quotes/${row.id}/pdf?pageSize=${pageSize}`).responseType('blob');
    expect(status).toBe(200);
    expect(await qpdfCheck(body)).toBe(0);
    const words = (await readPdf(body)).pages.map(({ text }) => text).join(' ');
    expect(words).not.toMatch(/undefined|NaN|\[object/);
    for (const said of ['Quote 2026-0001', 'An invented household', `$${exactDollars(row.total_cents)}`])
      expect(words).toContain(said);
  });

  it('gives its lines as CSV, each in a row', async () => {
    const row = frozenRow(name);
    put(row);
    const { text } = await get(`/api/quotes/${row.id}/items.csv`);
    const lines = row.estimate.options[0]?.lines ?? [];
    expect(text.trimEnd().split('\r\n')).toHaveLength(lines.length + 1);
    expect((await get(`/api/quotes/${row.id}/picklist.csv`)).status).toBe(200);
  });

  it('moves on as others do', async () => {
    const row = frozenRow(name);
    put(row);
    const said = await request(running.app).post(`/api/quotes/${row.id}/status`).send({ status: 'accepted' });
    expect(said.body).toMatchObject({ status: 'accepted', revision: 2 });
    const { tasks } = row.estimate.options[0]?.labor ?? { tasks: [] };
    const took = { tasks: [{ key: tasks[0]?.key, hours: 3 }] };
    expect((await request(running.app).put(`/api/quotes/${row.id}/actuals`).send(took)).body.actuals).toEqual(took);
    expect((await get('/api/price-book/learned')).body.jobs).toBe(1);
  });
});

describe('a quote that cannot be read', () => {
  const row = frozenRow('quote-format-1.json');

  it('is refused in so many words where a newer program wrote it, and stays in the list', async () => {
    put({ ...row, estimate: { ...row.estimate, format: 99 } });
    for (const path of ['', '/pdf', '/items.csv']) {
      const { status, body } = await get(`/api/quotes/${row.id}${path}`);
      expect(status).toBe(409);
      expect(body.detail).toBe(
        'Quote 2026-0001 was written by a newer program, in format 99, and this one reads formats up to 1. Nothing ' +
          'was changed: use the newer program.',
      );
    }
    const said = await request(running.app).post(`/api/quotes/${row.id}/status`).send({ status: 'accepted' });
    expect(said.status).toBe(409);
    expect((await get('/api/quotes')).body.items).toMatchObject([{ id: row.id, status: 'issued' }]);
  });

  it.each([
    ['estimate.options.0.totals.totalCents', { estimate: withTotal('much') }],
    ['estimate.options', { estimate: { ...row.estimate, options: [] } }],
    ['stated.customer', { stated: { ...row.stated, customer: null } }],
  ])('is refused where it is not as it was written, at %s', async (path, damage) => {
    put({ ...row, ...damage } as FrozenRow);
    const { status, body } = await get(`/api/quotes/${row.id}/pdf`);
    expect(status).toBe(500);
    expect(body.detail).toContain(`Quote 2026-0001 is not as it was written, at ${path}: `);
    expect(body.detail).toContain('Nothing was changed: restore a backup.');
  });

  function withTotal(totalCents: unknown) {
    const [first, ...others] = row.estimate.options;
    return { ...row.estimate, options: [{ ...first, totals: { ...first?.totals, totalCents } }, ...others] };
  }
});
