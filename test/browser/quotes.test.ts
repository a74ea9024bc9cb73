import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Quote } from '../../db/quotes.ts';
import type { PriceItem } from '../../server/estimate/price-book.ts';
import { type Bench, setBench } from './harness.ts';

let bench: Bench;
beforeAll(async () => {
  bench = await setBench();
});
afterAll(() => bench?.clear());

describe('quotes on the page', () => {
  it('are issued, take the hours of the job, and teach the book what is accepted', async () => {
    const { page, complaints, close } = await bench.open('/quotes');
    await page.getByText('Nothing was quoted yet.').waitFor();
    await page.getByRole('button', { name: 'Issue a quote' }).press('Enter');
    await page.getByRole('combobox', { name: 'Project' }).locator('option').first().waitFor({ state: 'attached' });
    const customer = page.getByRole('textbox', { name: 'Customer' });
    await customer.press('Enter');
    await page.getByText('must not be empty').waitFor();
    await page.keyboard.type('An invented household');
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: /^Quote \d{4}-0001$/ }).waitFor();
    const id = page.url().split('/').at(-1) ?? '';
    const quote = await bench.ask<Quote>(`/api/quotes/${id}`);
    expect(quote).toMatchObject({ status: 'issued', customerName: 'An invented household' });

    await page.getByRole('button', { name: 'It was accepted' }).press('Enter');
    await page.getByText('accepted', { exact: true }).waitFor();
    const hours = page.getByRole('textbox', { name: /^Hours that it took/ });
    const [first] = quote.quotedTasks;
    if (!first) throw new Error('The demo project has no task.');
    await hours.first().fill('-4');
    await hours.first().press('Enter');
    await page
      .getByText('must be a number of hours, more than 0 and at most 100000, not -4', { exact: true })
      .waitFor();
    expect(await hours.first().inputValue()).toBe('-4');
    await hours.first().fill(String(first.hours * 2));
    await page.getByRole('textbox', { name: 'Cost of the job in all, in dollars' }).fill('2,500');
    await page.keyboard.press('Enter');
    await page.getByText('saved', { exact: true }).waitFor();
    const saved = await bench.ask<Quote>(`/api/quotes/${id}`);
    expect(saved.actuals).toEqual({ tasks: [{ key: first.key, hours: first.hours * 2 }], totalCents: 250_000 });

    const before = await bench.ask<PriceItem>(`/api/price-book/items/${first.key}`);
    await page.getByRole('link', { name: 'all quotes' }).click();
    await page.getByText('1 job has hours entered.').waitFor();
    const accept = page.getByRole('button', { name: `Accept for ${before.description}` });
    await accept.waitFor();
    expect(await bench.ask<PriceItem>(`/api/price-book/items/${first.key}`)).toEqual(before); // nothing by itself
    await accept.press('Enter');
    await page.getByText('as in the book').waitFor();
    const after = await bench.ask<PriceItem>(`/api/price-book/items/${first.key}`);
    expect(after).toMatchObject({ source: 'learned from 1 job', revision: before.revision + 1 });
    // twice the hours on one job: a fifth of the way by logarithms, × 1.1487; four decimals are written
    expect(Math.abs(after.likely - before.likely * 1.148698)).toBeLessThanOrEqual(0.0001);
    expect(complaints.filter((said) => !said.includes('422'))).toEqual([]);
    await close();
  });

  it('tell who saves hours second, and overwrite nothing unseen', async () => {
    const { items } = await bench.ask<{ items: Quote[] }>('/api/quotes');
    const [quote] = items;
    if (!quote) throw new Error('No quote was issued.');
    const { page, close } = await bench.open(`/quotes/${quote.id}`);
    const cost = page.getByRole('textbox', { name: 'Cost of the job in all, in dollars' });
    await cost.waitFor();
    const { revision, actuals } = await bench.ask<Quote>(`/api/quotes/${quote.id}`);
    await bench.ask(`/api/quotes/${quote.id}/actuals`, {
      method: 'PUT',
      headers: { 'content-type': 'application/json', 'if-match': `"${revision}"` },
      body: JSON.stringify({ ...actuals, totalCents: 260_000 }),
    });
    await cost.fill('2700');
    await cost.press('Enter');
    await page.getByText('Somebody saved meanwhile').waitFor();
    expect(await cost.inputValue()).toBe('2700');
    expect((await bench.ask<Quote>(`/api/quotes/${quote.id}`)).actuals?.totalCents).toBe(260_000);
    await page.getByRole('button', { name: 'take theirs' }).press('Enter');
    await expect.poll(() => cost.inputValue()).toBe('2600');
    await close();
  });
});
