import { afterEach, describe, expect, it } from 'vitest';
import type { Data } from '../../db/open.ts';
import { type OtherProcess, startOther } from './other-process.ts';
import { opens, scratchPath, task } from './scratch.ts';

const KILLS = 200;
/** So many data folders at once: starting a process takes longer than what it does until it is killed. */
const FOLDERS = 4;
const SEED = 20260302;

const others: OtherProcess[] = [];
afterEach(async () => {
  for (const other of others.splice(0)) await other.kill();
});

/** What the other process said of the book once a change was saved. */
interface Told {
  revision: number;
  items: number;
  sum: number;
}

/** A random number from 0 to 1 of a seed, by a linear congruence (multiplier and increment of Numerical Recipes). */
function randomOf(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

function bookAt({ prices }: Data, revision: number): Told {
  const { items } = prices.snapshot(revision);
  return { revision, items: items.length, sum: items.reduce((total, { likely }) => total + likely, 0) };
}

/** Lets another process change the book and kills it at a random moment; then all that it told must be there. */
async function killOnce(dir: string, random: () => number): Promise<number> {
  const other = startOther('book', dir);
  others.push(other);
  await other.said(1);
  await new Promise((resolve) => setTimeout(resolve, random() * 120));
  await other.kill();
  const told = other.lines().map((line) => JSON.parse(line) as Told);
  const data = opens(dir);
  const last = told.at(-1);
  if (!last) throw new Error('It said something before it was killed.');
  expect(data.check()).toEqual([]);
  data.db.exec("INSERT INTO price_item_search (price_item_search, rank) VALUES ('integrity-check', 1)");
  expect(bookAt(data, last.revision)).toEqual(last);
  expect(data.prices.revision()).toBeGreaterThanOrEqual(last.revision);
  expect(data.prices.revision()).toBeLessThanOrEqual(last.revision + 1); // at most the one that was on its way
  expect(data.prices.revisions().total).toBe(data.prices.revision());
  expect(bookAt(data, data.prices.revision()).items).toBe(data.prices.list().total);
  data.close();
  return told.length;
}

describe('a power cut', () => {
  it(`at ${KILLS} random moments of edits and imports leaves a sound file, and every acknowledged change in it`, async () => {
    const changes = await Promise.all(
      Array.from({ length: FOLDERS }, async (_, at) => {
        const random = randomOf(SEED + at);
        const dir = scratchPath();
        const data = opens(dir);
        data.prices.importItems([task()]);
        data.close();
        let told = 0;
        for (let kill = 0; kill < KILLS / FOLDERS; kill += 1) told += await killOnce(dir, random);
        return told;
      }),
    );
    expect(Math.min(...changes)).toBeGreaterThanOrEqual(KILLS / FOLDERS);
  }, 900_000);
});
