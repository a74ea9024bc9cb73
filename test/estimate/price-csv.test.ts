import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CABLE_FORMS, PriceItemInput, type Spec } from '../../server/estimate/price-book.ts';
import { PRICE_COLUMNS, parsePriceCsv, writePriceCsv } from '../../server/estimate/price-csv.ts';
import { keyOfSpec, readSpec, writeSpec } from '../../server/estimate/spec-text.ts';
import { CONDUCTOR_SIZES, METALS, RACEWAY_TYPES, TRADE_SIZES } from '../../server/estimate/vocabulary.ts';

const HEAD = PRICE_COLUMNS.join(',');
/** A row of a list by its columns; what is not said is an ordinary item. */
function row(cells: Partial<Record<(typeof PRICE_COLUMNS)[number], string>>): string {
  const usual = {
    ...{ key: 'box', kind: 'price', description: 'box', class: 'material', scope: 'boxes', category: 'box' },
    ...{ unit: 'each', low: '100', likely: '150', high: '300', date: '2025-07-01', region: 'US', source: 'a test' },
  };
  const all: Partial<Record<string, string>> = { ...usual, ...cells };
  return PRICE_COLUMNS.map((column) => all[column] ?? '').join(',');
}
const list = (...rows: string[]) => `${[HEAD, ...rows].join('\n')}\n`;
const coil = (cells: Parameters<typeof row>[0]) =>
  row({
    ...{ key: 'wire', unit: 'ft', quantity: '50', lowCents: '900', likelyCents: '1000', highCents: '1300' },
    ...cells,
  });

/** The same list as a spreadsheet of many countries writes it; "#" stands for a decimal comma. */
const inSemicolons = (text: string) => text.replaceAll(',', ';').replaceAll('#', ',');

describe('a price list', () => {
  it('reads semicolons with decimal commas, CRLF and a byte order mark as it reads its own', () => {
    const ours = list(row({ low: '99.5' }), row({ key: 'other' }));
    const theirs = `\uFEFF${ours.replaceAll(',', ';').replace('99.5', '99,5').replaceAll('\n', '\r\n')}`;
    expect(parsePriceCsv(theirs)).toEqual(parsePriceCsv(ours));
    expect(parsePriceCsv(ours).items[0]?.low).toBe(99.5);
  });

  it('names the keys of the rows that it refuses, so that nobody takes them for missing', () => {
    const { refusedKeys } = parsePriceCsv(list(row({ key: 'a', low: 'x' }), `${row({ key: 'b' })},more`, row({})));
    expect(refusedKeys.sort()).toEqual(['a', 'b']);
  });

  it('makes one item of the rows of one key, an offer each', () => {
    const { items, refused } = parsePriceCsv(
      list(
        coil({ package: 'coil 50 ft' }),
        row({}),
        coil({ package: 'coil 100 ft', quantity: '100', packageAvailable: 'no' }),
      ),
    );
    expect(refused).toEqual([]);
    expect(
      items.map(({ key, offers }) => [key, offers.map(({ package: name, available }) => [name, available])]),
    ).toEqual([
      [
        'wire',
        [
          ['coil 50 ft', true],
          ['coil 100 ft', false],
        ],
      ],
      ['box', []],
    ]);
  });

  it('may leave out columns that nobody needs, in any order, with a byte order mark and blank rows', () => {
    const head = 'source,region,date,high,likely,low,unit,category,scope,class,description,kind,key';
    const { items, refused } = parsePriceCsv(
      `\uFEFF${head}\r\n\r\na test,US,2025-07-01,3,2,1,each,c,boxes,material,d,price,k\r\n`,
    );
    expect(refused).toEqual([]);
    expect(items[0]).toMatchObject({ key: 'k', low: 1, likely: 2, high: 3, available: true, offers: [] });
  });

  it.each([
    [
      'a number that is none',
      list(row({ low: 'cheap' })),
      2,
      'low must be a number of cents, hours or parts, at least 0',
    ],
    ['an empty price', list(row({ likely: '' })), 2, 'likely must be a number'],
    [
      'points that do not rise',
      list(row({ likely: '500' })),
      2,
      'likely must lie between low 100 and high 300, not 500',
    ],
    [
      'a kind that is none',
      list(row({ kind: 'guess' })),
      2,
      'kind must be one of price, labor-unit, rate, factor, not "guess"',
    ],
    ['a day that is none', list(row({ date: '2025-02-30' })), 2, 'date must'],
    ['a spec of nothing', list(row({ spec: 'banana size=2' })), 2, 'must say what it is: one of cable'],
    ['a spec with a field it does not have', list(row({ spec: 'task task=x size=2' })), 2, 'spec.size is not a field'],
    ['a package without a price', list(row({}), coil({ package: 'coil', likelyCents: '' })), 3, 'likelyCents must be'],
    ['half a cent', list(coil({ package: 'coil', lowCents: '0.5' })), 2, 'lowCents must be a whole number of cents'],
    ['neither yes nor no', list(row({ available: 'perhaps' })), 2, 'available must'],
    [
      'rows of one key that disagree',
      list(coil({ package: 'a' }), coil({ package: 'b', low: '90' })),
      3,
      'says low "90" of "wire", row 2 says "100"',
    ],
    [
      'a package said twice',
      list(coil({ package: 'a' }), coil({ package: 'a' })),
      3,
      'names the package "a" of "wire" again',
    ],
    ['a cell too many', list(`${row({})},more`), 2, 'has 25 cells where the heading has 24'],
    ['a column that it does not have', `${HEAD},colour\n`, 1, 'has columns that a price list does not have: "colour"'],
    ['a column that is missing', 'key,kind\n', 1, 'has no column description, class, scope'],
    ['a column twice', `${HEAD},key\n`, 1, 'has the column key twice'],
    ['nothing at all', '', 1, 'has no column key'],
    ['tabs between the columns', `${HEAD.replaceAll(',', '\t')}\n`, 1, 'separates its columns by tabs'],
    ['a comma among points', list(row({ low: '"99,5"' })), 2, 'low "99,5" has a comma: write decimals after a point'],
    [
      'a point among commas',
      inSemicolons(list(row({ key: 'other', low: '99#5' }), row({ likely: '1.500', high: '2000' }))),
      3,
      'likely "1.500" has a point in a list whose decimals stand after a comma',
    ],
    ['a quote that never ends', list(row({ source: '"open' })), 2, 'cannot be read as CSV'],
  ])('refuses %s, and says row and reason', (_, text, at, reason) => {
    const { items, refused } = parsePriceCsv(text);
    expect(refused[0]?.row).toBe(at);
    expect(refused[0]?.reason).toContain(reason);
    expect(items.map(({ key }) => key)).not.toContain('wire');
  });

  it('takes the sound items beside a refused one', () => {
    const { items, refused } = parsePriceCsv(list(row({ key: 'bad', low: 'x' }), row({ key: 'good' })));
    expect(items.map(({ key }) => key)).toEqual(['good']);
    expect(refused).toHaveLength(1);
  });

  it.each(['=1+1', '+49', '-3', '@sum', '\tx', "'=1", "''@a", "'plain"])(
    'hides the formula in %j from a spreadsheet',
    (text) => {
      const [item] = parsePriceCsv(list(row({}))).items;
      if (!item) throw new Error('an ordinary row reads');
      const printed = writePriceCsv([{ ...item, description: text }]);
      const cell = printed.split('\n')[1]?.split(',')[2] ?? '';
      expect(cell.replace(/^"/, '')).not.toMatch(/^[=+\-@\t]/);
      expect(parsePriceCsv(printed).items[0]?.description).toBe(text);
    },
  );

  it('reads back what it prints, whatever the words are', () => {
    const word = fc.string({ minLength: 1, maxLength: 30 }).filter((text) => /\S/.test(text));
    const cents = fc.nat(1_000_000);
    const rising = fc.tuple(cents, cents, cents).map((three) => three.sort((a, b) => a - b));
    const offer = fc.record({ points: rising, quantity: fc.integer({ min: 1, max: 1000 }), available: fc.boolean() });
    const anyItem = fc
      .record({ words: fc.tuple(word, word, word), points: rising, offers: fc.array(offer, { maxLength: 3 }) })
      .map(({ words: [description, category, source], points: [low = 0, likely = 0, high = 0], offers }) =>
        PriceItemInput.parse({
          ...{
            key: 'item',
            kind: 'price',
            description,
            class: 'material',
            scope: 'other',
            category,
            unit: 'each',
          },
          ...{ low, likely, high, date: '2025-07-01', region: 'US', source },
          offers: offers.map(({ points: [lowCents, likelyCents, highCents], quantity, available }, of) => ({
            ...{ package: `pack ${of}`, quantity, lowCents, likelyCents, highCents, available },
          })),
        }),
      );
    fc.assert(
      fc.property(anyItem, (item) => {
        expect(parsePriceCsv(writePriceCsv([item]))).toEqual({ items: [item], refused: [], refusedKeys: [] });
      }),
    );
  });
});

describe('the text of a spec', () => {
  const specs: fc.Arbitrary<Spec> = fc.oneof(
    fc.record({
      is: fc.constant('cable' as const),
      form: fc.constantFrom(...CABLE_FORMS),
      metal: fc.constantFrom(...METALS),
      size: fc.constantFrom(...CONDUCTOR_SIZES),
      conductors: fc.constantFrom(2 as const, 3 as const),
    }),
    fc.record({
      is: fc.constant('fitting' as const),
      type: fc.constantFrom(...RACEWAY_TYPES),
      tradeSize: fc.constantFrom(...TRADE_SIZES),
      piece: fc.constantFrom('lb', 'elbow-90'),
    }),
    fc.record({
      is: fc.constant('panel' as const),
      ratingA: fc.constantFrom(60, 100, 125),
      spaces: fc.constantFrom(2, 12),
      enclosure: fc.constantFrom('indoor' as const, 'outdoor' as const),
      mainBreaker: fc.boolean(),
    }),
  );

  it('reads back what it prints', () => {
    fc.assert(
      fc.property(specs, (spec) => {
        expect(readSpec(writeSpec(spec))).toEqual(spec);
      }),
    );
  });

  it('is short and plain', () => {
    const spec: Spec = { is: 'breaker', ratingA: 60, poles: 2, gfci: true };
    expect(writeSpec(spec)).toBe('breaker ratingA=60 poles=2 gfci=yes');
  });

  /** Keys as the trade's sizes give them: a slash becomes an underscore. */
  it('has a customary key', () => {
    expect(keyOfSpec({ is: 'cable', form: 'nm-b', metal: 'copper', size: '6', conductors: 3 })).toBe('nm-b-6-3-cu');
    expect(keyOfSpec({ is: 'conductor', insulation: 'thwn-2', metal: 'copper', size: '1/0' })).toBe('thwn-2-1_0-cu');
    expect(keyOfSpec({ is: 'raceway', type: 'pvc-40', tradeSize: '1-1/4' })).toBe('pvc-40-1-1_4');
  });
});
