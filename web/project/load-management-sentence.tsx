import { isObject } from '../json.ts';
import { ChoiceWord, NumberWord } from '../parts/word-fields.tsx';
import type { Choice } from '../parts/words.ts';
import type { OptionProps } from './option-editor.tsx';
import { Sentence } from './sentence.tsx';

/** What holds the chargers, or the house, to a number of amperes. */
export function LoadManagementSentence({ form: { field, set }, option, at }: OptionProps) {
  const path = `options.${at}.loadManagement`;
  const kinds: Choice[] = [
    { value: undefined, label: 'not managed' },
    { value: 'shared-circuit', label: 'managed on one shared circuit' },
    { value: 'service-monitor', label: 'managed by a monitor of the service' },
  ];
  const group = isObject(option.loadManagement) ? option.loadManagement : undefined;
  return (
    <Sentence>
      The load is{' '}
      <ChoiceWord
        field={{
          ...field(`${path}.kind`),
          value: group?.kind,
          filled: undefined,
          onChange: (kind) => set(path, kind === undefined ? undefined : { ...group, kind }),
        }}
        label="Load management"
        choices={kinds}
      />
      {group && (
        <>
          , to <NumberWord field={field(`${path}.maxA`)} label="Chargers together, in amperes at most" /> A together
        </>
      )}
      {group?.kind === 'service-monitor' && (
        <>
          {' '}
          and <NumberWord field={field(`${path}.houseLimitA`)} label="House, in amperes at most" emptied="unstated" /> A
          for the house
        </>
      )}
      .
    </Sentence>
  );
}
