import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Estimate } from '../../server/estimate/answer.ts';
import { type Bench, setBench } from './harness.ts';

let bench: Bench;
beforeAll(async () => {
  bench = await setBench();
});
afterAll(() => bench?.clear());

const firstTotal = async () => {
  const { options } = await bench.ask<Estimate>(`/api${bench.demoPath}/estimate?parts=core`);
  return options[0]?.totals.totalCents ?? 0;
};

/** A server that stops and starts, and two pages, on a machine that does other things as well. */
const RESTART_MS = 60_000;

describe('the price book', () => {
  it('changes the total at once, and keeps the older price over a restart', { timeout: RESTART_MS }, async () => {
    const estimate = await bench.ask<Estimate>(`/api${bench.demoPath}/estimate?parts=core`);
    const permit = estimate.options[0]?.lines.find(({ class: kind, unit }) => kind === 'fee' && unit === 'each');
    if (!permit) throw new Error('The demo project has no fee that is sold by the piece.');
    const before = await firstTotal();
    const { page, complaints, close } = await bench.open(bench.demoPath);
    await page.locator('.total').first().waitFor();
    await page.getByRole('link', { name: 'Price book' }).click();
    await page.getByRole('searchbox', { name: 'Search the book' }).fill(permit.key);
    const likely = page.getByRole('textbox', { name: `likely of ${permit.description}`, exact: true });
    await likely.focus();
    const dearerCents = permit.unitPriceCents + 5_000;
    await page.keyboard.type((dearerCents / 100).toFixed(2));
    await page.keyboard.press('Enter');
    await page.getByText('dearer').first().waitFor();
    // $50 more of fee; markup, overhead, profit and tax of the demo's terms can only add to it
    expect((await firstTotal()) - before).toBeGreaterThanOrEqual(5_000);
    await page.getByRole('link', { name: 'Open project' }).click();
    const total = `$${Math.floor((await firstTotal()) / 100 + 0.5).toLocaleString('en-US')}`;
    await page.locator('.total').first().getByText(total, { exact: true }).waitFor();
    expect(complaints).toEqual([]);
    await close();

    await bench.restart();
    const again = await bench.open('/prices');
    await again.page.getByRole('searchbox', { name: 'Search the book' }).fill(permit.key);
    await again.page.getByRole('button', { name: permit.description, exact: true }).click();
    const history = again.page.getByRole('table', { name: 'Every price that it had' });
    await history.getByRole('row').nth(2).waitFor(); // a head, the new state and the older one
    const likelies = await history.locator('tbody tr td:nth-child(4)').allInnerTexts();
    const written = (cents: number) => `$${(cents / 100).toLocaleString('en-US', { minimumFractionDigits: 2 })}`;
    expect(likelies).toEqual([written(dearerCents), written(permit.unitPriceCents)]);
    await again.close();
  });

  it('refuses a price that is no number beside its field, and keeps what was typed', async () => {
    const { page, close } = await bench.open('/prices');
    const field = page.locator('.point').nth(1);
    await field.fill('much');
    await field.press('Enter');
    await page.locator('.prices .word-problem').getByText('not "much"').waitFor();
    expect(await field.inputValue()).toBe('much');
    await field.press('Escape');
    expect(await field.inputValue()).not.toBe('much');
    await close();
  });

  it('goes from price to price by the arrow keys, and adds and removes an item', async () => {
    const { page, complaints, close } = await bench.open('/prices');
    await page.locator('.point').first().focus();
    await page.keyboard.press('ArrowDown');
    const second = await page.evaluate(() => document.activeElement?.closest('tr')?.rowIndex);
    expect(second).toBe(2);
    await page.getByRole('button', { name: 'Add an item' }).click();
    const words = {
      Description: 'own pull box',
      Key: 'own-pull-box',
      'low price or figure': '20',
      'likely price or figure': '25',
      'high price or figure': '40',
    };
    for (const [label, typed] of Object.entries(words))
      await page.getByRole('textbox', { name: label, exact: true }).fill(typed);
    await page.getByRole('button', { name: 'Add it' }).click();
    const item = page.getByRole('button', { name: 'own pull box', exact: true });
    await item.click();
    expect(await page.getByRole('textbox', { name: 'likely of own pull box', exact: true }).inputValue()).toBe('25.00');
    await page.getByRole('button', { name: 'Remove own pull box' }).click();
    await item.waitFor({ state: 'detached' });
    expect(complaints).toEqual([]);
    await close();
  });

  it('shows one category alone', async () => {
    const { page, close } = await bench.open('/prices');
    await page.getByRole('combobox', { name: 'Category' }).selectOption('breaker');
    await page.waitForFunction(() => {
      const cells = [...document.querySelectorAll('.prices .item td:nth-child(2)')];
      return cells.length > 0 && cells.every((cell) => cell.textContent === 'breaker');
    });
    await close();
  });
});
