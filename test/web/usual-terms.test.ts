import { describe, expect, it } from 'vitest';
import { BLANK_QUOTE, usualTermsOf } from '../../web/quotes/quote-stated.ts';
import { rememberTerms, type Storing, usualTerms } from '../../web/quotes/usual-terms.ts';

/** The storage of a browser, as far as it is used here. */
function storing(kept: Record<string, string> = {}): Storing {
  return () => ({
    getItem: (name: string) => kept[name] ?? null,
    setItem: (name: string, value: string) => {
      kept[name] = value;
    },
  });
}

describe('the terms that the next quote begins with', () => {
  const terms = usualTermsOf({
    ...BLANK_QUOTE,
    deposit: '10 %',
    progress: [{ when: 'After the trench', percent: '30' }],
    exclusions: 'Painting',
    show: 'sum',
  });

  it('are those of the last one, and none before the first', () => {
    const storage = storing();
    expect(usualTerms(storage)).toEqual({});
    rememberTerms(terms, storage);
    expect(usualTerms(storage)).toEqual(terms);
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
    expect(usualTerms(storing({ 'feedrun-quote-terms': kept }))).toEqual({});
  });

  it('are the standards where the storage is shut off', () => {
    const shut = () => {
      throw new Error('SecurityError');
    };
    rememberTerms(terms, shut);
    expect(usualTerms(shut)).toEqual({});
  });
});
