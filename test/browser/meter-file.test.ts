import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { csvOf } from '../estimate/meter/meter-files.ts';
import { type Bench, setBench } from './harness.ts';

let bench: Bench;
beforeAll(async () => {
  bench = await setBench();
});
afterAll(() => bench.clear());

const fileOf = (text: string) => ({ name: 'usage.csv', mimeType: 'text/csv', buffer: Buffer.from(text) });
const FILE = fileOf(csvOf('Start time,Usage (kWh)', ({ start, kWh }) => `${start},${kWh}`));
const BAD = fileOf('Start time,Usage (kWh)\n2026-05-01 00:00,much\n');
const FIELD = 'The utility’s interval data, as CSV or as Green Button XML:';

describe('a utility’s file on the page', () => {
  it('says what it found, or what it could not read and where, beside the calculation', async () => {
    const { page, close } = await bench.open('/calculations/measured-demand');
    await page.getByLabel(FIELD).setInputFiles(BAD);
    await page.getByText('row 2, column Usage (kWh) must be a number, not "much"').waitFor();
    await page.getByLabel(FIELD).setInputFiles(FILE);
    // Made up: 3 kWh in a quarter hour are 12 kW, 50 A at 240 V.
    await page.getByText('12 kW, 50 A at 240 V.').waitFor();
    await page.getByLabel('there is solar, storage or peak shaving behind this meter').check();
    await page.getByText('hides part of the load from the meter').waitFor();
    await close();
  });

  it('becomes the load of the house when one says so', async () => {
    const { page, close } = await bench.open(bench.demoPath);
    await page.getByRole('combobox', { name: 'How the load is known' }).selectOption({ label: 'not known' });
    await page.getByText('read it from the utility’s file').click();
    await page.getByLabel(FIELD).setInputFiles(FILE);
    await page.getByRole('button', { name: 'Take it as the load: 50 A over 31 days' }).click();
    expect(await page.getByRole('textbox', { name: 'Measured peak, in amperes' }).inputValue()).toBe('50');
    expect(await page.getByRole('textbox', { name: 'Days measured' }).inputValue()).toBe('31');
    await close();
  });
});
