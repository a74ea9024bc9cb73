import { CONNECTIONS } from '../../server/estimate/vocabulary.ts';
import type { Form } from '../parts/field.ts';
import { ListWords } from '../parts/list-words.tsx';
import { ChoiceWord, NumberWord, TextWord } from '../parts/word-fields.tsx';
import { type Choice, choices, eitherOr, orUnstated, SIZE_CHOICES } from '../parts/words.ts';
import { blankCharger } from './draft.ts';
import type { OptionProps } from './option-editor.tsx';
import { More, Sentence } from './sentence.tsx';

const CONNECTION_CHOICES = choices(CONNECTIONS, {
  'receptacle-14-50': 'plugged into a 14-50 receptacle',
  'receptacle-6-50': 'plugged into a 6-50 receptacle',
  'receptacle-5-15': 'plugged into a 5-15 receptacle',
  'receptacle-5-20': 'plugged into a 5-20 receptacle',
});
const EQUIPMENT = choices(['buy', 'owned', 'none'], {
  buy: 'to be bought',
  owned: 'there already',
  none: 'left to somebody else',
});
const MOUNT = choices(['wall', 'post', 'pedestal'], {
  wall: 'on a wall',
  post: 'on a post',
  pedestal: 'on a pedestal',
});
const SETTING = choices(['label-and-restricted', 'open'], {
  'label-and-restricted': 'labelled and locked',
  open: 'open to anybody',
});

/** The chargers of an option, each with its terminals and its place. */
export function Chargers({ form, at: option }: Pick<OptionProps, 'form' | 'at'>) {
  return (
    <ListWords
      form={form}
      path={`options.${option}.chargers`}
      what="charger"
      blank={(list) => list.at(-1) ?? blankCharger()}
    >
      {(row) => <ChargerSentence form={form} at={row.at} number={row.number} />}
    </ListWords>
  );
}

interface ChargerProps {
  form: Form;
  /** The path of the charger. */
  at: string;
  number: number;
}

function ChargerSentence({ form, at, number }: ChargerProps) {
  const each = (last: string) => form.field(`${at}.${last}`);
  const name = (what: string) => `${what} of charger ${number}`;
  return (
    <>
      Charger {number} of <Amps form={form} at={at} number={number} />,{' '}
      <ChoiceWord field={each('connection')} label={name('Connection')} choices={CONNECTION_CHOICES} />,{' '}
      <ChoiceWord field={each('equipment')} label={name('Equipment')} choices={EQUIPMENT} />,{' '}
      <ChoiceWord field={each('mount')} label={name('Mount')} choices={MOUNT} />{' '}
      <NumberWord
        field={each('distanceFt')}
        label={`${name('Distance')} from the end of the route, in feet`}
        emptied="unstated"
      />{' '}
      ft from the end of the route,{' '}
      <ChoiceWord field={each('outdoors')} label={name('Place')} choices={eitherOr('outdoors', 'indoors')} />.{' '}
      <More title="Nameplate, terminals, cord, shared circuit">
        <Nameplate form={form} at={at} number={number} />
      </More>
    </>
  );
}

/** What stands on the charger and in its manual. */
function Nameplate({ form, at, number }: ChargerProps) {
  const each = (last: string) => form.field(`${at}.${last}`);
  const name = (what: string) => `${what} of charger ${number}`;
  return (
    <Sentence>
      Its nameplate says{' '}
      <NumberWord field={each('nameplateA')} label={`${name('Nameplate')}, in amperes`} emptied="unstated" /> A, its
      setting is <ChoiceWord field={each('setting')} label={name('Setting')} choices={SETTING} />. Its terminals take{' '}
      <ChoiceWord field={each('terminals')} label={name('Terminals')} choices={TERMINALS} />, wire up to{' '}
      <ChoiceWord field={each('largestSize')} label={name('Largest wire')} choices={LARGEST} />; its cord is{' '}
      <NumberWord field={each('cordFt')} label={`${name('Cord')}, in feet`} emptied="unstated" /> ft long. Its circuit
      is shared as group <TextWord field={each('group')} label={name('Group')} emptied="unstated" />
    </Sentence>
  );
}

const LARGEST = orUnstated(SIZE_CHOICES, 'any size');
const TERMINALS = choices(['copper', 'copper-or-aluminum'], { copper: 'copper only' });
const AMPS: Choice[] = [
  { value: 'stated', label: 'A' },
  { value: 'largest', label: 'A, the largest that what exists can carry' },
];

function Amps({ form, at, number }: ChargerProps) {
  const stated = form.field(`${at}.amps`);
  const isLargest = stated.value === 'largest';
  return (
    <>
      {!isLargest && <NumberWord field={stated} label={`Setting of charger ${number}, in amperes`} />}{' '}
      <ChoiceWord
        field={{
          ...stated,
          value: isLargest ? 'largest' : 'stated',
          problem: isLargest ? stated.problem : undefined,
          onChange: (to) => stated.onChange(to === 'largest' ? 'largest' : undefined),
        }}
        label={`Stated or largest setting of charger ${number}`}
        choices={AMPS}
      />
    </>
  );
}
