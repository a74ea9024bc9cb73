import { exactDollars, number } from '../../server/drawing/wording.ts';
import { isObject, type Json, type JsonObject } from '../json.ts';
import { answerWords, type FieldSchema } from './field-schema.ts';

const DECIMALS = 4;

/** A figure of an answer as it is read: `$9,000.00`, `15 %`, `4.7136 V`, `yes`, `6 AWG`. */
export function figure(schema: FieldSchema, value: Json): string {
  if (value === null) return schema.none ?? 'none';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value === 'string') return answerWords(schema, value);
  if (typeof value !== 'number') return summary(schema, value);
  if (schema.countsFrom0) return String(value + 1);
  if (schema.words?.[value] !== undefined) return answerWords(schema, value);
  if (schema.unit === 'cents') return `$${exactDollars(value)}`;
  if (schema.unit === 'bp') return `${number(value / 100, DECIMALS)} %`;
  return schema.unit === undefined ? number(value, DECIMALS) : `${number(value, DECIMALS)} ${schema.unit}`;
}

/** More than one figure, in a line: a list by its items, or by its count where it is long. */
function summary(schema: FieldSchema, value: Json[] | JsonObject): string {
  if (isObject(value)) return pairs(schema, value).join(', ');
  if (value.length > 6) return `${value.length} of them`;
  const items = schema.items ?? {};
  const each = { ...items, ...(schema.unit !== undefined && { unit: schema.unit }) };
  return value.map((item) => figure(isObject(item) ? items : each, item)).join('; ');
}

/** The figures of a group, each with its name: `Charging 48 A`. What is left out is left out. */
export function pairs(schema: FieldSchema, group: JsonObject): string[] {
  return Object.entries(group).flatMap(([name, value]) => {
    if (value === undefined) return [];
    const field = schema.properties?.[name] ?? {};
    return [`${field.title ?? name} ${figure(field, value)}`];
  });
}
