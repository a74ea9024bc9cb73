import { useState } from 'react';
import type { Json } from '../json.ts';
import type { Form } from '../parts/field.ts';
import { ListWords } from '../parts/list-words.tsx';
import { MeterFile } from '../parts/meter-file.tsx';
import { ChoiceWord, NumberWord, TextWord } from '../parts/word-fields.tsx';
import { type Choice, choices, eitherOr } from '../parts/words.ts';
import { Sentence } from './sentence.tsx';

const LOAD: Choice[] = [
  { value: 'unknown', label: 'not known' },
  { value: 'measured', label: 'measured' },
  { value: 'listed', label: 'a list of what it has' },
];
const APPLIANCE = choices(['fastened', 'range', 'dryer', 'motor'], { fastened: 'fastened in place' });
const HEATING = choices(['none', 'central-electric', 'separate-units', 'heat-pump', 'thermal-storage'], {
  none: 'not electric',
  'central-electric': 'central electric',
});

const MEASURED_PATHS = ['site.load.peakA', 'site.load.days'];

/** What choosing another method begins with; nothing that was not said is filled in. */
function blankLoad(method: Json | undefined): Json {
  if (method === 'measured') return { method };
  if (method === 'listed') {
    return { method, appliances: [], heating: { kind: 'none', va: 0 }, cooling: { va: 0 } };
  }
  return { method: 'unknown' };
}

/** What the house draws already: not known, measured, or a list. */
export function LoadSentences({ form }: { form: Form }) {
  const { field, value, set } = form;
  const method = value('site.load.method');
  // Fields that choosing has just brought up: nothing is held against them until they are left.
  const [untouched, setUntouched] = useState<readonly string[]>([]);
  const measured = (path: string) => {
    const stated = field(path);
    const isFresh = untouched.includes(path) && stated.value === undefined;
    return {
      field: isFresh ? { ...stated, problem: undefined } : stated,
      onLeave: () => setUntouched(untouched.filter((other) => other !== path)),
    };
  };
  const choose = (to: Json | undefined) => {
    set('site.load', blankLoad(to));
    setUntouched(to === 'measured' ? MEASURED_PATHS : []);
  };
  return (
    <>
      <Sentence>
        The house&rsquo;s load is{' '}
        <ChoiceWord
          field={{ ...field('site.load.method'), onChange: choose }}
          label="How the load is known"
          choices={LOAD}
        />
        {method === 'measured' ? (
          <>
            : a peak of <NumberWord {...measured('site.load.peakA')} label="Measured peak, in amperes" /> A over{' '}
            <NumberWord {...measured('site.load.days')} label="Days measured" /> days.
          </>
        ) : (
          '.'
        )}
      </Sentence>
      {method !== 'listed' && <FromTheUtility key={String(method)} form={form} isOpen={method === 'measured'} />}
      {method === 'listed' && <ListedLoad form={form} />}
    </>
  );
}

/** The load out of the utility's file, for those who have one: open from the start where it is said to be measured. */
function FromTheUtility({ form: { set, value }, isOpen }: { form: Form; isOpen: boolean }) {
  const edition = value('site.code.edition');
  return (
    <details className="more" open={isOpen}>
      <summary>read it from the utility&rsquo;s file</summary>
      <MeterFile {...(typeof edition === 'string' && { edition })} onTake={(load) => set('site.load', load)} />
    </details>
  );
}

function ListedLoad({ form }: { form: Form }) {
  const { field } = form;
  // What was stated counts in the load, so it stays in sight also where the kind has no use for it.
  const isHeated =
    form.value('site.load.heating.kind') !== 'none' ||
    form.value('site.load.heating.supplementalVA') !== undefined ||
    form.value('site.load.heating.units') !== undefined;
  return (
    <>
      <Sentence>
        <NumberWord field={field('site.load.floorAreaFt2')} label="Floor area, in square feet" /> ft² with{' '}
        <NumberWord
          field={field('site.load.smallApplianceCircuits')}
          label="Small-appliance circuits"
          emptied="unstated"
        />{' '}
        small-appliance and{' '}
        <NumberWord field={field('site.load.laundryCircuits')} label="Laundry circuits" emptied="unstated" /> laundry
        circuits.
      </Sentence>
      <Appliances form={form} />
      <Sentence>
        Heating is <ChoiceWord field={field('site.load.heating.kind')} label="Kind of heating" choices={HEATING} /> with{' '}
        <NumberWord field={field('site.load.heating.va')} label="Heating, in volt-amperes" /> VA
        {isHeated && (
          <>
            {' '}
            in <NumberWord field={field('site.load.heating.units')} label="Heating units" emptied="unstated" /> units,
            with{' '}
            <NumberWord
              field={field('site.load.heating.supplementalVA')}
              label="Supplemental heating, in volt-amperes"
              emptied="unstated"
            />{' '}
            VA of supplemental heat
          </>
        )}
        ; cooling draws <NumberWord field={field('site.load.cooling.va')} label="Cooling, in volt-amperes" /> VA.
        Heating or cooling{' '}
        <ChoiceWord
          field={field('site.load.addingHeatOrCooling')}
          label="Is heating or cooling added"
          choices={eitherOr('is added with this work', 'stays as it is')}
        />
        .
      </Sentence>
    </>
  );
}

function Appliances({ form }: { form: Form }) {
  const { field } = form;
  return (
    <ListWords form={form} path="site.load.appliances" what="appliance" blank={() => ({})}>
      {({ at, number }) => (
        <>
          <TextWord field={field(`${at}.name`)} label={`Name of appliance ${number}`} />{' '}
          <NumberWord field={field(`${at}.va`)} label={`Appliance ${number}, in volt-amperes`} /> VA,{' '}
          <ChoiceWord field={field(`${at}.kind`)} label={`Kind of appliance ${number}`} choices={APPLIANCE} />
        </>
      )}
    </ListWords>
  );
}
