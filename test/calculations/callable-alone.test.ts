import request from 'supertest';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { CALCULATIONS, calculate, calculationSheets } from '../../server/calculations.ts';
import { feedrun, workFolder } from '../cli/run.ts';
import { openApp } from '../http/running-app.ts';

let running: ReturnType<typeof openApp>;
const { folder, remove } = workFolder();
beforeAll(() => {
  running = openApp();
});
afterAll(() => {
  running.close();
  remove();
});

const EXAMPLES = CALCULATIONS.map((calculation) => ({ name: calculation.name, calculation }));

describe('over HTTP', () => {
  it.each(EXAMPLES)('$name answers as it does here', async ({ name, calculation }) => {
    const { status, body } = await request(running.app).post(`/api/calculations/${name}`).send(calculation.example);
    expect(status).toBe(200);
    expect(Object.keys(body)).toEqual(['name', 'input', 'result', 'because', 'citations']);
    expect(body).toEqual(JSON.parse(JSON.stringify(calculate(calculation, calculation.example))));
  });

  it.each(EXAMPLES)('$name refuses an unknown field at its path', async ({ name, calculation }) => {
    const { status, body } = await request(running.app)
      .post(`/api/calculations/${name}`)
      .send({ ...calculation.example, colour: 'red' });
    expect(status).toBe(422);
    expect(body.errors.map(({ path }: { path: string }) => path)).toEqual(['colour']);
  });

  it('lists every calculation with its schemas', async () => {
    const { body } = await request(running.app).get('/api/calculations');
    expect(body.items).toEqual(JSON.parse(JSON.stringify(calculationSheets())));
  });

  it('has a path for each in the OpenAPI document, with its own fields', async () => {
    const { body } = await request(running.app).get('/api/openapi.json');
    const documented = Object.keys(body.paths).filter((path) => path.startsWith('/api/calculations/'));
    expect(documented.toSorted()).toEqual(CALCULATIONS.map(({ name }) => `/api/calculations/${name}`).toSorted());
    const { schema, example } = body.paths['/api/calculations/trench'].post.requestBody.content['application/json'];
    expect(schema.required).toEqual(['lengthFt', 'widthIn', 'depthIn']);
    expect(example).toEqual({ lengthFt: 41, widthIn: 6, depthIn: 24 });
  });
});

describe('in the terminal', () => {
  it('a calculation prints JSON alone, the same as everywhere', async () => {
    const { code, out, err } = await feedrun(['calc', 'conductor', JSON.stringify(EXAMPLES[0]?.calculation.example)], {
      cwd: folder,
    });
    expect([code, err]).toEqual([0, '']);
    // 48 A × 125 % = 60 A; 6 AWG copper has 65 A in the 75 °C column of Table 310.16
    expect(JSON.parse(out)).toMatchObject({ name: 'conductor', result: { ocpdA: 60, size: '6', ampacityA: 65 } });
  });

  it('a refusal names the field, and ends with 1', async () => {
    const { code, out, err } = await feedrun(['calc', 'trench', '{"lengthFt":41,"widthIn":6,"depth":24}'], {
      cwd: folder,
    });
    expect([code, out]).toEqual([1, '']);
    expect(err).toContain('depthIn must be a number of inches');
    expect(err).toContain('depth is not a field that is known here ("depth"); did you mean "depthIn"?');
  });

  it('the list names each with what it decides', async () => {
    const { out } = await feedrun(['calc'], { cwd: folder });
    for (const { name, decides } of CALCULATIONS) {
      expect(out.split('\n').some((line) => line.startsWith(name) && line.endsWith(decides))).toBe(true);
    }
  });
});
