import request from 'supertest';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { MeterAnswer } from '../../server/estimate/meter/meter-answer.ts';
import { csvOf, espiOf } from '../estimate/meter/meter-files.ts';
import { openApp } from './running-app.ts';

let running: ReturnType<typeof openApp>;
beforeAll(() => {
  running = openApp();
});
afterAll(() => running.close());

const post = (body: string, { query = '', type = 'text/csv' } = {}) =>
  request(running.app).post(`/api/meter-readings${query}`).set('Content-Type', type).send(body);
const FILE = csvOf('Start,kWh', ({ start, kWh }) => `${start},${kWh}`);

describe('a utility’s file over HTTP', () => {
  // 12 kW: 50 A at 240 V, 12,000 / 208 = 57.69 A at 208 V; written up to a tenth.
  it('answers with what was found, at the volts that are said', async () => {
    const { status, body } = await post(FILE);
    expect(status).toBe(200);
    expect(MeterAnswer.parse(body).load).toEqual({ method: 'measured', peakA: 50, days: 31 });
    expect((await post(FILE, { query: '?voltageV=208' })).body.load.peakA).toBe(57.7);
    expect((await post(FILE, { query: '?solar=true' })).body.load).toBeNull();
    expect((await post(espiOf(), { type: 'application/xml' })).body.found.format).toBe('green-button');
  });

  it('names row, column and value of what it cannot read', async () => {
    const { status, body } = await post('Start,kWh\n2026-05-01 00:00,much\n');
    expect(status).toBe(422);
    expect(body.errors).toEqual([{ path: 'row 2, column kWh', message: 'must be a number, not "much"' }]);
  });

  it('refuses another content type, and words that are not asked for', async () => {
    expect((await post('{}', { type: 'application/json' })).status).toBe(415);
    const { status, body } = await post(FILE, { query: '?volts=240' });
    expect([status, body.errors[0].path]).toEqual([422, 'volts']);
    expect((await post(FILE, { query: '?voltageV=many' })).body.errors[0].path).toBe('voltageV');
  });
});
