import { describe, expect, it } from 'vitest';
import {
  crossingsNote,
  crossingWords,
  nowOrLaterRows,
  overnightInWords,
} from '../../server/drawing/comparison-words.ts';

describe('what a night gives', () => {
  it('has its price a mile to the cent, or says that there is none', () => {
    const night = { hours: 9.5, miles: 1248.83, because: 'x' };
    expect(overnightInWords({ ...night, centsPerMile: 1027 })).toBe('$10.27 for each of 1,249 miles in 9.5 h');
    expect(overnightInWords({ ...night, centsPerMile: 0 })).toBe('$0.00 for each of 1,249 miles in 9.5 h');
    expect(overnightInWords(night)).toBe('1,249 miles in 9.5 h; no price of a mile');
  });
});

describe('where curves cross', () => {
  const options = [
    { id: 'c', label: 'Circuit' },
    { id: 'p', label: 'Panel' },
  ];
  const crossing = { at: 84.6, cheaperBelow: 'c', cheaperAbove: 'p', totalCents: 431_040, isLeast: true, because: 'x' };

  it('is said to the foot, and to a tenth where ten feet would be much', () => {
    const [far, near] = crossingWords([crossing, { ...crossing, at: 4.26, isLeast: false }], 'ft', options);
    expect(far).toMatchObject({
      mark: '85 ft',
      sentence: 'From about 85 ft on “Panel” is the cheapest, before it “Circuit”; there both cost $4,310.',
    });
    expect(near?.sentence).toBe('From about 4.3 ft on “Panel” costs less than “Circuit”; there both cost $4,310.');
  });

  it('is said to be about there, or nowhere', () => {
    expect(crossingsNote(crossingWords([crossing], 'A', options))).toMatch(/about there/);
    expect(crossingsNote([])).toMatch(/^No two of the lines cross/);
  });
});

describe('once or twice', () => {
  const sums = { nowCents: 1, laterCents: 2, sumCents: 3 };
  const one = { option: 'a', prepared: sums, unprepared: sums, savesCents: 0, because: 'x' };

  it('has a row for each way, and for all of it at once where that was reckoned', () => {
    const words = (kind: 'rough-in' | 'spare-conduit', more = {}) =>
      nowOrLaterRows({ ...one, kind, ...more }).map((row) => row.words);
    expect(words('spare-conduit')).toEqual(['Once, with the spare conduit', 'Twice, without it']);
    expect(words('rough-in', { atOnceCents: 5 })).toHaveLength(3);
    expect(nowOrLaterRows({ ...one, kind: 'rough-in', atOnceCents: 5 })[2]).toEqual({
      words: 'All of it now',
      nowCents: 5,
      sumCents: 5,
    });
  });
});
