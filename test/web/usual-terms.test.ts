import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { BLANK_QUOTE, usualTermsOf } from '../../web/quotes/quote-stated.ts';
import { rememberTerms, usualTerms } from '../../web/quotes/usual-terms.ts';

/** The storage of a browser, as far as it is used here. */
function storage(kept: Record<string, string> = {}) {
  return {
    getItem: (name: string) => kept[name] ?? null,
    setItem: (name: string, value: string) => {
      kept[name] = value;
    },
  };
}

beforeEach(() => vi.stubGlobal('localStorage', storage()));
afterEach(() => vi.unstubAllGlobals());

describe('the terms that the next quote begins with', () => {
  const terms = usualTermsOf({
    ...BLANK_QUOTE,
    deposit: '10 %',
    progress: [{ when: 'After the trench', percent: '30' }],
    exclusions: 'Painting',
    show: 'sum',
  });

  it('are those of the last one, and none before the first', () => {
    expect(usualTerms()).toEqual({});
    rememberTerms(terms);
    expect(usualTerms()).toEqual(terms);
  });

  it.each([
    'no JSON',
    '[]x',
    'null',
    '{"progress":"half"}',
    '{"progress":[{"when":"then"}]}',
    '{"progress":[null]}',
    '{"validDays":15}',
    '{"unknown":"field"}',
  ])('are the standards where the storage holds what this form cannot show: %s', (kept) => {
    vi.stubGlobal('localStorage', storage({ 'feedrun-quote-terms': kept }));
    expect(usualTerms()).toEqual({});
  });

  it('are the standards where the storage is shut off', () => {
    const shut = () => {
      throw new Error('SecurityError');
    };
    vi.stubGlobal('localStorage', { getItem: shut, setItem: shut });
    rememberTerms(terms);
    expect(usualTerms()).toEqual({});
  });
});
