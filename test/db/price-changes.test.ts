import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  ChangedSinceError,
  ConflictError,
  NotFoundError,
  StaleItemsError,
  StaleRevisionError,
} from '../../db/errors.ts';
import type { PriceItemInput } from '../../server/estimate/price-book.ts';
import { cable, opens, scratchPath, task, thrownBy } from './scratch.ts';

const SEVERAL = { cause: 'several' as const, by: 'Ada', why: 'the new list' };
const filled = () => {
  const data = opens(scratchPath());
  data.prices.importItems([cable(), cable({ key: 'nm-b-8-3-cu', spec: undefined }), task()]);
  return data;
};
const step = (item: PriceItemInput, revisionSeen = 1) => ({ item, revisionSeen });

describe('several items at once', () => {
  it('are one revision of the book, with who and why in the history of each', () => {
    const { prices } = filled();
    const { bookRevision, changed } = prices.replaceSeveral(
      [
        step(cable({ likely: 380 })),
        step(task({ likely: 0.02 })),
        step(cable({ key: 'nm-b-8-3-cu', spec: undefined })),
      ],
      SEVERAL,
    );
    expect(bookRevision).toBe(2);
    expect(changed.map(({ key, before, after }) => [key, before?.likely, after?.likely])).toEqual([
      ['nm-b-6-3-cu', 355.5, 380],
      ['pull-wire', 0.012, 0.02],
    ]); // the third says what it said before
    for (const key of ['nm-b-6-3-cu', 'pull-wire']) {
      expect(prices.history(key)[0]).toMatchObject({ bookRevision: 2, ...SEVERAL });
    }
    expect(prices.revisions().items[0]).toMatchObject({ revision: 2, ...SEVERAL, items: 2 });
    expect(prices.find('nm-b-8-3-cu').revision).toBe(1);
  });

  it('are left alone, all of them, where somebody changed or removed some meanwhile', () => {
    const { prices } = filled();
    prices.replace('pull-wire', 1, task({ likely: 0.015 }));
    prices.remove('nm-b-8-3-cu', 1);
    const error = thrownBy(() =>
      prices.replaceSeveral(
        [step(cable({ likely: 380 })), step(task({ likely: 0.02 })), step(cable({ key: 'nm-b-8-3-cu' }))],
        SEVERAL,
      ),
    );
    expect(error).toBeInstanceOf(StaleItemsError);
    expect(error.message).toBe('Somebody changed "pull-wire", "nm-b-8-3-cu" since. Nothing was changed.');
    expect(error).toMatchObject({
      items: [
        { at: 1, key: 'pull-wire', revisionSeen: 1, revision: 2 },
        { at: 2, key: 'nm-b-8-3-cu', revisionSeen: 1, revision: null },
      ],
    });
    expect(prices.find('nm-b-6-3-cu').likely).toBe(355.5);
    expect(prices.revision()).toBe(3);
  });

  it('are only told when tried', () => {
    const { prices } = filled();
    const tried = prices.replaceSeveral([step(cable({ likely: 380 }))], { ...SEVERAL, dryRun: true });
    expect(tried).toMatchObject({ bookRevision: 1, changed: [{ after: { likely: 380 } }] });
    expect(prices.find('nm-b-6-3-cu').likely).toBe(355.5);
    expect(prices.revisions().total).toBe(1);
  });
});

describe('an undo', () => {
  it('puts back what a revision changed, added and removed, as a revision of its own', () => {
    const { prices } = filled();
    const before = prices.snapshot().items;
    prices.importItems([cable({ likely: 380 }), task({ key: 'new', spec: undefined })], { removeMissing: true });
    expect(prices.snapshot().items.map(({ key }) => key)).toEqual(['new', 'nm-b-6-3-cu']);
    const { bookRevision, changed } = prices.undo(2, { by: 'Ada', why: 'the wrong file' });
    expect(bookRevision).toBe(3);
    expect(changed.map(({ key }) => key).sort()).toEqual(['new', 'nm-b-6-3-cu', 'nm-b-8-3-cu', 'pull-wire']);
    const said = (items: readonly object[]) => items.map((item) => ({ ...item, revision: 0 }));
    expect(said(prices.snapshot().items)).toEqual(said(before));
    expect(prices.revisionInfo(3)).toMatchObject({
      cause: 'undo',
      undoes: 2,
      by: 'Ada',
      why: 'the wrong file',
      items: 4,
    });
    expect(prices.revisionInfo(2)).toMatchObject({ undoneBy: 3 });
    expect(prices.find('nm-b-6-3-cu').revision).toBe(3); // no entity tag ever names two states
  });

  it('is refused whole where an item was changed since, and names it', () => {
    const { prices } = filled();
    prices.replaceSeveral([step(cable({ likely: 380 })), step(task({ likely: 0.02 }))], SEVERAL);
    prices.replace('pull-wire', 2, task({ likely: 0.03 }));
    const error = thrownBy(() => prices.undo(2));
    expect(error).toBeInstanceOf(ChangedSinceError);
    expect(error.message).toBe('Somebody changed "pull-wire" since. Nothing was changed.');
    expect(prices.find('nm-b-6-3-cu').likely).toBe(380);
    prices.undo(3);
    expect(thrownBy(() => prices.undo(2))).toBeInstanceOf(ChangedSinceError); // it is not the state that 2 made
  });

  it('is refused for a revision that never was, and for the starting prices', () => {
    const { prices } = opens(scratchPath());
    prices.importItems([cable()], { cause: 'seed' });
    expect(thrownBy(() => prices.undo(7))).toBeInstanceOf(NotFoundError);
    expect(thrownBy(() => prices.undo(1))).toBeInstanceOf(ConflictError);
    expect(prices.list().total).toBe(1);
  });

  it('can be undone, whatever was changed', () => {
    const prices = fc.array(fc.integer({ min: 0, max: 400 }), { minLength: 3, maxLength: 3 });
    fc.assert(
      fc.property(prices, fc.boolean(), (likely, removeMissing) => {
        const data = filled();
        const items = [cable(), cable({ key: 'nm-b-8-3-cu', spec: undefined }), cable({ key: 'new', spec: undefined })];
        const list = items.map((item, at) => ({ ...item, low: 0, likely: likely[at] ?? 0 }));
        data.prices.importItems(list, { removeMissing });
        const after = data.prices.snapshot().items;
        data.prices.undo(2);
        data.prices.undo(3);
        const said = (all: readonly object[]) => all.map((item) => ({ ...item, revision: 0 }));
        expect(said(data.prices.snapshot().items)).toEqual(said(after));
        data.close();
      }),
      { numRuns: 10 },
    );
  });
});

describe('an earlier price', () => {
  it('is restored as a change of its own, with its date and source', () => {
    const { prices } = filled();
    prices.replace('nm-b-6-3-cu', 1, cable({ likely: 380, source: 'another', date: '2026-01-01' }));
    const restored = prices.restore('nm-b-6-3-cu', 1, { revisionSeen: 2, why: 'it was right' });
    expect(restored).toEqual({ ...cable(), revision: 3 });
    expect(prices.history('nm-b-6-3-cu')[0]).toMatchObject({ cause: 'restore', why: 'it was right' });
    expect(prices.restore('nm-b-6-3-cu', 1, { revisionSeen: 3 }).revision).toBe(3); // nothing differs
  });

  it('brings an item back that was removed, and is refused over what nobody saw', () => {
    const { prices } = filled();
    prices.remove('pull-wire', 1);
    expect(prices.restore('pull-wire', 1, {})).toMatchObject({ likely: 0.012, revision: 3 });
    expect(thrownBy(() => prices.restore('pull-wire', 1, { revisionSeen: 1 }))).toBeInstanceOf(StaleRevisionError);
    expect(thrownBy(() => prices.restore('pull-wire', 9, { revisionSeen: 3 }))).toBeInstanceOf(NotFoundError);
  });
});

describe('the revisions of the book', () => {
  it('are listed by page, the newest first, and found by the moment', () => {
    let minute = 0;
    const { prices } = opens(scratchPath(), {
      now: () => new Date(Date.UTC(2026, 0, 1, 0, minute)),
    });
    prices.create(cable());
    for (minute = 1; minute <= 60; minute += 1) {
      prices.replace('nm-b-6-3-cu', minute, cable({ likely: 355.5 + minute / 10 }), { by: `person ${minute}` });
    }
    expect(prices.revisions()).toMatchObject({ page: 1, pageSize: 50, total: 61 });
    expect(prices.revisions().items[0]).toMatchObject({ revision: 61, cause: 'edit', by: 'person 60', items: 1 });
    expect(prices.revisions(2).items.map(({ revision }) => revision)).toEqual([11, 10, 9, 8, 7, 6, 5, 4, 3, 2, 1]);
    expect(prices.revisionBefore('2026-01-01T00:10:00.000Z')).toBe(10);
    expect(thrownBy(() => prices.revisionBefore('2026-01-01T00:00:00.000Z'))).toBeInstanceOf(NotFoundError);
  });

  it('are never rewritten', () => {
    const { prices, db } = opens(scratchPath());
    prices.create(cable());
    expect(() => db.exec("UPDATE book_revision SET why = 'other'")).toThrow('is never rewritten');
    expect(() => db.exec('DELETE FROM book_revision')).toThrow('is never removed');
  });

  it('are searched as the newest is', () => {
    const { prices } = opens(scratchPath());
    prices.importItems([cable(), cable({ key: 'nm-b-60-3-cu', description: 'Café', spec: undefined }), task()]);
    const words = ['nm-b', '6', 'CAFE', 'pull wi', '', '"*', 'copper'];
    const found = () =>
      words.map((search) =>
        prices
          .list({ search, revision: 1 })
          .items.map(({ key }) => key)
          .sort(),
      );
    const before = found();
    prices.importItems([task({ key: 'later', spec: undefined })], { removeMissing: true });
    expect(prices.list({ search: 'nm-b' }).total).toBe(0);
    expect(found()).toEqual(before);
    expect(before[1]).toEqual(['nm-b-6-3-cu']);
    expect(prices.list({ revision: 1, category: 'labor' })).toMatchObject({ total: 1, categories: ['labor', 'wire'] });
    expect(thrownBy(() => prices.list({ revision: 9 }))).toBeInstanceOf(NotFoundError);
  });
});

describe('an import that removes', () => {
  it('takes out what it does not name, only when asked, and keeps what could not be read', () => {
    const { prices } = filled();
    expect(prices.importItems([cable()]).removed).toBe(0);
    const tried = prices.importItems([cable()], { removeMissing: true, dryRun: true, kept: ['pull-wire'] });
    expect(tried).toMatchObject({ removed: 1, changes: [{ key: 'nm-b-8-3-cu', after: null }] });
    expect(prices.list().total).toBe(3);
    expect(prices.importItems([cable()], { removeMissing: true }).removed).toBe(2);
    expect(prices.list().total).toBe(1);
    expect(prices.history('pull-wire')[0]).toMatchObject({ change: 'removed', cause: 'import' });
  });

  it('removes nothing by a list that names nothing', () => {
    const { prices } = filled();
    expect(prices.importItems([], { removeMissing: true })).toMatchObject({ removed: 0, same: 0 });
    expect(prices.list().total).toBe(3);
  });
});

describe('the mapping of a supplier', () => {
  it('is kept for the next time, and not overwritten unseen', () => {
    const dir = scratchPath();
    const data = opens(dir);
    expect(data.suppliers.mapping('Invented Supply')).toEqual({
      supplier: 'Invented Supply',
      revision: 0,
      parts: [],
      columns: {},
    });
    const columns = { part: 'Item No.', price: 'Net' };
    const parts = [
      { part: 'A-1', key: 'nm-b-6-3-cu', package: '125 ft coil' },
      { part: 'B', key: 'pull-wire' },
    ];
    expect(data.suppliers.keepMapping('Invented Supply', 0, { parts, columns })).toEqual({
      ...{ supplier: 'Invented Supply', revision: 1, parts, columns },
    });
    expect(thrownBy(() => data.suppliers.keepMapping('Invented Supply', 0, { parts: [] }))).toBeInstanceOf(
      StaleRevisionError,
    );
    data.close();
    expect(opens(dir).suppliers.mapping('Invented Supply')).toMatchObject({ parts, columns });
  });
});
