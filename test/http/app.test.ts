import request from 'supertest';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openApiDocument } from '../../server/http/openapi.ts';
import { openApp } from './running-app.ts';

let running: ReturnType<typeof openApp>;
beforeAll(() => {
  running = openApp();
});
afterAll(() => running.close());

describe('the whole server', () => {
  it('says that it is there', async () => {
    const { status, body } = await request(running.app).get('/healthz');
    expect([status, body]).toEqual([200, { status: 'ok' }]);
  });

  it('sends headers that keep a browser safe with every answer', async () => {
    for (const path of ['/healthz', '/api/settings', '/api/nothing']) {
      const { headers } = await request(running.app).get(path);
      expect(headers['content-security-policy']).toContain("default-src 'self'");
      expect(headers['content-security-policy']).not.toContain('unsafe-inline');
      expect(headers['x-content-type-options']).toBe('nosniff');
      expect(headers['x-frame-options']).toBe('SAMEORIGIN');
      expect(headers['referrer-policy']).toBe('no-referrer');
      expect(headers['x-powered-by']).toBeUndefined();
      expect(headers['strict-transport-security']).toBeUndefined(); // by http it would be void
    }
  });

  it.each(['/api/nothing', '/api/orders', '/nothing', '/api/projects/a/b/c', '/../etc/passwd', '/api/%ZZ'])(
    'answers with problem details where there is nothing: %s',
    async (path) => {
      const { status, headers, body } = await request(running.app).get(path).set('Accept', 'application/json');
      expect([400, 404]).toContain(status); // a path that cannot be decoded is 400
      expect(headers['content-type']).toMatch(/^application\/problem\+json/);
      expect(body.status).toBe(status);
    },
  );

  it('asks for its passphrase everywhere once it has one', async () => {
    const shut = openApp({ passphrase: 'three old oaks' });
    for (const path of ['/', '/healthz', '/api/projects', '/api/nothing', '/assets/x.js']) {
      expect((await request(shut.app).get(path)).status).toBe(401);
    }
    expect((await request(shut.app).get('/healthz').auth('anna', 'three old oaks')).status).toBe(200);
    shut.close();
  });

  it('is reached by no foreign name', async () => {
    expect((await request(running.app).get('/api/projects').set('Host', 'evil.example')).status).toBe(421);
  });
});

describe('calculations over HTTP', () => {
  it('answer by name, and are all listed', async () => {
    const { body } = await request(running.app).get('/api/calculations');
    expect(body.items.map(({ name }: { name: string }) => name)).toContain('three-point');
    const answer = await request(running.app)
      .post('/api/calculations/three-point')
      .send({ low: 1, likely: 2, high: 3 });
    expect(answer.body).toMatchObject({ input: { weight: 4 }, result: { mean: 2 } }); // symmetric: the mean is the middle
  });

  it('refuse what is no input of theirs, and names that are none', async () => {
    const refused = await request(running.app).post('/api/calculations/three-point').send({ low: 1, likely: 2 });
    expect(refused.status).toBe(422);
    expect(refused.body.errors[0].path).toBe('high');
    expect((await request(running.app).post('/api/calculations/none').send({})).status).toBe(404);
  });
});

describe('the OpenAPI document', () => {
  const document = openApiDocument() as {
    openapi: string;
    paths: Record<string, Record<string, { responses: Record<string, unknown> }>>;
    components: { schemas: Record<string, unknown> };
  };

  it('is served as it is made, in version 3.1', async () => {
    const { status, body } = await request(running.app).get('/api/openapi.json');
    expect(status).toBe(200);
    expect(body.openapi).toMatch(/^3\.1\./);
    expect(body).toEqual(JSON.parse(JSON.stringify(document)));
  });

  it('names no schema that is not there', () => {
    const named = [...JSON.stringify(document).matchAll(/"#\/components\/schemas\/([^"]+)"/g)].map(([, name]) => name);
    expect(named.length).toBeGreaterThan(10);
    expect(named.filter((name) => document.components.schemas[name ?? ''] === undefined)).toEqual([]);
  });

  it('names no address that does not answer, and no method that is not possible there', async () => {
    for (const [path, methods] of Object.entries(document.paths)) {
      const address = path.replace('{id}', 'none').replace('{key}', 'none').replace('{name}', 'none');
      const refused = await request(running.app).trace(address);
      expect([path, refused.status]).toEqual([path, 405]);
      const allowed = String(refused.headers.allow).toLowerCase().split(', ');
      expect(Object.keys(methods).filter((method) => !allowed.includes(method))).toEqual([]);
      expect(allowed.filter((method) => method !== 'head' && !(method in methods))).toEqual([]);
    }
  });

  it('offers the route line in the description', () => {
    expect(JSON.stringify(document.components.schemas.Description)).toContain('A route line, such as');
  });

  it('has the description alone beside it', async () => {
    const { status, body } = await request(running.app).get('/api/description.schema.json');
    expect(status).toBe(200);
    expect(body).toMatchObject({ $schema: 'https://json-schema.org/draft/2020-12/schema', type: 'object' });
  });
});
