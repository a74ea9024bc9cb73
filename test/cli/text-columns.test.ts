import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { columns, wrapped } from '../../server/terminal/text-columns.ts';

describe('text in columns', () => {
  it('breaks between words, and cuts only a word that is longer than a line', () => {
    expect(wrapped('the wire is the dearest part', 12)).toEqual(['the wire is', 'the dearest', 'part']);
    expect(wrapped('abcdefgh', 3)).toEqual(['abc', 'def', 'gh']);
    expect(wrapped('', 5)).toEqual(['']);
  });

  it('sets cells side by side, some flush right, and leaves no blanks at the end', () => {
    expect(columns(['one two', '7', 'x'], [4, 5, 3], { right: [1] })).toEqual(['one       7  x', 'two']);
    expect(columns(['  in here', 'a'], [6, 2])).toEqual(['  in    a', '  here']);
  });

  it('keeps every word, in order, and never grows wider', () => {
    const texts = fc.array(fc.stringMatching(/^[a-z]{1,9}$/), { minLength: 1, maxLength: 20 });
    fc.assert(
      fc.property(texts, fc.integer({ min: 9, max: 30 }), (words, width) => {
        const lines = wrapped(words.join(' '), width);
        expect(lines.join(' ')).toBe(words.join(' '));
        expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(width);
      }),
    );
  });
});
