import { isObject, type Json } from '../json.ts';
import type { Form } from '../parts/field.ts';
import { ListWords } from '../parts/list-words.tsx';
import { ChecksWord, ChoiceWord, NumberWord, TextButton, TextWord } from '../parts/word-fields.tsx';
import { type Choice, choices, eitherOr, NOT_KNOWN, TRADE_SIZE_CHOICES } from '../parts/words.ts';
import { LoadSentences } from './load-sentences.tsx';
import { More, Part, Sentence } from './sentence.tsx';
import { SUPPLY_CHOICES } from './supply-words.ts';

const BUILDING: Choice[] = [
  { value: 'attached', label: 'in or at the house' },
  { value: 'detached', label: 'in a building of its own' },
  { value: 'outdoor', label: 'in the open' },
];
const WORK: Choice[] = [
  { value: 'retrofit', label: 'an existing house' },
  { value: 'new-construction', label: 'a house under construction' },
];
const PANEL_KIND = [NOT_KNOWN, ...choices(['service-equipment', 'fed-from-outside-disconnect', 'fuses', 'split-bus'])];
const PANEL_STATE = [
  NOT_KNOWN,
  ...choices(['current', 'obsolete', 'known-hazard'], {
    current: 'a current model',
    'known-hazard': 'known as a hazard',
  }),
];
const HAZARDS = choices(['knob-and-tube', 'aluminum-branch', 'asbestos', 'lead-paint', 'plaster'], {
  'aluminum-branch': 'aluminum branch wiring',
  'knob-and-tube': 'knob and tube',
});

/** The site facts: the house, its service, and what lies in the way. */
export function SiteSentences({ form }: { form: Form }) {
  const { field } = form;
  return (
    <Part title="Site">
      <Sentence>
        Work in <ChoiceWord field={field('site.work')} label="Kind of work" choices={WORK} standard="retrofit" />, built
        in <NumberWord field={field('site.yearBuilt')} label="Year built" emptied="unstated" />. The car parks{' '}
        <ChoiceWord field={field('site.building')} label="Where the car parks" choices={BUILDING} />.
      </Sentence>
      <Sentence>
        A service of{' '}
        <NumberWord field={field('site.service.ratingA')} label="Service rating, in amperes" emptied="unknown" />
        {typeof form.value('site.service.ratingA') === 'number' && ' A'}, with{' '}
        <NumberWord field={field('site.service.freeSpaces')} label="Free spaces in the panel" emptied="unknown" /> free
        full-size spaces.
      </Sentence>
      <LoadSentences form={form} />
      <StartSentence form={form} />
      {(form.value('site.building') === 'detached' || form.value('site.garage') !== undefined) && (
        <GarageSentence form={form} />
      )}
      <More title="Panel, hazards, older wiring">
        <PanelSentence form={form} />
        <HazardSentence form={form} />
        <ExistingCircuit form={form} />
      </More>
      <More title="Local rules, permit, climate">
        <CodeSentences form={form} />
      </More>
    </Part>
  );
}

function StartSentence({ form: { field, value, set } }: { form: Form }) {
  const start = value('site.start');
  const from: Choice[] = [
    { value: undefined, label: 'the main panel' },
    { value: { feederA: null, freeSpaces: null }, label: 'a subpanel that is there' },
  ];
  const chosen = start === undefined ? undefined : (from[1]?.value ?? null);
  return (
    <Sentence>
      The route begins at{' '}
      <ChoiceWord
        field={{
          ...field('site.start'),
          value: chosen,
          filled: undefined,
          problem: undefined,
          onChange: (to) => set('site.start', to),
        }}
        label="Where the route begins"
        choices={from}
      />
      {start !== undefined && (
        <>
          , fed by{' '}
          <NumberWord
            field={field('site.start.feederA')}
            label="Feeder of the subpanel, in amperes"
            emptied="unknown"
          />{' '}
          A, with{' '}
          <NumberWord field={field('site.start.freeSpaces')} label="Free spaces in the subpanel" emptied="unknown" />{' '}
          free spaces and terminals that count as{' '}
          <ChoiceWord
            field={field('site.start.terminalsC')}
            label="Terminals of the subpanel, in °C"
            choices={TERMINALS}
          />
        </>
      )}
      .
    </Sentence>
  );
}

function GarageSentence({ form: { field } }: { form: Form }) {
  const there = choices(['receptacles', 'light']);
  return (
    <Sentence>
      That building has <NumberWord field={field('site.garage.bays')} label="Bays for cars" emptied="unstated" /> bays
      for cars. It has already{' '}
      <ChecksWord field={field('site.garage.existing')} label="What the building has already" choices={there} />
    </Sentence>
  );
}

function PanelSentence({ form: { field, value, set } }: { form: Form }) {
  const at = 'site.service.panel';
  const stated = value(at);
  // Kind and state belong together: what was not said of the one is not known when the other is.
  const each = (last: 'kind' | 'state') => ({
    ...field(`${at}.${last}`),
    onChange: (to: Json | undefined) =>
      set(at, { kind: null, state: null, ...(isObject(stated) && stated), [last]: to }),
  });
  return (
    <Sentence>
      The main panel is <ChoiceWord field={each('kind')} label="Kind of main panel" choices={PANEL_KIND} /> and{' '}
      <ChoiceWord field={each('state')} label="State of the main panel" choices={PANEL_STATE} />, its bus rated{' '}
      <NumberWord field={field('site.service.panelBusA')} label="Rating of the bus, in amperes" emptied="unstated" /> A,
      with{' '}
      <NumberWord field={field('site.service.backfeedA')} label="Backfed breakers, in amperes" emptied="unstated" /> A
      of solar or storage feeding it.
    </Sentence>
  );
}

function HazardSentence({ form: { field, value, set } }: { form: Form }) {
  const hazards = value('site.hazards');
  const known: Choice[] = [NOT_KNOWN, { value: 'looked', label: 'was looked for' }];
  const isKnown = Array.isArray(hazards);
  return (
    <>
      <Sentence>
        What hides in walls{' '}
        <ChoiceWord
          field={{
            ...field('site.hazards'),
            value: isKnown ? 'looked' : null,
            onChange: (to) => set('site.hazards', to === null ? null : []),
          }}
          label="Are hazards known"
          choices={known}
        />
        {isKnown ? ':' : '.'}
      </Sentence>
      {isKnown && <ChecksWord field={field('site.hazards')} label="Hazards found" choices={HAZARDS} />}
    </>
  );
}

function ExistingCircuit({ form }: { form: Form }) {
  const { field, value, set } = form;
  const at = 'site.existingCircuit';
  const isStated = value(at) !== undefined;
  const blank = { amps: 20, poles: 1, wires: 2, raceway: 'none', feeds: [] };
  return (
    <>
      <Sentence>
        An older supply of the building where the car parks{' '}
        <ChoiceWord
          field={field('site.existingSupply')}
          label="Older supply of that building"
          choices={SUPPLY_CHOICES}
        />
        .{' '}
        <TextButton onPress={() => set(at, isStated ? undefined : blank)}>
          {isStated ? 'leave out the older circuit' : 'describe an older circuit'}
        </TextButton>
      </Sentence>
      {isStated && (
        <>
          <Sentence>
            It has <NumberWord field={field(`${at}.amps`)} label="Older circuit, in amperes" /> A,{' '}
            <NumberWord field={field(`${at}.poles`)} label="Poles of the older circuit" /> poles,{' '}
            <NumberWord field={field(`${at}.wires`)} label="Wires of the older circuit" /> wires, in{' '}
            <ChoiceWord
              field={field(`${at}.raceway`)}
              label="Raceway of the older circuit"
              choices={choices(['none', 'pvc', 'emt', 'rmc'], {
                none: 'no raceway',
                pvc: 'PVC',
                emt: 'EMT',
                rmc: 'RMC',
              })}
            />{' '}
            of{' '}
            <ChoiceWord
              field={field(`${at}.tradeSize`)}
              label="Trade size of that raceway"
              choices={[{ value: undefined, label: 'no stated size' }, ...TRADE_SIZE_CHOICES]}
            />
            , and feeds:
          </Sentence>
          <ListWords form={form} path={`${at}.feeds`} what="thing that it feeds" blank={() => ''}>
            {({ at: thing, number }) => (
              <TextWord field={field(thing)} label={`What the older circuit feeds, ${number}`} />
            )}
          </ListWords>
        </>
      )}
    </>
  );
}

const EDITIONS = choices(['2020', '2023', '2026']);
const TERMINALS: Choice[] = [60, 75].map((value) => ({ value, label: `${value} °C` }));
const READINGS = choices(['both', 'full', 'in-tier'], {
  both: 'not known',
  full: 'in full',
  'in-tier': 'within the demand tier',
});

function CodeSentences({ form: { field } }: { form: Form }) {
  return (
    <>
      <Sentence>
        The NEC of <ChoiceWord field={field('site.code.edition')} label="Edition of the code" choices={EDITIONS} />{' '}
        holds; plain nonmetallic cable is{' '}
        <ChoiceWord
          field={field('site.code.nonmetallicCable')}
          label="Nonmetallic cable"
          choices={eitherOr('allowed', 'not allowed')}
        />
        ; terminals count as{' '}
        <ChoiceWord field={field('site.code.terminalsC')} label="Terminals, in °C" choices={TERMINALS} />. Least cover{' '}
        <NumberWord field={field('site.code.minimumCoverIn')} label="Local least cover, in inches" emptied="unstated" />{' '}
        in. The charger counts in the service load{' '}
        <ChoiceWord field={field('site.code.chargerReading')} label="How the charger counts" choices={READINGS} />.
      </Sentence>
      <Sentence>
        The permit costs{' '}
        <NumberWord
          field={field('site.permit.feeCents')}
          label="Permit fee, in dollars"
          scale="dollars"
          emptied="unstated"
        />{' '}
        dollars, with <NumberWord field={field('site.permit.inspections')} label="Inspections" emptied="unstated" />{' '}
        inspections, and is taken by{' '}
        <ChoiceWord
          field={field('site.permit.byOwner')}
          label="Who takes the permit"
          choices={eitherOr('the owner', 'the contractor')}
        />
        . The route{' '}
        <ChoiceWord
          field={field('site.permit.rightOfWay')}
          label="Does the route cross public ground"
          choices={eitherOr('crosses public ground', 'stays on the lot')}
        />
        .
      </Sentence>
      <Sentence>
        It gets up to{' '}
        <NumberWord field={field('site.ambientC')} label="Ambient temperature, in °C" emptied="unstated" /> °C where
        wires run, and swings by{' '}
        <NumberWord field={field('site.temperatureSwingF')} label="Temperature swing, in °F" emptied="unstated" /> °F
        over a year.
      </Sentence>
    </>
  );
}
