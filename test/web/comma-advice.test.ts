import { describe, expect, it } from 'vitest';
import { read } from '../../web/parts/field.ts';
import { commaAdvice } from '../../web/quotes/comma-advice.ts';

describe('hours that are typed with a comma', () => {
  it('go out as typed, to be refused, and the refusal says how to write them', () => {
    expect(read('1,5', { scale: 'plain', emptied: 'unstated' })).toBe('1,5');
    expect(commaAdvice('1,5')).toBe('write 1.5');
    expect(commaAdvice(' 12,25 ')).toBe('write 12.25');
  });

  it('are no advice where the comma parts thousands, or where there is none', () => {
    expect(['1,500', '1.5', 'two', ''].map(commaAdvice)).toEqual([undefined, undefined, undefined, undefined]);
  });
});
