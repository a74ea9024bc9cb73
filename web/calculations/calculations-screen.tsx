import { useQuery } from '@tanstack/react-query';
import { useMemo, useState } from 'react';
import type { CalculationSheet } from '../../server/calculations.ts';
import { listCalculations } from '../api.ts';
import { type JsonObject, valueAt, withValue } from '../json.ts';
import { go, PageLink } from '../navigation.tsx';
import type { Form } from '../parts/field.ts';
import { MeterFile } from '../parts/meter-file.tsx';
import { Waiting } from '../parts/waiting.tsx';
import { ChoiceWord, TextButton } from '../parts/word-fields.tsx';
import { CalculationResult } from './answer.tsx';
import { FieldRows } from './field-rows.tsx';
import { choicesOf, type FieldSchema, keptIn, missingIn, shapeChoice, shapeFor } from './field-schema.ts';
import { type Calculated, useCalculation } from './use-calculation.ts';
import '../styles/calculations.css';

const addressOf = (name: string) => `/calculations/${name}`;

/** Every rule and formula that can be asked alone: a list of them, or the one that the address names. */
export default function CalculationsScreen({ name }: { name: string | undefined }) {
  const sheets = useQuery({
    queryKey: ['calculations'],
    queryFn: listCalculations,
    staleTime: Number.POSITIVE_INFINITY,
  });
  if (sheets.error) return <p className="screen-note">{sheets.error.message}</p>;
  if (!sheets.data) return <Waiting what="the calculations" />;
  if (name === undefined) return <CalculationList sheets={sheets.data} />;
  const sheet = sheets.data.find((one) => one.name === name);
  if (!sheet) return <p className="screen-note">There is no calculation "{name}".</p>;
  return (
    <main className="plain-screen calc-screen">
      <label className="category">
        Calculation{' '}
        <select value={name} onChange={(event) => go(addressOf(event.currentTarget.value))}>
          {sheets.data.map((one) => (
            <option key={one.name} value={one.name}>
              {one.title}
            </option>
          ))}
        </select>
      </label>{' '}
      <PageLink className="calc-all" href="/calculations">
        all of them
      </PageLink>
      <CalculationForm key={name} sheet={sheet} />
    </main>
  );
}

function CalculationList({ sheets }: { sheets: readonly CalculationSheet[] }) {
  return (
    <main className="plain-screen">
      <h1>Calculations</h1>
      <dl className="calc-list">
        {sheets.map(({ name, title, decides }) => (
          <div key={name}>
            <dt>
              <PageLink href={addressOf(name)}>{title}</PageLink>
            </dt>
            <dd>{decides}</dd>
          </div>
        ))}
      </dl>
    </main>
  );
}

/** What was typed into each calculation, for as long as the page is open. */
const typedInto = new Map<string, JsonObject>();

function blankDraft(schema: FieldSchema): JsonObject {
  const choice = shapeChoice(schema);
  const [first] = choice?.field.enum ?? [];
  return choice && first !== undefined ? { [choice.name]: first } : {};
}

function CalculationForm({ sheet }: { sheet: CalculationSheet }) {
  const schema = sheet.input as FieldSchema;
  const [draft, setDraft] = useState(() => typedInto.get(sheet.name) ?? blankDraft(schema));
  const shape = shapeFor(schema, draft);
  const missing = missingIn(shape, draft);
  const calculated = useCalculation(sheet.name, draft, missing.length === 0);
  const keep = (next: JsonObject) => {
    typedInto.set(sheet.name, next);
    setDraft(next);
  };
  const { problems, askNow } = calculated;
  const form = useMemo<Form>(() => {
    const set: Form['set'] = (path, value) =>
      setDraft((before) => {
        const next = withValue(before, path, value);
        typedInto.set(sheet.name, next);
        return next;
      });
    return {
      set,
      value: (path) => valueAt(draft, path),
      field: (path) => ({
        path,
        value: valueAt(draft, path),
        filled: undefined,
        problem: problems.find((problem) => problem.path === path)?.message,
        onChange: (value) => set(path, value),
      }),
    };
  }, [draft, problems, sheet.name]);
  return (
    <div className="calc">
      <header>
        <h1>{sheet.title}</h1>
        <p>{sheet.decides}</p>
      </header>
      {sheet.name === READ_FROM_FILE && <FileInstead draft={draft} />}
      <form
        className="calc-form"
        aria-label={sheet.title}
        onSubmit={(event) => {
          event.preventDefault();
          askNow();
        }}
      >
        <ShapeRow schema={schema} draft={draft} onChange={keep} />
        <FieldRows form={form} at="" shape={shape} chosenBy={shapeChoice(schema)?.name} />
        <p className="commands">
          <TextButton onPress={() => keep(sheet.example as JsonObject)}>fill in an example</TextButton>
          <TextButton onPress={() => keep(blankDraft(schema))}>empty it</TextButton>
        </p>
        <button type="submit" className="visually-hidden">
          Calculate
        </button>
      </form>
      <AnswerSection sheet={sheet} shape={shape} missing={missing} calculated={calculated} stated={draft} />
    </div>
  );
}

interface AnswerProps {
  sheet: CalculationSheet;
  shape: FieldSchema;
  missing: readonly string[];
  calculated: Calculated;
  stated: JsonObject;
}

/** What is still to state, what is refused, or the answer. */
function AnswerSection({ sheet, shape, missing, calculated, stated }: AnswerProps) {
  const { answer, problems, failure } = calculated;
  return (
    <section className="calc-answer" aria-label="Answer" aria-live="polite">
      {missing.length > 0 && <p className="hint">Still to state: {missing.join(', ')}.</p>}
      {failure !== undefined && <p>{failure}</p>}
      {problems.length > 0 && missing.length === 0 && <Refusals shape={shape} problems={problems} />}
      {answer && <CalculationResult sheet={sheet} answer={answer} stated={stated} />}
    </section>
  );
}

/** The calculation whose readings may come as a file: they are too many to be typed. */
const READ_FROM_FILE = 'measured-demand';

function FileInstead({ draft }: { draft: JsonObject }) {
  const { voltageV, edition } = draft;
  return (
    <section className="calc-file" aria-label="Readings from a file">
      <MeterFile
        {...(typeof voltageV === 'number' && { voltageV })}
        {...(typeof edition === 'string' && { edition })}
      />
      <p className="hint">Or state the readings one by one:</p>
    </section>
  );
}

/** Where an input may have several shapes, the answer that chooses among them. */
function ShapeRow({
  schema,
  draft,
  onChange,
}: {
  schema: FieldSchema;
  draft: JsonObject;
  onChange: (draft: JsonObject) => void;
}) {
  const choice = shapeChoice(schema);
  if (!choice) return null;
  const { name, field } = choice;
  const choices = (choicesOf(field, true) ?? []).filter(({ value }) => value !== undefined);
  const choose = (value: JsonObject[string]) => {
    const next = { ...draft, [name]: value };
    onChange(keptIn(shapeFor(schema, next), next));
  };
  return (
    <div className="calc-row">
      <span className="calc-label" aria-hidden="true">
        {field.title}
      </span>
      <span className="calc-field">
        <ChoiceWord
          field={{ path: name, value: draft[name], filled: undefined, problem: undefined, onChange: choose }}
          label={field.title ?? name}
          choices={choices}
        />
      </span>
    </div>
  );
}

/** What is refused stands at its field; here is said that there is something, and what belongs to no field. */
function Refusals({ shape, problems }: { shape: FieldSchema; problems: readonly { path: string; message: string }[] }) {
  const fields = Object.keys(shape.properties ?? {});
  const elsewhere = problems.filter(({ path }) => !fields.includes(path.split('.')[0] ?? ''));
  return (
    <>
      <p className="hint">No answer: see what is said at the fields.</p>
      {elsewhere.map(({ path, message }) => (
        <p key={path + message}>
          {path} {message}
        </p>
      ))}
    </>
  );
}
