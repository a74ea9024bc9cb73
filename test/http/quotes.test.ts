import request from 'supertest';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Data } from '../../db/open.ts';
import type { Estimate } from '../../server/estimate/answer.ts';
import { estimate } from '../../server/estimate/estimate.ts';
import type { Asked } from '../../server/http/estimator.ts';
import { soundDescription, withValue } from '../estimate/description-example.ts';
import { openApp, TODAY } from './running-app.ts';

let running: ReturnType<typeof openApp>;
beforeAll(() => {
  running = openApp();
});
afterAll(() => running.close());

const customer = { name: 'An invented household' };
const description = soundDescription();

/** A project with a description, and its entity tag. */
async function project(stated: unknown = description) {
  const { body, headers } = await request(running.app).post('/api/projects').send({ description: stated });
  return { path: `/api/projects/${body.id}`, id: body.id as string, etag: headers.etag ?? '' };
}
const issue = ({ path, etag }: { path: string; etag: string }, stated: object) =>
  request(running.app).post(`${path}/quotes`).set('If-Match', etag).send(stated);
const get = (path: string) => request(running.app).get(path);

describe('quotes over HTTP', () => {
  it('freeze the estimate of what is offered, and number it', async () => {
    const from = await project();
    const answer = await issue(from, { optionId: 'b', alternates: ['a'], customer });
    expect(answer.status).toBe(201);
    expect(answer.headers.location).toBe(`/api/quotes/${answer.body.id}`);
    const { body: quote } = await get(`/api/quotes/${answer.body.id}`);
    expect(quote).toEqual(answer.body);
    // 15 days after March 2
    expect(quote).toMatchObject({ status: 'issued', issuedOn: TODAY, validUntil: '2026-03-17', projectId: from.id });
    expect(quote.number).toMatch(/^2026-\d{4}$/);
    const { body: whole } = await get(`${from.path}/estimate`);
    const [a, b] = (whole as Estimate).options;
    expect(quote.totalCents).toBe(b?.totals.totalCents);
    expect(quote.estimate.options.map(({ id }: { id: string }) => id)).toEqual(['b', 'a']);
    expect(quote.estimate.options[1].totals).toEqual(a?.totals);
    expect(quote.stated).toMatchObject({ validDays: 15, show: 'items', warrantyMonths: 12, customer });
    const { body: list } = await get(`/api/quotes?project=${from.id}`);
    expect(list).toMatchObject({ total: 1, items: [{ number: quote.number, hasActuals: false }] });
  });

  it('hold their allowances in the price, which a deposit may reach', async () => {
    const from = await project();
    const { body: plain } = await issue(from, { optionId: 'a', customer });
    const allowances = [
      { text: 'a charger', cents: 45_001 },
      { text: 'a plaque', cents: 99 },
    ];
    const priceCents = plain.totalCents + 45_100;
    const deposit = (sum: number) => issue(from, { optionId: 'a', customer, allowances, deposit: { cents: sum } });
    expect((await deposit(priceCents)).body.totalCents).toBe(priceCents);
    expect((await deposit(priceCents + 1)).body.errors).toEqual([
      {
        path: 'deposit.cents',
        message: `must be at most ${priceCents} cents, not ${priceCents + 1}: the price is ${priceCents}`,
      },
    ]);
    const halfCents = Math.floor((priceCents + 1) / 2); // half of it on the way, rounded half up
    const both = await issue(from, {
      optionId: 'a',
      customer,
      allowances,
      deposit: { cents: priceCents },
      progress: [{ when: 'Half way', bp: 5000 }],
    });
    expect(both.body.errors[0].message).toBe(
      `must be at most ${priceCents - halfCents} cents, not ${priceCents}: the price is ${priceCents}, of which ` +
        `${halfCents} are asked for on the way`,
    );
  });

  it('stay as they were issued when the project and the book move on', async () => {
    const from = await project();
    const { body: quote } = await issue(from, { optionId: 'a', customer });
    const key = quote.estimate.options[0].lines.find(({ class: kind }: { class: string }) => kind === 'fee').key;
    const { body: item, headers } = await get(`/api/price-book/items/${key}`);
    const dearer = { ...item, low: item.low * 2, likely: item.likely * 2, high: item.high * 2, offers: [] };
    const put = request(running.app)
      .put(`/api/price-book/items/${key}`)
      .set('If-Match', headers.etag ?? '');
    expect((await put.send(dearer)).status).toBe(200);
    expect((await get(`/api/quotes/${quote.id}`)).body).toEqual(quote);
    const moved = await issue(from, { optionId: 'a', customer, bookRevision: quote.bookRevision });
    expect(moved.status).toBe(409);
    expect(moved.body.detail).toContain(`not ${quote.bookRevision}`);
    const seen = await issue(from, { optionId: 'a', customer, bookRevision: quote.bookRevision + 1 });
    expect(seen.status).toBe(201);
    expect(seen.body.totalCents).toBeGreaterThan(quote.totalCents);
  });

  it('are refused to who did not read the project, and by the field that is wrong', async () => {
    const from = await project();
    const bare = request(running.app).post(`${from.path}/quotes`);
    expect((await bare.send({ optionId: 'a', customer })).status).toBe(428);
    expect((await issue({ ...from, etag: '"99"' }, { optionId: 'a', customer })).status).toBe(412);
    const refused = async (stated: object) => {
      const { status, body } = await issue(from, { optionId: 'a', customer, ...stated });
      return [status, body.errors?.[0]?.path];
    };
    expect(await refused({ optionId: 'z' })).toEqual([422, 'optionId']);
    expect(await refused({ alternates: ['b', 'z'] })).toEqual([422, 'alternates.1']);
    expect(await refused({ alternates: ['a'] })).toEqual([422, 'alternates.0']);
    expect(await refused({ customer: {} })).toEqual([422, 'customer.name']);
    expect(await refused({ deposit: { cents: 99_999_999 } })).toEqual([422, 'deposit.cents']);
    expect(await refused({ deposit: {} })).toEqual([422, 'deposit']);
    expect(await refused({ deposit: { bp: 5000 }, progress: [{ when: 'rough-in', bp: 5001 }] })).toEqual([
      422,
      'progress',
    ]);
    // sums stay below 100 million dollars
    expect(await refused({ allowances: [{ text: 'a charger', cents: 10_000_000_000 }] })).toEqual([422, 'allowances']);
    expect(await refused({ revisionOf: 'none' })).toEqual([404, undefined]);
    expect((await get(`${from.path}/quotes`)).body.total).toBe(0);
  });

  it('are refused for what cannot be built', async () => {
    // A 30 A service cannot carry a charger of 48 A, which counts 60 A at 125 % (625.42)
    const from = await project(withValue(description, 'site.service.ratingA', 30));
    const { status, body } = await issue(from, { optionId: 'a', customer });
    expect(status).toBe(422);
    expect(body.errors[0].path).toBe('optionId');
    expect(body.errors[0].message).toContain('cannot be built');
  });

  it('are refused for what lacks a price, naming it', async () => {
    const other = openApp();
    const made = await request(other.app).post('/api/projects').send({ description });
    const core = await request(other.app).post('/api/estimates?parts=core').send(description);
    const wire = (core.body as Estimate).options[0]?.lines.find(({ class: kind }) => kind === 'fee');
    const path = `/api/price-book/items/${wire?.key}`;
    const { headers } = await request(other.app).get(path);
    await request(other.app)
      .delete(path)
      .set('If-Match', headers.etag ?? '');
    const { status, body } = await request(other.app)
      .post(`/api/projects/${made.body.id}/quotes`)
      .set('If-Match', made.headers.etag ?? '')
      .send({ optionId: 'a', customer });
    expect(status).toBe(422);
    expect(body.errors[0]).toMatchObject({ path: 'optionId' });
    expect(body.errors[0].message).toContain('lacks the price of');
    other.close();
  });

  it('are accepted, and nothing follows; a revision takes the place of the first', async () => {
    const from = await project();
    const { body: first } = await issue(from, { optionId: 'a', customer });
    const { body: second } = await issue(from, { optionId: 'b', customer, revisionOf: first.id });
    expect(second).toMatchObject({ revisionOf: first.id });
    expect((await get(`/api/quotes/${first.id}`)).body.revisedBy).toBe(second.id);
    const again = await issue(from, { optionId: 'a', customer, revisionOf: first.id });
    expect(again.body.detail).toBe(`Quote ${first.number} was revised by ${second.number}: revise that one.`);
    const other = await issue(await project(), { optionId: 'a', customer, revisionOf: second.id });
    expect([other.status, other.body.detail]).toEqual([
      409,
      `Quote ${second.number} is of another project: it cannot be revised by this one.`,
    ]);
    const say = (id: string, status: string) => request(running.app).post(`/api/quotes/${id}/status`).send({ status });
    expect((await say(first.id, 'accepted')).status).toBe(409);
    expect((await say(first.id, 'withdrawn')).body.status).toBe('withdrawn');
    expect((await say(second.id, 'accepted')).body).toMatchObject({ status: 'accepted', revision: 2 });
    expect((await say(second.id, 'declined')).status).toBe(409);
    expect((await say(second.id, 'lost')).body.errors[0].path).toBe('status');
    expect((await issue(from, { optionId: 'a', customer, revisionOf: first.id })).status).toBe(409);
    expect((await say('none', 'accepted')).status).toBe(404);
  });

  it('are printed on paper to be signed, the same bytes each time', async () => {
    const { body: quote } = await issue(await project(), { optionId: 'a', alternates: ['b'], customer });
    const pdf = () => get(`/api/quotes/${quote.id}/pdf?pageSize=a4`).responseType('blob');
    const [one, two] = [await pdf(), await pdf()];
    expect(one.headers['content-type']).toBe('application/pdf');
    expect(one.headers['content-disposition']).toContain(`quote-${quote.number}.pdf`);
    expect(one.body.subarray(0, 5).toString()).toBe('%PDF-');
    expect(one.body.equals(two.body)).toBe(true);
    expect((await get(`/api/quotes/${quote.id}/pdf?pageSize=a3`)).status).toBe(422);
  });

  it('give their lines as CSV', async () => {
    const { body: quote } = await issue(await project(), { optionId: 'a', customer });
    const { text, headers } = await get(`/api/quotes/${quote.id}/items.csv`);
    expect(headers['content-type']).toContain('text/csv');
    // a head, and a row for each line
    expect(text.trimEnd().split('\r\n')).toHaveLength(quote.estimate.options[0].lines.length + 1);
    const list = await get(`/api/quotes/${quote.id}/picklist.csv`);
    const bought = quote.estimate.options[0].lines.filter(
      (line: { class: string; scope: string }) =>
        (line.class === 'material' || line.class === 'equipment') && line.scope !== 'travel',
    );
    expect(list.text.trimEnd().split('\r\n')).toHaveLength(bought.length + 1);
    expect(list.text).not.toContain('Cents'); // a list to hand over, without prices
  });
});

describe('a quote that is issued while others work', () => {
  /** Makes estimates as the server does, and lets somebody change something while they are made. */
  const meanwhile = (change: (data: Data) => void) => (data: Data) => ({
    textFor: async (_client: unknown, { description: asked, book, parts }: Asked) => {
      change(data);
      return JSON.stringify(estimate(asked, book, { parts }));
    },
    close: async () => {},
  });
  const saveProject = ({ projects }: Data) => {
    const [first] = projects.list().items;
    if (first) projects.replace(first.id, first.revision, { ...first, title: 'Second thoughts' });
  };
  const changePrice = ({ prices }: Data) => {
    const [item] = prices.list().items;
    if (item) prices.remove(item.key, item.revision);
  };

  it.each([
    ['the project', 412, saveProject],
    ['the price book', 409, changePrice],
  ])('is refused where somebody changes %s meanwhile', async (_what, status, change) => {
    const other = openApp({}, meanwhile(change));
    const made = await request(other.app).post('/api/projects').send({ description });
    const quotes = `/api/projects/${made.body.id}/quotes`;
    const refused = await request(other.app).post(quotes).set('If-Match', '*').send({ optionId: 'a', customer });
    expect(refused.status).toBe(status);
    expect((await request(other.app).get(quotes)).body.total).toBe(0);
    other.close();
  });
});

describe('what jobs teach, over HTTP', () => {
  it('proposes labor units, and changes them only one by one', async () => {
    const other = openApp();
    const ask = (path: string) => request(other.app).get(path);
    expect((await ask('/api/price-book/learned')).body).toMatchObject({ jobs: 0, items: [] });
    const made = await request(other.app).post('/api/projects').send({ description });
    const quoted = await request(other.app)
      .post(`/api/projects/${made.body.id}/quotes`)
      .set('If-Match', made.headers.etag ?? '')
      .send({ optionId: 'a', customer });
    const { id, quotedTasks, costCents, bookRevision } = quoted.body;
    const [first, second] = quotedTasks;
    const put = (body: object, etag = '"1"') =>
      request(other.app).put(`/api/quotes/${id}/actuals`).set('If-Match', etag).send(body);

    const unquoted = [
      { key: first.key, hours: 0 },
      { key: 'waited for the inspector', hours: 1.5 },
    ];
    const bare = await request(other.app).put(`/api/quotes/${id}/actuals`).send({ tasks: unquoted });
    expect([bare.status, bare.body.actuals]).toEqual([200, { tasks: unquoted }]);
    expect((await put({ tasks: unquoted })).status).toBe(412); // If-Match is honoured where it is sent
    expect((await put({ tasks: [] }, '"2"')).body).toMatchObject({ actuals: null, revision: 3 });
    const twice = await put(
      {
        tasks: [
          { key: first.key, hours: 1 },
          { key: first.key, hours: 2 },
        ],
      },
      '*',
    );
    expect(twice.body.errors[0].path).toBe('tasks.1.key');
    expect((await put({ tasks: [{ key: first.key, hours: -1 }] }, '*')).body.errors[0].path).toBe('tasks.0.hours');
    const tasks = [first, second].map(({ key, hours }: { key: string; hours: number }) => ({ key, hours: hours * 2 }));
    const saved = await put({ tasks, totalCents: costCents * 2 }, '"3"');
    expect(saved.body).toMatchObject({ revision: 4, actuals: { tasks, totalCents: costCents * 2 } });
    expect((await put({ tasks }, '"1"')).status).toBe(412);

    const { body: learned } = await ask('/api/price-book/learned');
    expect(learned).toMatchObject({ jobs: 1, bookRevision, totals: { jobs: 1, ratio: 2 } });
    expect(learned.items).toHaveLength(2);
    const task = learned.items.find(({ key }: { key: string }) => key === first.key);
    // one job of twice the hours: a fifth of the way, by logarithms: × 2^(1/5) = 1.148698
    expect(task).toMatchObject({ ratio: 2, differs: true });
    expect(Math.abs(task.proposed.likely - task.stated.likely * 1.148698)).toBeLessThanOrEqual(0.00005 + 1e-6);
    expect((await ask('/api/price-book/learned')).body.bookRevision).toBe(bookRevision); // nothing changes by itself

    const accept = (body: object) => request(other.app).post(`/api/price-book/learned/${first.key}/accept`).send(body);
    expect((await accept({})).body.errors[0].path).toBe('revision');
    expect((await accept({ revision: task.book.revision + 1 })).status).toBe(412);
    const changed = await accept({ revision: task.book.revision, likely: task.proposed.likely + 1 });
    expect([changed.status, changed.body.errors[0].path]).toEqual([422, 'likely']);
    const accepted = await accept({ revision: task.book.revision, likely: task.proposed.likely });
    expect(accepted.status).toBe(200);
    expect(accepted.body).toMatchObject({
      likely: task.proposed.likely,
      low: task.proposed.low,
      high: task.proposed.high,
      source: 'learned from 1 job',
      date: TODAY,
      revision: task.book.revision + 1,
    });
    const { body: history } = await ask(`/api/price-book/items/${first.key}/history`);
    expect(history.items[0]).toMatchObject({ why: 'learned from 1 job', bookRevision: bookRevision + 1 });
    expect((await accept({ revision: accepted.body.revision })).status).toBe(409);
    const after = (await ask('/api/price-book/learned')).body.items;
    expect(after.find(({ key }: { key: string }) => key === first.key)).toMatchObject({ differs: false });
    const { body: untouched } = await ask(`/api/price-book/items/${second.key}`);
    expect(untouched.revision).toBe(1);
    const none = await request(other.app).post('/api/price-book/learned/rate-electrician/accept').send({ revision: 1 });
    expect(none.status).toBe(409);
    other.close();
  });
});
