import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import type { Estimate } from '../../server/estimate/answer.ts';
import { type Bench, type OpenPage, setBench } from './harness.ts';

let bench: Bench;
let opened: OpenPage;
beforeAll(async () => {
  bench = await setBench();
});
afterAll(() => bench?.clear());
beforeEach(async () => {
  opened = await bench.open(bench.demoPath);
  await opened.page.locator('.total').first().waitFor();
});
afterEach(() => opened.close());

/** Puts the focus on a field by its name, types into it in place of what it holds, and goes on. */
async function type(page: Page, name: string, text: string): Promise<void> {
  await page.getByRole('textbox', { name, exact: true }).focus();
  await page.keyboard.press('Control+A');
  await page.keyboard.type(text);
  await page.keyboard.press('Tab');
}

/** Chooses an answer by typing its first letters, as a select of the browser takes them. */
async function choose(page: Page, name: string, letters: string): Promise<void> {
  await page.getByRole('combobox', { name, exact: true }).focus();
  await page.keyboard.type(letters);
}

async function press(page: Page, name: string | RegExp): Promise<void> {
  await page.getByRole('button', { name }).first().focus();
  await page.keyboard.press('Enter');
}

/** Waits until the page says that all of it is kept. */
async function kept(page: Page): Promise<void> {
  await page.locator('.saved-word').getByText('saved', { exact: true }).waitFor();
}

const totals = (page: Page) => page.locator('.total').allInnerTexts();

/** Waits for a change of the totals. */
async function changedTotals(page: Page, before: readonly string[]): Promise<string[]> {
  await page.waitForFunction(
    (old) => [...document.querySelectorAll('.total')].map((each) => each.textContent).join() !== old,
    before.join(),
  );
  return totals(page);
}

describe('what seldom is stated, by keyboard', () => {
  it('adds an extra, and a line appears with quantity times price', async () => {
    const { page } = opened;
    await press(page, 'add an extra');
    await type(page, 'Description of extra 1', 'a gate hung again');
    await type(page, 'Quantity of extra 1', '2');
    await type(page, 'Price of extra 1, in dollars', '45.50');
    const line = page.locator('tr.line').filter({ hasText: 'a gate hung again' });
    await line.waitFor();
    // 2 × $45.50 = $91.00
    expect(await line.locator('td.figure').nth(2).textContent()).toBe('91.00');
    await press(page, 'Remove extra 1');
    await line.waitFor({ state: 'detached' });
    await kept(page);
  });

  it('says beside the field what is wrong of a bid, and leads there from the list of refusals', async () => {
    const { page } = opened;
    await press(page, 'add a bid');
    await type(page, 'Sender of bid 1', 'somebody else');
    await type(page, 'Total of bid 1, in dollars', 'much');
    const total = page.getByRole('textbox', { name: 'Total of bid 1, in dollars' });
    await page.locator('.word', { has: total }).getByText('not "much"').waitFor();
    await press(page, /^bid 1, total$/);
    expect(await total.evaluate((element) => element === document.activeElement)).toBe(true);
    await type(page, 'Total of bid 1, in dollars', '5,200');
    await page.locator('#bids').getByText('somebody else').first().waitFor();
    await press(page, 'Remove bid 1');
    await page.locator('#bids').waitFor({ state: 'detached' });
    await kept(page);
  });

  it('pays labor by another rate of the price book', async () => {
    const { page } = opened;
    const before = await totals(page);
    await page.locator('summary').getByText('Labor, crew, travel, waste').focus();
    await page.keyboard.press('Enter');
    await page
      .getByRole('combobox', { name: 'Labor rate of the price book' })
      .locator('option')
      .nth(3)
      .waitFor({ state: 'attached' });
    await choose(page, 'Labor rate of the price book', 'labourer, c');
    await changedTotals(page, before);
    await choose(page, 'Labor rate of the price book', 'of an');
    await page.waitForFunction(
      (old) => [...document.querySelectorAll('.total')].map((each) => each.textContent).join() === old,
      before.join(),
    );
    await kept(page);
  });
});

describe('a route of its own', () => {
  it('is begun as a copy, changes its option alone, and goes again', async () => {
    const { page } = opened;
    const before = await totals(page);
    const line = page.getByRole('textbox', { name: 'Route line' });
    const ofAll = await line.inputValue();
    await choose(page, 'Whose route the open option follows', 'a route');
    await page.getByRole('button', { name: 'edit the route of all' }).waitFor();
    expect(await line.inputValue()).toBe(ofAll);
    await type(page, 'Route line', '20 joists, 15 lawn-trench');
    const after = await changedTotals(page, before);
    expect(after[0]).not.toBe(before[0]);
    expect(after.slice(1)).toEqual(before.slice(1));
    expect(await page.getByRole('group', { name: 'Legs of the route' }).getByRole('button').count()).toBe(2);
    await press(page, 'edit the route of all');
    expect(await line.inputValue()).toBe(ofAll);
    await choose(page, 'Whose route the open option follows', 'the route');
    expect(await changedTotals(page, after)).toEqual(before);
    await kept(page);
  });
});

describe('the reasons of a leg', () => {
  it('open by keyboard, and name every other method with its rule or its price', async () => {
    const { page, complaints } = opened;
    const { options } = await bench.ask<Estimate>(`/api${bench.demoPath}/estimate?parts=core`);
    const leg = options[0]?.runs[0]?.legs.find(({ others }) => others.some(({ forbiddenBy }) => forbiddenBy));
    if (!leg) throw new Error('No leg of the demo project has a method that a rule forbids.');
    await press(page, new RegExp(`^Reasons of leg ${leg.leg + 1},`));
    const others = page.getByRole('table', { name: `Other ways of laying leg ${leg.leg + 1}` });
    await others.waitFor();
    expect(await others.locator('tbody tr').count()).toBe(leg.others.length);
    const forbidden = leg.others.find(({ forbiddenBy }) => forbiddenBy);
    await others
      .getByText(forbidden?.because ?? '')
      .first()
      .waitFor();
    await others
      .locator('cite')
      .getByText(forbidden?.forbiddenBy?.article ?? '')
      .first()
      .waitFor();
    expect(complaints).toEqual([]);
  });

  it('stand beside how sure the plan is, in words', async () => {
    const { page } = opened;
    const { options } = await bench.ask<Estimate>(`/api${bench.demoPath}/estimate?parts=core`);
    const isProven = options[0]?.runs[0]?.proof.proven;
    await page
      .locator('#plan')
      .getByText(isProven ? 'Proven the cheapest' : 'Not proven the cheapest')
      .waitFor();
  });
});

/** Whole dollars, half away from zero: the rule of the terms, written out here once more. */
const wholeDollars = (cents: number) => `$${Math.floor(cents / 100 + 0.5).toLocaleString('en-US')}`;

describe('the curves of price', () => {
  it('are drawn at the totals of the whole answer, each option by its name', async () => {
    const { page } = opened;
    const { comparison, options } = await bench.ask<Estimate>(`/api${bench.demoPath}/estimate`);
    const [lowest] = comparison.byAmps ?? [];
    if (!lowest) throw new Error('The demo project has no price by amperes.');
    const curves = page.locator('figure').filter({ hasText: 'The price by amperes of charging' });
    const words = (await curves.getByRole('img').getAttribute('aria-label')) ?? '';
    for (const [id, cents] of Object.entries(lowest.totals)) {
      const { label } = options.find((option) => option.id === id) ?? {};
      expect(words).toContain(`${label}: ${lowest.amps}: ${wholeDollars(cents)}`);
    }
  });
});

describe('what follows from the range', () => {
  it('leads from a chance to its field, where another one can be stated', async () => {
    const { page } = opened;
    const chance = page.getByRole('button', { name: /^State another chance of/ }).first();
    await chance.waitFor();
    const before = await chance.textContent();
    await chance.focus();
    await page.keyboard.press('Enter');
    const name = await page.evaluate(() => document.activeElement?.getAttribute('aria-label') ?? '');
    expect(name).toMatch(/^Chance of .*, in percent$/);
    await page.keyboard.type('71');
    await page.keyboard.press('Tab');
    await page.waitForFunction(
      () => document.querySelector('[aria-label^="State another chance of"]')?.textContent === '71 %',
    );
    await page.getByRole('button', { name: /^Take back the chance of/ }).press('Enter');
    await page.waitForFunction(
      (old) => document.querySelector('[aria-label^="State another chance of"]')?.textContent === old,
      before,
    );
    await kept(page);
  });
});
