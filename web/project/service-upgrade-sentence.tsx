import { ChoiceWord, NumberWord } from '../parts/word-fields.tsx';
import { type Choice, choices, NOT_KNOWN } from '../parts/words.ts';
import type { OptionProps } from './option-editor.tsx';
import { Sentence } from './sentence.tsx';

const UPGRADE: Choice[] = [
  { value: undefined, label: 'stays as it is' },
  { value: 'larger', label: 'becomes larger' },
];
const SUPPLY = [
  NOT_KNOWN,
  ...choices(['overhead', 'underground'], { overhead: 'comes overhead', underground: 'comes underground' }),
];
const KEPT = choices(['keep', 'replace'], { keep: 'is kept', replace: 'is replaced' });

/** A larger service as part of the option; what nobody knows of it yet is said so. */
export function ServiceUpgradeSentence({ form: { field, set }, option, at }: OptionProps) {
  const group = `options.${at}.serviceUpgrade`;
  const path = (last: string) => `${group}.${last}`;
  const isLarger = option.serviceUpgrade !== undefined;
  return (
    <Sentence>
      The service{' '}
      <ChoiceWord
        field={{
          ...field(group),
          value: isLarger ? 'larger' : undefined,
          filled: undefined,
          onChange: (to) => set(group, to === undefined ? undefined : { supply: null, meter: null }),
        }}
        label="Does the service become larger"
        choices={UPGRADE}
      />
      {isLarger && (
        <>
          , <NumberWord field={field(path('toA'))} label="Service after the work, in amperes" /> A; the utility&rsquo;s
          line <ChoiceWord field={field(path('supply'))} label="How the utility's line comes" choices={SUPPLY} />, the
          meter socket{' '}
          <ChoiceWord field={field(path('meter'))} label="Is the meter socket kept" choices={[NOT_KNOWN, ...KEPT]} />,
          the panel <ChoiceWord field={field(path('panel'))} label="Is the panel kept" choices={KEPT} />, moved by{' '}
          <NumberWord field={field(path('relocateFt'))} label="The panel is moved by, in feet" emptied="unstated" /> ft
        </>
      )}
      .
    </Sentence>
  );
}
