import { descriptionJsonSchema } from '../../server/estimate/description.ts';

/** The parts of JSON Schema that the description is written in. */
interface Schema {
  type?: string;
  properties?: Record<string, Schema>;
  items?: Schema;
  maxItems?: number;
  minimum?: number;
  maximum?: number;
  exclusiveMinimum?: number;
  enum?: (string | number)[];
  const?: string | number;
  oneOf?: Schema[];
  anyOf?: Schema[];
}

/** A field of the description that a user may state: its words, the ends of its number, or how long its list may be. */
export interface StatedField {
  /** With dots; an element of a list is `0`: `route.0.lengthFt.low`. */
  path: string;
  words: (string | number)[];
  ends: number[];
  longest?: number;
}

/** Just above a bound that is itself refused: a hundredth of a foot, an ampere, an inch. */
const JUST_ABOVE = 0.01;

/** Every field of the description, as its own schema has them, so that none can be forgotten. */
export function statedFields(): StatedField[] {
  const fields = new Map<string, StatedField>();
  const at = (path: string) => {
    const known = fields.get(path) ?? { path, words: [], ends: [] };
    fields.set(path, known);
    return known;
  };
  const visit = (schema: Schema, path: string): void => {
    const below = (name: string) => (path === '' ? name : `${path}.${name}`);
    for (const branch of schema.oneOf ?? schema.anyOf ?? []) visit(branch, path);
    for (const [name, inner] of Object.entries(schema.properties ?? {})) visit(inner, below(name));
    if (schema.enum) at(path).words.push(...schema.enum);
    if (schema.const !== undefined) at(path).words.push(schema.const);
    if (schema.type === 'number' || schema.type === 'integer') at(path).ends.push(...endsOf(schema));
    if (schema.items) visit(schema.items, below('0'));
    if (schema.maxItems !== undefined) at(path).longest = schema.maxItems;
  };
  visit(descriptionJsonSchema() as Schema, '');
  return [...fields.values()];
}

function endsOf({ type, minimum, exclusiveMinimum = Number.NaN, maximum }: Schema): number[] {
  const least = minimum ?? exclusiveMinimum + (type === 'integer' ? 1 : JUST_ABOVE);
  return [least, maximum ?? Number.NaN].filter(Number.isFinite);
}
