import { describe, expect, it } from 'vitest';
import { inUnits } from '../../web/parts/in-units.ts';

describe('a refusal in the units that its field is typed in', () => {
  it.each([
    // 100 cents are a dollar, 100 basis points a percent
    ['must lie between low 1210 and high 1500, not 2000', 'dollars', 'must lie between low 12.10 and high 15, not 20'],
    [
      'must lie between lowCents 900 and highCents 950, not 1000',
      'dollars',
      'must lie between low 9 and high 9.50, not 10',
    ],
    ['must be at least 0 cents, not -500', 'dollars', 'must be at least 0 dollars, not -5'],
    [
      'must be 0 to 1,000,000 cents, hours or parts, not "much 5"',
      'dollars',
      'must be 0 to 10,000 dollars, not "much 5"',
    ],
    ['must be 0 to 10000 basis points, not 12050', 'percent', 'must be 0 to 100 percent, not 120.5'],
    // certainty is 100 percent
    [
      'must be a number of chance, at least 0 and at most 1, not 1.2',
      'chance',
      'must be a number of percent, at least 0 and at most 100, not 120',
    ],
    // a whole cent, or basis point, is a dollar, or percent, with two decimals
    [
      'must be a whole number of cents, at least 0 and at most 10000000000, not "abc"',
      'dollars',
      'must be a number of dollars with at most two decimals, at least 0 and at most 100,000,000, not "abc"',
    ],
    [
      'must be a whole number of basis points (100 are one percent), at least 0 and at most 10000, not 1050.5',
      'percent',
      'must be a number of percent with at most two decimals, at least 0 and at most 100, not 10.505',
    ],
    ['must be 1 to 40 feet, not 41', 'plain', 'must be 1 to 40 feet, not 41'],
  ] as const)('%s', (message, scale, said) => {
    expect(inUnits(message, scale)).toBe(said);
  });
});
