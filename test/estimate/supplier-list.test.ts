import { describe, expect, it } from 'vitest';
import { parseSupplierCsv, proposedHeadings } from '../../server/estimate/supplier-list.ts';
import { withSupplierPrices } from '../../server/estimate/supplier-prices.ts';
import { cable } from '../db/scratch.ts';

const TODAY = '2026-03-02';
const priced = (list: string, mapping: { part: string; key: string; package?: string }[]) =>
  withSupplierPrices({
    ...{ supplier: 'Invented Supply', prices: parseSupplierCsv(list).prices, mapping, today: TODAY },
    itemOf: (key) => (key === 'nm-b-6-3-cu' ? cable() : undefined),
  });

describe("a supplier's list", () => {
  it.each([
    ['a price that is none', 'part,price\nA,free\n', 2, 'price must be dollars, such as 12.50, not "free"'],
    ['a price below 0', 'part,price\nA,-3\n', 2, 'price must be dollars, such as 12.50, not "-3"'],
    ['thousands', 'part,price\nA,"1,200"\n', 2, 'price "1,200" has a comma: write decimals after a point'],
    ['two ways of decimals', 'part;price\nA;1,5\nB;1.5\n', 3, 'price "1.5" has a point in a list whose decimals'],
    ['a row without a part', 'part,price\n,3\n', 2, 'names no part'],
    ['a part twice', 'part,price\nA,3\nA,4\n', 3, 'names the part "A" again, after row 2'],
    ['a day that is none', 'part,price,date\nA,3,31.2.2026\n', 2, 'date must be a day that exists'],
  ])('refuses %s, and says row and reason', (_, list, row, reason) => {
    const { refused } = parseSupplierCsv(list);
    expect(refused.map((one) => one.row)).toEqual([row]);
    expect(refused[0]?.reason).toContain(reason);
  });

  it('keeps the distance of low and high from the likely price, as shares', () => {
    const list = 'part,price,package\nW,$426.00,125 ft coil\n';
    const { items, matched } = priced(list, [{ part: 'W', key: 'nm-b-6-3-cu' }]);
    expect(matched).toBe(1);
    // 340, 390 and 450 dollars before: 426 × 340 / 390 = 371.38, 426 × 450 / 390 = 491.54
    expect(items[0]?.offers[1]).toMatchObject({ lowCents: 37_138, likelyCents: 42_600, highCents: 49_154 });
    expect(items[0]?.offers[0]).toEqual(cable().offers[0]);
    // The foot is as old as before, and the item no fresher than its oldest package.
    expect(items[0]?.offers[1]).toMatchObject({ date: TODAY });
    expect(items[0]).toMatchObject({ date: cable().date, source: `price list of Invented Supply, ${TODAY}` });
  });

  it('takes the older day where packages of one item are of two', () => {
    const list = 'part,price,package,date\nW,4,by the foot,2026-02-01\nC,420,125 ft coil,2026-01-01\n';
    const mapping = ['W', 'C'].map((part) => ({ part, key: 'nm-b-6-3-cu' }));
    const { items } = priced(list, mapping);
    expect(items).toHaveLength(1);
    expect(items[0]).toMatchObject({ date: '2026-01-01', likely: 400 });
  });

  it('tells why a row finds no item, and guesses none', () => {
    const list = 'part,price,package\nA,1,\nB,1,\nC,1,pallet\nD,1,\n';
    const { unmatched, items } = priced(list, [
      { part: 'B', key: 'not-in-the-book' },
      { part: 'C', key: 'nm-b-6-3-cu' },
      { part: 'D', key: 'nm-b-6-3-cu' },
    ]);
    expect(items).toEqual([]);
    expect(unmatched).toEqual([
      { row: 2, part: 'A', reason: 'is not mapped to an item yet' },
      { row: 3, part: 'B', reason: 'is mapped to "not-in-the-book", which the book does not have' },
      { row: 4, part: 'C', reason: 'says the package "pallet", and "nm-b-6-3-cu" has "by the foot", "125 ft coil"' },
      { row: 5, part: 'D', reason: 'says no package, and "nm-b-6-3-cu" has "by the foot", "125 ft coil"' },
    ]);
  });

  it('is read under the headings that the supplier has for the columns, and leaves out what else stands in it', () => {
    const list = 'Item No.;Text;Net;UOM;Std Pkg\nW;cable;426,00;;125\n';
    const columns = { part: 'Item No.', price: 'Net', description: 'Text', quantity: 'Std Pkg' };
    expect(parseSupplierCsv(list, columns)).toEqual({
      prices: [{ row: 2, part: 'W', cents: 42_600, description: 'cable', quantity: 125 }],
      ...{ refused: [], headings: ['Item No.', 'Text', 'Net', 'UOM', 'Std Pkg'], missing: [] },
    });
  });

  it.each([
    ['that nobody named', {}, ['part', 'price'], 'has no column part, price; it has "Item No.", "Net": say which'],
    [
      'that the supplier renamed',
      { part: 'Item No.', price: 'Net', unit: 'UOM' },
      ['unit'],
      'has no column unit; it has',
    ],
  ])('names the columns %s, and the headings that are there', (_, columns, missing, reason) => {
    const list = parseSupplierCsv('Item No.,Net\nA,1\n', columns);
    expect(list).toMatchObject({ prices: [], missing, headings: ['Item No.', 'Net'] });
    expect(list.refused).toEqual([{ row: 1, reason: expect.stringContaining(reason) }]);
  });

  it('proposes what a heading probably is, and never a list price', () => {
    expect(proposedHeadings(['Item No.', 'List Price', 'NET PRICE', 'U.O.M.', 'UOM'])).toEqual({
      ...{ part: 'Item No.', price: 'NET PRICE', unit: 'UOM' },
    });
    expect(proposedHeadings(['List price'])).toEqual({});
  });

  // 1.50 $/ft × 125 ft = 187.50 $; 150 $ a hundred feet and 1,500 $ a thousand are the same.
  it.each([
    ['ft', '1.50'],
    ['/FT', '1.50'],
    ['C', '150'],
    ['M', '1500'],
    ['coil', '187.50'],
    ['', '187.50'],
  ])('takes a price by "%s" as one, and finds the package by what it holds', (unit, price) => {
    const list = `part,price,unit,quantity\nW,${price},${unit},125\n`;
    const { items, unmatched } = priced(list, [{ part: 'W', key: 'nm-b-6-3-cu' }]);
    expect(unmatched).toEqual([]);
    expect(items[0]?.offers.map(({ likelyCents }) => likelyCents)).toEqual([355, 18_750]);
  });

  it.each([
    ['m', '1500', '125', 'is priced by "m", which is no unit of "nm-b-6-3-cu": it is counted in ft'],
    ['lb', '3', '125', 'is priced by "lb", which is no unit of'],
    ['ft', '0', '125', 'costs 0, which is no price: the book keeps the one it has'],
    ['M', '0.000001', '1', 'comes to less than can be counted'],
    ['ft', '1.5', '250', 'says a package of 250, and "nm-b-6-3-cu" has "by the foot", "125 ft coil"'],
  ])('takes no price by "%s" of $%s for %s, and says why', (unit, price, quantity, reason) => {
    const list = `part,price,unit,quantity\nW,${price},${unit},${quantity}\n`;
    const { items, unmatched } = priced(list, [{ part: 'W', key: 'nm-b-6-3-cu' }]);
    expect(items).toEqual([]);
    expect(unmatched[0]?.reason).toContain(reason);
  });

  it('puts no price of one package size where the mapping names another', () => {
    const mapping = [{ part: 'W', key: 'nm-b-6-3-cu', package: 'by the foot' }];
    const { unmatched } = priced('part,price,quantity\nW,426,125\n', mapping);
    expect(unmatched[0]?.reason).toBe('says a package of 125, and "by the foot" of "nm-b-6-3-cu" holds 1');
  });
});
