import type { Form } from '../parts/field.ts';
import { ListWords } from '../parts/list-words.tsx';
import { ChoiceWord, NumberWord, TextWord } from '../parts/word-fields.tsx';
import { CLASS_CHOICES, SCOPE_CHOICES } from '../parts/words.ts';
import { Part } from './sentence.tsx';

/** What the user adds to every option, at a price of his own. */
export function ExtraSentences({ form }: { form: Form }) {
  return (
    <Part title="Extras" aside={<span className="aside">added to every option</span>}>
      <ListWords
        form={form}
        path="extras"
        what="extra"
        blank={() => ({ class: 'material', scope: 'other', quantity: 1, unit: 'each' })}
      >
        {({ at, number }) => <ExtraSentence form={form} at={at} number={number} />}
      </ListWords>
    </Part>
  );
}

function ExtraSentence({ form, at, number }: { form: Form; at: string; number: number }) {
  const each = (last: string) => form.field(`${at}.${last}`);
  const name = (what: string) => `${what} of extra ${number}`;
  const dollars = (last: string, what: string, emptied: 'missing' | 'unstated') => (
    <NumberWord field={each(last)} label={`${name(what)}, in dollars`} scale="dollars" emptied={emptied} />
  );
  return (
    <>
      <TextWord field={each('description')} label={name('Description')} />:{' '}
      <NumberWord field={each('quantity')} label={name('Quantity')} />{' '}
      <TextWord field={each('unit')} label={name('Unit')} /> at {dollars('unitPriceCents', 'Price', 'missing')} dollars,
      at least {dollars('lowCents', 'Least price', 'unstated')}, at most{' '}
      {dollars('highCents', 'Most price', 'unstated')}; it counts as{' '}
      <ChoiceWord field={each('class')} label={name('Class')} choices={CLASS_CHOICES} /> of{' '}
      <ChoiceWord field={each('scope')} label={name('Scope')} choices={SCOPE_CHOICES} /> and takes{' '}
      <NumberWord field={each('hours')} label={name('Hours')} emptied="unstated" /> hours
    </>
  );
}
