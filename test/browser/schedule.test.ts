import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Bench, setBench } from './harness.ts';

let bench: Bench;
beforeAll(async () => {
  bench = await setBench();
});
afterAll(() => bench?.clear());

/** A project of the demo's site with so many options, all alike; its path. */
async function projectOf(count: number): Promise<string> {
  const project = await bench.ask<{ description: { options: object[] } }>(`/api${bench.demoPath}`);
  const [first] = project.description.options;
  const options = Array.from({ length: count }, (_, at) => ({ ...first, id: `o${at}`, label: `Option ${at + 1}` }));
  const { id } = await bench.ask<{ id: string }>('/api/projects', {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ title: `${count} options`, description: { ...project.description, options } }),
  });
  return `/projects/${id}`;
}

describe('the schedule of options', () => {
  it('shows four options whole on a laptop, and says of more that it goes on', async () => {
    const four = await bench.open(await projectOf(4));
    await four.page.locator('.schedule thead th').nth(3).waitFor();
    expect(await four.page.locator('.schedule-frame.goes-on').count()).toBe(0);
    const hiddenPx = await four.page
      .locator('.schedule-frame')
      .evaluate(({ scrollWidth, clientWidth }) => scrollWidth - clientWidth);
    expect(hiddenPx).toBeLessThanOrEqual(0);
    await four.close();
    const six = await bench.open(await projectOf(6));
    await six.page.locator('.schedule-frame.goes-on').waitFor();
    await six.page.locator('.schedule-frame').evaluate((frame) => frame.scrollTo({ left: frame.scrollWidth }));
    await six.page.locator('.schedule-frame:not(.goes-on)').waitFor();
    await six.close();
  });

  it('is hidden by no refusal, and hides none', async () => {
    const { page, close } = await bench.open(bench.demoPath);
    await page.locator('.schedule .total').first().waitFor();
    await page.getByRole('textbox', { name: 'Length of leg 1, in feet' }).fill('-4');
    const banner = page.locator('.refusals');
    await banner.waitFor();
    const table = page.locator('.schedule-frame');
    const [above, below] = await Promise.all([banner.boundingBox(), table.boundingBox()]);
    if (!above || !below) throw new Error('Banner and schedule are on the page.');
    expect(above.y + above.height).toBeLessThanOrEqual(below.y);
    // scrolled so far that the row heads pass beneath it, the banner lies over them
    await page
      .locator('.schedule tbody tr')
      .nth(4)
      .evaluate((row) => row.scrollIntoView({ block: 'start' }));
    const isOnTop = await banner.evaluate((element) => {
      const { left, top, height } = element.getBoundingClientRect();
      return element.contains(document.elementFromPoint(left + 10, top + height / 2));
    });
    expect(isOnTop).toBe(true);
    await close();
  });
});
