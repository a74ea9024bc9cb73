import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Estimate } from '../../server/estimate/answer.ts';
import type { PriceItem } from '../../server/estimate/price-book.ts';
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

describe('the price book', () => {
  it('changes the total at once, and keeps the older price over a restart', async () => {
    const estimate = await bench.ask<Estimate>(`/api${bench.demoPath}/estimate?parts=core`);
    const permit = estimate.options[0]?.lines.find(({ class: kind, unit }) => kind === 'fee' && unit === 'each');
    if (!permit) throw new Error('The demo project has no fee that is sold by the piece.');
    const before = await firstTotal();
    const { page, complaints, close } = await bench.open('/prices');
    await page.evaluate((id) => sessionStorage.setItem('feedrun-project', id), bench.demoPath.split('/').at(-1) ?? '');
    await page.reload();
    await page.locator('.open-totals').waitFor();
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

  it('changes the total by a package of what is sold in packages, dates it, and keeps what it was', async () => {
    const estimate = await bench.ask<Estimate>(`/api${bench.demoPath}/estimate?parts=core`);
    const wire = estimate.options[0]?.lines.find((line) => line.scope === 'wire' && line.package && line.stale);
    if (!wire) throw new Error('The demo project buys no wire at an old price.');
    const before = await firstTotal();
    const { page, complaints, close } = await bench.open('/prices');
    await page.getByRole('searchbox', { name: 'Search the book' }).fill(wire.key);
    const row = page.locator('.prices tr.item').filter({ has: page.getByText(wire.key, { exact: true }) });
    await row.waitFor();
    expect(await row.locator('.point').count()).toBe(0); // the packages decide
    const { offers, description } = await bench.ask<PriceItem>(`/api/price-book/items/${wire.key}`);
    const bought = offers.find(({ quantity }) => quantity === wire.package?.size);
    if (!bought) throw new Error(`${wire.key} is not sold as ${JSON.stringify(wire.package)}.`);
    const point = (name: string) =>
      page.getByRole('textbox', { name: `${name} of ${description}, ${bought.package}`, exact: true });
    const dearer = (cents: number) => (Math.round(cents * 1.02) / 100).toFixed(2);

    await point('likely').fill(((bought.highCents + 100) / 100).toFixed(2)); // beyond its high price: said in dollars
    await point('likely').press('Enter');
    const asDollars = (cents: number) => (cents / 100).toLocaleString('en-US', { minimumFractionDigits: 2 });
    const said = page.locator('.prices .word-problem');
    await said.waitFor();
    const [low, high, typed] = [bought.lowCents, bought.highCents, bought.highCents + 100].map(asDollars);
    expect(((await said.textContent()) ?? '').replaceAll('.00', '')).toBe(
      `must lie between low ${low} and high ${high}, not ${typed}`.replaceAll('.00', ''),
    );

    await point('likely').fill(dearer(bought.likelyCents));
    await point('likely').press('Enter');
    await said.waitFor({ state: 'detached' });
    await expect.poll(firstTotal).toBeGreaterThan(before);
    const own = await bench.ask<PriceItem>(`/api/price-book/items/${wire.key}`);
    expect(own.source).toBe('own price');
    const after = await bench.ask<Estimate>(`/api${bench.demoPath}/estimate?parts=core`);
    expect(after.options[0]?.lines.find(({ key }) => key === wire.key)?.stale).toBe(false);

    await row.getByRole('button').click();
    await page.getByRole('textbox', { name: `Supplier of ${description}` }).fill('counter at the corner');
    await page.keyboard.press('Enter');
    const history = page.getByRole('table', { name: 'Every price that it had' });
    await history.getByText('counter at the corner').waitFor();
    const past = await history.locator('.past-offer').filter({ hasText: bought.package }).allInnerTexts();
    expect(past[0]).toContain(dearer(bought.likelyCents).replace(/\B(?=(\d{3})+\.)/, ','));
    expect(past[1]).toContain(asDollars(bought.likelyCents));
    expect(complaints.filter((said) => !said.includes('422'))).toEqual([]); // the refusal above
    await close();
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
      const cells = [...document.querySelectorAll('.prices .item td:nth-child(3)')];
      return cells.length > 0 && cells.every((cell) => cell.textContent === 'breaker');
    });
    await close();
  });
});
