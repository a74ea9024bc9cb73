import {
  CROSSINGS,
  DIGS,
  FINISHES,
  HEADROOMS,
  LEG_FIELDS,
  type LegKind,
  RACEWAY_PLACES,
  RACEWAY_TYPES,
  REINFORCEMENTS,
  TRAFFICS,
} from '../../server/estimate/vocabulary.ts';
import type { Json, JsonObject } from '../json.ts';
import { isObject } from '../json.ts';
import type { Form } from '../parts/field.ts';
import { ListWords } from '../parts/list-words.tsx';
import { ChecksWord, ChoiceWord, NumberWord, TextWord } from '../parts/word-fields.tsx';
import {
  type Choice,
  choices,
  eitherOr,
  KIND_CHOICES,
  METHOD_CHOICES,
  NOT_KNOWN,
  SIZE_CHOICES,
  SOIL_CHOICES,
  TRADE_SIZE_CHOICES,
  WALL_CHOICES,
} from '../parts/words.ts';
import { More, Sentence } from './sentence.tsx';

interface LegProps {
  form: Form;
  leg: JsonObject;
  /** Where the leg stands, such as `route.0` or `options.1.route.0`. */
  at: string;
  /** As people count: from 1. */
  number: number;
}

/** One leg in sentences: its length, what it is, and the fields that its kind has a use for. */
export function LegSentences({ form, leg, at, number }: LegProps) {
  const { field } = form;
  const name = (what: string) => `${what} of leg ${number}`;
  const path = (last: string) => `${at}.${last}`;
  const uses = usesOf(leg);
  return (
    <>
      <Sentence>
        <Length form={form} leg={leg} at={at} number={number} />
        <ChoiceWord field={field(path('kind'))} label={name('Kind')} choices={KIND_CHOICES} />, wired by{' '}
        <ChoiceWord field={field(path('method'))} label={name('Wiring method')} choices={METHOD_CHOICES} />; at its end
        it passes{' '}
        <ChoiceWord field={field(path('through'))} label={name('What is passed at the end')} choices={WALL_CHOICES} />.
      </Sentence>
      {uses('across') && <Framing form={form} leg={leg} at={at} number={number} />}
      {uses('soil') && <Digging form={form} leg={leg} at={at} number={number} />}
      {(uses('thicknessIn') || uses('widthIn') || uses('restore')) && (
        <Surface form={form} leg={leg} at={at} number={number} />
      )}
      {uses('type') && <Raceway form={form} leg={leg} at={at} number={number} />}
      <More title="Rise, bends, temperature, note">
        <Sentence>
          It rises <NumberWord field={field(path('riseFt'))} label={`${name('Rise')}, in feet`} emptied="unstated" /> ft
          at its end, bends{' '}
          <NumberWord field={field(path('bendsDeg'))} label={`${name('Bends')}, in degrees`} emptied="unstated" />° in
          all, and gets up to{' '}
          <NumberWord field={field(path('ambientC'))} label={`${name('Temperature')}, in °C`} emptied="unstated" /> °C.
          Note: <TextWord field={field(path('note'))} label={name('Note')} emptied="unstated" />
        </Sentence>
      </More>
    </>
  );
}

function usesOf(leg: JsonObject): (field: string) => boolean {
  const fields: readonly string[] = LEG_FIELDS[leg.kind as LegKind] ?? [];
  return (field) => fields.includes(field) || leg[field] !== undefined;
}

const KNOWN: Choice[] = [
  { value: 'measured', label: 'measured' },
  { value: 'guessed', label: 'guessed' },
];

/** A number that was typed, whatever its shape is at the moment. */
function likelyOf(length: Json | undefined): Json | undefined {
  return isObject(length) ? length.likely : length;
}

function Length({ form: { field, set }, leg, at, number }: LegProps) {
  const path = `${at}.lengthFt`;
  const guessed = isObject(leg.lengthFt);
  const likely = likelyOf(leg.lengthFt);
  const known = {
    ...field(path),
    value: guessed ? 'guessed' : 'measured',
    problem: undefined,
    onChange: (to: Json | undefined) => set(path, to === 'guessed' ? { low: likely, likely, high: likely } : likely),
  };
  const label = `Length of leg ${number}, in feet`;
  return (
    <>
      {guessed ? (
        <>
          Between <NumberWord field={field(`${path}.low`)} label={`${label}, at least`} /> and{' '}
          <NumberWord field={field(`${path}.high`)} label={`${label}, at most`} /> ft, likely{' '}
          <NumberWord field={field(`${path}.likely`)} label={`${label}, likely`} />
        </>
      ) : (
        <NumberWord field={field(path)} label={label} />
      )}{' '}
      ft, <ChoiceWord field={known} label={`Is the length of leg ${number} measured`} choices={KNOWN} />, of{' '}
    </>
  );
}

function Framing({ form: { field }, leg, at, number }: LegProps) {
  const hasHeadroom = usesOf(leg)('headroom');
  return (
    <Sentence>
      The run goes{' '}
      <ChoiceWord
        field={field(`${at}.across`)}
        label={`Direction of leg ${number}`}
        choices={eitherOr('across the framing, bored', 'along the framing, stapled')}
      />
      {hasHeadroom && (
        <>
          , by somebody who is{' '}
          <ChoiceWord
            field={field(`${at}.headroom`)}
            label={`Headroom of leg ${number}`}
            choices={choices(HEADROOMS)}
          />
        </>
      )}
      .
    </Sentence>
  );
}

function Digging({ form, leg, at, number }: LegProps) {
  const { field } = form;
  return (
    <>
      <Sentence>
        The ground is{' '}
        <ChecksWord field={field(`${at}.soil`)} label={`Ground of leg ${number}`} choices={SOIL_CHOICES} />
      </Sentence>
      <Sentence>
        Dug{' '}
        <ChoiceWord
          field={field(`${at}.dig`)}
          label={`How leg ${number} is dug`}
          choices={choices(DIGS, {
            auto: 'the cheapest way',
            hand: 'by hand',
            trencher: 'by trencher',
            excavator: 'by excavator',
          })}
        />
        , covered by at least{' '}
        <NumberWord field={field(`${at}.coverIn`)} label={`Cover of leg ${number}, in inches`} emptied="unstated" /> in,
        under{' '}
        <ChoiceWord
          field={field(`${at}.traffic`)}
          label={`Traffic over leg ${number}`}
          choices={choices(TRAFFICS, { foot: 'feet only', vehicle: 'vehicles' })}
        />
        .
      </Sentence>
      <Crossings form={form} leg={leg} at={at} number={number} />
    </>
  );
}

function Crossings({ form, at: leg, number: legNumber }: LegProps) {
  const { field } = form;
  return (
    <ListWords form={form} path={`${leg}.crossings`} what="crossing" blank={() => ({ what: 'water' })}>
      {({ at, number }) => (
        <>
          crosses{' '}
          <NumberWord
            field={field(`${at}.count`)}
            label={`Lines of crossing ${number} in leg ${legNumber}`}
            emptied="unstated"
          />{' '}
          <ChoiceWord
            field={field(`${at}.what`)}
            label={`What crosses leg ${legNumber}, ${number}`}
            choices={choices(CROSSINGS)}
          />
        </>
      )}
    </ListWords>
  );
}

const REINFORCEMENT: Choice[] = [
  { value: undefined, label: 'not stated' },
  NOT_KNOWN,
  ...choices(REINFORCEMENTS, { none: 'none', mesh: 'mesh', rebar: 'bars' }),
];

function Surface({ form: { field }, leg, at, number }: LegProps) {
  const uses = usesOf(leg);
  const isSlab = uses('thicknessIn');
  return (
    <Sentence>
      {isSlab && (
        <>
          The slab is{' '}
          <NumberWord
            field={field(`${at}.thicknessIn`)}
            label={`Slab of leg ${number}, in inches`}
            emptied="unstated"
          />{' '}
          in thick, its reinforcement{' '}
          <ChoiceWord
            field={field(`${at}.reinforcement`)}
            label={`Reinforcement of leg ${number}`}
            choices={REINFORCEMENT}
          />
          , its face{' '}
          <ChoiceWord field={field(`${at}.finish`)} label={`Finish of leg ${number}`} choices={choices(FINISHES)} />,
          and what is put back is{' '}
          <ChoiceWord
            field={field(`${at}.replace`)}
            label={`What is put back in leg ${number}`}
            choices={choices(['strip', 'panel'], { strip: 'the strip', panel: 'the whole panel' })}
          />
          .{' '}
        </>
      )}
      {uses('widthIn') && (
        <>
          Opened{' '}
          <NumberWord field={field(`${at}.widthIn`)} label={`Width of leg ${number}, in inches`} emptied="unstated" />{' '}
          in wide.{' '}
        </>
      )}
      The surface{' '}
      <ChoiceWord
        field={field(`${at}.restore`)}
        label={`Is the surface of leg ${number} restored`}
        choices={eitherOr('is restored', 'is left as backfilled')}
      />
      .
    </Sentence>
  );
}

function Raceway({ form, leg, at, number }: LegProps) {
  const { field } = form;
  return (
    <>
      <Sentence>
        It is{' '}
        <ChoiceWord
          field={field(`${at}.type`)}
          label={`Raceway of leg ${number}`}
          choices={choices(RACEWAY_TYPES, RACEWAY_WORDS)}
        />{' '}
        of{' '}
        <ChoiceWord
          field={field(`${at}.tradeSize`)}
          label={`Trade size of leg ${number}`}
          choices={TRADE_SIZE_CHOICES}
        />
        ,{' '}
        <ChoiceWord
          field={field(`${at}.place`)}
          label={`Place of leg ${number}`}
          choices={choices(RACEWAY_PLACES, { indoor: 'indoors', outdoor: 'outdoors' })}
        />
        . In it lie already:
      </Sentence>
      <Occupants form={form} leg={leg} at={at} number={number} />
    </>
  );
}

const RACEWAY_WORDS = { 'pvc-40': 'PVC schedule 40', 'pvc-80': 'PVC schedule 80', emt: 'EMT', rmc: 'rigid steel' };
const OCCUPANTS = choices(['thwn-2', 'xhhw-2', 'use-2', 'bare'], {
  'thwn-2': 'THWN-2',
  'xhhw-2': 'XHHW-2',
  'use-2': 'USE-2',
  bare: 'bare',
});

/** Conductors that an existing raceway holds already. */
function Occupants({ form, at: leg, number: legNumber }: LegProps) {
  const { field } = form;
  return (
    <ListWords
      form={form}
      path={`${leg}.occupiedBy`}
      what="kind of conductor"
      blank={() => ({ insulation: 'thwn-2', size: '12', count: 1 })}
    >
      {({ at, number }) => {
        const name = (what: string) => `${what} of conductor ${number} in leg ${legNumber}`;
        return (
          <>
            <NumberWord field={field(`${at}.count`)} label={name('Count')} /> of{' '}
            <ChoiceWord field={field(`${at}.size`)} label={name('Size')} choices={SIZE_CHOICES} />{' '}
            <ChoiceWord field={field(`${at}.insulation`)} label={name('Insulation')} choices={OCCUPANTS} />
          </>
        );
      }}
    </ListWords>
  );
}
