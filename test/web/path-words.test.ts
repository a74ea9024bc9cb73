import { describe, expect, it } from 'vitest';
import { pathInWords, scaleOfPath } from '../../web/project/path-words.ts';

describe('a path in words', () => {
  it.each([
    ['route.0.lengthFt', 'leg 1, length'],
    ['options.1.route.2.lengthFt.high', 'option 2, leg 3, length, high'],
    ['site.service.ratingA', 'site, service, rating'],
    ['site.load.appliances.0.va', 'site, load, appliance 1, va'],
    ['driving.cars.0.milesPerDay', 'driving, car 1, miles per day'],
    ['', 'the whole'],
  ])('%s', (path, words) => {
    expect(pathInWords(path)).toBe(words);
  });
});

describe('the units of a path', () => {
  it.each([
    ['bids.0.totalCents', 'dollars'],
    ['terms.incentives.0.cents', 'dollars'],
    ['terms.incentives.0.bp', 'percent'],
    ['terms.markup.laborBp', 'percent'],
    ['chances.plaster', 'chance'],
    ['driving.electricityCentsPerKwh', 'plain'],
    ['route.0.lengthFt', 'plain'],
  ])('%s: %s', (path, scale) => {
    expect(scaleOfPath(path)).toBe(scale);
  });
});
