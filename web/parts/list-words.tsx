import { type ReactNode, useId } from 'react';
import type { Json } from '../json.ts';
import type { Form } from './field.ts';
import { TextButton } from './word-fields.tsx';

interface ListWordsProps {
  form: Form;
  /** Where the list stands, such as `site.load.appliances`. */
  path: string;
  /** What one of them is called: `appliance`. Counted from 1 for people. */
  what: string;
  /** What another one begins with. */
  blank: (list: readonly Json[]) => Json;
  children: (row: { at: string; number: number; value: Json }) => ReactNode;
}

/** Sentences of a list, one for each of its things, which can be removed and added. */
export function ListWords({ form, path, what, blank, children }: ListWordsProps) {
  const problemId = useId();
  const { problem } = form.field(path);
  const stated = form.value(path);
  const list = Array.isArray(stated) ? stated : [];
  const rows = list.map((value, at) => ({ at: `${path}.${at}`, number: at + 1, value }));
  const remove = (number: number) =>
    form.set(
      path,
      list.filter((_, at) => at + 1 !== number),
    );
  return (
    <ul className="words-list">
      {rows.map((row) => (
        <li key={row.at}>
          {children(row)}{' '}
          <TextButton label={`Remove ${what} ${row.number}`} onPress={() => remove(row.number)}>
            remove
          </TextButton>
        </li>
      ))}
      <li>
        <button
          type="button"
          className="text-button"
          data-path={path}
          aria-describedby={problem === undefined ? undefined : problemId}
          onClick={() => form.set(path, [...list, blank(list)])}
        >
          add {/^[aeiou]/.test(what) ? 'an' : 'a'} {what}
        </button>
        {problem !== undefined && (
          <span className="word-problem block" id={problemId}>
            {problem}
          </span>
        )}
      </li>
    </ul>
  );
}
