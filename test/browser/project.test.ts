import type { Page, Request } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Estimate } from '../../server/estimate/answer.ts';
import { type Bench, setBench } from './harness.ts';

let bench: Bench;
beforeAll(async () => {
  bench = await setBench();
});
afterAll(() => bench?.clear());

/** What the API says that the options of a saved project cost, in cents, in their order. */
async function totalsOfApi(path: string): Promise<number[]> {
  const { options } = await bench.ask<Estimate>(`/api${path}/estimate?parts=core`);
  return options.map(({ totals }) => totals.totalCents);
}

/** Totals as the schedule shows them, in whole dollars. */
async function totalsOnPage(page: Page): Promise<string[]> {
  const row = page
    .getByRole('region', { name: 'Options side by side' })
    .getByRole('row')
    .filter({ hasText: /^Total/ });
  await row.waitFor();
  return row.locator('.total').allInnerTexts();
}

/** Whole dollars, half away from zero: the rule of the terms, written out here once more. */
const wholeDollars = (cents: number) => `$${Math.floor(cents / 100 + 0.5).toLocaleString('en-US')}`;

/** Waits until the page says that all of it is kept, so that the next test reads what this one left. */
async function kept(page: Page): Promise<void> {
  await page.locator('.saved-word').getByText('saved', { exact: true }).waitFor();
}

/** Waits until the totals on the page are others than before. */
async function changedTotals(page: Page, before: readonly string[]): Promise<string[]> {
  await page.waitForFunction((old) => {
    const now = [...document.querySelectorAll('.total')].map((each) => each.textContent);
    return now.length > 0 && now.join() !== old;
  }, before.join());
  return totalsOnPage(page);
}

describe('the project screen', () => {
  it('shows the demo project with three options, at the totals that the API answers', async () => {
    const { page, complaints, close } = await bench.open(bench.demoPath);
    const shown = await totalsOnPage(page);
    expect(shown).toHaveLength(3);
    expect(shown).toEqual((await totalsOfApi(bench.demoPath)).map(wholeDollars));
    await page.getByText('half of the time below').first().waitFor();
    expect(complaints).toEqual([]);
    await close();
  });

  it('names the tasks as the price book describes them', async () => {
    const { page, close } = await bench.open(bench.demoPath);
    await totalsOnPage(page);
    const { options } = await bench.ask<Estimate>(`/api${bench.demoPath}/estimate?parts=core`);
    const [option] = options;
    const [task] = option?.labor.tasks ?? [];
    const line = option?.lines.find(({ key }) => key === task?.key);
    if (!line) throw new Error('The first task of the demo project has no line.');
    const first = page.locator('table.labor summary').first();
    expect(await first.textContent()).toBe(line.description);
    await close();
  });

  it('draws the route as a section, in which a leg can be chosen by keyboard', async () => {
    const { page, close } = await bench.open(bench.demoPath);
    const leg = page.getByRole('group', { name: 'Legs of the route' }).getByRole('button', { name: /^Leg 3/ });
    await leg.focus();
    await page.keyboard.press('Enter');
    expect(await leg.getAttribute('aria-pressed')).toBe('true');
    await page.getByRole('textbox', { name: 'Length of leg 3, in feet, likely' }).waitFor();
    await close();
  });

  it('says beside the field why a length is refused, keeps what was typed, and keeps the last answer', async () => {
    const { page, close } = await bench.open(bench.demoPath);
    const before = await totalsOnPage(page);
    const length = page.getByRole('textbox', { name: 'Length of leg 1, in feet' });
    await length.focus();
    await page.keyboard.press('Control+A');
    await page.keyboard.type('-4');
    const said = page.locator('.word', { has: length }).getByText('not -4');
    await said.waitFor();
    expect(await said.textContent()).toContain('must be');
    expect(await length.getAttribute('aria-invalid')).toBe('true');
    const describedBy = (await length.getAttribute('aria-describedby')) ?? '';
    expect(describedBy.split(' ')).toContain(await said.getAttribute('id'));
    await page.keyboard.press('Tab');
    expect(await length.inputValue()).toBe('-4');
    expect(await totalsOnPage(page)).toEqual(before);
    await page.keyboard.press('Shift+Tab');
    await page.keyboard.type('19');
    await said.waitFor({ state: 'detached' });
    await kept(page);
    await close();
  });

  it('keeps a half-typed state over a reload', async () => {
    const { page, close } = await bench.open(bench.demoPath);
    await totalsOnPage(page);
    await page.getByRole('textbox', { name: 'Length of leg 1, in feet' }).fill('some');
    await page.getByText('not saved yet').waitFor();
    await kept(page);
    await page.reload();
    const length = page.getByRole('textbox', { name: 'Length of leg 1, in feet' });
    await length.waitFor();
    expect(await length.inputValue()).toBe('some');
    await length.fill('19');
    await page.getByText('not saved yet').waitFor();
    await kept(page);
    await close();
  });

  it('adds, moves and removes a leg, and every total follows', async () => {
    const { page, complaints, close } = await bench.open(bench.demoPath);
    const before = await totalsOnPage(page);
    await page.getByRole('button', { name: 'add a leg at the end' }).click();
    await page.getByRole('textbox', { name: 'Length of leg 7, in feet' }).fill('12');
    const longer = await changedTotals(page, before);
    await page.getByText('dearer').first().waitFor();
    await page.getByRole('button', { name: 'Move leg 7 toward the panel' }).click();
    await page.getByRole('textbox', { name: 'Length of leg 6, in feet' }).waitFor();
    await page.getByRole('button', { name: 'Remove leg 6' }).click();
    expect(await changedTotals(page, longer)).toEqual(before);
    await kept(page);
    expect(complaints.filter((said) => !said.includes('422'))).toEqual([]); // the browser notes each refused request
    await close();
  });

  it('asks for the whole answer once the core is there, and lets go of it when one types on', async () => {
    const { page, close } = await bench.open(bench.demoPath);
    const isWhole = (request: Request) => request.url().endsWith('/api/estimates');
    await page.route('**/api/estimates', () => {}); // never answered, so that it is under way for sure
    const asked = page.waitForRequest(isWhole);
    await page.reload();
    await asked;
    await totalsOnPage(page);
    const letGo = page.waitForEvent('requestfailed', isWhole);
    const askedAgain = page.waitForRequest(isWhole);
    await page.getByRole('textbox', { name: 'Length of leg 1, in feet' }).fill('18');
    await letGo;
    await page.getByRole('textbox', { name: 'Length of leg 1, in feet' }).fill('19');
    await askedAgain;
    await kept(page);
    await close();
  });

  it('takes the route as one line, and says which words it does not know', async () => {
    const { page, close } = await bench.open(bench.demoPath);
    const before = await totalsOnPage(page);
    const line = page.getByRole('textbox', { name: 'Route line' });
    const printed = await line.inputValue();
    await line.fill('35 joists, 41 lawn-trnch clay');
    await page.locator('.route-line').getByText('lawn-trnch').waitFor();
    await line.fill('35 joists, 41 lawn-trench clay');
    await changedTotals(page, before);
    expect(await page.getByRole('group', { name: 'Legs of the route' }).getByRole('button').count()).toBe(2);
    await line.fill(printed);
    await page.waitForFunction(
      (old) => [...document.querySelectorAll('.total')].map((each) => each.textContent).join() === old,
      before.join(),
    );
    await kept(page);
    await close();
  });

  it('opens a figure into quantity and price, its reasons and the article', async () => {
    const { page, close } = await bench.open(bench.demoPath);
    await totalsOnPage(page);
    const row = page.locator('.lines .line button').first();
    await row.focus();
    await page.keyboard.press('Enter');
    await page
      .locator('.reasons')
      .getByText(/^[\d.,]+ [^×]*× \$[\d.,]+ = \$[\d.,]+;/)
      .waitFor();
    await page.locator('.findings cite').first().waitFor({ state: 'attached' });
    await close();
  });

  it('tells when somebody else saved meanwhile, and overwrites nothing unseen', async () => {
    const { page, close } = await bench.open(bench.demoPath);
    await totalsOnPage(page);
    const path = `/api${bench.demoPath}`;
    const theirs = await bench.ask<{ revision: number; title: string; description: unknown }>(path);
    await bench.ask(path, {
      method: 'PUT',
      headers: { 'content-type': 'application/json', 'if-match': `"${theirs.revision}"` },
      body: JSON.stringify({ title: 'Saved by somebody else', description: theirs.description }),
    });
    await page.getByRole('textbox', { name: 'Year built' }).fill('1968');
    await page.getByText('Somebody else saved this project meanwhile').waitFor();
    expect((await bench.ask<{ title: string }>(path)).title).toBe('Saved by somebody else');
    await page.getByRole('button', { name: 'keep mine' }).click();
    await kept(page);
    expect((await bench.ask<{ title: string }>(path)).title).toBe(theirs.title);
    await close();
  });

  it('hands out the PDF and the lines as files', async () => {
    const { page, close } = await bench.open(bench.demoPath);
    await totalsOnPage(page);
    for (const [name, ending] of [
      ['PDF', '.pdf'],
      ['CSV', '.csv'],
    ] as const) {
      const coming = page.waitForEvent('download');
      await page.getByRole('button', { name, exact: true }).click();
      expect((await coming).suggestedFilename()).toMatch(new RegExp(`\\${ending}$`));
    }
    await close();
  });
});

describe('the list of projects', () => {
  it('begins a project that says what is missing, deletes it and brings it back', async () => {
    const { page, close } = await bench.open('/');
    await page.getByRole('button', { name: 'New project' }).click();
    await page.getByText('A leg is missing between panel and car').waitFor();
    await page.getByText('must have at least one leg').first().waitFor();
    // before any answer: a retrofit by default, and a service of which nobody knows the amperes
    const sentences = page.locator('.sentence');
    await sentences.filter({ hasText: 'Work in an existing house' }).waitFor();
    await sentences.filter({ hasText: /^A service of\s*, with/ }).waitFor(); // the unknown ones are fields without text
    await page.getByRole('link', { name: 'Projects' }).click();
    await page.getByRole('button', { name: 'Delete New project' }).click();
    await page.getByRole('button', { name: 'restore it' }).click();
    await page.getByRole('link', { name: 'New project' }).waitFor();
    await close();
  });
});
