import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Estimate } from '../../server/estimate/answer.ts';
import type { PriceItem } from '../../server/estimate/price-book.ts';
import { type Bench, setBench } from './harness.ts';

let bench: Bench;
beforeAll(async () => {
  bench = await setBench();
});
afterAll(() => bench?.clear());

const itemAt = (key: string) => bench.ask<PriceItem>(`/api/price-book/items/${key}`);
const firstTotal = async () => {
  const { options } = await bench.ask<Estimate>(`/api${bench.demoPath}/estimate?parts=core`);
  return options[0]?.totals.totalCents ?? 0;
};

/** Opens the book in a tab in which the demo project was open last, and searches. */
async function bookWithProject(words: string) {
  const opened = await bench.open('/prices');
  const { page } = opened;
  await page.evaluate((id) => sessionStorage.setItem('feedrun-project', id), bench.demoPath.split('/').at(-1) ?? '');
  await page.reload();
  await page.getByRole('searchbox', { name: 'Search the book' }).fill(words);
  await page.locator('.open-totals').waitFor();
  return opened;
}

const focused = (page: Page) => page.evaluate(() => document.activeElement?.getAttribute('aria-label') ?? '');

describe('the price book by keyboard', () => {
  it('says what a price did to the open project, and takes it back', async () => {
    const { page, complaints, close } = await bookWithProject('rate-electrician');
    const rate = await itemAt('rate-electrician');
    const before = await firstTotal();
    await page.getByRole('textbox', { name: `likely of ${rate.description}`, exact: true }).focus();
    await page.keyboard.type(((rate.likely + 100) / 100).toFixed(2));
    await page.keyboard.press('Enter');
    const bar = page.locator('.undo-bar');
    await bar.getByText('dearer').waitFor();
    expect(await firstTotal()).toBeGreaterThan(before);
    const words = await bar.getByRole('button', { name: /^Undo/ }).textContent();
    expect(words).toContain(`${rate.description}: likely $`);
    await page.keyboard.press('Control+z');
    await bar.getByText('cheaper').waitFor();
    expect(await firstTotal()).toBe(before);
    expect(await itemAt('rate-electrician')).toMatchObject({
      likely: rate.likely,
      source: rate.source,
      date: rate.date,
    });
    expect(await bar.getByRole('button', { name: /^Undo/ }).count()).toBe(0);
    expect(complaints).toEqual([]);
    await close();
  });

  it('goes by Tab and arrows, takes a price by Enter, and leaves it by Escape', async () => {
    const { page, close } = await bench.open('/prices');
    const points = page.locator('.point');
    await points.first().waitFor();
    const names = await points.evaluateAll((fields) =>
      fields.slice(0, 6).map((field) => field.getAttribute('aria-label')),
    );
    await points.first().focus();
    await page.keyboard.press('Tab');
    expect(await focused(page)).toBe(names[1]);
    await page.keyboard.press('ArrowRight');
    expect(await focused(page)).toBe(names[2]);
    await page.keyboard.press('Tab'); // the last price of a line is followed by the first of the next one
    expect(await focused(page)).toBe(names[3]);
    await page.keyboard.press('ArrowUp');
    expect(await focused(page)).toBe(names[0]);
    const was = await points.first().inputValue();
    await page.keyboard.type('0.01');
    await page.keyboard.press('Escape');
    expect(await points.first().inputValue()).toBe(was);
    await page.keyboard.press('Enter');
    expect(await focused(page)).toBe(names[3]);
    await close();
  });

  it('opens an item from its price, and restores what it once cost', async () => {
    const rate = await itemAt('rate-labourer');
    const { page, complaints, close } = await bench.open('/prices');
    await page.getByRole('searchbox', { name: 'Search the book' }).fill('rate-labourer');
    const low = page.getByRole('textbox', { name: `low of ${rate.description}`, exact: true });
    await low.focus();
    await page.keyboard.type(((rate.low - 100) / 100).toFixed(2));
    await page.keyboard.press('Enter');
    await page.locator('.undo-bar').getByRole('button', { name: /^Undo/ }).waitFor();
    await low.focus();
    await page.keyboard.press('ArrowLeft');
    await page.keyboard.press('Enter');
    const restore = page.getByRole('button', { name: `Restore ${rate.description} as of revision 1` });
    await restore.focus();
    await page.keyboard.press('Enter');
    await expect.poll(async () => (await itemAt('rate-labourer')).low).toBe(rate.low);
    const { source, date } = await itemAt('rate-labourer');
    expect({ source, date }).toEqual({ source: rate.source, date: rate.date });
    await page.getByRole('table', { name: 'Every price that it had' }).locator('tbody tr').nth(2).waitFor();
    expect(complaints).toEqual([]);
    await close();
  });

  it('adds a package, and names what is wrong with it at its place', async () => {
    const { page, close } = await bench.open('/prices');
    const item = await itemAt('breaker-1p-20');
    await page.getByRole('searchbox', { name: 'Search the book' }).fill(item.key);
    await page.getByRole('button', { name: item.description, exact: true }).click();
    await page.getByRole('button', { name: 'add a package' }).click();
    const word = (name: string) => page.getByRole('textbox', { name, exact: true });
    await word('Name of the package').fill('box of 10');
    await word(`Quantity of the package, in ${item.unit}`).fill('10');
    await word('low price of the package').fill('90');
    await word('likely price of the package').fill('80');
    await word('high price of the package').fill('120');
    await page.keyboard.press('Enter');
    await page.locator('.added-package .word-problem').getByText('must lie between low 90').waitFor();
    await word('likely price of the package').fill('100');
    await page.keyboard.press('Enter');
    await expect
      .poll(async () => (await itemAt(item.key)).offers.at(-1))
      .toEqual({
        package: 'box of 10',
        quantity: 10,
        lowCents: 9_000,
        likelyCents: 10_000,
        highCents: 12_000,
        available: true,
      });
    await close();
  });
});

describe('two people at one price', () => {
  it('shows the second what the first saved, and overwrites nothing unseen', async () => {
    const rate = await itemAt('rate-operator');
    const { page, close } = await bench.open('/prices');
    await page.getByRole('searchbox', { name: 'Search the book' }).fill('rate-operator');
    const high = page.getByRole('textbox', { name: `high of ${rate.description}`, exact: true });
    await high.waitFor();
    const { revision, ...stated } = rate;
    await bench.ask('/api/price-book/items/rate-operator', {
      method: 'PUT',
      headers: { 'content-type': 'application/json', 'if-match': `"${revision}"` },
      body: JSON.stringify({ ...stated, high: rate.high + 700 }),
    });
    await high.fill(((rate.high + 300) / 100).toFixed(2));
    await high.press('Enter');
    const note = page.getByRole('alertdialog');
    await note.getByText('Somebody else changed').waitFor();
    const dollars = (cents: number) => `$${(cents / 100).toFixed(2)}`;
    await note.getByText(`high ${dollars(rate.high)} → ${dollars(rate.high + 700)}`).waitFor(); // theirs
    await note.getByText(`high ${dollars(rate.high)} → ${dollars(rate.high + 300)}`).waitFor(); // mine
    expect((await itemAt('rate-operator')).high).toBe(rate.high + 700);
    await note.getByRole('button', { name: 'Put mine over it' }).press('Enter');
    await expect.poll(async () => (await itemAt('rate-operator')).high).toBe(rate.high + 300);
    await note.waitFor({ state: 'detached' });
    await close();
  });
});

describe('a price list', () => {
  it('is tried first: a refused row is named by its number, and nothing is changed', async () => {
    const { page, close } = await bench.open('/prices');
    await page.getByRole('searchbox', { name: 'Search the book' }).waitFor();
    const exported = await page.evaluate(async () => (await fetch('/api/price-book/export.csv')).text());
    const [heading = '', first = '', ...rest] = exported.trimEnd().split('\n');
    const key = first.split(',')[0] ?? '';
    const { revision } = await itemAt(key);
    const wrong = `${key},price,${'x,'.repeat(4)}each,much,2,3${',,'.repeat(6)}`;
    await page.getByRole('button', { name: 'Import a list' }).press('Enter');
    const choose = (text: string) =>
      page
        .locator('input[type=file]')
        .setInputFiles({ name: 'list.csv', mimeType: 'text/csv', buffer: Buffer.from(text) });
    await choose([heading, wrong, ...rest].join('\n'));
    const refused = page.getByRole('table', { name: 'refused' });
    await refused.getByRole('row').nth(1).waitFor();
    expect(await refused.locator('tbody td:first-child').first().textContent()).toBe('2'); // the heading is row 1
    expect(await page.getByRole('button', { name: 'Take it into the book' }).count()).toBe(0);
    expect((await itemAt(key)).revision).toBe(revision);

    const own = 'own-lamp,price,own lamp,material,other,own,each,100,200,300,,,,,,,,,2026-03-02,US,own price,,yes,';
    await choose([heading, own].join('\n'));
    await page.getByText('1 item added, 0 changed, 0 removed, 0 as before').waitFor();
    await page.getByRole('button', { name: 'Take it into the book' }).press('Enter');
    await page.getByText('Taken: 1 item added').waitFor();
    expect(await itemAt('own-lamp')).toMatchObject({ low: 100, likely: 200, high: 300 });
    await close();
  });

  it('may be long: only what one looks at is drawn, and its end is as near as its beginning', async () => {
    const count = 4_000;
    const heading = 'key,kind,description,class,scope,category,unit,low,likely,high,date,region,source';
    const rows = Array.from({ length: count }, (_, at) => {
      const number = String(at).padStart(5, '0');
      return `zz-${number},price,part ${number},material,other,zz,each,${at},${at + 1},${at + 2},2026-03-02,US,made for a test`;
    });
    await bench.ask('/api/price-book/import', {
      method: 'POST',
      headers: { 'content-type': 'text/csv' },
      body: [heading, ...rows].join('\n'),
    });
    const { page, complaints, close } = await bench.open('/prices');
    await page.getByRole('combobox', { name: 'Category' }).selectOption('zz');
    await page.getByText('4,000 items').waitFor();
    await page.evaluate(() => window.scrollTo(0, document.documentElement.scrollHeight));
    await page.getByRole('button', { name: 'part 03999', exact: true }).waitFor();
    expect(await page.locator('.prices tr').count()).toBeLessThan(150);
    await page.evaluate(() => window.scrollTo(0, document.documentElement.scrollHeight / 2));
    const likely = page.getByRole('textbox', { name: 'likely of part 02000', exact: true });
    await likely.focus();
    for (let line = 0; line < 60; line += 1) await page.keyboard.press('ArrowDown');
    expect(await focused(page)).toBe('likely of part 02060');
    await page.evaluate(() => window.scrollTo(0, 0)); // what one types in stays, wherever one looks
    await page.getByRole('button', { name: 'part 00000', exact: true }).waitFor();
    expect(await focused(page)).toBe('likely of part 02060');
    expect(complaints).toEqual([]);
    await close();
  });
});
