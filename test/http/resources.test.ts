import request, { type Response } from 'supertest';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { soundDescription } from '../estimate/description-example.ts';
import { openApp } from './running-app.ts';

/** An invented item of the price book. */
const item = {
  key: 'test-pull-box',
  kind: 'price',
  description: 'Pull box, 8 × 8 × 4 in',
  class: 'material',
  scope: 'boxes',
  category: 'boxes',
  unit: 'each',
  low: 1900,
  likely: 2400,
  high: 3100,
  date: '2026-01-15',
  region: 'US',
  source: 'invented for a test',
};

interface Resource {
  name: string;
  /** Where a new one is posted; a resource of which there is one only has none. */
  collection?: string;
  /** What is stated of a new one, and of the same one changed. */
  stated: Record<string, unknown>;
  changed: Record<string, unknown>;
  /** A body that is refused, and the path that must be named. */
  bad: Record<string, unknown>;
  badPath: string;
  /** The path of one, by what the posted answer says of it. */
  pathOf: (body: Record<string, unknown>) => string;
  /** A path at which there is none. */
  missing?: string;
}

const description = soundDescription();
const RESOURCES: Resource[] = [
  {
    name: 'project',
    collection: '/api/projects',
    stated: { title: 'Quince Court', description },
    changed: { title: 'Quince Court, second thoughts', description, draft: { typed: '12 jois' } },
    bad: { title: 'x', description: { ...description, route: [{ kind: 'joists', lengthFt: -5 }] } },
    badPath: 'description.route.0.lengthFt',
    pathOf: ({ id }) => `/api/projects/${id}`,
    missing: '/api/projects/none',
  },
  {
    name: 'price item',
    collection: '/api/price-book/items',
    stated: item,
    changed: { ...item, likely: 2500 },
    bad: { ...item, likely: 100 },
    badPath: 'likely',
    pathOf: ({ key }) => `/api/price-book/items/${key}`,
    missing: '/api/price-book/items/none',
  },
  {
    name: 'settings',
    stated: {},
    changed: { businessName: 'The invented electricians' },
    bad: { businessNmae: 'x' },
    badPath: 'businessNmae',
    pathOf: () => '/api/settings',
  },
];

/** A refusal is problem details (RFC 9457), with its status within. */
function expectProblem(response: Response, status: number): void {
  expect(response.status).toBe(status);
  expect(response.headers['content-type']).toMatch(/^application\/problem\+json/);
  expect(response.body).toMatchObject({ type: 'about:blank', status });
  expect(response.body.title).not.toBe('');
  expect(response.body.detail).not.toBe('');
}

describe.each(RESOURCES.map((resource) => [resource.name, resource] as const))('%s', (_name, resource) => {
  const { collection, stated, changed, bad, badPath, missing } = resource;
  let running: ReturnType<typeof openApp>;
  let path: string;
  let etag: string;

  beforeAll(async () => {
    running = openApp();
    const { app } = running;
    const made = collection
      ? await request(app).post(collection).send(stated)
      : await request(app).get('/api/settings');
    expect(made.status).toBe(collection ? 201 : 200);
    path = resource.pathOf(made.body);
    if (collection) expect(made.headers.location).toBe(path);
    etag = made.headers.etag ?? '';
  });
  afterAll(() => running.close());

  /** Reads it again: after every refusal it must be there, unchanged. */
  async function expectUnchanged(): Promise<void> {
    const { status, headers } = await request(running.app).get(path);
    expect(status).toBe(200);
    expect(headers.etag).toBe(etag);
  }

  it('has an entity tag, and is not sent again to who has it', async () => {
    await expectUnchanged();
    expect((await request(running.app).get(path).set('If-None-Match', etag)).status).toBe(304);
  });

  it('is not changed by who does not say what was read', async () => {
    expectProblem(await request(running.app).put(path).send(changed), 428);
    await expectUnchanged();
  });

  it.each(['"4711"', '4711', 'W/"1"', 'nonsense', '""'])('is not changed by who read another one: %s', async (tag) => {
    expectProblem(await request(running.app).put(path).set('If-Match', tag).send(changed), 412);
    await expectUnchanged();
  });

  it('names the field that will not do', async () => {
    const refused = await request(running.app).put(path).set('If-Match', etag).send(bad);
    expectProblem(refused, 422);
    expect(refused.body.errors.map((error: { path: string }) => error.path)).toContain(badPath);
    await expectUnchanged();
  });

  it.each([
    ['no JSON', '{"title": NaN}'],
    ['half a JSON', '{"title": "x"'],
    ['nothing', ''],
    ['brackets without end', '['.repeat(5000)],
  ])('refuses %s', async (_title, body) => {
    const asked = request(running.app).put(path).set('If-Match', etag).set('Content-Type', 'application/json');
    expectProblem(await asked.send(body), 400);
    await expectUnchanged();
  });

  it('refuses what is not UTF-8', async () => {
    const asked = request(running.app).put(path).set('If-Match', etag).set('Content-Type', 'application/json');
    const bytes = Buffer.from([0x7b, 0xff, 0x7d]);
    expectProblem(await asked.serialize(() => bytes as unknown as string).send({}), 400);
    await expectUnchanged();
  });

  it('refuses another content type', async () => {
    const asked = request(running.app).put(path).set('If-Match', etag).set('Content-Type', 'text/plain');
    expectProblem(await asked.send('title'), 415);
    await expectUnchanged();
  });

  it('refuses a body above 1 MB', async () => {
    const large = await request(running.app)
      .put(path)
      .set('If-Match', etag)
      .send({ title: 'x'.repeat(1024 * 1024) });
    expectProblem(large, 413);
    await expectUnchanged();
  });

  it('refuses a list where an object belongs', async () => {
    expectProblem(await request(running.app).put(path).set('If-Match', etag).send([]), 422);
    await expectUnchanged();
  });

  it('names the methods that are possible', async () => {
    const refused = await request(running.app).patch(path).send({});
    expectProblem(refused, 405);
    expect(refused.headers.allow).toBe(collection ? 'GET, HEAD, PUT, DELETE' : 'GET, HEAD, PUT');
    await expectUnchanged();
  });

  if (missing !== undefined)
    it('is not found where there is none, whatever is asked of it', async () => {
      expectProblem(await request(running.app).get(missing), 404);
      expectProblem(await request(running.app).put(missing).set('If-Match', '"1"').send(changed), 404);
      expectProblem(await request(running.app).delete(missing).set('If-Match', '"1"'), 404);
    });

  it('is changed by who read it, and tells the other of two', async () => {
    const first = await request(running.app).put(path).set('If-Match', etag).send(changed);
    expect(first.status).toBe(200);
    expect(first.headers.etag).not.toBe(etag);
    expect(first.body).toMatchObject({ ...changed, ...(changed.description ? { description: {} } : {}) });
    const second = await request(running.app).put(path).set('If-Match', etag).send(stated);
    expectProblem(second, 412);
    expect(second.headers.etag).toBe(first.headers.etag);
    etag = first.headers.etag ?? '';
    await expectUnchanged();
  });

  it('takes back what it answered, and any revision where that is asked for', async () => {
    const { body } = await request(running.app).get(path);
    const saved = await request(running.app).put(path).set('If-Match', '*').send(body);
    expect(saved.status).toBe(200);
    etag = saved.headers.etag ?? '';
    await expectUnchanged();
  });

  if (collection !== undefined)
    it('is removed by who read it, and only then', async () => {
      expectProblem(await request(running.app).delete(path), 428);
      expectProblem(await request(running.app).delete(path).set('If-Match', '"4711"'), 412);
      await expectUnchanged();
      expect((await request(running.app).delete(path).set('If-Match', etag)).status).toBe(204);
      expectProblem(await request(running.app).get(path), 404);
    });
});
