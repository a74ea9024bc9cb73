import type { Estimate } from '../../server/estimate/answer.ts';
import { CHANCES } from '../../server/estimate/vocabulary.ts';
import { isObject } from '../json.ts';
import type { Form } from '../parts/field.ts';
import { ChoiceWord, NumberWord, TextButton } from '../parts/word-fields.tsx';
import { choices, orUnstated, plain } from '../parts/words.ts';
import { Part } from './sentence.tsx';

interface ChancesProps {
  form: Form;
  ranged: Estimate | undefined;
}

/** How likely it is that what nobody knows is so: the price book's chances, until others are stated. */
export function ChanceSentences({ form, ranged }: ChancesProps) {
  const asked = new Map(
    ranged?.options.flatMap(({ range }) => range?.chances.map(({ name, chance }) => [name, chance] as const) ?? []),
  );
  const stated = form.value('chances');
  const names = [...new Set([...asked.keys(), ...(isObject(stated) ? Object.keys(stated) : [])])].sort();
  return (
    <Part title="Chances" aside={<span className="aside">of what nobody knows</span>}>
      <ul className="words-list">
        {names.map((name) => {
          const field = form.field(`chances.${name}`);
          return (
            <li key={name}>
              {plain(name)}:{' '}
              <NumberWord
                field={{ ...field, filled: field.filled ?? asked.get(name) }}
                label={`Chance of ${plain(name)}, in percent`}
                scale="chance"
                emptied="unstated"
              />{' '}
              % {!asked.has(name) && <span className="aside">no longer asked of any option</span>}
              {field.value !== undefined && (
                <TextButton label={`Take back the chance of ${plain(name)}`} onPress={() => takeBack(form, name)}>
                  take back
                </TextButton>
              )}
            </li>
          );
        })}
        <li>
          Another one:{' '}
          <ChoiceWord
            field={{
              path: 'chances',
              value: undefined,
              filled: undefined,
              problem: form.field('chances').problem,
              // Nothing is assumed of it: the field comes empty, and asks for its number.
              onChange: (name) => typeof name === 'string' && form.set(`chances.${name}`, null),
            }}
            label="State the chance of something else"
            choices={orUnstated(choices(CHANCES.filter((name) => !names.includes(name))), 'none')}
          />
        </li>
      </ul>
    </Part>
  );
}

/** Takes a stated chance away, and the group with the last of them. */
function takeBack(form: Form, name: string): void {
  const stated = form.value('chances');
  const others = isObject(stated) ? Object.keys(stated).filter((other) => other !== name) : [];
  if (others.length > 0) form.set(`chances.${name}`, undefined);
  else form.set('chances', undefined);
}
