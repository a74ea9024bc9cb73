import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { DEMO_PROJECT } from '../../db/demo.ts';
import { soundDescription, withValue } from '../estimate/description-example.ts';
import { feedrun, serve, workFolder } from './run.ts';

const { folder, remove } = workFolder();
const run = (args: string[], input = '') => feedrun(args, { cwd: folder, input });
/** A short way with two options: what is tested is the terminal, and each run makes the whole answer. */
const short = { ...soundDescription(), route: '12 joists' };
const demo = { ...DEMO_PROJECT.description, asOf: '2026-03-02' };

beforeAll(() => {
  writeFileSync(join(folder, 'short.json'), JSON.stringify(short));
  writeFileSync(join(folder, 'demo.json'), JSON.stringify(demo));
});
afterAll(remove);

describe('feedrun estimate', () => {
  it('prints the options side by side and one of them in full, at most 100 characters wide', async () => {
    const { code, out, err } = await run(['estimate', 'demo.json', '--option', 'panel-80']);
    expect([code, err]).toEqual([0, '']);
    for (const { label } of demo.options) expect(out.replaceAll(/\s+/g, ' ')).toContain(label.split(',')[0]);
    expect(out).toMatch(/^Total +\$[\d,]+/m);
    expect(out).toMatch(/^Cost +[\d,]+\.\d\d$/m);
    expect(out).toContain('Not a permit');
    expect(Math.max(...out.split('\n').map((line) => line.length))).toBeLessThanOrEqual(100);
    expect(out).not.toContain('undefined');
    expect(out).not.toMatch(/NaN|\[object/);
  });

  it('prints nothing but JSON where that is asked for, the same from a file and from standard input', async () => {
    const file = await run(['estimate', 'short.json', '--json']);
    const piped = await run(['estimate', '-', '--json'], JSON.stringify(short));
    expect([file.code, file.err]).toEqual([0, '']);
    expect(file.out).toBe(piped.out);
    expect(JSON.parse(file.out).options.map(({ id }: { id: string }) => id)).toEqual(['a', 'b']);
  });

  it('leaves nothing behind: no data folder, no file', async () => {
    await run(['estimate', 'short.json']);
    expect(existsSync(join(folder, 'data'))).toBe(false);
  });

  it('gives the bytes that a server over the same prices gives', async () => {
    const server = await serve(['--data', 'served'], { cwd: folder });
    const answer = await fetch(`${server.address}/api/estimates`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(short),
    });
    const text = await answer.text();
    const beside = await run(['estimate', 'short.json', '--json', '--data', 'served']);
    await server.stop();
    expect(beside.out).toBe(`${text}\n`);
    const withoutData = await run(['estimate', 'short.json', '--json']);
    const totals = (json: string) => JSON.parse(json).options.map((option: { totals: object }) => option.totals);
    expect(totals(withoutData.out)).toEqual(totals(text));
  });

  it('writes the paper and the lines where it is told to', async () => {
    const { code } = await run(['estimate', 'short.json', '--pdf', 'a.pdf', '--csv', 'a.csv', '--paper', 'comparison']);
    expect(code).toBe(0);
    expect(readFileSync(join(folder, 'a.pdf')).subarray(0, 5).toString()).toBe('%PDF-');
    expect(readFileSync(join(folder, 'a.csv'), 'utf8').trim().split('\n').length).toBeGreaterThan(5);
    const csv = await run(['estimate', 'short.json', '--csv', '-']);
    expect(csv.out).toBe(readFileSync(join(folder, 'a.csv'), 'utf8'));
  });
});

describe('the one-line form', () => {
  const line = ['estimate', '--route', '12 joists, 9 lawn-trench', '--json'];
  const described = async (...words: string[]) => {
    const { code, out, err } = await run([...line, ...words]);
    expect([code, err]).toEqual([0, '']);
    return JSON.parse(out).description;
  };

  it('asks for a circuit to a detached building on an unknown service unless more is said', async () => {
    const { site, options, route } = await described('--charger', '48A');
    expect(site).toMatchObject({ building: 'detached', service: { ratingA: null }, load: { method: 'unknown' } });
    expect(options).toMatchObject([{ feed: 'dedicated-circuit', chargers: [{ amps: 48 }] }]);
    expect(route.map(({ lengthFt }: { lengthFt: number }) => lengthFt)).toEqual([12, 9]);
  });

  it('says in one word where the disconnect of a building stands', async () => {
    const { out } = await run(['estimate', '--route', '9 joists, 12 lawn-trench', '--charger', '48A', '--json']);
    expect(out).toContain('"where the supply comes in, for ');
    expect(out).not.toContain('at where');
  });

  it('compares a lone option with nothing', async () => {
    const { out } = await run(['estimate', '--route', '20 joists', '--charger', '48A', '--building', 'attached']);
    expect(out).toMatch(/^Total +\$[\d,]+/m);
    expect(out).toMatch(/^Compared +nothing to compare with$/m);
  });

  it('asks for a subpanel of 12 spaces where it names a feeder', async () => {
    const words = ['--feed', '90A', '--charger', '48', '--building', 'attached', '--service', '200 A'];
    const { site, options } = await described(...words);
    expect(site).toMatchObject({ building: 'attached', service: { ratingA: 200 } });
    expect(options).toMatchObject([{ feed: 'subpanel', subpanel: { feederA: 90, spaces: 12, ratingA: 100 } }]);
  });

  it.each([
    [['--charger', '48A', '--feed', 'big'], '--feed must be amperes, such as 48A, not "big".'],
    [[], '--charger must be stated, such as --charger 48A; only with --feed may it be left out.'],
    [['--charger', '500A'], '--charger must be a number of amperes, at least 6 and at most 80, not 500'],
    [['--charger', '48A', '--building', 'barn'], '--building must be one of attached, detached, outdoor, not "barn"'],
    [
      ['--charger', '48A', '--service', '20'],
      '--service must be a number of amperes, at least 30 and at most 800, not 20',
    ],
  ])('names the word that will not do: %s', async (words, message) => {
    const { code, out, err } = await run([...line, ...words]);
    expect([code, out, err]).toEqual([1, '', `${message}\n`]);
  });

  it('names the words of a route that it does not understand', async () => {
    const { code, err } = await run(['estimate', '--route', '30 joists, 4 lawn-trench cley', '--charger', '48A']);
    expect([code, err]).toEqual([1, '--route leg 2: "cley" is not understood; did you mean "clay"?\n']);
  });
});

describe('wrong input', () => {
  it('ends with 1 and the path, the value and what is allowed', async () => {
    const bad = JSON.stringify(withValue(soundDescription(), 'route.0.lengthFt', -5));
    const { code, out, err } = await run(['estimate', '-', '--json'], bad);
    const message = 'route.0.lengthFt must be a number of feet, more than 0 and at most 3000, not -5\n';
    expect([code, out, err]).toEqual([1, '', message]);
  });

  it.each([
    [['estimate', 'gone.json'], 'gone.json cannot be read: there is no such file or folder.'],
    [['estimate', '.'], '. cannot be read: it is a folder.'],
    [['estimate'], 'Name a file with a description, - for standard input, or --route.'],
    [['estimate', 'short.json', 'demo.json'], 'One file at a time: "demo.json" is too much.'],
    [['estimate', 'short.json', '--feed', '90A'], '--feed goes with --route; a file says it itself.'],
    [['estimate', 'short.json', '--option', 'z'], 'option must be the id of an option (a, b), not "z"'],
    [
      ['estimate', 'short.json', '--pdf', 'x.pdf', '--paper', 'napkin'],
      '--paper must be one of estimate, comparison, budget, inspection, picklist, crew, permit, digging, showing, not "napkin"',
    ],
    [
      ['estimate', 'short.json', '--csv', 'no/folder/x.csv'],
      'no/folder/x.csv cannot be written: there is no such file or folder.',
    ],
    [['estimate', 'short.json', '--paper', 'comparison'], '--paper goes with --pdf FILE.'],
    [
      ['estimate', 'short.json', '--data', 'nowhere'],
      'The data folder nowhere holds no data yet: "feedrun serve" creates it.',
    ],
    [['invent'], '"invent" is no command; they are serve, estimate, calc, prices, backup, restore, check, help.'],
  ])('ends with 1 and says so: %s', async (args, message) => {
    const { code, err } = await run(args);
    expect([code, err]).toEqual([1, `${message}\n`]);
  });

  it('ends with 1 for an option that there is not', async () => {
    const { code, err } = await run(['estimate', 'short.json', '--jsno']);
    expect(code).toBe(1);
    expect(err).toContain("'--jsno'");
  });

  it('ends with 1 for what is no JSON', async () => {
    const { code, err } = await run(['estimate', '-'], '{"title": NaN}');
    expect(code).toBe(1);
    expect(err).toMatch(/^This is not JSON: /);
  });

  it('prints what there is to say', async () => {
    const [help, asked] = [await run(['help']), await run(['estimate', '--help'])];
    expect(help.code).toBe(0);
    expect(help.out).toContain('feedrun estimate FILE|-');
    expect(asked.out).toBe(help.out);
  });
});
