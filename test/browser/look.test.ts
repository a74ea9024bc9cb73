import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Bench, setBench } from './harness.ts';

let bench: Bench;
beforeAll(async () => {
  bench = await setBench();
});
afterAll(() => bench?.clear());

const SCREENS = () => [bench.demoPath, '/', '/prices', '/quotes', '/settings'];

async function settled(page: Page): Promise<void> {
  await page.locator('main').waitFor();
  await page.waitForLoadState('networkidle');
}

/**
 * WCAG 2.2, 1.4.3 and the definitions of contrast ratio and relative luminance:
 * (L1 + 0.05) / (L2 + 0.05), L = 0.2126 R + 0.7152 G + 0.0722 B of linear sRGB.
 */
function contrast(one: string, other: string): number {
  const luminance = (color: string) => {
    const parts = [1, 3, 5].map((at) => Number.parseInt(color.slice(at, at + 2), 16) / 255);
    const [r = 0, g = 0, b = 0] = parts.map((part) =>
      part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4,
    );
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const [lighter = 0, darker = 0] = [luminance(one), luminance(other)].sort((a, b) => b - a);
  return (lighter + 0.05) / (darker + 0.05);
}

it('reckons contrast as WCAG defines it: black on white 21, and #767676 on white 4.54 as commonly published', () => {
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 10);
  expect(contrast('#767676', '#ffffff')).toBeCloseTo(4.54, 2);
});

describe('a phone of 360 px', () => {
  it('never scrolls sideways as a whole', async () => {
    for (const path of SCREENS()) {
      const { page, close } = await bench.open(path, { viewport: { width: 360, height: 740 }, hasTouch: true });
      await settled(page);
      const widths = await page.evaluate(() => [document.documentElement.scrollWidth, window.innerWidth]);
      expect(widths, path).toEqual([360, 360]);
      await close();
    }
  });

  it('edits the leg that was scrolled to the middle of the section', async () => {
    const { page, close } = await bench.open(bench.demoPath, { viewport: { width: 360, height: 740 }, hasTouch: true });
    const section = page.getByRole('region', { name: 'Section of the route' });
    await section.getByRole('button', { name: /^Leg 1,/ }).waitFor();
    await section.evaluate((frame) => frame.scrollTo({ left: frame.scrollWidth }));
    await page.getByRole('textbox', { name: 'Length of leg 6, in feet' }).waitFor();
    expect(await page.getByRole('textbox', { name: 'Length of leg 1, in feet' }).isVisible()).toBe(false);
    await close();
  });
});

describe('light and dark', () => {
  for (const colorScheme of ['light', 'dark'] as const) {
    it(`can be read when it is ${colorScheme}: text 4.5, lines that carry meaning 3`, async () => {
      const { page, close } = await bench.open('/', { colorScheme });
      await settled(page);
      const [paper, shade, ...rest] = await page.evaluate(() => {
        const style = getComputedStyle(document.documentElement);
        return ['--paper', '--shade', '--ink', '--grey', '--route', '--stop'].map((name) =>
          style.getPropertyValue(name).trim(),
        );
      });
      const [ink = '', grey = '', route = '', stop = ''] = rest;
      for (const ground of [paper ?? '', shade ?? '']) {
        for (const text of [ink, grey])
          expect(contrast(text, ground), `${text} on ${ground}`).toBeGreaterThanOrEqual(4.5);
        for (const line of [route, stop])
          expect(contrast(line, ground), `${line} on ${ground}`).toBeGreaterThanOrEqual(3);
      }
      const isDark = contrast(ink, '#000000') > contrast(ink, '#ffffff');
      expect(isDark).toBe(colorScheme === 'dark');
      await close();
    });
  }

  it('switches by hand, and remembers it', async () => {
    const { page, close } = await bench.open('/', { colorScheme: 'light' });
    const paper = () => page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor);
    const light = await paper();
    await page.getByRole('combobox', { name: 'Light or dark' }).selectOption('dark');
    expect(await paper()).not.toBe(light);
    await page.reload();
    expect(await paper()).not.toBe(light);
    await close();
  });
});

describe('the schedule of options', () => {
  it('opens at its first column, beside the row heads, however many options there are', async () => {
    const project = await bench.ask<{ title: string; description: { options: { id: string }[] } }>(
      `/api${bench.demoPath}`,
    );
    const [first] = project.description.options;
    const options = [1, 2, 3, 4, 5, 6].map((nth) => ({ ...first, id: `o${nth}`, label: `Option ${nth}` }));
    const { id } = await bench.ask<{ id: string }>('/api/projects', {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ title: 'six', description: { ...project.description, options } }),
    });
    for (const width of [1440, 360]) {
      const { page, close } = await bench.open(`/projects/${id}`, { viewport: { width, height: 900 } });
      await page.locator('.schedule thead th').nth(5).waitFor();
      await settled(page);
      const frame = await page.locator('.schedule-frame').evaluate((element) => ({
        left: element.scrollLeft,
        isWider: element.scrollWidth > element.clientWidth,
      }));
      expect(frame, `at ${width} px`).toEqual({ left: 0, isWider: true });
      await close();
    }
  });
});

describe('the browser', () => {
  it('has nothing to complain of on any screen: no error, nothing that the content security policy blocks', async () => {
    for (const path of SCREENS()) {
      const { page, complaints, close } = await bench.open(path);
      await settled(page);
      expect(complaints, path).toEqual([]);
      await close();
    }
  });

  it('gives every field and button a name', async () => {
    for (const path of SCREENS()) {
      const { page, close } = await bench.open(path);
      await settled(page);
      const nameless = await page.evaluate(() =>
        [...document.querySelectorAll<HTMLElement>('button, input, select, a')]
          .filter((element) => {
            const label = element.getAttribute('aria-label') ?? element.getAttribute('aria-labelledby');
            const labels = 'labels' in element ? (element as HTMLInputElement).labels?.length : 0;
            return !label && !labels && !element.textContent?.trim();
          })
          .map(({ outerHTML }) => outerHTML.slice(0, 120)),
      );
      expect(nameless, path).toEqual([]);
      await close();
    }
  });
});
