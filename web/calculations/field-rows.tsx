import type { Json } from '../json.ts';
import type { Field, Form } from '../parts/field.ts';
import { ChoiceWord, NumberWord, TextButton, TextWord } from '../parts/word-fields.tsx';
import { blankOf, choicesOf, type FieldSchema, labelOf, scaleOf, unitOf } from './field-schema.ts';

interface RowsProps {
  form: Form;
  /** Where the group stands, such as `offers.0`; empty for the whole. */
  at: string;
  shape: FieldSchema;
  /** Said before each label, such as `Offer 1: `, so that labels tell fields apart. */
  within?: string;
  /** The field that chose this shape stands above it already. */
  chosenBy?: string | undefined;
}

/** One row for each field of a group, made from its schema. */
export function FieldRows({ form, at, shape, within = '', chosenBy }: RowsProps) {
  return Object.entries(shape.properties ?? {}).map(([name, schema]) =>
    name === chosenBy ? null : (
      <FieldRow
        key={name}
        form={form}
        path={at ? `${at}.${name}` : name}
        schema={schema}
        within={within}
        isRequired={shape.required?.includes(name) ?? false}
      />
    ),
  );
}

interface RowProps {
  form: Form;
  path: string;
  schema: FieldSchema;
  within: string;
  isRequired: boolean;
}

function FieldRow(row: RowProps) {
  const { schema } = row;
  if (schema.type === 'object') return <GroupRow {...row} />;
  if (schema.type === 'array') return <ListRow {...row} />;
  return (
    <div className="calc-row">
      <span className="calc-label" aria-hidden="true">
        {schema.title}
      </span>
      <span className="calc-field">
        <OneField {...row} />
      </span>
    </div>
  );
}

/** The word that is typed or chosen, with its unit. */
function OneField({ form, path, schema, within, isRequired }: RowProps) {
  const field = filledIn(form.field(path), schema.default);
  const label = within + labelOf(schema);
  const choices = choicesOf(schema, isRequired);
  if (choices) return <ChoiceWord field={field} label={label} choices={choices} />;
  if (schema.anyOf) return <NumberOrNone field={field} label={label} schema={schema} />;
  if (schema.type === 'string') return <TextWord field={field} label={label} emptied="unstated" />;
  const unit = unitOf(schema);
  return (
    <>
      {unit === '$' && <span className="unit">$</span>}
      <NumberWord field={field} label={label} scale={scaleOf(schema)} emptied="unstated" />
      {unit !== undefined && unit !== '$' && <span className="unit">{unit}</span>}
    </>
  );
}

/** A number, or what its absence says: a length, or `by the foot`. */
function NumberOrNone({ field, label, schema }: { field: Field; label: string; schema: FieldSchema }) {
  const { none = 'none', title = '' } = schema;
  const isNone = field.value === null;
  const choice = { ...field, value: isNone ? null : 'number', filled: undefined, problem: undefined };
  return (
    <>
      <ChoiceWord
        field={{ ...choice, onChange: (value: Json | undefined) => field.onChange(value === null ? null : undefined) }}
        label={`${label}, or ${none}`}
        choices={[
          { value: 'number', label: `${title.toLowerCase()}:` },
          { value: null, label: none },
        ]}
      />
      {!isNone && (
        <>
          {' '}
          <NumberWord field={field} label={label} scale={scaleOf(schema)} emptied="unstated" />
          <span className="unit">{unitOf(schema)}</span>
        </>
      )}
    </>
  );
}

/** The same field, with what holds where nothing was stated. */
function filledIn(field: Field, standard: Json | undefined): Field {
  return { ...field, filled: field.filled ?? standard };
}

/** A group of fields. One that may be left out is put in and taken out as a whole. */
function GroupRow({ form, path, schema, within, isRequired }: RowProps) {
  const { title = path } = schema;
  const { value, problem, onChange } = form.field(path);
  const isThere = isRequired || schema.default !== undefined || value !== undefined;
  const mayGo = !isRequired && schema.default === undefined;
  return (
    <fieldset className="calc-group">
      <legend>{title}</legend>
      {isThere && <FieldRows form={form} at={path} shape={standing(schema)} within={`${within}${title}: `} />}
      {mayGo && (
        <TextButton
          label={`${isThere ? 'Leave out' : 'State'}: ${title}`}
          onPress={() => onChange(isThere ? undefined : {})}
        >
          {isThere ? 'leave out' : 'state it'}
        </TextButton>
      )}
      {problem !== undefined && <span className="word-problem">{problem}</span>}
    </fieldset>
  );
}

/** A group's fields with the defaults that the whole group has. */
function standing(schema: FieldSchema): FieldSchema {
  const standard = schema.default;
  if (typeof standard !== 'object' || standard === null || Array.isArray(standard)) return schema;
  const properties = Object.fromEntries(
    Object.entries(schema.properties ?? {}).map(([name, field]) => {
      const value = standard[name];
      return [name, value === undefined ? field : { ...field, default: value }];
    }),
  );
  return { ...schema, properties };
}

/** A list: one block for each of its items, counted from 1, and a way to add another. */
function ListRow({ form, path, schema, within }: RowProps) {
  const { title = path, items = {} } = schema;
  const { value, problem, onChange } = form.field(path);
  const list = Array.isArray(value) ? value : [];
  const one = title.replace(/ies$/, 'y').replace(/s$/, '');
  return (
    <fieldset className="calc-group">
      <legend>{title}</legend>
      {list.map((_, at) => {
        const number = at + 1;
        const label = `${within}${one} ${number}`;
        return (
          <div className="calc-item" key={`${path}.${number}`}>
            {items.type === 'object' && (
              <span className="calc-label" aria-hidden="true">
                {one} {number}
              </span>
            )}
            {items.type === 'object' ? (
              <FieldRows form={form} at={`${path}.${at}`} shape={items} within={`${label}: `} />
            ) : (
              <FieldRow
                form={form}
                path={`${path}.${at}`}
                schema={{ ...items, title: `${one} ${number}`, ...(schema.unit && { unit: schema.unit }) }}
                within={within}
                isRequired
              />
            )}
            <TextButton
              label={`Remove ${label}`}
              onPress={() => onChange(list.filter((_other, index) => index !== at))}
            >
              remove
            </TextButton>
          </div>
        );
      })}
      <TextButton label={`Add to ${title}`} onPress={() => onChange([...list, blankOf(items)])}>
        add {/^[AEIOU]/.test(one) ? 'an' : 'a'} {one.toLowerCase()}
      </TextButton>
      {problem !== undefined && <span className="word-problem">{problem}</span>}
    </fieldset>
  );
}
