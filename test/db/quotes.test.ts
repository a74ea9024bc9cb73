import { describe, expect, it } from 'vitest';
import { ConflictError, CorruptDataError, NotFoundError, StaleRevisionError } from '../../db/errors.ts';
import { opens, quoteToIssue, scratchPath, task, thrownBy } from './scratch.ts';

const today = '2026-03-02';
const hours = (actual: number) => ({ today, actuals: { tasks: [{ key: 'pull-wire', hours: actual }] } });

describe('quotes', () => {
  it('are numbered by the year that they are issued in', () => {
    const { quotes } = opens(scratchPath());
    const numbers = ['2026-12-31', '2026-12-31', '2027-01-01', '2026-03-02'].map(
      (issuedOn) => quotes.issue(quoteToIssue({ issuedOn, validUntil: '2027-02-01' })).number,
    );
    expect(numbers).toEqual(['2026-0001', '2026-0002', '2027-0001', '2026-0003']);
  });

  it('come back as they were issued, after the data was closed', () => {
    const dir = scratchPath();
    const first = opens(dir);
    const issued = first.quotes.issue(quoteToIssue());
    first.close();
    const again = opens(dir).quotes.find(issued.id, { today });
    expect(again).toEqual(issued);
    expect(again).toMatchObject({ status: 'issued', estimate: { options: [] }, costCents: 190_000, actuals: null });
  });

  it('are never rewritten or removed, whoever asks the file itself', () => {
    const { quotes, db } = opens(scratchPath());
    quotes.issue(quoteToIssue());
    expect(() => db.exec('UPDATE quote SET total_cents = 1')).toThrow('a quote that was issued is never rewritten');
    expect(() => db.exec("UPDATE quote SET estimate = '{}'")).toThrow('a quote that was issued is never rewritten');
    expect(() => db.exec('DELETE FROM quote')).toThrow('a quote that was issued is never removed');
    expect(() => db.exec('DELETE FROM quote_state')).toThrow('the history of quotes is never removed');
    expect(() => db.exec('UPDATE quote_state SET revision = 9')).toThrow('the history of quotes is never rewritten');
  });

  /** As somebody who opened the file with another program could leave it; the file itself refuses what is rewritten. */
  it('are not read where a column does not hold what was written', () => {
    const { quotes, db } = opens(scratchPath());
    const { id } = quotes.issue(quoteToIssue());
    db.exec('DROP TRIGGER quote_is_never_rewritten');
    db.exec(`UPDATE quote SET quoted_tasks = '[{"key":"pull-wire","hours":"four","hoursPerUnit":1}]'`);
    const thrown = thrownBy(() => quotes.find(id, { today }));
    expect(thrown).toBeInstanceOf(CorruptDataError);
    expect(thrown.message).toContain('the column quoted_tasks of a quote says at 0.hours');
  });

  it('say which format they were frozen in; those that name none are of the first', () => {
    const { quotes, db } = opens(scratchPath());
    const { id } = quotes.issue(quoteToIssue({ format: 7 }));
    expect(quotes.find(id, { today })).toMatchObject({ format: 7, estimate: { options: [] } });
    db.exec('DROP TRIGGER quote_is_never_rewritten');
    db.exec(`UPDATE quote SET estimate = '{"options":[]}'`);
    expect(quotes.find(id, { today })).toMatchObject({ format: 1, estimate: { options: [] } });
  });

  it('hold through their last day, and read as lapsed on the next', () => {
    const { quotes } = opens(scratchPath());
    const { id } = quotes.issue(quoteToIssue());
    const statusOn = (day: string) => quotes.find(id, { today: day }).status;
    expect([statusOn('2026-03-17'), statusOn('2026-03-18')]).toEqual(['issued', 'lapsed']);
    expect(quotes.list({ today: '2026-03-18' }).items[0]?.status).toBe('lapsed');
    const late = thrownBy(() => quotes.setStatus(id, 1, { status: 'accepted', today: '2026-03-18' }));
    expect(late).toBeInstanceOf(ConflictError);
    expect(late.message).toBe("Quote 2026-0001 lapsed, valid until 2026-03-17: issue it again, with today's prices.");
    quotes.setStatus(id, 1, { status: 'accepted', today: '2026-03-17' });
    expect(statusOn('2026-06-01')).toBe('accepted');
  });

  it.each(['accepted', 'declined', 'withdrawn', 'lapsed'] as const)('are %s once, and nothing follows', (status) => {
    const { quotes } = opens(scratchPath());
    const { id } = quotes.issue(quoteToIssue());
    expect(quotes.setStatus(id, 1, { status, today })).toMatchObject({ status, revision: 2 });
    for (const next of ['issued', 'accepted', 'declined', 'withdrawn', 'lapsed'] as const) {
      expect(thrownBy(() => quotes.setStatus(id, 2, { status: next, today }))).toBeInstanceOf(ConflictError);
    }
    expect(quotes.find(id, { today }).history.map((state) => state.status)).toEqual(['issued', status]);
  });

  it('refuse who read an older one, and who names none', () => {
    const { quotes } = opens(scratchPath());
    const { id } = quotes.issue(quoteToIssue());
    quotes.setActuals(id, 1, hours(5));
    expect(thrownBy(() => quotes.setActuals(id, 1, hours(6)))).toBeInstanceOf(StaleRevisionError);
    expect(thrownBy(() => quotes.find('none', { today }))).toBeInstanceOf(NotFoundError);
    expect(quotes.find(id, { today }).actuals?.tasks).toEqual([{ key: 'pull-wire', hours: 5 }]);
  });

  it('come to nothing again where what was entered is taken back', () => {
    const { quotes } = opens(scratchPath());
    const { id } = quotes.issue(quoteToIssue());
    quotes.setActuals(id, 1, hours(5));
    const emptied = quotes.setActuals(id, 2, { today, actuals: { tasks: [] } });
    expect(emptied).toMatchObject({ actuals: null, revision: 3 });
    expect(emptied.history.map(({ actuals }) => actuals?.tasks.length)).toEqual([undefined, 1, undefined]);
    expect(quotes.jobsDone({ today })).toEqual([]);
  });

  it('are listed the newest first, by project, a page at a time', () => {
    const { quotes } = opens(scratchPath());
    for (let at = 0; at < 51; at += 1) quotes.issue(quoteToIssue({ projectId: at === 7 ? 'other' : 'a-project' }));
    const second = quotes.list({ today, page: 2 });
    expect(second).toMatchObject({ page: 2, pageSize: 50, total: 51 });
    expect(second.items.map(({ number }) => number)).toEqual(['2026-0001']);
    expect(quotes.list({ today, projectId: 'other' }).items.map(({ number }) => number)).toEqual(['2026-0008']);
  });
});

describe('what the book learned', () => {
  it('is one change of the book with its reason, and the figure before it stays known', () => {
    const { prices, learned } = opens(scratchPath());
    prices.importItems([task()]);
    const before = prices.find('pull-wire');
    const after = learned.accept({ revisionSeen: before.revision, item: { ...before, likely: 0.015 }, jobs: 3 });
    expect(after).toMatchObject({ likely: 0.015, revision: before.revision + 1 });
    expect(prices.revision()).toBe(2);
    expect(prices.history('pull-wire')[0]).toMatchObject({ why: 'learned from 3 jobs', cause: 'edit' });
    expect(learned.stated('pull-wire')).toMatchObject({ likely: 0.012 });
  });

  it('starts anew from what somebody states afterwards', () => {
    const { prices, learned } = opens(scratchPath());
    prices.importItems([task()]);
    const { revision, ...stated } = prices.find('pull-wire');
    learned.accept({ revisionSeen: revision, item: { ...stated, revision, likely: 0.015 }, jobs: 1 });
    prices.replace('pull-wire', revision + 1, { ...stated, likely: 0.02 });
    expect(learned.stated('pull-wire').likely).toBe(0.02);
    prices.replace('pull-wire', revision + 2, { ...stated, likely: 0.015 }); // the learned figure put back
    expect(learned.stated('pull-wire').likely).toBe(0.02);
  });

  it('is refused where it changes nothing, or somebody changed the item', () => {
    const { prices, learned } = opens(scratchPath());
    prices.importItems([task()]);
    const item = prices.find('pull-wire');
    expect(thrownBy(() => learned.accept({ revisionSeen: 1, item, jobs: 1 }))).toBeInstanceOf(ConflictError);
    const other = { ...item, likely: 0.02 };
    expect(thrownBy(() => learned.accept({ revisionSeen: 9, item: other, jobs: 1 }))).toBeInstanceOf(
      StaleRevisionError,
    );
    expect(prices.revision()).toBe(1);
  });
});
