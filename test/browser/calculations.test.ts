import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { CalculationSheet } from '../../server/calculations.ts';
import { type Bench, setBench } from './harness.ts';

let bench: Bench;
beforeAll(async () => {
  bench = await setBench();
});
afterAll(() => bench?.clear());

describe('the calculations', () => {
  it('are chosen from a list that says what each decides', async () => {
    const { page, complaints, close } = await bench.open('/calculations');
    const { items } = await bench.ask<{ items: CalculationSheet[] }>('/api/calculations');
    await page.getByText(items[0]?.decides ?? '', { exact: true }).waitFor();
    for (const { title, decides } of items) {
      expect(await page.getByRole('link', { name: title, exact: true }).count()).toBe(1);
      expect(await page.getByText(decides, { exact: true }).count()).toBe(1);
    }
    await page.getByRole('link', { name: 'Trench', exact: true }).click();
    await page.getByRole('heading', { name: 'Trench' }).waitFor();
    expect(new URL(page.url()).pathname).toBe('/calculations/trench');
    expect(complaints).toEqual([]);
    await close();
  });

  it('are asked and answered by keyboard alone', async () => {
    const { page, complaints, close } = await bench.open('/calculations/conductor');
    await page.getByText('Still to state: Load, Metal, Cable or insulation.').waitFor();
    await page.getByRole('textbox', { name: 'Load, in A' }).focus();
    await page.keyboard.type('48');
    await page.keyboard.press('Tab'); // lasts three hours or more
    await page.keyboard.press('ArrowUp');
    await page.keyboard.press('Tab'); // breaker: not stated
    await page.keyboard.press('Tab'); // metal
    await page.keyboard.type('copper');
    await page.keyboard.press('Tab'); // cable or insulation
    await page.keyboard.type('THWN');
    const answer = page.getByRole('region', { name: 'Answer' });
    // 48 A × 125 % = 60 A; 6 AWG copper has 65 A in the 75 °C column of Table 310.16; 10 AWG ground, Table 250.122
    await answer.getByText('60 A', { exact: true }).waitFor();
    await answer.getByText('6 AWG', { exact: true }).waitFor();
    await answer.getByText('10 AWG', { exact: true }).waitFor();
    await answer.getByText('NEC 2023, Table 310.16').waitFor();
    expect(complaints).toEqual([]);
    await close();
  });

  it('say at the field what is refused, and keep what was typed', async () => {
    const { page, close } = await bench.open('/calculations/trench');
    await page.getByRole('button', { name: 'fill in an example' }).click();
    await page.getByRole('region', { name: 'Answer' }).getByText('41 ft³', { exact: true }).waitFor(); // 41 × 0.5 × 2
    const depth = page.getByRole('textbox', { name: 'Depth, in in' });
    await depth.fill('two feet');
    await page.keyboard.press('Enter');
    await page.getByText('must be a number of inches, at least 0.001 and at most 10000, not "two feet"').waitFor();
    expect(await depth.getAttribute('aria-invalid')).toBe('true');
    expect(await depth.inputValue()).toBe('two feet');
    await depth.fill('24');
    await page.getByRole('region', { name: 'Answer' }).getByText('41 ft³', { exact: true }).waitFor();
    await close();
  });

  it('take lists, money in dollars, and what is sold by the foot', async () => {
    const { page, complaints, close } = await bench.open('/calculations/packages');
    await page.getByRole('button', { name: 'Add to Pieces' }).click();
    await page.getByRole('textbox', { name: 'Piece 1, in ft' }).fill('20');
    await page.getByRole('button', { name: 'Add to Offers' }).click();
    await page.getByRole('combobox', { name: 'Offer 1: Length, in ft, or by the foot' }).selectOption('by the foot');
    await page.getByRole('textbox', { name: 'Offer 1: Price, in dollars' }).fill('3.00');
    await page.getByRole('button', { name: 'Add to Offers' }).click();
    await page.getByRole('textbox', { name: 'Offer 2: Length, in ft' }).fill('25');
    await page.getByRole('textbox', { name: 'Offer 2: Price, in dollars' }).fill('70');
    // 20 × $3 = $60 by the foot is less than the coil of $70
    await page.getByRole('region', { name: 'Answer' }).getByText('$60.00', { exact: true }).waitFor();
    await page.getByRole('button', { name: 'Remove Offer 1' }).click();
    await page.getByRole('region', { name: 'Answer' }).getByText('$70.00', { exact: true }).waitFor();
    expect(complaints).toEqual([]);
    await close();
  });

  it('change their form with the method, and keep what both methods have', async () => {
    const { page, close } = await bench.open('/calculations/service-load');
    await page.getByRole('button', { name: 'fill in an example' }).click();
    await page.getByRole('region', { name: 'Answer' }).getByText('Step by step').waitFor();
    await page.getByRole('combobox', { name: 'Method' }).selectOption('measured, 220.87');
    expect(await page.getByRole('textbox', { name: 'Floor area, in ft²' }).count()).toBe(0);
    expect(await page.getByRole('textbox', { name: 'Service, in A' }).inputValue()).toBe('150');
    await page.getByRole('textbox', { name: 'Measured peak, in A' }).fill('60');
    await page.getByRole('textbox', { name: 'Days measured' }).fill('365');
    // 60 A × 125 % = 75 A, and 7,680 VA at 240 V = 32 A: 107 A
    await page.getByRole('region', { name: 'Answer' }).getByText('107 A', { exact: true }).waitFor();
    await close();
  });

  it('are copied as a line of text and as the command of the terminal', async () => {
    const { page, close } = await bench.open('/calculations/charging', {
      permissions: ['clipboard-read', 'clipboard-write'],
    });
    await page.getByRole('textbox', { name: 'Charging, in A' }).fill('48');
    const clipboard = () => page.evaluate(() => navigator.clipboard.readText());
    const copy = (name: string) => page.getByRole('button', { name }).click();
    await copy('copy as a line of text');
    await page.getByText('copied', { exact: true }).waitFor();
    // 48 A × 240 V = 11.52 kW; × 0.9 × 3.5 = 36.288 mi an hour
    await expect
      .poll(clipboard)
      .toMatch(/^Charging speed: Charging 48 A, Voltage 240 V.* → Power 11.52 kW, Range gained an hour 36.288 mi$/);
    // "copied" of the first still stands there while the second is copied: the clipboard itself is what tells
    await copy('copy as a command for the terminal');
    await expect.poll(clipboard).toBe(`feedrun calc charging '{"amps":48}'`);
    await close();
  });

  it('fit a small phone, each with its example', async () => {
    const { items } = await bench.ask<{ items: CalculationSheet[] }>('/api/calculations');
    const { page, complaints, close } = await bench.open('/calculations', { viewport: { width: 360, height: 740 } });
    const isWiderThanWindow = () =>
      page.evaluate(() => document.documentElement.scrollWidth > document.documentElement.clientWidth);
    await page.getByRole('heading', { name: 'Calculations' }).waitFor();
    expect(await isWiderThanWindow()).toBe(false);
    for (const { name, title } of items) {
      await page.getByRole('link', { name: 'Calculations' }).click();
      await page.getByRole('link', { name: title, exact: true }).click();
      await page.getByRole('button', { name: 'fill in an example' }).click();
      await page.getByRole('button', { name: 'copy as a line of text' }).waitFor();
      expect([name, await isWiderThanWindow()]).toEqual([name, false]);
    }
    expect(complaints).toEqual([]);
    await close();
  });
});
