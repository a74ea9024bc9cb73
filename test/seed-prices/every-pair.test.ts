import { describe, expect, it } from 'vitest';
import { coveringRows, type Row } from './all-pairs.ts';
import { PAIR_FIELDS, SOUND_FIELDS, WORDS_ALONE } from './pair-fields.ts';
import { jobOf } from './pair-job.ts';
import { answerOf, faultsOf, misshapen } from './sound-answer.ts';
import { statedFields } from './stated-fields.ts';

/*
 * Whatever two things a job says, a new price book answers all of it: no exception, no number that is none, and no line
 * without a price, but where a stop says that nothing so large, or so small, is sold. The jobs are invented.
 */

const MINUTES = 180_000;
/** Every so many jobs one is estimated whole, with all that takes many draws and many plans. */
const WHOLE_EVERY = 30;

/** What a job says, short enough to find it again. */
const said = (row: Row) =>
  Object.entries(row)
    .filter(([, value]) => value !== false)
    .map(([name, value]) => `${name} ${String(value)}`)
    .join(', ');

/** Every word of a job with its path, an element of a list being `0`. */
function wordsOf(value: unknown, path = ''): string[] {
  if (typeof value === 'string' || typeof value === 'number') return [`${path} ${value}`];
  if (Array.isArray(value)) return value.flatMap((inner) => wordsOf(inner, `${path}.0`));
  if (value === null || typeof value !== 'object') return [];
  return Object.entries(value).flatMap(([name, inner]) => wordsOf(inner, path === '' ? name : `${path}.${name}`));
}

describe('the jobs that hold every pair', () => {
  it('say every word that the schema of a description has', () => {
    const said = new Set(coveringRows(PAIR_FIELDS).flatMap((row) => wordsOf(jobOf(row))));
    const fields = statedFields().filter(({ path }) => !path.startsWith('options.0.route') && !WORDS_ALONE.test(path));
    const unsaid = fields.flatMap(({ path, words }) => words.map((word) => `${path} ${word}`));
    expect(unsaid.filter((word) => !said.has(word))).toEqual([]);
  });
});

describe('the starting price book', () => {
  it('answers every pair of what a job may say', { timeout: MINUTES }, () => {
    const wrong = coveringRows(PAIR_FIELDS).flatMap((row) => {
      const faults = faultsOf(answerOf(jobOf(row)));
      return faults.length > 0 ? [{ faults, job: said(row) }] : [];
    });
    expect(wrong).toEqual([]);
  });

  it('prices every pair whole where nothing unlawful is asked for, and each value in a job that can be built', {
    timeout: MINUTES,
  }, () => {
    const never = new Set(
      SOUND_FIELDS.flatMap(({ name, values }) => values.map((value) => `${name} ${String(value)}`)),
    );
    const wrong = coveringRows(SOUND_FIELDS).flatMap((row, at) => {
      const isWhole = at % WHOLE_EVERY === 0;
      const answer = answerOf(jobOf(row), isWhole ? 'all' : 'core');
      const isBuilt = answer.options.every(({ buildable, complete }) => buildable && complete);
      if (isBuilt) for (const [name, value] of Object.entries(row)) never.delete(`${name} ${String(value)}`);
      const faults = [...faultsOf(answer), ...(isWhole ? misshapen(answer) : [])];
      return faults.length > 0 ? [{ faults, job: said(row) }] : [];
    });
    expect(wrong).toEqual([]);
    expect([...never]).toEqual([]);
  });
});
