import { describe, expect, it } from 'vitest';
import {
  amountInWords,
  conductorSize,
  counted,
  dayInWords,
  exactDollars,
  feet,
  guessedFeet,
  knownMoney,
  legNumbers,
  number,
  quantityInWords,
  rangeInWords,
  ruleInWords,
  unitPrice,
  wholeDollars,
  wiringMethod,
  withPowers,
} from '../../server/report/wording.ts';
import { PANEL_90 } from './fixture.ts';

describe('how numbers are written', () => {
  // Half away from zero, as all money here: 0.50 is 1, and −0.50 is −1.
  it.each([
    [418_000, '$4,180'],
    [418_050, '$4,181'],
    [418_049, '$4,180'],
    [50, '$1'],
    [-50, '−$1'],
    [49, '$0'],
    [-49, '$0'],
    [123_456_789_00, '$123,456,789'],
  ])('whole dollars: %d cents', (cents, words) => expect(wholeDollars(cents)).toBe(words));

  it.each([
    [418_025, '4,180.25'],
    [5, '0.05'],
    [-12_300, '−123.00'],
    [0, '0.00'],
  ])('dollars and cents: %d cents', (cents, words) => expect(exactDollars(cents)).toBe(words));

  it.each([
    [262, '2.62'],
    [98.25, '0.9825'],
    [18.75, '0.1875'],
    [0.5, '0.005'],
    [100.0001, '1.000001'],
  ])('unit prices: %d cents', (cents, words) => expect(unitPrice(cents)).toBe(words));

  it.each([
    [41, '41'],
    [12.5, '12.5'],
    [1234.567, '1,234.57'],
    [-0.001, '0'],
    [-3.5, '−3.5'],
  ])('numbers: %d', (value, words) => expect(number(value)).toBe(words));

  // 4.12 × 85.00 = 350.20, but the line says 350.41 = 4.1225 × 85.00; 1.125 × 85.00 = 95.63; 41 × 2.62 = 107.42
  it.each([
    [4.1225, 8500, 35041, '4.1225'],
    [1.125, 8500, 9563, '1.125'],
    [41, 262, 10742, '41'],
    [0.3333, 8500, 15000, '0.3333'], // a least charge of $150
  ])('quantities that multiply: %d of %d cents', (quantity, unitPriceCents, amountCents, words) =>
    expect(quantityInWords({ quantity, unitPriceCents, amountCents })).toBe(words),
  );

  it('says known sums, sums that are more, and none at all', () => {
    expect(knownMoney({ amountCents: 41_200, complete: true })).toBe('$412');
    expect(knownMoney({ amountCents: 41_200, complete: false })).toBe('over $412');
    expect(knownMoney({ amountCents: 0, complete: false })).toBe('no price');
  });

  it('writes lengths, sizes and methods as the trade does', () => {
    expect(feet(41)).toBe('41 ft');
    expect(guessedFeet({ low: 24, likely: 27, high: 32 })).toBe('27 ft (24 to 32)');
    expect(['6', '1/0', '4/0', '250', '600'].map(conductorSize)).toEqual([
      '6 AWG',
      '1/0 AWG',
      '4/0 AWG',
      '250 kcmil',
      '600 kcmil',
    ]);
    expect(wiringMethod({ method: 'pvc', conduit: { type: 'pvc-40', tradeSize: '1-1/4' } })).toBe('1-1/4 in PVC');
    expect(wiringMethod({ method: 'nm-b' })).toBe('NM-B cable');
  });

  it('sets amounts of work with their units, powers as powers, and counts in the plural', () => {
    const amounts: [number, string, string][] = [
      [5, 'ft2', '5 ft²'],
      [0.25, 'yd3', '0.3 yd³'],
      [12, 'each', '12'],
      [2.6, '10-ft stick', '2.6 × 10-ft stick'],
      [10, 'ft of cut', '10 ft of cut'],
      [3, 'run', '3 runs'],
      [1, 'run', '1 run'],
      [2, 'inspection', '2 inspections'],
      [7, 'ft', '7 ft'],
    ];
    for (const [quantity, unit, words] of amounts) expect(amountInWords({ quantity, unit })).toBe(words);
    expect(withPowers('Topsoil bag 0.75 ft3, about 600 ft2')).toBe('Topsoil bag 0.75 ft³, about 600 ft²');
    expect(withPowers('a soft2 word, ft25')).toBe('a soft2 word, ft25');
    expect(ruleInWords('pvc-expansion')).toBe('PVC expansion');
  });

  it('numbers legs as on the drawing', () => {
    expect(legNumbers([0])).toBe('1');
    expect(legNumbers([5, 3, 1, 2])).toBe('2–4, 6');
    expect(legNumbers([])).toBe('');
  });

  it('counts and dates', () => {
    expect(counted(1, 'day')).toBe('1 day');
    expect(counted(0, 'day')).toBe('0 days');
    expect(dayInWords('2026-03-02')).toBe('March 2, 2026');
  });

  it('never gives a total without its range beside it, or without saying that it has none', () => {
    expect(rangeInWords(PANEL_90)).toMatch(/^\$[\d,]+ to \$[\d,]+, half of the time below \$[\d,]+$/);
    const { range: _, ...without } = PANEL_90;
    expect(rangeInWords(without)).toContain('its range was not computed');
    expect(rangeInWords({ ...PANEL_90, complete: false })).toContain('prices are missing');
  });
});
