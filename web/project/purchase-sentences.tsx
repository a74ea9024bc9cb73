import type { Form } from '../parts/field.ts';
import { ChoiceWord, NumberWord, TextWord } from '../parts/word-fields.tsx';
import type { Choice } from '../parts/words.ts';
import { Part, Sentence } from './sentence.tsx';

const BUYING: Choice[] = [
  { value: undefined, label: 'is not being bought' },
  { value: 'bought', label: 'is being bought' },
];

/** Whether the house is being bought, and the loan that the work would go on. */
export function PurchaseSentences({ form: { field, value, set } }: { form: Form }) {
  const isBought = value('purchase') !== undefined;
  return (
    <Part title="Purchase" aside={<span className="aside">for who buys the house</span>}>
      <Sentence>
        The house{' '}
        <ChoiceWord
          field={{
            ...field('purchase'),
            value: isBought ? 'bought' : undefined,
            filled: undefined,
            onChange: (to) => set('purchase', to === undefined ? undefined : { loan: {} }),
          }}
          label="Is the house being bought"
          choices={BUYING}
        />
        {isBought && (
          <>
            , closing on{' '}
            <TextWord field={field('purchase.closing')} label="Day of closing, such as 2026-12-31" emptied="unstated" />
            , with a loan at{' '}
            <NumberWord
              field={field('purchase.loan.annualRateBp')}
              label="Yearly rate of the loan, in percent"
              scale="percent"
            />{' '}
            % over <NumberWord field={field('purchase.loan.years')} label="Years of the loan" /> years
          </>
        )}
        .
      </Sentence>
    </Part>
  );
}
