import { wiringMethod } from '../../server/drawing/wording.ts';
import { WIRING_METHODS } from '../../server/estimate/vocabulary.ts';
import type { JsonObject } from '../json.ts';
import type { Form } from '../parts/field.ts';
import { ListWords } from '../parts/list-words.tsx';
import { ChecksWord, ChoiceWord, NumberWord, TextWord } from '../parts/word-fields.tsx';
import { type Choice, eitherOr, METAL_CHOICES, orUnstated, SCOPE_CHOICES, SIZE_CHOICES } from '../parts/words.ts';
import { optionsOf, textOf } from './draft.ts';
import { Part } from './sentence.tsx';

interface BidsProps {
  form: Form;
  draft: JsonObject;
}

/** Bids that were received: what each asks, covers, and says will be built. */
export function BidSentences({ form, draft }: BidsProps) {
  const options = optionsOf(draft).map(({ id, label }, at) => ({
    value: id,
    label: textOf(label, `option ${at + 1}`),
  }));
  return (
    <Part title="Bids" aside={<span className="aside">what others ask</span>}>
      <ListWords form={form} path="bids" what="bid" blank={() => ({ optionId: options[0]?.value ?? '', covers: [] })}>
        {({ at, number }) => <BidSentence form={form} at={at} number={number} options={options} />}
      </ListWords>
    </Part>
  );
}

interface BidProps {
  form: Form;
  at: string;
  number: number;
}

function BidSentence({ form, at, number, options }: BidProps & { options: readonly Choice[] }) {
  const each = (last: string) => form.field(`${at}.${last}`);
  const name = (what: string) => `${what} of bid ${number}`;
  return (
    <>
      <TextWord field={each('from')} label={name('Sender')} /> asks{' '}
      <NumberWord field={each('totalCents')} label={`${name('Total')}, in dollars`} scale="dollars" /> dollars,{' '}
      <ChoiceWord field={each('taxIncluded')} label={name('Tax')} choices={eitherOr('tax included', 'without tax')} />,
      for “
      <ChoiceWord field={each('optionId')} label={name('Option')} choices={options} />” on{' '}
      <TextWord field={each('date')} label={`${name('Day')}, such as 2026-12-31`} emptied="unstated" />. It covers{' '}
      <ChecksWord field={each('covers')} label={name('What is covered, in the words')} choices={SCOPE_CHOICES} />
      <Offers form={form} at={at} number={number} />
    </>
  );
}

const METHODS: Choice[] = WIRING_METHODS.map((method) => ({ value: method, label: wiringMethod({ method }) }));
const PROTECTION = orUnstated(
  eitherOr('with ground-fault protection', 'without ground-fault protection'),
  'ground-fault protection not stated',
);

/** What the bid says will be built; what it does not say is asked of who sent it. */
function Offers({ form, at, number }: BidProps) {
  const each = (last: string) => form.field(`${at}.offers.${last}`);
  const name = (what: string) => `${what} offered in bid ${number}`;
  const amperes = (last: string, what: string) => (
    <NumberWord field={each(last)} label={`${name(what)}, in amperes`} emptied="unstated" />
  );
  return (
    <span className="block">
      It offers charging at {amperes('amps', 'Charging')} A on a breaker of {amperes('ocpdA', 'Breaker')} A,{' '}
      <ChoiceWord field={each('gfci')} label={name('Ground-fault protection')} choices={PROTECTION} />; wire of{' '}
      <ChoiceWord
        field={each('metal')}
        label={name('Metal')}
        choices={orUnstated(METAL_CHOICES, 'a metal not stated')}
      />
      , <ChoiceWord field={each('size')} label={name('Size')} choices={orUnstated(SIZE_CHOICES, 'a size not stated')} />
      , laid as{' '}
      <ChoiceWord
        field={each('method')}
        label={name('Wiring method')}
        choices={orUnstated(METHODS, 'a way not stated')}
      />
      ; a panel of {amperes('panelA', 'Panel')} A
    </span>
  );
}
