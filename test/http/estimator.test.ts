import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { PassThrough } from 'node:stream';
import { pathToFileURL } from 'node:url';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { packageRoot } from '../../db/package-root.ts';
import { readDescription } from '../../server/estimate/description.ts';
import { InputError } from '../../server/estimate/input-problems.ts';
import { type Book, bookOf } from '../../server/estimate/price-book.ts';
import { type Asked, type Estimator, estimator } from '../../server/http/estimator.ts';
import { seedPrices } from '../../server/seed-prices.ts';
import { feedrun, serve, workFolder } from '../cli/run.ts';
import { circuit, soundDescription, withValue } from '../estimate/description-example.ts';
import { TODAY } from './running-app.ts';

const items = seedPrices().map((item) => ({ ...item, revision: 1 }));
/** A short job, for what is tested is who makes it. */
const SHORT = { ...soundDescription(), route: '12 joists', options: [circuit('a', 32)], asOf: TODAY };
const asked = (more: Partial<Asked> = {}): Asked => ({
  description: readDescription(SHORT),
  book: bookOf(items, 1),
  parts: 'all',
  ...more,
});
const COMPILED = pathToFileURL(join(packageRoot, 'dist', 'server', 'http', 'estimate-worker.js'));
const optionsIn = (text: string | undefined) =>
  JSON.parse(text ?? '{}').options?.map(({ id, range }: { id: string; range?: object }) => [id, range !== undefined]);

describe('whole estimates beside the thread of the server', () => {
  const { folder, remove } = workFolder();
  let server: Awaited<ReturnType<typeof serve>>;
  beforeAll(async () => {
    server = await serve(['--data', 'data'], { cwd: folder });
  });
  afterAll(async () => {
    await server.stop();
    remove();
  });
  const description = JSON.stringify(SHORT);
  const ask = async (query: string) => {
    const headers = { 'content-type': 'application/json' };
    return (
      await fetch(`${server.address}/api/estimates${query}`, { method: 'POST', headers, body: description })
    ).text();
  };

  it('let a core answer come that was asked for later', async () => {
    const came: string[] = [];
    await Promise.all(['', '?parts=core'].map((query) => ask(query).then(() => came.push(query))));
    expect(came).toEqual(['?parts=core', '']);
  });

  it('are the bytes that the terminal prints', async () => {
    writeFileSync(join(folder, 'short.json'), description);
    const { out } = await feedrun(['estimate', 'short.json', '--json', '--data', 'data'], { cwd: folder });
    expect(`${await ask('')}\n`).toBe(out);
  });
});

describe('a thread for estimates', () => {
  let made: Estimator;
  afterEach(() => made.close());

  it('answers each with its own book, one after the other', async () => {
    made = estimator({ workerFile: COMPILED, most: 1 });
    const texts = await Promise.all(
      [1, 1, 2].map((revision) => made.textFor(new PassThrough(), asked({ book: bookOf(items, revision) }))),
    );
    expect(texts.map((text) => JSON.parse(text ?? '{}').bookRevision)).toEqual([1, 1, 2]);
    expect(texts[1]).toBe(texts[0]);
  });

  it('refuses what an estimate refuses, with its path', async () => {
    made = estimator({ workerFile: COMPILED, most: 1 });
    const tooMuch = withValue(SHORT, 'terms.discountCents', 900_000_000);
    const refused = made.textFor(new PassThrough(), asked({ description: readDescription(tooMuch) }));
    await expect(refused).rejects.toThrow(InputError);
    expect(optionsIn(await made.textFor(new PassThrough(), asked()))).toEqual([['a', true]]);
  });

  it('lets go of what is asked by clients that went, made or waiting', async () => {
    made = estimator({ workerFile: COMPILED, most: 1 });
    const clients = [new PassThrough(), new PassThrough(), new PassThrough()];
    const texts = clients.map((client) => made.textFor(client, asked()));
    setImmediate(() => setImmediate(() => clients.slice(0, 2).map((client) => client.destroy()))); // after their turn
    expect(await Promise.all(texts.slice(0, 2))).toEqual([undefined, undefined]);
    expect(optionsIn(await texts[2])).toEqual([['a', true]]);
  });

  it('is done without where none can start', async () => {
    made = estimator({ workerFile: pathToFileURL(join(packageRoot, 'no-such-file.js')), most: 1 });
    expect(optionsIn(await made.textFor(new PassThrough(), asked()))).toEqual([['a', true]]);
  });
});

describe('an estimate whose client went before its turn', () => {
  it.each(['core', 'all'] as const)('is not made: %s', async (parts) => {
    let lookedUp = 0;
    const kept = bookOf(items, 1);
    const book: Book = {
      ...kept,
      byKey: (key) => {
        lookedUp += 1;
        return kept.byKey(key);
      },
    };
    const made = estimator({ most: 0 });
    const client = new PassThrough();
    const text = made.textFor(client, asked({ book, parts }));
    client.destroy();
    expect([await text, lookedUp]).toEqual([undefined, 0]);
    expect(optionsIn(await made.textFor(new PassThrough(), asked({ book, parts: 'core' })))).toEqual([['a', false]]);
    expect(lookedUp).toBeGreaterThan(0);
  });
});
