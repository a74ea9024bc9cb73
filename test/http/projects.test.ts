import request from 'supertest';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { soundDescription } from '../estimate/description-example.ts';
import { openApp } from './running-app.ts';

let running: ReturnType<typeof openApp>;
beforeAll(() => {
  running = openApp();
});
afterAll(() => running.close());

const create = async (stated: object) => (await request(running.app).post('/api/projects').send(stated)).body;

describe('projects over HTTP', () => {
  it('are listed by page, and found by their titles', async () => {
    await create({ title: 'The long lane', description: null });
    await create({ title: 'The short "lane"', description: null });
    const found = async (search: string) =>
      (await request(running.app).get('/api/projects').query({ search })).body.items.map(
        ({ title }: { title: string }) => title,
      );
    expect(await found('long')).toEqual(['The long lane']);
    expect(await found('"lane')).toHaveLength(2);
    expect(await found('nothing of the kind')).toEqual([]);
    const { body } = await request(running.app).get('/api/projects?page=2');
    expect(body).toMatchObject({ items: [], page: 2, pageSize: 50 });
  });

  it('may be without a description as yet, and then have no estimate', async () => {
    const { id } = await create({ title: 'Nothing known yet', draft: { anything: ['half', 'typed'] } });
    const { body } = await request(running.app).get(`/api/projects/${id}`);
    expect(body).toMatchObject({ description: null, draft: { anything: ['half', 'typed'] } });
    expect((await request(running.app).get(`/api/projects/${id}/estimate`)).status).toBe(409);
  });

  it('take their title from the description, and are refused without any', async () => {
    expect(await create({ description: soundDescription() })).toMatchObject({ title: soundDescription().title });
    const refused = await request(running.app).post('/api/projects').send({});
    expect(refused.status).toBe(422);
    expect(refused.body.errors[0].path).toBe('title');
  });

  it('keep a draft of 256 kB, and none that is longer', async () => {
    const { id } = await create({ title: 'Much typed', draft: 'x'.repeat(256 * 1024 - 2) });
    expect(id).toBeTypeOf('string');
    const refused = await request(running.app)
      .post('/api/projects')
      .send({ title: 'Too much typed', draft: 'x'.repeat(256 * 1024 - 1) });
    expect(refused.status).toBe(422);
    expect(refused.body.errors[0].path).toBe('draft');
  });

  it('give the same estimate, to the byte, as their description does alone', async () => {
    const { id } = await create({ description: soundDescription() });
    const { text } = await request(running.app).get(`/api/projects/${id}/estimate?parts=core`);
    expect(text).toBe((await request(running.app).post('/api/estimates?parts=core').send(soundDescription())).text);
  });

  it('come back once they were removed', async () => {
    const { id, revision } = await create({ title: 'Gone and back', description: null });
    await request(running.app).delete(`/api/projects/${id}`).set('If-Match', `"${revision}"`);
    const restored = await request(running.app).post(`/api/projects/${id}/restore`);
    expect(restored.status).toBe(200);
    expect((await request(running.app).get(`/api/projects/${id}`)).body.title).toBe('Gone and back');
    expect((await request(running.app).post('/api/projects/none/restore')).status).toBe(404);
  });

  it('leave as a file and come in again, as another project', async () => {
    const { id } = await create({ description: soundDescription(), draft: { open: 'route' } });
    const file = await request(running.app).get(`/api/projects/${id}/export`);
    expect(file.headers['content-disposition']).toBe(`attachment; filename=feedrun-project-${id}.json`);
    const back = await request(running.app).post('/api/projects/import').send(file.body);
    expect(back.status).toBe(201);
    expect(back.body.id).not.toBe(id);
    const { description, draft } = (await request(running.app).get(`/api/projects/${id}`)).body;
    expect(back.body).toMatchObject({ description, draft });
    const foreign = await request(running.app).post('/api/projects/import').send({ format: 'x' });
    expect(foreign.status).toBe(422);
    expect(foreign.body.errors[0]).toEqual({
      path: 'format',
      message: 'must be "feedrun-project": this is not a project file',
    });
  });

  it('start with the terms of the settings, which no estimate reads', async () => {
    const before = await request(running.app).post('/api/estimates?parts=core').send(soundDescription());
    const settings = await request(running.app).get('/api/settings');
    const put = request(running.app)
      .put('/api/settings')
      .set('If-Match', settings.headers.etag ?? '');
    expect((await put.send({ defaultTerms: { profitBp: 1500 } })).status).toBe(200);
    const { terms: _terms, ...bare } = soundDescription();
    expect((await create({ description: bare })).description.terms.profitBp).toBe(1500);
    expect((await create({ description: soundDescription() })).description.terms.profitBp).toBe(0);
    expect((await request(running.app).post('/api/estimates?parts=core').send(soundDescription())).text).toBe(
      before.text,
    );
  });
});
