import { describe, expect, it } from 'vitest';
import { ConflictError, CorruptDataError, NotFoundError, StaleRevisionError } from '../../db/errors.ts';
import { searchQuery } from '../../db/search-words.ts';
import { cable, opens, scratchPath, task, thrownBy } from './scratch.ts';

describe('an item of the price book', () => {
  it('comes back as it was written, with revision 1', () => {
    const { prices } = opens(scratchPath());
    expect(prices.create(cable())).toEqual({ ...cable(), revision: 1 });
    expect(prices.create(task())).toEqual({ ...task(), revision: 1 });
    expect(prices.find('nm-b-6-3-cu')).toEqual({ ...cable(), revision: 1 });
    expect(prices.revision()).toBe(2);
  });

  it('keeps every digit of a quantity that has no end', () => {
    const { prices } = opens(scratchPath());
    const offers = [{ package: 'third', quantity: 1 / 3, lowCents: 1, likelyCents: 1, highCents: 1, available: true }];
    prices.create(cable({ offers, likely: 310.25 + 1 / 3 }));
    const item = prices.find('nm-b-6-3-cu');
    expect(item.offers[0]?.quantity).toBe(1 / 3);
    expect(prices.history('nm-b-6-3-cu')[0]?.item.offers[0]?.quantity).toBe(1 / 3);
    expect(item.likely).toBe(310.25 + 1 / 3);
  });

  it('is refused where its key is taken, and where there is none of that key', () => {
    const { prices } = opens(scratchPath());
    prices.create(cable());
    const taken = thrownBy(() => prices.create(cable()));
    expect(taken).toBeInstanceOf(ConflictError);
    expect(taken.message).toBe('The price book has an item "nm-b-6-3-cu" already.');
    const missing = thrownBy(() => prices.find('nm-b-6-3-al'));
    expect(missing).toBeInstanceOf(NotFoundError);
    expect(missing.name).toBe('NotFoundError');
    expect(missing.message).toBe('The price book has no item "nm-b-6-3-al".');
    expect(prices.revision()).toBe(1);
  });

  it('keeps the price it replaces, with the moment and the revision of the book', () => {
    let moment = '2026-02-01T10:00:00Z';
    const { prices } = opens(scratchPath(), { now: () => new Date(moment) });
    prices.create(cable());
    moment = '2026-02-02T10:00:00Z';
    prices.replace('nm-b-6-3-cu', 1, cable({ likely: 380, offers: [] }));
    expect(prices.history('nm-b-6-3-cu').map(({ item, ...entry }) => ({ ...entry, likely: item.likely }))).toEqual([
      { revision: 2, bookRevision: 2, change: 'changed', cause: 'edit', at: '2026-02-02T10:00:00.000Z', likely: 380 },
      { revision: 1, bookRevision: 1, change: 'added', cause: 'edit', at: '2026-02-01T10:00:00.000Z', likely: 355.5 },
    ]);
    expect(prices.history('nm-b-6-3-cu')[1]?.item).toEqual({ ...cable(), revision: 1 });
    expect(prices.find('nm-b-6-3-cu')).toEqual({ ...cable({ likely: 380, offers: [] }), revision: 2 });
  });

  it('tells the second of two who changed the same revision, and keeps the first change', () => {
    const { prices } = opens(scratchPath());
    prices.create(cable());
    prices.replace('nm-b-6-3-cu', 1, cable({ likely: 380 }));
    const stale = thrownBy(() => prices.replace('nm-b-6-3-cu', 1, cable({ likely: 400 })));
    expect(stale).toBeInstanceOf(StaleRevisionError);
    expect(stale).toMatchObject({ revision: 2, message: '"nm-b-6-3-cu" is at revision 2 by now, not 1.' });
    expect(thrownBy(() => prices.remove('nm-b-6-3-cu', 1))).toBeInstanceOf(StaleRevisionError);
    expect(prices.find('nm-b-6-3-cu').likely).toBe(380);
    expect(prices.history('nm-b-6-3-cu')).toHaveLength(2);
    expect(prices.revision()).toBe(2);
  });

  it('stays at its revision where nothing differs, whatever the order of the fields of its spec', () => {
    const { prices } = opens(scratchPath());
    prices.create(cable());
    const spec = { conductors: 3, size: '6', metal: 'copper', form: 'nm-b', is: 'cable' } as const;
    expect(prices.replace('nm-b-6-3-cu', 1, cable({ spec })).revision).toBe(1);
    expect(prices.revision()).toBe(1);
  });

  it('is never renamed, for its history hangs on the key', () => {
    const { prices } = opens(scratchPath());
    prices.create(cable());
    const renamed = thrownBy(() => prices.replace('nm-b-6-3-cu', 1, cable({ key: 'nm-b-6-3' })));
    expect(renamed).toBeInstanceOf(ConflictError);
    expect(renamed.message).toBe('"nm-b-6-3-cu" cannot become "nm-b-6-3": add that one, remove this one.');
  });

  it('leaves its history behind when removed, and goes on with its revisions when it comes back', () => {
    const { prices } = opens(scratchPath());
    prices.create(cable());
    prices.remove('nm-b-6-3-cu', 1);
    expect(thrownBy(() => prices.find('nm-b-6-3-cu'))).toBeInstanceOf(NotFoundError);
    expect(prices.list({ search: 'nm-b' }).total).toBe(0);
    expect(prices.history('nm-b-6-3-cu').map(({ change }) => change)).toEqual(['removed', 'added']);
    expect(prices.create(cable({ likely: 360 })).revision).toBe(3); // an entity tag never names two states
    expect(prices.history('nm-b-6-3-cu').map(({ change }) => change)).toEqual(['added', 'removed', 'added']);
    expect(thrownBy(() => prices.history('never'))).toBeInstanceOf(NotFoundError);
  });

  it('has its history after a restart', () => {
    const dir = scratchPath();
    const before = opens(dir);
    before.prices.create(cable());
    before.prices.replace('nm-b-6-3-cu', 1, cable({ likely: 380 }));
    const kept = before.prices.history('nm-b-6-3-cu');
    before.close();
    const { prices } = opens(dir);
    expect(prices.history('nm-b-6-3-cu')).toEqual(kept);
    expect(prices.find('nm-b-6-3-cu').likely).toBe(380);
    expect(prices.revision()).toBe(2);
  });

  it('has a history that the database itself refuses to rewrite', () => {
    const { prices, db } = opens(scratchPath());
    prices.create(cable());
    expect(() => db.exec('UPDATE price_history SET likely = 400')).toThrow('the history of prices is never rewritten');
    expect(() => db.exec('DELETE FROM price_history')).toThrow('the history of prices is never removed');
  });

  it.each([
    ['three points that fall', { low: 400 }],
    ['a price below 0', { low: -1 }],
    ['a price that is no number', { high: Number.NaN }],
    ['a price without end', { high: Number.POSITIVE_INFINITY }],
    ['no source', { source: '' }],
    ['a key with blanks', { key: 'nm b' }],
    ['a day of another form', { date: '4.11.2025' }],
    [
      'an offer with part of a cent',
      { offers: [{ package: 'each', quantity: 1, lowCents: 0.5, likelyCents: 1, highCents: 2, available: true }] },
    ],
    [
      'an offer of nothing',
      { offers: [{ package: 'each', quantity: 0, lowCents: 1, likelyCents: 1, highCents: 2, available: true }] },
    ],
  ])('is refused by the tables themselves: %s', (_what, changes) => {
    const { prices } = opens(scratchPath());
    expect(() => prices.create(cable(changes))).toThrow(
      /^(?:CHECK|NOT NULL) constraint failed|^cannot store REAL value/,
    );
    expect(prices.revision()).toBe(0);
    expect(prices.list().total).toBe(0);
  });

  it('is checked by its schema on the way out, and named where it is not one', () => {
    const { prices, db, file } = opens(scratchPath());
    prices.create(cable());
    db.exec(`UPDATE price_item SET spec = '{"is":"spoon"}'`);
    const corrupt = thrownBy(() => prices.find('nm-b-6-3-cu'));
    expect(corrupt).toBeInstanceOf(CorruptDataError);
    expect(corrupt.message).toContain(`The data file ${file} cannot be used: the price of "nm-b-6-3-cu" is not one: `);
    expect(thrownBy(() => prices.snapshot())).toBeInstanceOf(CorruptDataError);
  });
});

describe('the list of the price book', () => {
  const filled = () => {
    const data = opens(scratchPath());
    data.prices.importItems([
      cable(),
      cable({ key: 'nm-b-8-3-cu', description: 'NM-B 8/3, copper' }),
      cable({ key: 'thwn-2-1_0-cu', description: 'THWN-2 1/0, copper', spec: undefined }),
      cable({ key: 'breaker-2p-60', description: 'Breaker, two-pole 60 A', category: 'breakers', spec: undefined }),
      task(),
      task({ key: 'cafe', description: 'Rauhe Größe, café "spécial"', spec: undefined }),
    ]);
    return data.prices;
  };
  const keys = (search: string, category?: string) =>
    filled()
      .list({ search, ...(category !== undefined && { category }) })
      .items.map(({ key }) => key);

  it('goes by category and key where nothing is searched for', () => {
    const list = filled().list();
    expect(list.items.map(({ key }) => key)).toEqual([
      'breaker-2p-60',
      'cafe',
      'pull-wire',
      'nm-b-6-3-cu',
      'nm-b-8-3-cu',
      'thwn-2-1_0-cu',
    ]);
    expect(list).toMatchObject({ page: 1, pageSize: 50, total: 6 });
  });

  it('finds what somebody types: parts of words, sizes, accents, any case', () => {
    expect(keys('NM-B 6/3')).toEqual(['nm-b-6-3-cu']);
    expect(keys('1/0')).toEqual(['thwn-2-1_0-cu']);
    expect(keys('cop').sort()).toEqual(['nm-b-6-3-cu', 'nm-b-8-3-cu', 'thwn-2-1_0-cu']);
    expect(keys('60 break')).toEqual(['breaker-2p-60']);
    expect(keys('6')).toEqual(['nm-b-6-3-cu']); // a size, not the start of 60
    expect(keys('CAFÉ special')).toEqual(['cafe']);
    expect(keys('copper', 'breakers')).toEqual([]);
    expect(keys('', 'breakers')).toEqual(['breaker-2p-60']);
  });

  it.each([
    '"',
    '*',
    '""',
    'nm"',
    "'; DROP TABLE price_item; --",
    'NEAR(',
    'key:nm',
    '^nm',
    '-',
    'a AND',
    'NOT',
    '(',
    '\u0000',
    '\ud800',
    '𝟼',
    '́',
    '%_',
  ])('takes odd signs as nothing, never as a mistake: %j', (search) => {
    const list = filled().list({ search });
    expect(list.total).toBe(list.items.length);
    expect(filled().list().total).toBe(6);
  });

  it('answers nothing to signs alone, for they name no item', () => {
    expect(searchQuery('"*-/')).toBeUndefined();
    const { categories, ...page } = filled().list({ search: '"*-/' });
    expect(page).toEqual({ items: [], page: 1, pageSize: 50, total: 0 });
    expect(categories).toEqual(['breakers', 'labor', 'wire']);
    expect(filled().list({ search: '   ' }).total).toBe(6);
  });

  it('finds an item by its new words after a change, no longer by the old ones', () => {
    const { prices } = opens(scratchPath());
    prices.create(cable({ description: 'romance' }));
    prices.replace('nm-b-6-3-cu', 1, cable({ description: 'prose' }));
    expect(prices.list({ search: 'romance' }).total).toBe(0);
    expect(prices.list({ search: 'prose' }).total).toBe(1);
  });

  it('pages through 5,000 items without losing or repeating one', () => {
    const { prices } = opens(scratchPath());
    const items = Array.from({ length: 5000 }, (_, at) => cable({ key: `item-${at}`, spec: undefined }));
    expect(prices.importItems(items)).toMatchObject({ added: 5000, changed: 0, same: 0, revision: 1 });
    const met = new Set<string>();
    for (let page = 1; page <= 100; page += 1) for (const { key } of prices.list({ page }).items) met.add(key);
    expect(met.size).toBe(5000);
    expect(prices.list({ page: 101 })).toEqual({
      items: [],
      page: 101,
      pageSize: 50,
      total: 5000,
      categories: ['wire'],
    });
    expect(prices.list({ search: 'copper', page: 100 }).items).toHaveLength(50);
    expect(prices.snapshot().items).toHaveLength(5000);
  });
});

describe('the book at a revision', () => {
  it('is what it was: prices, packages, items that came and went', () => {
    const { prices } = opens(scratchPath());
    prices.create(cable()); // 1
    prices.create(task()); // 2
    prices.replace('nm-b-6-3-cu', 1, cable({ likely: 380, offers: [] })); // 3
    prices.remove('pull-wire', 1); // 4
    prices.create(task({ likely: 0.02 })); // 5
    const at = (revision: number) => prices.snapshot(revision).items;
    expect(at(1)).toEqual([{ ...cable(), revision: 1 }]);
    expect(at(2)).toEqual([
      { ...cable(), revision: 1 },
      { ...task(), revision: 1 },
    ]);
    expect(at(3)).toEqual([
      { ...cable({ likely: 380, offers: [] }), revision: 2 },
      { ...task(), revision: 1 },
    ]);
    expect(at(4)).toEqual([{ ...cable({ likely: 380, offers: [] }), revision: 2 }]);
    expect(at(5)).toEqual([...at(4), { ...task({ likely: 0.02 }), revision: 3 }]);
    expect(prices.snapshot()).toEqual({ items: at(5), revision: 5 });
  });

  it('never was, where no change made it', () => {
    const { prices } = opens(scratchPath());
    expect(prices.snapshot()).toEqual({ items: [], revision: 0 });
    prices.create(cable());
    for (const revision of [0, -1, 2, 1.5]) {
      const error = thrownBy(() => prices.snapshot(revision));
      expect(error).toBeInstanceOf(NotFoundError);
      expect(error.message).toBe(`The price book never had a revision ${revision}; it is at 1.`);
    }
  });

  it('is read once and kept until something changes', () => {
    const { prices } = opens(scratchPath());
    prices.create(cable());
    const first = prices.snapshot();
    expect(prices.snapshot()).toBe(first);
    prices.replace('nm-b-6-3-cu', 1, cable({ likely: 380 }));
    expect(prices.snapshot().items[0]?.likely).toBe(380);
    expect(first.items[0]?.likely).toBe(355.5);
  });

  it('does not keep what a transaction takes back', () => {
    const { prices, db } = opens(scratchPath());
    prices.create(cable());
    const takenBack = db.transaction(() => {
      prices.replace('nm-b-6-3-cu', 1, cable({ likely: 380 }));
      expect(prices.snapshot().items[0]?.likely).toBe(380);
      throw new Error('taken back');
    });
    expect(takenBack).toThrow('taken back');
    prices.replace('nm-b-6-3-cu', 1, cable({ likely: 400 }));
    expect(prices.snapshot()).toMatchObject({ revision: 2, items: [{ likely: 400 }] });
  });

  it('shows a reader beside the server each change', () => {
    const dir = scratchPath();
    const server = opens(dir);
    server.prices.create(cable());
    const reader = opens(dir, { readonly: true });
    expect(reader.prices.snapshot().items[0]?.likely).toBe(355.5);
    server.prices.replace('nm-b-6-3-cu', 1, cable({ likely: 380 }));
    expect(reader.prices.snapshot()).toMatchObject({ revision: 2, items: [{ likely: 380 }] });
  });
});

describe('an import', () => {
  it('is one change of the book, and says what is added, changed and the same', () => {
    const { prices } = opens(scratchPath());
    prices.importItems([cable(), task()]);
    const outcome = prices.importItems([cable(), task({ likely: 0.02 }), cable({ key: 'new', spec: undefined })]);
    expect(outcome).toMatchObject({ added: 1, changed: 1, same: 1, removed: 0, revision: 2 });
    expect(prices.history('pull-wire')[0]).toMatchObject({ bookRevision: 2, change: 'changed', cause: 'import' });
    expect(prices.find('nm-b-6-3-cu').revision).toBe(1);
    expect(prices.importItems([cable()])).toMatchObject({ added: 0, changed: 0, same: 1, revision: 2, changes: [] });
  });

  it('only says so when tried', () => {
    const { prices } = opens(scratchPath());
    prices.create(cable());
    const tried = prices.importItems([cable({ likely: 380 }), task()], { dryRun: true });
    expect(tried).toEqual({
      ...{ added: 1, changed: 1, same: 0, removed: 0, revision: 1 },
      changes: [
        { key: 'nm-b-6-3-cu', before: { ...cable(), revision: 1 }, after: cable({ likely: 380 }) },
        { key: 'pull-wire', before: null, after: task() },
      ],
    });
    expect(prices.list().total).toBe(1);
    expect(prices.find('nm-b-6-3-cu').likely).toBe(355.5);
  });

  it('is whole or not at all', () => {
    const { prices } = opens(scratchPath());
    expect(() => prices.importItems([cable(), task({ source: '' })])).toThrow("CHECK constraint failed: source <> ''");
    expect(prices.list().total).toBe(0);
    expect(prices.revision()).toBe(0);
    const twice = thrownBy(() => prices.importItems([cable(), task(), cable()]));
    expect(twice).toBeInstanceOf(ConflictError);
    expect(twice.message).toBe('The item "nm-b-6-3-cu" stands twice in what is imported.');
  });
});
