import { CONNECTIONS, FEEDS, METALS } from '../../server/estimate/vocabulary.ts';
import type { JsonObject } from '../json.ts';
import { isObject } from '../json.ts';
import type { Form } from '../parts/field.ts';
import { ListWords } from '../parts/list-words.tsx';
import { ChoiceWord, NumberWord, TextButton, TextWord } from '../parts/word-fields.tsx';
import { type Choice, choices, eitherOr, NOT_KNOWN, TRADE_SIZE_CHOICES } from '../parts/words.ts';
import { blankCharger, circuitOption, copyOf, optionsOf, textOf, withFeed } from './draft.ts';
import { More, Part, Sentence } from './sentence.tsx';
import { SubpanelSentences } from './subpanel-sentences.tsx';

interface OptionEditorProps {
  form: Form;
  draft: JsonObject;
  /** The option that is open, from 0. */
  open: number;
  onOpen: (option: number) => void;
}

/** The ways of feeding the car that are compared, and the open one in sentences. */
export function OptionEditor({ form, draft, open, onOpen }: OptionEditorProps) {
  const options = optionsOf(draft);
  const option = options[open];
  const put = (next: JsonObject[], at: number) => {
    form.set('options', next);
    onOpen(Math.max(0, Math.min(at, next.length - 1)));
  };
  return (
    <Part title="Options" aside={<span className="aside">ways of feeding the car</span>}>
      <ul className="option-names">
        {options.map((each, at) => (
          <li key={textOf(each.id, `option ${at + 1}`)}>
            <button type="button" aria-pressed={at === open} onClick={() => onOpen(at)}>
              {textOf(each.label, `option ${at + 1}`)}
            </button>
          </li>
        ))}
      </ul>
      {option && <OptionSentences form={form} option={option} at={open} />}
      <p className="commands">
        <TextButton onPress={() => put([...options, circuitOption(options)], options.length)}>add an option</TextButton>
        {option && (
          <>
            <TextButton onPress={() => put([...options, copyOf(option, options)], options.length)}>
              add a copy
            </TextButton>
            <TextButton
              disabled={options.length < 2}
              onPress={() =>
                put(
                  options.filter((_, at) => at !== open),
                  open - 1,
                )
              }
            >
              remove {textOf(option.label, 'it')}
            </TextButton>
          </>
        )}
      </p>
    </Part>
  );
}

const FEED_CHOICES = choices(FEEDS, {
  'existing-receptacle': 'the receptacle that is there',
  'dedicated-circuit': 'a circuit of its own',
  subpanel: 'a subpanel at the parking place',
});
const METAL_CHOICES = choices(['auto', ...METALS], { auto: 'what is cheapest' });

interface OptionProps {
  form: Form;
  option: JsonObject;
  at: number;
}

function OptionSentences({ form, option, at }: OptionProps) {
  const { field, set } = form;
  const path = (last: string) => `options.${at}.${last}`;
  return (
    <>
      <Sentence>
        <TextWord field={field(path('label'))} label="Name of the option" />: fed by{' '}
        <ChoiceWord
          field={{ ...field(path('feed')), onChange: (to) => set(`options.${at}`, withFeed(option, to)) }}
          label="How the car is fed"
          choices={FEED_CHOICES}
        />
        .
      </Sentence>
      {option.feed === 'existing-receptacle' && <ReceptacleSentence form={form} option={option} at={at} />}
      {option.feed === 'subpanel' && <SubpanelSentences form={form} option={option} at={at} />}
      <Chargers form={form} option={option} at={at} />
      <More title="Metal, drop, load management, for later">
        <Sentence>
          Wire of <ChoiceWord field={field(path('metal'))} label="Metal of the wire" choices={METAL_CHOICES} />, with a
          voltage drop of at most{' '}
          <NumberWord
            field={field(path('maxDropPercent'))}
            label="Voltage drop, in percent at most"
            emptied="unstated"
          />{' '}
          %.
        </Sentence>
        <LoadManagement form={form} option={option} at={at} />
        <ForLater form={form} option={option} at={at} />
      </More>
    </>
  );
}

function ReceptacleSentence({ form: { field, set }, option, at }: OptionProps) {
  const path = (last: string) => `options.${at}.receptacle.${last}`;
  const shared = isObject(option.receptacle) ? option.receptacle.sharedWith : null;
  const sharing: Choice[] = [
    NOT_KNOWN,
    { value: 'alone', label: 'nothing else' },
    { value: 'some', label: 'other things' },
  ];
  const stated = !Array.isArray(shared) ? null : shared.length === 0 ? 'alone' : 'some';
  return (
    <Sentence>
      It is on <NumberWord field={field(path('circuitA'))} label="Circuit of the receptacle, in amperes" /> A, together
      with{' '}
      <ChoiceWord
        field={{
          ...field(path('sharedWith')),
          value: stated,
          onChange: (to) => set(path('sharedWith'), to === null ? null : to === 'alone' ? [] : ['']),
        }}
        label="What shares its circuit"
        choices={sharing}
      />
      {stated === 'some' && (
        <>
          {' '}
          (<TextWord field={field(path('sharedWith.0'))} label="What else is on the circuit" />)
        </>
      )}
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
      .
    </Sentence>
  );
}

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

function Chargers({ form, at: option }: OptionProps) {
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
      <ChoiceWord field={each('outdoors')} label={name('Place')} choices={eitherOr('outdoors', 'indoors')} />; its
      setting is <ChoiceWord field={each('setting')} label={name('Setting')} choices={SETTING} />, its terminals take{' '}
      <ChoiceWord field={each('terminals')} label={name('Terminals')} choices={TERMINALS} />. Its circuit is shared as
      group <TextWord field={each('group')} label={name('Group')} emptied="unstated" />
    </>
  );
}

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

function LoadManagement({ form: { field, set }, option, at }: OptionProps) {
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
          ...field(path),
          value: group?.kind,
          filled: undefined,
          problem: undefined,
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

function ForLater({ form: { field, set }, option, at }: OptionProps) {
  const path = (last: string) => `options.${at}.${last}`;
  const data: Choice[] = [{ value: undefined, label: 'no data conduit' }, ...TRADE_SIZE_CHOICES];
  const dataSize = isObject(option.dataConduit) ? (option.dataConduit.tradeSize ?? '3/4') : undefined;
  const spare = field(path('spareConduit.toA'));
  return (
    <Sentence>
      <ChoiceWord
        field={field(path('roughInOnly'))}
        label="How much is built now"
        choices={eitherOr('Only raceway and boxes are built now', 'All of it is built now')}
      />
      , with a spare conduit for{' '}
      <NumberWord
        field={{ ...spare, onChange: (to) => set(path('spareConduit'), to === undefined ? undefined : { toA: to }) }}
        label="Spare conduit for, in amperes"
        emptied="unstated"
      />{' '}
      A and{' '}
      <ChoiceWord
        field={{
          ...field(path('dataConduit')),
          value: dataSize,
          filled: undefined,
          problem: undefined,
          onChange: (size) => set(path('dataConduit'), size === undefined ? undefined : { tradeSize: size }),
        }}
        label="Data conduit"
        choices={data}
      />
      .
    </Sentence>
  );
}
