import request from 'supertest';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openApp } from './running-app.ts';

let running: ReturnType<typeof openApp>;
beforeAll(() => {
  running = openApp();
});
afterAll(() => running.close());

const ITEM = '/api/price-book/items/rate-electrician';
const bookRevision = async () =>
  (
    await request(running.app)
      .post('/api/price-book/import?dryRun=true')
      .set('Content-Type', 'text/csv')
      .send(await exported())
  ).body.revision;
const exported = async () => (await request(running.app).get('/api/price-book/export.csv')).text;
const importing = (csv: string | Buffer, query = '') =>
  request(running.app).post(`/api/price-book/import${query}`).set('Content-Type', 'text/csv').send(csv);

describe('the price book over HTTP', () => {
  it('is searched by words, and listed by page', async () => {
    const { body } = await request(running.app).get('/api/price-book/items?search=rate-electrician');
    expect(body.items.map(({ key }: { key: string }) => key)).toContain('rate-electrician');
    const all = await request(running.app).get('/api/price-book/items');
    expect(all.body.items).toHaveLength(50);
    expect(all.body.total).toBeGreaterThan(300);
    expect((await request(running.app).get('/api/price-book/items?page=0')).status).toBe(422);
  });

  it('lacks nothing of the starting prices that it was made of, and is not changed by adding them', async () => {
    const path = '/api/price-book/starting-prices';
    const before = await bookRevision();
    expect((await request(running.app).get(path)).body).toEqual({ lacking: 0, items: [] });
    expect((await request(running.app).post(`${path}?by=Ada`)).body).toEqual({ added: 0, revision: before });
    expect((await request(running.app).post(`${path}?likes=Ada`)).status).toBe(422);
  });

  it('lists the categories of the whole book, whatever is asked for', async () => {
    const { body } = await request(running.app).get('/api/price-book/items?search=rate-electrician');
    expect(body.items.length).toBeLessThan(50);
    expect(body.categories).toEqual([...new Set(body.categories)].sort());
    expect(body.categories).toEqual(expect.arrayContaining(['cable', 'breaker']));
  });

  it('lets the packages decide what a unit costs, and refuses a price by the unit that says otherwise', async () => {
    const address = '/api/price-book/items/nm-b-6-3-cu';
    const put = (body: object, etag: string | undefined) =>
      request(running.app)
        .put(address)
        .set('If-Match', etag ?? '')
        .send(body);
    const { body, headers } = await request(running.app).get(address);
    const refused = await put({ ...body, high: body.high + 700 }, headers.etag);
    expect(refused.status).toBe(422);
    expect(refused.body.errors.map(({ path }: { path: string }) => path)).toEqual(['high']);
    // by the foot for $9 to $11: a foot costs what a foot costs
    const byTheFoot = body.offers.findIndex(({ quantity }: { quantity: number }) => quantity === 1);
    const offers = body.offers.with(byTheFoot, {
      ...body.offers[byTheFoot],
      lowCents: 900,
      likelyCents: 1000,
      highCents: 1100,
    });
    const saved = await put({ ...body, offers }, headers.etag);
    expect(saved.body).toMatchObject({ low: 900, likely: 1000, high: 1100 });
    // a coil of 50 ft alone, $90, $100, $125: $1.80, $2.00 and $2.50 the foot
    const coil = { package: 'coil 50 ft', quantity: 50, lowCents: 9000, likelyCents: 10000, highCents: 12500 };
    const again = await put({ ...saved.body, offers: [coil] }, saved.headers.etag);
    expect(again.body).toMatchObject({ low: 180, likely: 200, high: 250 });
    await put(body, again.headers.etag);
  });

  it('refuses a second item of one key', async () => {
    const { body } = await request(running.app).get(ITEM);
    const { revision: _revision, ...stated } = body;
    const refused = await request(running.app).post('/api/price-book/items').send(stated);
    expect(refused.status).toBe(409);
    expect(refused.body.detail).toContain('rate-electrician');
  });

  it('refuses a key that is not the one of the address', async () => {
    const { body, headers } = await request(running.app).get(ITEM);
    const refused = await request(running.app)
      .put(ITEM)
      .set('If-Match', headers.etag ?? '')
      .send({ ...body, key: 'another' });
    expect(refused.status).toBe(422);
    const message = 'must be "rate-electrician" as in the address, not "another"';
    expect(refused.body.errors).toEqual([{ path: 'key', message }]);
  });

  it('keeps what an item was before', async () => {
    const { body, headers } = await request(running.app).get(ITEM);
    const dearer = { ...body, likely: body.likely + 100, high: body.high + 100 };
    const saved = await request(running.app)
      .put(ITEM)
      .set('If-Match', headers.etag ?? '')
      .send(dearer);
    expect(saved.body.likely).toBe(body.likely + 100);
    const { items } = (await request(running.app).get(`${ITEM}/history`)).body;
    expect(JSON.stringify(items)).toContain(`"likely":${body.likely}`);
  });

  it('leaves as CSV, and comes in again without a change', async () => {
    const { status, body } = await importing(await exported());
    expect(status).toBe(200);
    expect(body).toMatchObject({ added: 0, changed: 0, refused: [] });
    expect(body.same).toBeGreaterThan(300);
  });

  it('says what an import would change before it does', async () => {
    const csv = await exported();
    const changed = csv.replace(/^rate-electrician,rate,"[^"]*",/m, 'rate-electrician,rate,Another name,');
    expect(changed).not.toBe(csv);
    const revision = await bookRevision();
    const wouldBe = await importing(changed, '?dryRun=true');
    expect(wouldBe.body).toMatchObject({ added: 0, changed: 1 });
    expect(await exported()).toBe(csv);
    expect((await importing(changed)).body).toMatchObject({ added: 0, changed: 1, revision: revision + 1 });
    expect((await request(running.app).get(ITEM)).body.description).toBe('Another name');
  });

  it('takes all rows of an import or none, and names the bad ones', async () => {
    const csv = await exported();
    const bad = csv.replace(/^rate-electrician,rate,/m, 'rate-electrician,rat,');
    const refused = await importing(bad);
    expect(refused.status).toBe(422);
    expect(refused.body.errors[0].path).toMatch(/^row \d+$/);
    expect(await exported()).toBe(csv);
  });

  it('refuses an import that is no CSV of prices', async () => {
    expect((await importing('')).status).toBe(422);
    expect((await importing('a,b\n1,2\n')).status).toBe(422);
    expect((await importing(Buffer.from([0x6b, 0xff]))).status).toBe(400);
    const asJson = await request(running.app).post('/api/price-book/import').send({});
    expect(asJson.status).toBe(415);
    expect((await request(running.app).get(ITEM)).status).toBe(200);
  });

  it('refuses an import above 64 MB', async () => {
    expect((await importing(Buffer.alloc(64 * 1024 * 1024 + 1, 'x'))).status).toBe(413);
    expect((await request(running.app).get(ITEM)).status).toBe(200);
  });
});
