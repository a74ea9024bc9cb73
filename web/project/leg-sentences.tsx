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
  SOIL_CHOICES,
  TRADE_SIZE_CHOICES,
  WALL_CHOICES,
} from '../parts/words.ts';
import { More, Sentence } from './sentence.tsx';

interface LegProps {
  form: Form;
  leg: JsonObject;
  /** From 0; people count from 1. */
  at: number;
}

/** One leg in sentences: its length, what it is, and the fields that its kind has a use for. */
export function LegSentences({ form, leg, at }: LegProps) {
  const { field } = form;
  const name = (what: string) => `${what} of leg ${at + 1}`;
  const path = (last: string) => `route.${at}.${last}`;
  const uses = usesOf(leg);
  return (
    <>
      <Sentence>
        <Length form={form} leg={leg} at={at} />
        <ChoiceWord field={field(path('kind'))} label={name('Kind')} choices={KIND_CHOICES} />, wired by{' '}
        <ChoiceWord field={field(path('method'))} label={name('Wiring method')} choices={METHOD_CHOICES} />; at its end
        it passes{' '}
        <ChoiceWord field={field(path('through'))} label={name('What is passed at the end')} choices={WALL_CHOICES} />.
      </Sentence>
      {uses('across') && <Framing form={form} leg={leg} at={at} />}
      {uses('soil') && <Digging form={form} leg={leg} at={at} />}
      {(uses('thicknessIn') || uses('widthIn') || uses('restore')) && <Surface form={form} leg={leg} at={at} />}
      {uses('type') && <Raceway form={form} leg={leg} at={at} />}
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

function Length({ form: { field, set }, leg, at }: LegProps) {
  const path = `route.${at}.lengthFt`;
  const guessed = isObject(leg.lengthFt);
  const likely = likelyOf(leg.lengthFt);
  const known = {
    ...field(path),
    value: guessed ? 'guessed' : 'measured',
    problem: undefined,
    onChange: (to: Json | undefined) => set(path, to === 'guessed' ? { low: likely, likely, high: likely } : likely),
  };
  const label = `Length of leg ${at + 1}, in feet`;
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
      ft, <ChoiceWord field={known} label={`Is the length of leg ${at + 1} measured`} choices={KNOWN} />, of{' '}
    </>
  );
}

function Framing({ form: { field }, leg, at }: LegProps) {
  const hasHeadroom = usesOf(leg)('headroom');
  return (
    <Sentence>
      The run goes{' '}
      <ChoiceWord
        field={field(`route.${at}.across`)}
        label={`Direction of leg ${at + 1}`}
        choices={eitherOr('across the framing, bored', 'along the framing, stapled')}
      />
      {hasHeadroom && (
        <>
          , by somebody who is{' '}
          <ChoiceWord
            field={field(`route.${at}.headroom`)}
            label={`Headroom of leg ${at + 1}`}
            choices={choices(HEADROOMS)}
          />
        </>
      )}
      .
    </Sentence>
  );
}

function Digging({ form, leg, at }: LegProps) {
  const { field } = form;
  return (
    <>
      <Sentence>
        The ground is{' '}
        <ChecksWord field={field(`route.${at}.soil`)} label={`Ground of leg ${at + 1}`} choices={SOIL_CHOICES} />
      </Sentence>
      <Sentence>
        Dug{' '}
        <ChoiceWord
          field={field(`route.${at}.dig`)}
          label={`How leg ${at + 1} is dug`}
          choices={choices(DIGS, {
            auto: 'the cheapest way',
            hand: 'by hand',
            trencher: 'by trencher',
            excavator: 'by excavator',
          })}
        />
        , covered by at least{' '}
        <NumberWord
          field={field(`route.${at}.coverIn`)}
          label={`Cover of leg ${at + 1}, in inches`}
          emptied="unstated"
        />{' '}
        in, under{' '}
        <ChoiceWord
          field={field(`route.${at}.traffic`)}
          label={`Traffic over leg ${at + 1}`}
          choices={choices(TRAFFICS, { foot: 'feet only', vehicle: 'vehicles' })}
        />
        .
      </Sentence>
      <Crossings form={form} leg={leg} at={at} />
    </>
  );
}

function Crossings({ form, at: leg }: LegProps) {
  const { field } = form;
  return (
    <ListWords form={form} path={`route.${leg}.crossings`} what="crossing" blank={() => ({ what: 'water' })}>
      {({ at, number }) => (
        <>
          crosses{' '}
          <NumberWord
            field={field(`${at}.count`)}
            label={`Lines of crossing ${number} in leg ${leg + 1}`}
            emptied="unstated"
          />{' '}
          <ChoiceWord
            field={field(`${at}.what`)}
            label={`What crosses leg ${leg + 1}, ${number}`}
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

function Surface({ form: { field }, leg, at }: LegProps) {
  const uses = usesOf(leg);
  const isSlab = uses('thicknessIn');
  return (
    <Sentence>
      {isSlab && (
        <>
          The slab is{' '}
          <NumberWord
            field={field(`route.${at}.thicknessIn`)}
            label={`Slab of leg ${at + 1}, in inches`}
            emptied="unstated"
          />{' '}
          in thick, its reinforcement{' '}
          <ChoiceWord
            field={field(`route.${at}.reinforcement`)}
            label={`Reinforcement of leg ${at + 1}`}
            choices={REINFORCEMENT}
          />
          , its face{' '}
          <ChoiceWord
            field={field(`route.${at}.finish`)}
            label={`Finish of leg ${at + 1}`}
            choices={choices(FINISHES)}
          />
          ; put back{' '}
          <ChoiceWord
            field={field(`route.${at}.replace`)}
            label={`What is put back in leg ${at + 1}`}
            choices={choices(['strip', 'panel'], { strip: 'the strip', panel: 'the whole panel' })}
          />
          .{' '}
        </>
      )}
      {uses('widthIn') && (
        <>
          Opened{' '}
          <NumberWord
            field={field(`route.${at}.widthIn`)}
            label={`Width of leg ${at + 1}, in inches`}
            emptied="unstated"
          />{' '}
          in wide.{' '}
        </>
      )}
      The surface{' '}
      <ChoiceWord
        field={field(`route.${at}.restore`)}
        label={`Is the surface of leg ${at + 1} restored`}
        choices={eitherOr('is restored', 'is left as backfilled')}
      />
      .
    </Sentence>
  );
}

function Raceway({ form: { field }, at }: LegProps) {
  return (
    <Sentence>
      It is{' '}
      <ChoiceWord
        field={field(`route.${at}.type`)}
        label={`Raceway of leg ${at + 1}`}
        choices={choices(RACEWAY_TYPES)}
      />{' '}
      of{' '}
      <ChoiceWord
        field={field(`route.${at}.tradeSize`)}
        label={`Trade size of leg ${at + 1}`}
        choices={TRADE_SIZE_CHOICES}
      />
      ,{' '}
      <ChoiceWord
        field={field(`route.${at}.place`)}
        label={`Place of leg ${at + 1}`}
        choices={choices(RACEWAY_PLACES)}
      />
      .
    </Sentence>
  );
}
