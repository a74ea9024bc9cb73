import { describe, expect, it } from 'vitest';
import { dayAndClockOf, dayWithClockOf } from '../../../server/estimate/meter/times.ts';

describe('a time of a meter', () => {
  it.each([
    ['2026-03-02T17:15', '2026-03-02T17:15'],
    ['2026-03-02 17:15:30', '2026-03-02T17:15:30'],
    ['2026-03-02T17:15:00.000Z', '2026-03-02T17:15:00Z'],
    ['2026-03-02T17:15-0500', '2026-03-02T17:15-05:00'],
    ['2026/3/2 7:05', '2026-03-02T07:05'],
    ['3/2/2026 5:15 PM', '2026-03-02T17:15'],
    ['03/02/26, 12:00 am', '2026-03-02T00:00'],
    ['3/2/2026 12:30 p.m.', '2026-03-02T12:30'],
  ])('%s is %s', (written, iso) => {
    expect(dayAndClockOf(written)).toBe(iso);
  });

  it.each([
    '2026-03-02',
    '13/2/2026 5:15',
    '2/29/2026 5:15',
    '3/2/2026 13:00 PM',
    '3/2/2026 24:00',
    '17:15',
    'March 2 17:15',
    '',
  ])('%s is none', (written) => {
    expect(dayAndClockOf(written)).toBeUndefined();
  });

  it('may stand in two cells', () => {
    expect(dayWithClockOf('3/2/2026', '5:15 PM')).toBe('2026-03-02T17:15');
    expect(dayWithClockOf('3/2/2026', 'noon')).toBeUndefined();
  });
});
