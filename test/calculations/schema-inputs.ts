import fc from 'fast-check';

/** The parts of JSON Schema that the calculations' inputs are written in. */
export interface InputSchema {
  type?: 'object' | 'array' | 'number' | 'integer' | 'string' | 'boolean' | 'null';
  properties?: Record<string, InputSchema>;
  required?: string[];
  items?: InputSchema;
  minItems?: number;
  maxItems?: number;
  minimum?: number;
  maximum?: number;
  exclusiveMinimum?: number;
  enum?: (string | number)[];
  const?: string | number;
  oneOf?: InputSchema[];
  anyOf?: InputSchema[];
  default?: unknown;
  title?: string;
}

/** How many of a list are tried at most: more of the same finds nothing new, and takes long. */
const MOST_ITEMS = 8;

/** Random inputs within all that a schema says, its very ends among them. */
export function inputsOf(schema: InputSchema): fc.Arbitrary<unknown> {
  const branches = schema.oneOf ?? schema.anyOf;
  if (branches) return fc.oneof(...branches.map(inputsOf));
  if (schema.const !== undefined) return fc.constant(schema.const);
  if (schema.enum) return fc.constantFrom(...schema.enum);
  switch (schema.type) {
    case 'object':
      return objectsOf(schema);
    case 'array': {
      const minLength = schema.minItems ?? 0;
      const maxLength = Math.max(minLength, Math.min(schema.maxItems ?? MOST_ITEMS, MOST_ITEMS));
      return fc.array(inputsOf(schema.items ?? {}), { minLength, maxLength });
    }
    case 'integer':
    case 'number':
      return numbersOf(schema);
    case 'string':
      return fc.oneof(fc.string({ minLength: 1, maxLength: 40 }), writtenTimes);
    case 'boolean':
      return fc.boolean();
    case 'null':
      return fc.constant(null);
    default:
      throw new Error(`No inputs are known for ${JSON.stringify(schema)}.`);
  }
}

function objectsOf({ properties = {}, required = [] }: InputSchema): fc.Arbitrary<unknown> {
  const fields = Object.fromEntries(Object.entries(properties).map(([name, schema]) => [name, inputsOf(schema)]));
  return fc.record(fields, { requiredKeys: required });
}

/** The ends, what lies just inside them, everyday figures, and anything between. */
function numbersOf({ type, minimum, exclusiveMinimum, maximum = 1e9 }: InputSchema): fc.Arbitrary<number> {
  const least = minimum ?? exclusiveMinimum ?? -maximum;
  const isInside = (value: number) => value >= least && value <= maximum && value !== exclusiveMinimum;
  if (type === 'integer') {
    const ends = [least, least + 1, maximum - 1, maximum].filter(isInside);
    return fc.oneof(fc.constantFrom(...ends), fc.integer({ min: ends[0] ?? least, max: maximum }));
  }
  const marked = [least, least + 1e-9, least + 1, 0, 1e-6, 0.5, 2.5, 15, 60, 240, maximum - 1e-9, maximum];
  const between = fc.double({ min: least, max: maximum, noNaN: true }).filter(isInside);
  return fc.oneof(fc.constantFrom(...marked.filter(isInside)), between);
}

/** Quarter hours of a few days of 2026. */
const writtenTimes = fc
  .integer({ min: 0, max: 500 })
  .map((quarters) => new Date(Date.UTC(2026, 2, 7) + quarters * 900_000).toISOString().slice(0, 16));

/** One field of a schema, with its dotted path; the items of a list stand at 0. */
export interface SchemaField {
  path: string;
  schema: InputSchema;
  isRequired: boolean;
}

/** Every field of an object's schema, also those of its groups and lists. */
export function fieldsOf(schema: InputSchema, at = ''): SchemaField[] {
  const { properties = {}, required = [], items } = schema;
  const own = Object.entries(properties).flatMap(([name, field]) => {
    const path = at ? `${at}.${name}` : name;
    return [{ path, schema: field, isRequired: required.includes(name) }, ...fieldsOf(field, path)];
  });
  if (!items) return own;
  const path = `${at}.0`;
  return [...own, { path, schema: items, isRequired: false }, ...fieldsOf(items, path)];
}
