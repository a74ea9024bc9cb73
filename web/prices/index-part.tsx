import { useState } from 'react';
import { today } from '../parts/dates.ts';
import { read } from '../parts/field.ts';
import type { BookChanges } from './use-book-changes.ts';

interface IndexPartProps {
  categories: readonly string[];
  changes: BookChanges;
}

/** Moves a whole category by what its market moved since the prices were taken, as of a day, as one change. */
export function IndexPart({ categories, changes }: IndexPartProps) {
  const [category, setCategory] = useState('');
  const [percent, setPercent] = useState('');
  const [on, setOn] = useState(today);
  const [said, setSaid] = useState('');
  const apply = async () => {
    const moved = read(percent, { scale: 'plain', emptied: 'missing' });
    if (typeof moved !== 'number') {
      setSaid(percent.trim() === '' ? 'Say by how many percent.' : `"${percent}" is no number of percent.`);
      return;
    }
    const indexFactor = Number((1 + moved / 100).toFixed(6));
    const isDone = await changes.several({}, { indexFactor, of: category, on });
    setSaid(isDone ? 'Done: every price of the category moved, and its date is the day stated.' : '');
    if (isDone) setPercent('');
  };
  return (
    <section className="part" aria-labelledby="index-head">
      <h2 id="index-head">Move a category by an index</h2>
      <form
        className="sentence"
        onSubmit={(event) => {
          event.preventDefault();
          apply();
        }}
      >
        Since its prices were taken,{' '}
        <select
          className="plain-choice"
          aria-label="Category to move"
          value={category}
          onChange={(event) => setCategory(event.currentTarget.value)}
        >
          <option value="">choose a category</option>
          {categories.map((each) => (
            <option key={each} value={each}>
              {each}
            </option>
          ))}
        </select>{' '}
        moved by{' '}
        <input
          className="plain-field short"
          inputMode="decimal"
          placeholder="+12"
          aria-label="Percent that the market moved by"
          value={percent}
          onChange={(event) => setPercent(event.currentTarget.value)}
        />{' '}
        %, as of{' '}
        <input
          className="plain-field"
          type="date"
          aria-label="Day of the index"
          value={on}
          onChange={(event) => setOn(event.currentTarget.value)}
        />
        .{' '}
        <button type="submit" className="paper-button" disabled={category === ''}>
          Move it
        </button>
      </form>
      <p role="status">
        {changes.refusal?.key === '' ? <span className="word-problem">{changes.refusal.message}</span> : said}
      </p>
    </section>
  );
}
