import { isObject, type Json, type JsonObject } from '../json.ts';
import type { Scale } from '../parts/field.ts';
import { type Choice, plain } from '../parts/words.ts';

/** A field of a calculation's input or result as its JSON Schema describes it, with the words that it carries. */
export interface FieldSchema {
  type?: string;
  title?: string;
  unit?: string;
  /** What null says. */
  none?: string;
  /** A place in a list, where JSON counts from 0 and people from 1. */
  countsFrom0?: boolean;
  /** Words of answers that do not speak for themselves. */
  words?: Record<string, string>;
  enum?: (string | number)[];
  const?: string | number;
  default?: Json;
  properties?: Record<string, FieldSchema>;
  required?: string[];
  items?: FieldSchema;
  oneOf?: FieldSchema[];
  anyOf?: FieldSchema[];
}

/** How a number of this unit is typed: cents as dollars, basis points as percent. */
export function scaleOf({ unit }: FieldSchema): Scale {
  if (unit === 'cents') return 'dollars';
  return unit === 'bp' ? 'percent' : 'plain';
}

/** The unit as it stands beside a field. */
export function unitOf({ unit }: FieldSchema): string | undefined {
  if (unit === 'cents') return '$';
  return unit === 'bp' ? '%' : unit;
}

/** The name of a field, with its unit, as a screen reader says it. */
export function labelOf(schema: FieldSchema): string {
  const unit = unitOf(schema);
  return unit === undefined ? (schema.title ?? '') : `${schema.title}, in ${unit === '$' ? 'dollars' : unit}`;
}

/** An answer in words: `NM-B cable`, `one phase`; with its unit where it is a number. */
export function answerWords(schema: FieldSchema, answer: string | number): string {
  const word = schema.words?.[answer];
  if (word !== undefined) return word;
  const unit = unitOf(schema);
  const bare = typeof answer === 'string' && !/\d/.test(answer) ? plain(answer) : String(answer);
  return unit === undefined ? bare : `${bare} ${unit}`;
}

/** What can be chosen for a field, or nothing where it is typed. A field that may be left out can be left out. */
export function choicesOf(schema: FieldSchema, isRequired: boolean): Choice[] | undefined {
  const answers =
    schema.type === 'boolean'
      ? [
          { value: true, label: 'yes' },
          { value: false, label: 'no' },
        ]
      : schema.enum?.map((value) => ({ value, label: answerWords(schema, value) }));
  if (!answers) return undefined;
  const isLeftOut = schema.default === undefined;
  return isLeftOut ? [{ value: undefined, label: isRequired ? 'choose' : 'not stated' }, ...answers] : answers;
}

/**
 * The shape that a draft is filled in by: where there are several, the one whose fixed answers it gives, else the first.
 */
export function shapeFor(schema: FieldSchema, draft: JsonObject): FieldSchema {
  const fits = ({ properties = {} }: FieldSchema) =>
    Object.entries(properties).every(([name, field]) => field.const === undefined || field.const === draft[name]);
  return schema.oneOf?.find(fits) ?? schema.oneOf?.[0] ?? schema;
}

/** The field by which one of several shapes is chosen, as a choice; nothing where there is but one shape. */
export function shapeChoice(schema: FieldSchema): { name: string; field: FieldSchema } | undefined {
  const [first] = schema.oneOf ?? [];
  const found = Object.entries(first?.properties ?? {}).find(([, field]) => field.const !== undefined);
  if (!found) return undefined;
  const [name, { title = name }] = found;
  const each = (schema.oneOf ?? []).map((shape) => shape.properties?.[name] ?? {});
  const answers = each.flatMap((field) => (field.const === undefined ? [] : [field.const]));
  const words = Object.assign({}, ...each.map((field) => field.words)) as Record<string, string>;
  return { name, field: { title, enum: answers, words } };
}

/** A draft without what another shape alone has: it would be refused there. */
export function keptIn(shape: FieldSchema, draft: JsonObject): JsonObject {
  const names = Object.keys(shape.properties ?? {});
  return Object.fromEntries(Object.entries(draft).filter(([name]) => names.includes(name)));
}

/** What another item of a list begins with. */
export function blankOf(schema: FieldSchema): Json {
  return schema.type === 'object' ? {} : '';
}

/** Required fields that a draft does not state yet, by their titles; also within its groups and lists. */
export function missingIn(shape: FieldSchema, draft: JsonObject, within = ''): string[] {
  return Object.entries(shape.properties ?? {}).flatMap(([name, field]) => {
    if (field.const !== undefined) return [];
    const { title = name } = field;
    const isRequired = shape.required?.includes(name) ?? false;
    return missingAt(field, { value: draft[name], isRequired, label: within + title });
  });
}

interface Place {
  value: Json | undefined;
  isRequired: boolean;
  label: string;
}

function missingAt(field: FieldSchema, { value, isRequired, label }: Place): string[] {
  if (Array.isArray(value) && value.length > 0) {
    return value.flatMap((item, at) =>
      missingAt(field.items ?? {}, { value: item, isRequired: true, label: `${label} ${at + 1}` }),
    );
  }
  if (isObject(value)) return missingIn(field, value, `${label}: `);
  const isMissing = value === undefined || value === '' || Array.isArray(value);
  return isRequired && isMissing ? [label] : [];
}
