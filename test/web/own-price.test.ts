import { describe, expect, it } from 'vitest';
import { today } from '../../web/parts/dates.ts';
import { withOwnPackage } from '../../web/prices/own-price.ts';
import { cable } from '../db/scratch.ts';

const item = { ...cable(), revision: 1 };
const [foot, coil] = item.offers;
if (!foot || !coil) throw new Error('the cable has two packages');

describe('the price of one package', () => {
  it('is of today when it is changed, and the other package as old as before', () => {
    const dearer = { ...coil, likelyCents: 40_000 };
    const after = withOwnPackage(item, [foot, dearer], dearer);
    expect(after).toMatchObject({ date: item.date, source: 'invented for a test; own price of 125 ft coil' });
    expect(after.offers).toEqual([foot, { ...dearer, date: today() }]);
    expect(withOwnPackage(after, after.offers, after.offers[1] ?? coil).source).toBe(after.source); // said once
  });

  it('makes the item of today where it is the only package', () => {
    const after = withOwnPackage({ ...item, offers: [coil] }, [coil], coil);
    expect(after).toMatchObject({ date: today(), source: 'own price', offers: [coil] });
  });

  it('leaves a source as it is that has no room for more', () => {
    const long = { ...item, source: 'x'.repeat(490) };
    expect(withOwnPackage(long, [foot, coil], coil).source).toBe(long.source);
  });
});
