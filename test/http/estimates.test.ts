import request from 'supertest';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { DEMO_PROJECT } from '../../db/demo.ts';
import { circuit, soundDescription, withValue } from '../estimate/description-example.ts';
import { REFUSALS } from '../estimate/refusals.ts';
import { readPdf } from '../report/reading.ts';
import { openApp, TODAY } from './running-app.ts';

/** A short way with two options. */
const short = { ...soundDescription(), route: '12 joists' };

let running: ReturnType<typeof openApp>;
beforeAll(() => {
  running = openApp();
});
afterAll(() => running.close());

/** Only what has the range, the steps or the curves in it asks for the whole answer, which takes many plans. */
const CORE = '?parts=core';
const ask = (description: unknown, query = CORE) =>
  request(running.app)
    .post(`/api/estimates${query}`)
    .send(description as object);

describe('an estimate over HTTP', () => {
  it('answers with every option, its lines and a total above nothing', async () => {
    const { status, body } = await ask(DEMO_PROJECT.description);
    expect(status).toBe(200);
    expect(body.options.map(({ id }: { id: string }) => id)).toEqual(['circuit-32', 'circuit-48', 'panel-80']);
    for (const { lines, totals } of body.options) {
      expect(lines.length).toBeGreaterThan(0);
      expect(totals.totalCents).toBeGreaterThan(0);
    }
  });

  it('gives back the description with its defaults, and today where no day was stated', async () => {
    const { asOf: _asOf, ...undated } = soundDescription();
    expect((await ask(undated)).body.description).toMatchObject({ asOf: TODAY, terms: { crewSize: 1 } });
    expect((await ask({ ...undated, asOf: '2025-12-24' })).body.description.asOf).toBe('2025-12-24');
  });

  it('gives the same bytes for the same question', async () => {
    const [first, second] = [await ask(soundDescription()), await ask(soundDescription())];
    expect(second.text).toBe(first.text);
  });

  it('leaves out the range where only the core is asked for', async () => {
    const ranges = async (query: string) =>
      (await ask(short, query)).body.options.map(({ range }: { range?: unknown }) => range !== undefined);
    expect(await ranges('')).toEqual([true, true]);
    expect(await ranges(CORE)).toEqual([false, false]);
  });

  it('can be had with the book as it was', async () => {
    const before = await ask(soundDescription());
    const items = '/api/price-book/items';
    const rate = await request(running.app).get(`${items}/rate-electrician`);
    const { low, likely, high } = rate.body;
    const dearer = { ...rate.body, low: low * 2, likely: likely * 2, high: high * 2 };
    const put = request(running.app)
      .put(`${items}/rate-electrician`)
      .set('If-Match', rate.headers.etag ?? '');
    expect((await put.send(dearer)).status).toBe(200);
    const after = await ask(soundDescription());
    expect(after.body.bookRevision).toBe(before.body.bookRevision + 1);
    expect(after.body.options[0].totals.totalCents).toBeGreaterThan(before.body.options[0].totals.totalCents);
    expect((await ask(soundDescription(), `${CORE}&bookRevision=${before.body.bookRevision}`)).text).toBe(before.text);
  });

  it('takes the route as a line', async () => {
    const line = { ...soundDescription(), route: '30 joists, 40 lawn-trench' };
    expect((await ask(line)).text).toBe((await ask(soundDescription())).text);
  });

  it.each([
    ['?part=core', 'part', 'is not a field that is known here ("part"); did you mean "parts"?'],
    ['?parts=most', 'parts', 'must be one of core, all, not "most"'],
    ['?bookRevision=x', 'bookRevision', 'must be a whole number, at least 1 and at most 9007199254740991, not "x"'],
  ])('names what will not do in its address: %s', async (query, path, message) => {
    const { status, body } = await ask(soundDescription(), query);
    expect(status).toBe(422);
    expect(body.errors).toEqual([{ path, message }]);
  });

  it('names the revisions that the book had', async () => {
    const { bookRevision } = (await ask(soundDescription())).body;
    const { status, body } = await ask(soundDescription(), '?bookRevision=900');
    expect(status).toBe(422);
    const message = `must be a revision that the book had, from 1 to ${bookRevision}, not 900`;
    expect(body.errors).toEqual([{ path: 'bookRevision', message }]);
  });
});

describe('a mistake over HTTP', () => {
  it.each(
    REFUSALS.filter(({ value }) => value !== Number.POSITIVE_INFINITY).map((each) => [each.title, each] as const),
  )('is 422 with its path and message: %s', async (_title, { at, value, path, message }) => {
    const { status, body, headers } = await ask(withValue(soundDescription(), at, value));
    expect(status).toBe(422);
    expect(headers['content-type']).toMatch(/^application\/problem\+json/);
    expect(body.errors).toContainEqual({ path, message });
    expect(body.detail).toContain(message.slice(0, 40));
  });

  it('is told from what is no JSON', async () => {
    const raw = (body: string) =>
      request(running.app).post('/api/estimates').set('Content-Type', 'application/json').send(body);
    expect((await raw('{"title": "x", "route": [{"kind": "joists", "lengthFt": NaN}]}')).status).toBe(400);
    expect((await raw('[]')).status).toBe(422);
    const endless = JSON.stringify(soundDescription()).replace('"lengthFt":30', '"lengthFt":1e999');
    const { status, body } = await raw(endless);
    expect(status).toBe(422);
    const message = 'must be a number of feet, more than 0 and at most 3000, not Infinity';
    expect(body.errors).toEqual([{ path: 'route.0.lengthFt', message }]);
  });

  it('is also a discount that leaves nothing to pay', async () => {
    const { status, body } = await ask(withValue(soundDescription(), 'terms.discountCents', 900_000_000));
    expect(status).toBe(422);
    expect(body.errors.map(({ path }: { path: string }) => path)).toEqual(['terms.discountCents']);
  });

  it('leaves the server as it was, after all of them', async () => {
    expect((await ask(soundDescription())).status).toBe(200);
  });
});

describe('the papers of an estimate', () => {
  const print = (query: string) =>
    request(running.app)
      .post(`/api/estimates/pdf${query}`)
      .send({ ...short, options: [circuit('a', 32)] });

  it('are PDF files', async () => {
    const { status, headers, body } = await print('?paper=estimate&option=a&pageSize=a4').responseType('blob');
    expect(status).toBe(200);
    expect(headers['content-type']).toBe('application/pdf');
    expect(headers['content-disposition']).toBe('attachment; filename=feedrun-estimate.pdf');
    expect(Buffer.from(body).subarray(0, 5).toString()).toBe('%PDF-');
  });

  it('name the business of the settings', async () => {
    const { body: settings, headers } = await request(running.app).get('/api/settings');
    const { revision: _revision, ...stated } = settings;
    await request(running.app)
      .put('/api/settings')
      .set('If-Match', headers.etag ?? '')
      .send({ ...stated, businessName: 'Alder Lane Electric', licenceNumber: 'EC-0147' });
    const { body } = await print('').responseType('blob');
    const [first] = (await readPdf(Buffer.from(body))).pages;
    expect(first?.text).toContain('Alder Lane Electric license EC-0147');
  });

  it.each([
    [
      '?paper=napkin',
      'paper',
      'must be one of estimate, comparison, budget, inspection, picklist, crew, permit, digging, showing, not "napkin"',
    ],
    ['?pageSize=a5', 'pageSize', 'must be one of letter, a4, not "a5"'],
    ['?option=z', 'option', 'must be the id of an option (a), not "z"'],
  ])('are refused where they cannot be: %s', async (query, path, message) => {
    const { status, body } = await print(query);
    expect(status).toBe(422);
    expect(body.errors).toEqual([{ path, message }]);
  });

  it('include the lines of an option as CSV', async () => {
    const { status, headers, text } = await request(running.app)
      .post('/api/estimates/lines.csv?option=a')
      .send(soundDescription());
    expect(status).toBe(200);
    expect(headers['content-type']).toMatch(/^text\/csv/);
    expect(text.trim().split('\n').length).toBeGreaterThan(5);
  });
});
