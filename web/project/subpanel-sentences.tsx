import type { JsonObject } from '../json.ts';
import type { Form } from '../parts/field.ts';
import { ListWords } from '../parts/list-words.tsx';
import { ChoiceWord, NumberWord, TextWord } from '../parts/word-fields.tsx';
import { type Choice, choices, eitherOr } from '../parts/words.ts';
import { Sentence } from './sentence.tsx';

interface SubpanelProps {
  form: Form;
  option: JsonObject;
  at: number;
}

/** The subpanel of an option: its feeder, its spaces, and the other circuits that it will hold. */
export function SubpanelSentences({ form, option, at }: SubpanelProps) {
  const { field } = form;
  const path = (last: string) => `options.${at}.subpanel.${last}`;
  return (
    <>
      <Sentence>
        A panel of <NumberWord field={field(path('ratingA'))} label="Rating of the subpanel, in amperes" /> A with{' '}
        <NumberWord field={field(path('spaces'))} label="Spaces of the subpanel" /> spaces on a feeder of{' '}
        <NumberWord field={field(path('feederA'))} label="Feeder, in amperes" emptied="unstated" /> A,{' '}
        <ChoiceWord
          field={field(path('mainBreaker'))}
          label="Main breaker of the subpanel"
          choices={eitherOr('with a main breaker', 'without a main breaker')}
        />
        , in an enclosure for{' '}
        <ChoiceWord
          field={field(path('enclosure'))}
          label="Enclosure of the subpanel"
          choices={choices(['indoor', 'outdoor'], { indoor: 'indoors', outdoor: 'outdoors' })}
        />
        .
      </Sentence>
      <OtherCircuits form={form} option={option} at={at} />
    </>
  );
}

const POLES: Choice[] = [
  { value: 1, label: 'one pole' },
  { value: 2, label: 'two poles' },
];

function OtherCircuits({ form, at: option }: SubpanelProps) {
  return (
    <ListWords
      form={form}
      path={`options.${option}.subpanel.otherCircuits`}
      what="other circuit"
      blank={() => ({ amps: 20, poles: 1 })}
    >
      {({ at, number }) => {
        const each = (last: string) => form.field(`${at}.${last}`);
        const name = (what: string) => `${what} of other circuit ${number}`;
        return (
          <>
            <TextWord field={each('use')} label={name('Use')} /> on{' '}
            <NumberWord field={each('amps')} label={`${name('Rating')}, in amperes`} /> A,{' '}
            <ChoiceWord field={each('poles')} label={name('Poles')} choices={POLES} />,{' '}
            <ChoiceWord field={each('continuous')} label={name('Load')} choices={LOAD} />,{' '}
            <NumberWord field={each('lengthFt')} label={`${name('Length')}, in feet`} emptied="unstated" /> ft long,{' '}
            <ChoiceWord field={each('build')} label={name('Is built')} choices={BUILT} />
          </>
        );
      }}
    </ListWords>
  );
}

const LOAD = eitherOr('running for hours', 'running now and then');
const BUILT = eitherOr('built now', 'only its space kept');
