import { isObject } from '../json.ts';
import { ListWords } from '../parts/list-words.tsx';
import { ChoiceWord, NumberWord, TextWord } from '../parts/word-fields.tsx';
import { type Choice, eitherOr, NOT_KNOWN } from '../parts/words.ts';
import type { OptionProps } from './option-editor.tsx';
import { Sentence } from './sentence.tsx';

/** The receptacle that is there, with what must be asked about it. */
export function ReceptacleSentences({ form, option, at }: OptionProps) {
  const { field, set } = form;
  const path = (last: string) => `options.${at}.receptacle.${last}`;
  const shared = isObject(option.receptacle) ? option.receptacle.sharedWith : null;
  const sharing: Choice[] = [
    NOT_KNOWN,
    { value: 'alone', label: 'nothing else' },
    { value: 'some', label: 'other things' },
  ];
  const stated = !Array.isArray(shared) ? null : shared.length === 0 ? 'alone' : 'some';
  return (
    <>
      <Sentence>
        It is on <NumberWord field={field(path('circuitA'))} label="Circuit of the receptacle, in amperes" /> A,
        together with{' '}
        <ChoiceWord
          field={{
            ...field(path('sharedWith')),
            value: stated,
            onChange: (to) => set(path('sharedWith'), to === null ? null : to === 'alone' ? [] : ['']),
          }}
          label="What shares its circuit"
          choices={sharing}
        />
        ;{' '}
        <ChoiceWord
          field={field(path('grounded'))}
          label="Is the receptacle grounded"
          choices={[NOT_KNOWN, ...eitherOr('grounded', 'without ground')]}
        />{' '}
        as to its ground, ground-fault protection{' '}
        <ChoiceWord
          field={field(path('gfci'))}
          label="Has it ground-fault protection"
          choices={[NOT_KNOWN, ...eitherOr('present', 'absent')]}
        />
        ; it is{' '}
        <ChoiceWord
          field={field(path('replace'))}
          label="Is the receptacle replaced"
          choices={eitherOr('replaced', 'left as it is')}
        />
        , and hangs{' '}
        <ChoiceWord
          field={field(path('outdoors'))}
          label="Place of the receptacle"
          choices={eitherOr('outdoors', 'indoors')}
        />
        .
      </Sentence>
      {stated === 'some' && (
        <ListWords form={form} path={path('sharedWith')} what="thing on its circuit" blank={() => ''}>
          {({ at: thing, number }) => (
            <>
              with <TextWord field={field(thing)} label={`What else is on the circuit, ${number}`} />
            </>
          )}
        </ListWords>
      )}
    </>
  );
}
