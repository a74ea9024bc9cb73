import request from 'supertest';
import { afterEach, describe, expect, it } from 'vitest';
import type { PriceItem } from '../../server/estimate/price-book.ts';
import { openApp, TODAY } from './running-app.ts';

const opened: ReturnType<typeof openApp>[] = [];
afterEach(() => {
  for (const running of opened.splice(0)) running.close();
});

/** A server of its own with the starting prices, and short words to ask it. */
function book() {
  const running = openApp();
  opened.push(running);
  const at = (path: string) => `/api/price-book${path}`;
  return {
    get: (path: string) => request(running.app).get(at(path)),
    post: (path: string, body: object) => request(running.app).post(at(path)).send(body),
    csv: (path: string, csv: string) => request(running.app).post(at(path)).set('Content-Type', 'text/csv').send(csv),
    put: (path: string, body: object, etag: string) =>
      request(running.app).put(at(path)).set('If-Match', etag).send(body),
    restore: (key: string, body: object, etag: string) =>
      request(running.app)
        .post(at(`/items/${key}/restore`))
        .set('If-Match', etag)
        .send(body),
    item: async (key: string): Promise<PriceItem> => (await request(running.app).get(at(`/items/${key}`))).body,
  };
}
const WIRE = 'nm-b-6-3-cu';
const RATE = 'rate-electrician';

describe('a change of several prices', () => {
  it('raises all packages of a category by a share, in whole cents, and says from when the figure is', async () => {
    const { post, item } = book();
    const before = await item(WIRE);
    const { status, body } = await post('/changes', {
      ...{ category: before.category, change: { raiseBp: 800 }, why: 'the new list', by: 'Ada' },
    });
    expect(status).toBe(200);
    expect(body.bookRevision).toBe(2);
    expect(body.changed.length).toBeGreaterThan(10);
    const after = await item(WIRE);
    expect(after.offers.map(({ likelyCents }) => likelyCents)).toEqual(
      before.offers.map(({ likelyCents }) => Math.round((likelyCents * 108) / 100)), // 8 %
    );
    expect(after).toMatchObject({ date: TODAY, source: `${before.source}; raised by 8 % on ${TODAY}` });
  });

  it('takes only those named, at the revision that was seen, or none and says which somebody changed', async () => {
    const { post, put, item } = book();
    const wire = await item(WIRE);
    const rate = await item(RATE);
    await put(`/items/${RATE}`, { ...rate, high: rate.high + 1 }, '"1"');
    const items = [
      { key: WIRE, revision: wire.revision },
      { key: RATE, revision: rate.revision },
    ];
    const refused = await post('/changes', { items, change: { available: false } });
    expect(refused.status).toBe(412);
    expect(refused.body.errors).toEqual([
      { path: 'items.1', message: '"rate-electrician" is at revision 2 by now, not at 1' },
    ]);
    expect((await item(WIRE)).available).toBe(true);
    const seen = await post('/changes', { items: items.slice(0, 1), change: { available: false } });
    expect(seen.body.changed).toMatchObject([{ key: WIRE, before: { available: true }, after: { available: false } }]);
    expect((await item(WIRE)).date).toBe(wire.date); // no figure moved
  });

  it('by an index is dated, listed as such with its category, and can be taken back', async () => {
    const { post, get, item } = book();
    const before = await item(WIRE);
    const change = { indexFactor: 1.12, of: before.category, on: '2026-02-01' };
    const tried = await post('/changes', { change, dryRun: true });
    expect(tried.body.bookRevision).toBe(1);
    const { body } = await post('/changes', { change, why: 'copper rose' });
    expect(body.changed.length).toBe(tried.body.changed.length);
    const after = await item(WIRE);
    expect(after.date).toBe('2026-02-01');
    expect(after.source).toBe(`${before.source}; × 1.12 by index as of 2026-02-01`);
    const [listed] = (await get('/revisions')).body.items;
    expect(listed).toMatchObject({
      ...{ revision: 2, cause: 'index', why: 'copper rose', items: body.changed.length },
      index: { category: before.category, factor: 1.12, on: '2026-02-01' },
    });
    expect((await post('/undo', { revision: 2 })).body.bookRevision).toBe(3);
    expect(await item(WIRE)).toEqual({ ...before, revision: 3 });
  });

  it('is refused by name where it says nothing that can be done', async () => {
    const { post } = book();
    const paths = async (body: object) => {
      const { status, body: problem } = await post('/changes', body);
      expect(status).toBe(422);
      return problem.errors.map(({ path }: { path: string }) => path);
    };
    expect(await paths({ change: { raiseBp: 100 } })).toEqual(['items']);
    expect(await paths({ category: 'cable', change: { indexFactor: 1.1, of: 'cable' } })).toEqual(['items']);
    expect(await paths({ category: 'none of ours', change: { raiseBp: 100 } })).toEqual(['category']);
    expect(await paths({ items: [{ key: 'never-was', revision: 1 }], change: { raiseBp: 1 } })).toEqual([
      'items.0.key',
    ]);
    expect(await paths({ category: 'cable', change: { raiseBp: 0.5 } })).toEqual(['change.raiseBp']);
  });
});

describe('an undo over HTTP', () => {
  it('is refused with the names of items that were changed since', async () => {
    const { post, put, item } = book();
    await post('/changes', { category: 'cable', change: { raiseBp: 100 } });
    const wire = await item(WIRE);
    await put(`/items/${WIRE}`, { ...wire, supplier: 'somebody' }, '"2"');
    const { status, body } = await post('/undo', { revision: 2 });
    expect(status).toBe(409);
    expect(body.detail).toBe(`Somebody changed "${WIRE}" since. Nothing was changed.`);
    expect(body.errors[0].message).toBe(`"${WIRE}" is at revision 3 by now, not at 2`);
    expect((await post('/undo', { revision: 99 })).status).toBe(404);
  });
});

describe('an earlier price over HTTP', () => {
  it('is restored by who saw the newest, and remembers who and why', async () => {
    const { put, get, item, restore } = book();
    const before = await item(RATE);
    await put(`/items/${RATE}?by=Ada%20%C3%9C&why=new%20year`, { ...before, high: before.high + 1 }, '"1"');
    expect((await get(`/items/${RATE}/history`)).body.items[0]).toMatchObject({ by: 'Ada Ü', why: 'new year' });
    expect((await restore(RATE, { revision: 1 }, '"1"')).status).toBe(412);
    const { body, headers } = await restore(RATE, { revision: 1, why: 'it was right' }, '"2"');
    expect(body).toEqual({ ...before, revision: 3 });
    expect(headers.etag).toBe('"3"');
    expect((await restore(RATE, { revision: 77 }, '"3"')).status).toBe(404);
  });
});

describe('the book as it was', () => {
  it('is listed, searched and exported at a revision and on a day', async () => {
    const { post, get } = book();
    const first = (await get('/export.csv')).text;
    await post('/changes', { category: 'cable', change: { supplier: 'somebody' } });
    expect((await get('/export.csv')).text).not.toBe(first);
    expect((await get('/export.csv?revision=1')).text).toBe(first);
    const { body } = await get(`/items?revision=1&search=${WIRE}`);
    expect(body.items[0]).not.toHaveProperty('supplier');
    expect((await get(`/items?on=${TODAY}&search=${WIRE}`)).body.items[0].supplier).toBe('somebody');
    expect((await get('/items?revision=9')).status).toBe(404);
    expect((await get('/items?on=2026-01-31')).status).toBe(404); // there was no book yet
    expect((await get(`/items?on=${TODAY}&revision=1`)).status).toBe(422);
    expect((await get('/items?on=yesterday')).status).toBe(422);
  });
});

describe('an import over HTTP', () => {
  it('comes back byte for byte, from a spreadsheet of another country too', async () => {
    const { get, csv } = book();
    const exported = (await get('/export.csv')).text;
    const emptied = await csv('/import?removeMissing=true&why=only%20one', exported.split('\n').slice(0, 2).join('\n'));
    expect(emptied.body).toMatchObject({ added: 0, changed: 0, same: 1 });
    expect(emptied.body.removed).toBeGreaterThan(900);
    expect((await csv('/import', `\uFEFF${exported.replaceAll('\n', '\r\n')}`)).body.refused).toEqual([]);
    expect((await get('/export.csv')).text).toBe(exported);
    expect((await get('/revisions')).body.items[1]).toMatchObject({ cause: 'import', why: 'only one' });
  });

  it('says what it would add, change and remove, item by item', async () => {
    const { get, csv } = book();
    const lines = (await get('/export.csv')).text.split('\n');
    const without = lines.filter((line) => !line.startsWith('rate-helper,'));
    const { body } = await csv('/import?dryRun=true&removeMissing=true', without.join('\n'));
    expect(body).toMatchObject({ added: 0, changed: 0, removed: 1, revision: 1 });
    expect(body.changes).toMatchObject([{ key: 'rate-helper', before: { kind: 'rate' }, after: null }]);
    expect((await get('/items/rate-helper')).status).toBe(200);
  });

  it('does not count as missing what stands in a row that it cannot read', async () => {
    const { get, csv } = book();
    const bad = (await get('/export.csv')).text.replace(/^rate-helper,rate,/m, 'rate-helper,rat,');
    const { body } = await csv('/import?dryRun=true&removeMissing=true', bad);
    expect(body.removed).toBe(0);
    expect(body.refused).toHaveLength(1);
  });
});

describe("a supplier's list", () => {
  const LIST = 'part;price;package;date\nW-63;1,5;by the foot;2026-02-10\nE-1;62,5;;\nX-9;1;;\n';
  const mapping = (name: string) => ({
    parts: [
      { part: 'W-63', key: WIRE, package: name },
      { part: 'E-1', key: 'permit-circuit' },
    ],
  });

  it('prices what is mapped, tells what is not, and keeps the mapping for the next time', async () => {
    const { put, get, csv, item } = book();
    const before = await item(WIRE);
    const packageName = before.offers.find(({ quantity }) => quantity === 1)?.package ?? '';
    expect((await put('/suppliers/Invented%20Supply/mapping', mapping(packageName), '"0"')).status).toBe(200);
    expect((await put('/suppliers/Invented%20Supply/mapping', mapping(packageName), '"0"')).status).toBe(412);
    expect((await get('/suppliers/Invented%20Supply/mapping')).body.parts).toHaveLength(2);
    const list = LIST.replace('by the foot', packageName);
    const tried = await csv('/suppliers/Invented%20Supply/import?dryRun=true', list);
    expect(tried.body).toMatchObject({
      ...{ bookRevision: 1, matched: 2, refused: [] },
      unmatched: [{ row: 4, part: 'X-9', reason: 'is not mapped to an item yet' }],
    });
    expect((await item(WIRE)).revision).toBe(1);
    const { body } = await csv('/suppliers/Invented%20Supply/import?by=Ada', list);
    expect(body.changed.map(({ key }: { key: string }) => key).sort()).toEqual([WIRE, 'permit-circuit'].sort());
    const after = await item(WIRE);
    expect(after.offers.find(({ quantity }) => quantity === 1)?.likelyCents).toBe(150); // $1.50 the foot
    expect(after).toMatchObject({ supplier: 'Invented Supply', date: before.date, likely: 150 }); // others are as old
    expect(after.offers.find(({ quantity }) => quantity === 1)).toMatchObject({ date: '2026-02-10' });
    expect(await item('permit-circuit')).toMatchObject({ likely: 6250, date: TODAY });
    expect((await get('/revisions')).body.items[0]).toMatchObject({ cause: 'supplier-list', by: 'Ada', items: 2 });
  });

  it('is refused whole where a row cannot be read', async () => {
    const { csv } = book();
    const { status, body } = await csv('/suppliers/s/import', 'part,price\nA,cheap\nB,2\n');
    expect(status).toBe(422);
    expect(body.errors).toEqual([{ path: 'row 2', message: 'price must be dollars, such as 12.50, not "cheap"' }]);
    const { body: without } = await csv('/suppliers/s/import', 'part\nA\n');
    expect(without.errors[0].message).toBe('has no column price; it has "part": say which of them it is');
  });

  it('asks which heading is which column, and keeps the answer for the next list', async () => {
    const { put, csv, get, item } = book();
    const list = 'Item No.,Net Price,Text\nE-1,62.50,a permit\n';
    const tried = await csv('/suppliers/s/import?dryRun=true', list);
    expect(tried.status).toBe(200);
    expect(tried.body).toMatchObject({
      ...{ headings: ['Item No.', 'Net Price', 'Text'], missing: ['part', 'price'], columns: {}, matched: 0 },
      proposed: { part: 'Item No.', price: 'Net Price' },
    });
    const kept = {
      parts: [{ part: 'E-1', key: 'permit-circuit' }],
      columns: { part: 'Item No.', price: 'Net Price', description: 'Text' },
    };
    expect((await put('/suppliers/s/mapping', kept, '"0"')).body).toEqual({ supplier: 's', revision: 1, ...kept });
    expect((await csv('/suppliers/s/import', list)).body).toMatchObject({ matched: 1, missing: [] });
    expect(await item('permit-circuit')).toMatchObject({ likely: 6250 });
    const next = await csv('/suppliers/s/import?dryRun=true', 'Item No.,Your Price,Text\nE-1,70,a permit\n');
    expect(next.body).toMatchObject({ missing: ['price'], columns: kept.columns });
    const twice = await put('/suppliers/s/mapping', { columns: { part: 'A', price: 'A' } }, '"1"');
    expect(twice.status).toBe(422);
    expect(twice.body.errors[0]).toEqual({ path: 'columns.part', message: 'names "A" again' });
    expect((await get('/suppliers/s/mapping')).body.columns).toEqual(kept.columns);
  });
});
