import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { BookRevision } from '../../db/book-revisions.ts';
import type { PriceItem } from '../../server/estimate/price-book.ts';
import { type Bench, setBench } from './harness.ts';

let bench: Bench;
beforeAll(async () => {
  bench = await setBench();
});
afterAll(() => bench?.clear());

const itemAt = (key: string) => bench.ask<PriceItem>(`/api/price-book/items/${key}`);
const newestRevision = async () =>
  (await bench.ask<{ items: BookRevision[] }>('/api/price-book/revisions')).items[0] as BookRevision;
const search = (page: Page, words: string) => page.getByRole('searchbox', { name: 'Search the book' }).fill(words);
const choose = (page: Page, text: string) =>
  page.locator('input[type=file]').setInputFiles({ name: 'list.csv', mimeType: 'text/csv', buffer: Buffer.from(text) });

/** 8 % more, in whole cents as packages have them: cents × 108 ÷ 100, half a cent up. */
const raised = (cents: number) => Math.floor((cents * 108 + 50) / 100);

describe('several prices at once', () => {
  it('marks by Shift and the arrows, raises by 8 %, says who and why, and undoes as one', async () => {
    const { page, complaints, close } = await bench.open('/prices');
    await page.getByRole('textbox', { name: 'Changed by' }).fill('A. Tester');
    await page.getByRole('textbox', { name: 'because' }).fill('spring list');
    await page.getByRole('combobox', { name: 'Category' }).selectOption('breaker');
    const point = page.locator('.point[aria-label^="low of breaker"]').first();
    await point.focus();
    await page.keyboard.press('ArrowLeft'); // to the item
    await page.keyboard.press('Shift+ArrowDown');
    await page.keyboard.press('Shift+ArrowDown');
    await page.getByText('3 items marked').waitFor();
    const keys = await page
      .locator('tr.marked')
      .evaluateAll((rows) => rows.map((row) => (row as HTMLElement).dataset.key));
    const before = await Promise.all(keys.map((key) => itemAt(key ?? '')));
    await page.keyboard.press('F6');
    await page.keyboard.type('8');
    await page.keyboard.press('Enter');
    const undo = page.getByRole('button', { name: 'Undo: 3 items raised by 8 %' });
    await undo.waitFor();
    for (const was of before) {
      const now = await itemAt(was.key);
      const packages = now.offers.map(({ likelyCents }) => likelyCents);
      expect(packages).toEqual(was.offers.map(({ likelyCents }) => raised(likelyCents)));
      if (was.offers.length === 0) expect(now.likely).toBeCloseTo(was.likely * 1.08, 4);
    }
    expect(await newestRevision()).toMatchObject({ cause: 'several', items: 3, by: 'A. Tester', why: 'spring list' });
    await page.keyboard.press('Control+z');
    await undo.waitFor({ state: 'detached' });
    for (const was of before) {
      const { revision: _now, ...now } = await itemAt(was.key);
      const { revision: _was, ...then } = was;
      expect(now).toEqual(then);
    }
    await page.reload();
    expect(await page.getByRole('textbox', { name: 'Changed by' }).inputValue()).toBe('A. Tester');
    expect(complaints).toEqual([]);
    await close();
  });

  it('raises nothing where somebody changed one of them meanwhile, and says which', async () => {
    const rate = await itemAt('rate-operator');
    const { page, close } = await bench.open('/prices');
    await search(page, 'rate-operator');
    await page.getByRole('checkbox', { name: `Mark ${rate.description}` }).click();
    const { revision, ...stated } = rate;
    await bench.ask('/api/price-book/items/rate-operator', {
      method: 'PUT',
      headers: { 'content-type': 'application/json', 'if-match': `"${revision}"` },
      body: JSON.stringify({ ...stated, high: rate.high + 500 }),
    });
    await page.getByRole('textbox', { name: 'Percent to raise by' }).fill('8');
    await page.keyboard.press('Enter');
    await page.getByRole('alert').getByText('rate-operator').waitFor();
    expect((await itemAt('rate-operator')).likely).toBe(rate.likely);
    const mark = page.getByRole('checkbox', { name: `Mark ${rate.description}` });
    await mark.click(); // no longer, and then anew: as it is by now
    await mark.click();
    await page.getByRole('textbox', { name: 'Percent to raise by' }).fill('8');
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Undo: 1 item raised by 8 %' }).waitFor();
    await close();
  });

  it('moves a category by an index as of a day, lists it so, and takes it back from the list', async () => {
    const { items } = await bench.ask<{ items: PriceItem[] }>('/api/price-book/items?category=cable');
    const [cable] = items;
    const bought = cable?.offers[0];
    if (!cable || !bought) throw new Error('The starting book sells no cable in packages.');
    const { page, complaints, close } = await bench.open('/prices');
    await page.getByRole('button', { name: 'Move by an index' }).press('Enter');
    await page.getByRole('combobox', { name: 'Category to move' }).selectOption('cable');
    await page.getByRole('textbox', { name: 'Percent that the market moved by' }).fill('+12');
    await page.getByLabel('Day of the index').fill('2026-02-01');
    await page.getByRole('button', { name: 'Move it' }).press('Enter');
    await page.getByText('Done: every price').waitFor();
    const after = await itemAt(cable.key);
    // cents × 112 ÷ 100, half a cent up
    expect(after.offers[0]?.likelyCents).toBe(Math.floor((bought.likelyCents * 112 + 50) / 100));
    expect(after.date).toBe('2026-02-01');
    await page.getByRole('button', { name: 'Revisions' }).press('Enter');
    const { revision } = await newestRevision();
    await page.getByText('an index of cable, +12 % as of 2026-02-01').waitFor();
    await page.getByRole('button', { name: `Undo revision ${revision}`, exact: true }).press('Enter');
    await page.getByText(`undone by revision ${revision + 1}`).waitFor();
    expect((await itemAt(cable.key)).offers).toEqual(cable.offers);
    expect(complaints).toEqual([]);
    await close();
  });
});

describe('where the work is', () => {
  it('takes a factor for material with its date, which one undo takes back', async () => {
    const was = await itemAt('region-material');
    expect(was.likely).toBe(1); // law: the starting book changes nothing
    const { page, complaints, close } = await bench.open('/prices');
    const factor = page.getByRole('textbox', { name: 'Regional factor of material' });
    await factor.fill('1.15');
    await factor.press('Enter');
    await expect.poll(async () => (await itemAt('region-material')).likely).toBe(1.15);
    expect((await itemAt('region-material')).date).not.toBe(was.date);
    await page.getByRole('button', { name: /^Undo/ }).press('Enter');
    await expect.poll(async () => (await itemAt('region-material')).likely).toBe(1);
    await expect.poll(() => factor.inputValue()).toBe('1');
    expect(complaints).toEqual([]);
    await close();
  });
});

describe('the book of the past', () => {
  it('shows the book as of a revision, to be read only, and leads back', async () => {
    const rate = await itemAt('rate-labourer');
    const { page, complaints, close } = await bench.open('/prices');
    await search(page, 'rate-labourer');
    const likely = page.getByRole('textbox', { name: `likely of ${rate.description}`, exact: true });
    await likely.fill(((rate.likely + 100) / 100).toFixed(2));
    await likely.press('Enter');
    await page.locator('.undo-bar').getByRole('button', { name: /^Undo/ }).waitFor();
    const { revision } = await newestRevision();
    await page.getByRole('button', { name: 'Revisions' }).press('Enter');
    await page
      .getByRole('button', { name: `Show the book as of revision ${revision - 1}`, exact: true })
      .press('Enter');
    await page.getByText(`the book as it was at revision ${revision - 1}`).waitFor();
    const row = page.locator(`tr[data-key="rate-labourer"]`);
    await row.getByText((rate.likely / 100).toFixed(2), { exact: true }).waitFor();
    expect(await row.locator('input:enabled').count()).toBe(0);
    await page.getByRole('button', { name: 'back to the book as it is now' }).press('Enter');
    await expect.poll(() => likely.inputValue()).toBe(((rate.likely + 100) / 100).toFixed(2));
    expect(complaints).toEqual([]);
    await close();
  });
});

describe("a supplier's list", () => {
  it('asks once which item a part is, shows what would change, and then takes it', async () => {
    const rate = await itemAt('blank-cover');
    const { page, complaints, close } = await bench.open('/prices');
    await page.getByRole('button', { name: "Supplier's list" }).press('Enter');
    await page.getByRole('textbox', { name: 'Supplier', exact: true }).fill('corner counter');
    const list = 'part,price\nC-17,2.40\nC-18,much\n';
    await choose(page, list);
    const refused = page.getByRole('table', { name: '1 row refused' });
    expect(await refused.locator('tbody td').first().textContent()).toBe('3'); // the heading is row 1
    await choose(page, list.replace('C-18,much\n', ''));
    await page.getByRole('combobox', { name: 'Item for part C-17' }).fill('blank-cover');
    await page.getByRole('button', { name: 'Keep which part is which item' }).press('Enter');
    await page.getByText('1 row found their item').waitFor();
    expect((await itemAt('blank-cover')).likely).toBe(rate.likely);
    await page.getByRole('button', { name: 'Take the prices into the book' }).press('Enter');
    await page.getByText('Taken: 1 item changed').waitFor();
    expect(await itemAt('blank-cover')).toMatchObject({ likely: 240, supplier: 'corner counter' });
    await choose(page, 'part,price\nC-17,2.60\n'); // the next list knows the part
    await page.getByText('1 row found their item').waitFor();
    expect(complaints).toEqual([]);
    await close();
  });

  it('asks which column is which where the supplier has headings of its own, and knows the next list', async () => {
    const { page, complaints, close } = await bench.open('/prices');
    await page.getByRole('button', { name: "Supplier's list" }).press('Enter');
    await page.getByRole('textbox', { name: 'Supplier', exact: true }).fill('yard');
    await choose(page, 'Article,Net price,Text\nY-1,3.10,a cover\n');
    await page.getByText('which column is which is not known').waitFor();
    const part = page.getByRole('combobox', { name: 'part number' });
    expect(await page.getByRole('combobox', { name: 'price', exact: true }).inputValue()).toBe('Net price'); // proposed
    await part.selectOption('Article');
    await page.getByRole('combobox', { name: 'description' }).selectOption('Text');
    await page.getByRole('button', { name: 'Keep which column is which' }).press('Enter');
    await page.getByRole('row', { name: 'Y-1 a cover' }).waitFor();
    await choose(page, 'Article,Net price,Text\nY-2,3.10,another\n'); // the next list needs no second look
    await page.getByRole('row', { name: 'Y-2 another' }).waitFor();
    expect(complaints).toEqual([]);
    await close();
  });
});
