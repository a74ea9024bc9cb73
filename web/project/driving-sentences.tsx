import type { Form } from '../parts/field.ts';
import { ListWords } from '../parts/list-words.tsx';
import { NumberWord } from '../parts/word-fields.tsx';
import { Part, Sentence } from './sentence.tsx';

/** How the cars are driven: what the charging is held against. */
export function DrivingSentences({ form }: { form: Form }) {
  const cars = form.value('driving.cars');
  // Without a car there is nothing to say of driving: the whole group goes, for an empty one is refused.
  const drive: Form = {
    ...form,
    set: (path, value) =>
      Array.isArray(value) && value.length === 0 ? form.set('driving', undefined) : form.set(path, value),
  };
  return (
    <Part title="Driving" aside={<span className="aside">what a night must give</span>}>
      <ListWords form={drive} path="driving.cars" what="car" blank={() => ({})}>
        {({ at, number }) => <CarSentence form={form} at={at} number={number} />}
      </ListWords>
      {Array.isArray(cars) && cars.length > 0 && (
        <Sentence>
          Later there may be{' '}
          <NumberWord field={form.field('driving.later')} label="More cars later" emptied="unstated" /> more.
          Electricity costs{' '}
          <NumberWord
            field={form.field('driving.electricityCentsPerKwh')}
            label="Electricity, in cents per kWh"
            emptied="unstated"
          />{' '}
          cents per kWh.
        </Sentence>
      )}
    </Part>
  );
}

function CarSentence({ form: { field }, at, number }: { form: Form; at: string; number: number }) {
  const name = (what: string) => `Car ${number}: ${what}`;
  return (
    <>
      Car {number} goes <NumberWord field={field(`${at}.milesPerDay`)} label={name('miles a day')} /> miles a day at{' '}
      <NumberWord field={field(`${at}.milesPerKwh`)} label={name('miles per kWh')} emptied="unstated" /> miles per kWh,
      is parked for <NumberWord field={field(`${at}.parkedHours`)} label={name('hours parked')} /> hours, and takes at
      most <NumberWord field={field(`${at}.maxA`)} label={name('amperes at most')} emptied="unstated" /> A
    </>
  );
}
