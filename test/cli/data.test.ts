import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { soundDescription } from '../estimate/description-example.ts';
import { csvOf } from '../estimate/meter/meter-files.ts';
import { feedrun, serve, workFolder } from './run.ts';

const { folder, remove } = workFolder();
const run = (args: string[], input = '') => feedrun([...args, '--data', 'data'], { cwd: folder, input });

let line: string;
beforeAll(async () => {
  const server = await serve(['--data', 'data'], { cwd: folder });
  line = server.line;
  const { code, err } = await server.stop();
  expect([code, err]).toEqual([0, '']);
});
afterAll(remove);

describe('feedrun serve', () => {
  it('says where it is, and where the demo project is', () => {
    expect(line).toMatch(
      /^Feedrun is ready: http:\/\/127\.0\.0\.1:\d+ \(demo project: http:\/\/127\.0\.0\.1:\d+\/projects\/[\w-]+\)\n$/,
    );
  });

  it('ends well when it is told to, by either signal, and starts again with what it had', async () => {
    const server = await serve(['--data', 'data'], { cwd: folder });
    expect(server.line.split('/projects/')[1]).toBe(line.split('/projects/')[1]);
    expect((await server.stop('SIGINT')).code).toBe(0);
  });

  it('keeps a second server away from its data, and says where the first is', async () => {
    const server = await serve(['--data', 'data'], { cwd: folder });
    const second = await run(['serve', '--port', '0']);
    expect(second.code).toBe(2);
    expect(second.err).toContain(server.address);
    const importing = await run(['prices', 'import', '-'], 'key\n');
    expect(importing.code).not.toBe(0);
    await server.stop();
  });

  it('refuses to be open to others without a passphrase', async () => {
    const { code, err } = await run(['serve', '--host', '0.0.0.0']);
    expect(code).toBe(1);
    expect(err).toContain('set FEEDRUN_PASSPHRASE');
  });

  it('says which port is taken', async () => {
    const server = await serve(['--data', 'data'], { cwd: folder });
    const port = new URL(server.address).port;
    const { code, err } = await feedrun(['serve', '--port', port, '--data', 'other'], { cwd: folder });
    await server.stop();
    expect(code).toBe(2);
    expect(err).toContain(port);
  });

  it('still answers after input of every bad kind', async () => {
    const server = await serve(['--data', 'data'], { cwd: folder });
    const post = (body: string, type = 'application/json') =>
      fetch(`${server.address}/api/estimates`, { method: 'POST', headers: { 'content-type': type }, body });
    const sound = JSON.stringify(soundDescription());
    const before = await (await post(sound)).text();
    expect((await post('{')).status).toBe(400);
    expect((await post('[]')).status).toBe(422);
    expect((await post(sound, 'text/plain')).status).toBe(415);
    expect((await post(JSON.stringify({ title: 'x'.repeat(2_000_000) }))).status).toBe(413);
    expect(await (await post(sound)).text()).toBe(before);
    await server.stop();
  });
});

describe('the data from the terminal', () => {
  it('exports prices that come in again without a change, also beside a server', async () => {
    const server = await serve(['--data', 'data'], { cwd: folder });
    const exported = await run(['prices', 'export', 'prices.csv']);
    await server.stop();
    expect([exported.code, exported.err]).toEqual([0, '']);
    const { code, out } = await run(['prices', 'import', 'prices.csv']);
    expect(code).toBe(0);
    expect(out).toMatch(/^0 added, 0 changed, \d{3,} the same\.\n$/);
  });

  it('says what an import would change, changes it, and names bad rows', async () => {
    await run(['prices', 'export', 'prices.csv']);
    const csv = readFileSync(join(folder, 'prices.csv'), 'utf8');
    writeFileSync(
      join(folder, 'named.csv'),
      csv.replace(/^rate-electrician,rate,"[^"]*",/m, 'rate-electrician,rate,Named anew,'),
    );
    writeFileSync(join(folder, 'bad.csv'), csv.replace(/^rate-electrician,rate,/m, 'rate-electrician,rat,'));
    const dry = await run(['prices', 'import', 'named.csv', '--dry-run']);
    expect(dry.out).toMatch(/^0 would be added, 1 would be changed, \d+ the same\.\n$/);
    const bad = await run(['prices', 'import', 'bad.csv']);
    expect(bad.code).toBe(1);
    expect(bad.err).toMatch(/^row \d+ /);
    const real = await run(['prices', 'import', 'named.csv']);
    expect(real.out).toMatch(/^0 added, 1 changed, /);
    expect((await run(['prices', 'export', '-'])).out).toContain('rate-electrician,rate,Named anew,');
  });

  it('removes what a list lacks only when told, and exports the book as it was', async () => {
    await run(['prices', 'export', 'all.csv']);
    const all = readFileSync(join(folder, 'all.csv'), 'utf8');
    writeFileSync(join(folder, 'less.csv'), all.replace(/^rate-helper,.*\n/m, ''));
    expect((await run(['prices', 'import', 'less.csv'])).out).toMatch(/^0 added, 0 changed, \d+ the same\.\n$/);
    const gone = await run(['prices', 'import', 'less.csv', '--remove-missing', '--by', 'Ada', '--why', 'no helper']);
    expect(gone.out).toMatch(/^0 added, 0 changed, 1 removed, \d+ the same\.\n$/);
    expect((await run(['prices', 'export', '-'])).out).not.toContain('\nrate-helper,');
    const first = await run(['prices', 'export', '-', '--revision', '1']);
    expect(first.out).toContain('\nrate-helper,');
    expect((await run(['prices', 'export', '-', '--revision', '99'])).code).toBe(1);
    const both = await run(['prices', 'export', '-', '--revision', '1', '--on', '2026-01-31']);
    expect([both.code, both.err]).toEqual([1, 'on must not be stated beside revision: one of them says which book\n']);
    expect((await run(['prices', 'import', 'all.csv'])).out).toMatch(/^1 added, /);
  });

  it('is sound, is kept, and comes back', async () => {
    expect((await run(['check'])).out).toBe('The data is sound.\n');
    expect((await run(['backup', 'kept.db'])).code).toBe(0);
    expect(existsSync(join(folder, 'kept.db'))).toBe(true);
    const restored = await run(['restore', 'kept.db']);
    expect([restored.code, restored.err]).toEqual([0, '']);
    expect((await run(['check'])).code).toBe(0);
  });

  it.each([
    [['prices', 'send', 'x'], 1, 'Say "prices export FILE" or "prices import FILE", not "prices send".'],
    [['prices', 'export'], 1, 'Name one file: feedrun prices export FILE.'],
    [['backup'], 1, 'Name one file: feedrun backup FILE.'],
    [['check', 'all'], 1, '"all" is too much: feedrun check takes no words.'],
  ])('refuses %s', async (args, code, message) => {
    expect(await run(args)).toMatchObject({ code, err: `${message}\n` });
  });
});

describe('feedrun calc', () => {
  it('lists what there is, and answers one by name', async () => {
    const list = await feedrun(['calc'], { cwd: folder });
    expect(list.out).toMatch(/^voltage-drop +\S/m);
    const { code, out } = await feedrun(['calc', 'three-point', '{"low":1,"likely":2,"high":3}'], { cwd: folder });
    expect(code).toBe(0);
    expect(JSON.parse(out)).toMatchObject({ name: 'three-point', result: { mean: 2 } }); // symmetric: the mean is the middle
  });

  it('reads from standard input what is too long for a word of a command line', async () => {
    // A reading an hour for three years: some 1.2 MB, where a word may have 128 kB. All of 1.5 kWh: 1500 W / 240 V = 6.25 A.
    const hours = Array.from({ length: 3 * 365 * 24 }, (_, hour) => hour);
    const readings = hours.map((hour) => ({ start: new Date(Date.UTC(2023, 0, 1, hour)).toISOString(), kWh: 1.5 }));
    const input = JSON.stringify({ readings, intervalMinutes: 60 });
    const { code, out, err } = await feedrun(['calc', 'measured-demand', '-'], { cwd: folder, input });
    expect([code, err]).toEqual([0, '']);
    expect(JSON.parse(out)).toMatchObject({ name: 'measured-demand', result: { peakA: 6.25, days: 1095 } });
  });

  // Made up: 12 kW in one quarter hour of 31 days are 50 A at 240 V, and 57.69 A at 208 V.
  it('reads a utility’s interval file', async () => {
    writeFileSync(
      join(folder, 'meter.csv'),
      csvOf('Start,kWh', ({ start, kWh }) => `${start},${kWh}`),
    );
    const words = ['calc', 'measured-demand', '--readings', 'meter.csv'];
    const { code, out } = await feedrun(words, { cwd: folder });
    expect([code, JSON.parse(out)]).toMatchObject([0, { name: 'measured-demand', load: { peakA: 50, days: 31 } }]);
    const at208 = await feedrun([...words, '{"voltageV":208}'], { cwd: folder });
    expect(JSON.parse(at208.out).load.peakA).toBe(57.7);
    writeFileSync(join(folder, 'bad.csv'), 'Start,kWh\n2026-05-01 00:00,much\n');
    const bad = await feedrun(['calc', 'measured-demand', '--readings', 'bad.csv'], { cwd: folder });
    expect(bad).toMatchObject({ code: 1, err: 'row 2, column kWh must be a number, not "much"\n' });
    expect((await feedrun(['calc', 'trench', '--readings', 'meter.csv'], { cwd: folder })).err).toBe(
      '--readings goes with measured-demand, not with trench.\n',
    );
  });

  it('says that what stands on standard input is not JSON', async () => {
    const { code, err } = await feedrun(['calc', 'three-point', '-'], { cwd: folder, input: '{"low":' });
    expect(code).toBe(1);
    expect(err).toContain('JSON');
  });

  it('names what will not do', async () => {
    const { code, err } = await feedrun(['calc', 'three-points', '{}'], { cwd: folder });
    expect(code).toBe(1);
    expect(err).toContain('"three-points" is no calculation; they are ');
  });
});
