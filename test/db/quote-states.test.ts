import { describe, expect, it } from 'vitest';
import { ConflictError } from '../../db/errors.ts';
import type { QuoteStatus, Quotes } from '../../db/quotes.ts';
import { opens, quoteToIssue, scratchPath } from './scratch.ts';

const today = '2026-03-02';
const STATUSES = ['issued', 'accepted', 'declined', 'withdrawn', 'lapsed'] as const;
const hours = { today, actuals: { tasks: [{ key: 'pull-wire', hours: 5 }] } };

/** Issues a quote and says what became of it. */
function quoteThatIs(status: QuoteStatus, quotes: Quotes, revisionOf?: string): string {
  const { id } = quotes.issue(quoteToIssue({ revisionOf }));
  if (status !== 'issued') quotes.setStatus(id, 1, { status, today });
  return id;
}

/** Does it go, or is it refused as what may not follow? Anything else that is thrown fails the test. */
function goes(change: () => unknown): boolean {
  try {
    change();
    return true;
  } catch (error) {
    if (error instanceof ConflictError) return false;
    throw error;
  }
}

const revisionOf = (id: string, quotes: Quotes) => quotes.find(id, { today }).revision;
const isAccepted = (id: string, quotes: Quotes) =>
  goes(() => quotes.setStatus(id, revisionOf(id, quotes), { status: 'accepted', today }));
const takesHours = (id: string, quotes: Quotes) => goes(() => quotes.setActuals(id, revisionOf(id, quotes), hours));

/** Common practice, no source: an offer is open until somebody says what became of it, and stays so. */
const MAY_FOLLOW: Record<QuoteStatus, QuoteStatus[]> = {
  issued: ['accepted', 'declined', 'withdrawn', 'lapsed'],
  accepted: [],
  declined: [],
  withdrawn: [],
  lapsed: [],
};

describe('what may follow what', () => {
  const pairs = STATUSES.flatMap((from) => STATUSES.map((to) => ({ from, to, may: MAY_FOLLOW[from].includes(to) })));
  it.each(pairs)('$from, then $to: $may', ({ from, to, may }) => {
    const { quotes } = opens(scratchPath());
    const id = quoteThatIs(from, quotes);
    expect(goes(() => quotes.setStatus(id, revisionOf(id, quotes), { status: to, today }))).toBe(may);
    expect(quotes.find(id, { today }).status).toBe(may ? to : from);
  });
});

/**
 * What an earlier quote may still do beside its revision: be accepted (a), take the hours of its job (h), be revised
 * again (r). While the revision is open or accepted, the earlier one does nothing; once that is closed, it stands as it
 * would alone. Ours.
 */
const BESIDE: Record<QuoteStatus, Record<QuoteStatus, string>> = {
  //            the revision is: issued, accepted, declined, withdrawn, lapsed
  issued: { issued: '', accepted: '', declined: 'ahr', withdrawn: 'ahr', lapsed: 'ahr' },
  accepted: { issued: '', accepted: '', declined: 'hr', withdrawn: 'hr', lapsed: 'hr' },
  declined: { issued: '', accepted: '', declined: 'r', withdrawn: 'r', lapsed: 'r' },
  withdrawn: { issued: '', accepted: '', declined: 'r', withdrawn: 'r', lapsed: 'r' },
  lapsed: { issued: '', accepted: '', declined: 'hr', withdrawn: 'hr', lapsed: 'hr' },
};

describe('a quote beside its revision', () => {
  const pairs = STATUSES.flatMap((earlier) =>
    STATUSES.map((later) => ({ earlier, later, may: BESIDE[earlier][later] })),
  );
  it.each(pairs)('$earlier, the revision $later: may "$may"', ({ earlier, later, may }) => {
    /** Each is tried on data of its own, for one changes what the next may do. */
    const tried = (change: (id: string, quotes: Quotes) => boolean) => {
      const { quotes } = opens(scratchPath());
      const id = quoteThatIs(earlier, quotes);
      const revision = quoteThatIs(later, quotes, id);
      const replaces = later === 'issued' || later === 'accepted';
      expect(quotes.find(id, { today }).revisedBy).toBe(replaces ? revision : undefined);
      return change(id, quotes);
    };
    expect({ a: tried(isAccepted), h: tried(takesHours), r: tried(revised) }).toEqual({
      a: may.includes('a'),
      h: may.includes('h'),
      r: may.includes('r'),
    });
  });
});

const revised = (id: string, quotes: Quotes) => goes(() => quotes.issue(quoteToIssue({ revisionOf: id })));

describe('a quote whose job was done', () => {
  it.each(['issued', 'accepted', 'lapsed'] as const)('is not revised: %s', (status) => {
    const { quotes } = opens(scratchPath());
    const id = quoteThatIs(status, quotes);
    expect(takesHours(id, quotes)).toBe(true);
    expect(() => quotes.issue(quoteToIssue({ revisionOf: id }))).toThrow(
      'Quote 2026-0001 cannot be revised: what its job took is entered. Issue a quote of its own for what comes ' +
        'besides, or take the hours back first.',
    );
    quotes.setActuals(id, revisionOf(id, quotes), { today, actuals: { tasks: [] } });
    expect(revised(id, quotes)).toBe(true);
  });

  it('is the only one of its line that hours are entered for, accepted or revised', () => {
    const { quotes } = opens(scratchPath());
    const first = quoteThatIs('issued', quotes);
    const second = quoteThatIs('lapsed', quotes, first);
    expect(takesHours(second, quotes)).toBe(true);
    expect(quotes.find(first, { today }).revisedBy).toBe(second); // agreed in time after all
    expect([isAccepted(first, quotes), takesHours(first, quotes), revised(first, quotes)]).toEqual([
      false,
      false,
      false,
    ]);
    expect(quotes.jobsDone({ today }).map(({ number }) => number)).toEqual(['2026-0002']);
  });

  it('counts once: an earlier one that stands again counts, one that was declined does not', () => {
    const { quotes } = opens(scratchPath());
    const first = quoteThatIs('accepted', quotes);
    const second = quoteThatIs('withdrawn', quotes, first);
    expect([takesHours(second, quotes), takesHours(first, quotes)]).toEqual([false, true]);
    const declined = quoteThatIs('issued', quotes);
    expect(takesHours(declined, quotes)).toBe(true);
    quotes.setStatus(declined, revisionOf(declined, quotes), { status: 'declined', today });
    expect(quotes.jobsDone({ today }).map(({ number }) => number)).toEqual(['2026-0001']);
  });
});

describe('a line of revisions', () => {
  it('goes by the newest that is not closed, over one that is', () => {
    const { quotes } = opens(scratchPath());
    const first = quoteThatIs('issued', quotes);
    const second = quoteThatIs('issued', quotes, first);
    const third = quoteThatIs('issued', quotes, second);
    expect(quotes.find(first, { today }).revisedBy).toBe(second);
    quotes.setStatus(second, 1, { status: 'withdrawn', today });
    expect(quotes.find(first, { today }).revisedBy).toBe(third);
    expect(() => quotes.setActuals(first, 1, hours)).toThrow('was revised by 2026-0003: enter the hours there');
    expect(() => quotes.setStatus(first, 1, { status: 'accepted', today })).toThrow(
      'Quote 2026-0001 was revised by 2026-0003: accept that one, or let it be declined or withdrawn first.',
    );
    quotes.setStatus(third, 1, { status: 'declined', today });
    expect(isAccepted(first, quotes)).toBe(true);
  });

  it('stands again on the day after the revision lapses by its date', () => {
    const { quotes } = opens(scratchPath());
    const { id } = quotes.issue(quoteToIssue({ validUntil: '2026-04-30' }));
    quotes.issue(quoteToIssue({ revisionOf: id, validUntil: '2026-03-17' }));
    const revisedOn = (day: string) => quotes.find(id, { today: day }).revisedBy !== undefined;
    expect([revisedOn('2026-03-17'), revisedOn('2026-03-18')]).toEqual([true, false]);
    expect(quotes.setStatus(id, 1, { status: 'accepted', today: '2026-03-18' }).status).toBe('accepted');
  });
});
