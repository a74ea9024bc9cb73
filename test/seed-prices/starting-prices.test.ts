import { describe, expect, it } from 'vitest';
import { seedPrices } from '../../server/seed-prices.ts';
import { addStartingPrices, lackingStartingPrices } from '../../server/starting-prices.ts';
import { opens, scratchPath } from '../db/scratch.ts';

const starting = seedPrices();
const [first, second, third] = starting;
if (!first || !second || !third?.spec) throw new Error('the starting book has items');

describe('a book of an older program', () => {
  it('is told what the starting book has besides, and gets that alone, as one revision', () => {
    const { prices } = opens(scratchPath());
    const own = { ...first, likely: first.high, source: 'own price' };
    prices.importItems([own, ...starting.slice(3)]);
    expect(lackingStartingPrices(prices)).toEqual([second, third]);
    expect(addStartingPrices(prices, { dryRun: true })).toMatchObject({
      added: 2,
      changed: 0,
      removed: 0,
      revision: 1,
    });
    expect(addStartingPrices(prices, { by: 'Ada' })).toMatchObject({ added: 2, changed: 0, removed: 0, revision: 2 });
    expect(prices.find(first.key)).toMatchObject({ source: 'own price', revision: 1 });
    expect(prices.revisionInfo(2)).toMatchObject({ items: 2, by: 'Ada', why: 'starting prices that the book lacked' });
    expect(lackingStartingPrices(prices)).toEqual([]);
    expect(addStartingPrices(prices).revision).toBe(2);
    prices.undo(2); // and it can be taken back
    expect(prices.snapshot().items).toHaveLength(starting.length - 2);
  });

  it('is not given again what somebody took out', () => {
    const { prices } = opens(scratchPath());
    prices.importItems(starting);
    prices.remove(second.key, 1);
    expect(lackingStartingPrices(prices)).toEqual([]);
  });

  it('is given no second answer to what an item of its own answers', () => {
    const { prices } = opens(scratchPath());
    prices.importItems([...starting.filter(({ key }) => key !== third.key), { ...third, key: 'own-item' }]);
    expect(lackingStartingPrices(prices)).toEqual([]);
  });
});
