import { FEEDS } from '../../server/estimate/vocabulary.ts';
import type { JsonObject } from '../json.ts';
import type { Form } from '../parts/field.ts';
import { ChoiceWord, NumberWord, TextButton, TextWord } from '../parts/word-fields.tsx';
import { type Choice, choices, METAL_CHOICES, orUnstated } from '../parts/words.ts';
import { Chargers } from './charger-sentences.tsx';
import { circuitOption, copyOf, optionsOf, textOf, withFeed } from './draft.ts';
import { LaterSentence } from './later-sentence.tsx';
import { LoadManagementSentence } from './load-management-sentence.tsx';
import { ReceptacleSentences } from './receptacle-sentences.tsx';
import { More, Part, Sentence } from './sentence.tsx';
import { ServiceUpgradeSentence } from './service-upgrade-sentence.tsx';
import { SubpanelSentences } from './subpanel-sentences.tsx';
import { SUPPLY_CHOICES } from './supply-words.ts';

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
const METALS_OR_CHEAPEST: Choice[] = [{ value: 'auto', label: 'what is cheapest' }, ...METAL_CHOICES];

/** One option of the draft. */
export interface OptionProps {
  form: Form;
  option: JsonObject;
  /** From 0. */
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
      {option.feed === 'existing-receptacle' && <ReceptacleSentences form={form} option={option} at={at} />}
      {option.feed === 'subpanel' && <SubpanelSentences form={form} option={option} at={at} />}
      <Chargers form={form} at={at} />
      <More title="Metal, drop, load management, service, for later">
        <Sentence>
          Wire of <ChoiceWord field={field(path('metal'))} label="Metal of the wire" choices={METALS_OR_CHEAPEST} />,
          with a voltage drop of at most{' '}
          <NumberWord
            field={field(path('maxDropPercent'))}
            label="Voltage drop, in percent at most"
            emptied="unstated"
          />{' '}
          %.
        </Sentence>
        <LoadManagementSentence form={form} option={option} at={at} />
        <ServiceUpgradeSentence form={form} option={option} at={at} />
        <LaterSentence form={form} option={option} at={at} />
        <Sentence>
          With this option, an older supply of the building where the car parks{' '}
          <ChoiceWord
            field={{ ...field(path('existingSupply')), filled: undefined }}
            label="Older supply of that building, with this option"
            choices={orUnstated(SUPPLY_CHOICES, 'stays what the site says')}
          />
          . Files and bids call the option{' '}
          <TextWord field={field(path('id'))} label="Short name of the option, in files and bids" />.
        </Sentence>
      </More>
    </>
  );
}
