import { isObject } from '../json.ts';
import { ChoiceWord, NumberWord } from '../parts/word-fields.tsx';
import { type Choice, eitherOr, TRADE_SIZE_CHOICES } from '../parts/words.ts';
import type { OptionProps } from './option-editor.tsx';
import { Sentence } from './sentence.tsx';

/** What is built now for later: a rough-in, a spare conduit, one for data. */
export function LaterSentence({ form: { field, set }, option, at }: OptionProps) {
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
          ...field(path('dataConduit.tradeSize')),
          value: dataSize,
          filled: undefined,
          onChange: (size) => set(path('dataConduit'), size === undefined ? undefined : { tradeSize: size }),
        }}
        label="Data conduit"
        choices={data}
      />
      .
    </Sentence>
  );
}
