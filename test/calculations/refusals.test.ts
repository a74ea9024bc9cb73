import { describe, expect, it } from 'vitest';
import { calculate, calculationNamed, calculationSheets } from '../../server/calculations.ts';
import { InputError, type InputProblem } from '../../server/estimate/input-problems.ts';
import { type JsonObject, withValue } from '../../web/json.ts';
import { fieldsOf, type InputSchema, type SchemaField } from './schema-inputs.ts';

/*
 * Every field of every calculation, stated wrongly in each way that its schema knows: the message names the field, the
 * value and what is allowed. Then whole messages, word by word, one at least for each calculation.
 */

/** What the calculation says of an input. Nothing, where it answers. */
function problemsOf(name: string, input: unknown): readonly InputProblem[] {
  const calculation = calculationNamed(name);
  if (!calculation) throw new Error(`There is no calculation "${name}".`);
  try {
    calculate(calculation, input);
    return [];
  } catch (error) {
    if (error instanceof InputError) return error.problems;
    throw error;
  }
}

interface Wrong {
  what: string;
  value: unknown;
  /** What the message must hold: the value as it is shown, and what would be right. */
  says: string[];
}

/** Values that a field's schema does not let in. */
function wrongValues({ schema }: SchemaField): Wrong[] {
  const answers = schema.enum ?? (schema.const === undefined ? undefined : [schema.const]);
  if (answers) return [{ what: 'an unknown answer', value: 'purple', says: ['"purple"', ...answers.map(String)] }];
  switch (schema.type) {
    case 'number':
    case 'integer':
      return wrongNumbers(schema);
    case 'array':
      return wrongLists(schema);
    case 'boolean':
      return [{ what: 'a text', value: 'yes', says: ['"yes"', 'true or false'] }];
    case 'string':
      return [{ what: 'a number', value: 42, says: ['42', 'a text'] }];
    case 'object':
      return [{ what: 'a number', value: 42, says: ['42', 'an object with', ...(schema.required ?? [])] }];
    default:
      return [];
  }
}

function wrongNumbers({ type, minimum, maximum }: InputSchema): Wrong[] {
  const ends = [minimum, maximum].filter((end) => end !== undefined);
  const allowed = ends.map(String);
  const beyond = (value: number): Wrong => ({ what: `${value}`, value, says: [String(value), ...allowed] });
  return [
    { what: 'a text', value: 'much', says: ['"much"', 'number of', ...allowed] },
    ...(minimum === undefined ? [] : [beyond(minimum - 7)]),
    ...(maximum === undefined ? [] : [beyond(maximum + 7)]),
    ...(type === 'integer' ? [{ what: 'a fraction', value: 1.5, says: ['1.5', 'whole number'] }] : []),
  ];
}

/** Up to so many items are made to overfill a list. */
const OVERFILLED_TO = 1000;

function wrongLists({ minItems, maxItems }: InputSchema): Wrong[] {
  const wrongs: Wrong[] = [{ what: 'a number', value: 42, says: ['42', 'a list of'] }];
  if (minItems) wrongs.push({ what: 'an empty list', value: [], says: ['[]', 'at least one'] });
  if (maxItems !== undefined && maxItems < OVERFILLED_TO) {
    const many = Array.from({ length: maxItems + 1 }, () => 1);
    wrongs.push({ what: 'too many', value: many, says: [String(maxItems), String(maxItems + 1)] });
  }
  return wrongs;
}

/** The example of a calculation, with a group or list put in where a field's path leads through one that is not there. */
function startingAt(example: JsonObject, path: string, schema: InputSchema): JsonObject {
  let whole = example;
  const steps = path.split('.');
  for (let end = 1; end < steps.length; end += 1) {
    const group = steps.slice(0, end).join('.');
    const field = fieldsOf(schema).find((one) => one.path === group);
    const there = steps
      .slice(0, end)
      .reduce<unknown>((value, step) => (value as JsonObject | undefined)?.[step], whole);
    if (there === undefined) whole = withValue(whole, group, field?.schema.type === 'array' ? [{}] : {});
  }
  return whole;
}

/** The shape that the example has: that of its method, where there are several. */
function shapeOf(input: unknown, example: JsonObject): InputSchema {
  const schema = input as InputSchema;
  const shapes = schema.oneOf ?? [schema];
  return shapes.find((shape) => [undefined, example.method].includes(shape.properties?.method?.const)) ?? schema;
}

const SHEETS = calculationSheets().map(({ name, input, example }) => {
  const stated = example as JsonObject;
  const shape = shapeOf(input, stated);
  return { name, stated, shape, fields: fieldsOf(shape) };
});
const FIELDS = SHEETS.flatMap(({ name, stated, shape, fields }) =>
  fields.map((field) => ({ name, stated, shape, field, path: field.path })),
);

describe.each(FIELDS)('$path of $name', ({ name, stated, shape, field, path }) => {
  const wrongs = wrongValues(field);

  it.each(wrongs)('refuses $what, and says value and what is allowed', ({ value, says }) => {
    const input = withValue(startingAt(stated, path, shape), path, value as JsonObject);
    const problem = problemsOf(name, input).find((one) => one.path === path);
    expect(problem).toBeDefined();
    for (const words of says) expect(problem?.message).toContain(words);
    expect(problem?.message).toMatch(/^must /);
  });

  it('has ways to be wrong, or is one of several shapes', () => {
    expect(wrongs.length > 0 || field.schema.anyOf !== undefined).toBe(true);
  });

  it('is offered where it is misspelt', () => {
    const steps = path.split('.');
    const last = steps.at(-1) ?? '';
    if (/^\d+$/.test(last)) return; // an item of a list has no name to misspell
    const misspelt = last.length > 3 ? `${last.slice(0, 1)}${last.slice(2)}` : `${last}x`;
    const wrongPath = [...steps.slice(0, -1), misspelt].join('.');
    const input = withValue(startingAt(stated, path, shape), wrongPath, 1);
    const message = problemsOf(name, input).find((one) => one.path === wrongPath)?.message;
    expect(message).toContain(`is not a field that is known here ("${misspelt}"); did you mean "`);
  });
});

describe('a field that is required', () => {
  const required = FIELDS.filter(({ field }) => field.isRequired);

  it.each(required)('$path of $name is asked for where it is missing', ({ name, stated, shape, path }) => {
    const input = withValue(startingAt(stated, path, shape), path, undefined);
    const problem = problemsOf(name, input).find((one) => one.path === path);
    expect(problem?.message).toMatch(/^must .*not nothing$/);
  });
});

/** Our own wording, pinned whole so that a change of it is seen; what it allows stands in the contract of the fields. */
const WHOLE_MESSAGES: [name: string, change: Record<string, unknown>, message: string][] = [
  ['conductor', { loadA: 0 }, 'loadA must be a number of amperes, at least 0.001 and at most 5000, not 0'],
  [
    'conductor',
    { continuous: undefined, continous: true },
    'continous is not a field that is known here ("continous"); did you mean "continuous"?',
  ],
  ['conductor', { ocpdA: 55, loadA: 40 }, standardRating('ocpdA', 55)],
  ['conductor', { ocpdA: 50 }, 'ocpdA must be at least 60 A for a load that asks for 60 A, not 50'],
  ['ampacity', { insulationC: 85 }, 'insulationC must be 60, 75 or 90 degrees Celsius, not 85'],
  [
    'voltage-drop',
    { size: undefined },
    'size must be one of 14, 12, 10, 8, 6, 4, 3, 2, 1, 1/0, 2/0, 3/0, 4/0, 250, 300, 350, 400, 500, 600, or left out where maxPercent asks for the size; both are missing',
  ],
  ['voltage-drop', { phases: 2 }, 'phases must be 1 or 3 phases, not 2'],
  ['conduit-fill', { conductors: [] }, 'conductors must be a list of at least one of kinds of conductor, not []'],
  ['conduit-fill', { type: 'ent' }, 'type must be one of pvc-40, pvc-80, emt, rmc, not "ent"'],
  [
    'service-load',
    { method: 'guess' },
    'method must be one of standard, new-dwelling, existing-dwelling, measured, not "guess"',
  ],
  [
    'service-load',
    { serviceA: undefined },
    'serviceA must be a number of amperes, at least 0.001 and at most 5000, not nothing',
  ],
  ['equipment-ground', { ocpdA: '60' }, 'ocpdA must be a number of amperes, at least 0.001 and at most 5000, not "60"'],
  [
    'grounding-electrode',
    { metal: 'aluminum', electrode: 'concrete-encased' },
    'metal must be copper for a concrete-encased electrode, not "aluminum"',
  ],
  [
    'cover-depth',
    { location: 'driveway' },
    'location must be one of under-2in-concrete, under-building, under-4in-slab, street, dwelling-driveway, elsewhere, not "driveway"',
  ],
  ['charging', { amps: -4 }, 'amps must be a number of amperes, at least 0.001 and at most 5000, not -4'],
  ['trench', { depthIn: null }, 'depthIn must be a number of inches, at least 0.001 and at most 10000, not null'],
  ['concrete', { closedEnds: 3 }, 'closedEnds must be a whole number of ends, at least 0 and at most 2, not 3'],
  ['largest-setting', { ocpdA: 55 }, standardRating('ocpdA', 55)],
  ['circuit-check', { wires: 5 }, 'wires must be 2, 3 or 4 wires, not 5'],
  [
    'measured-demand',
    { readings: [{ start: '03/04/2026', kWh: 1 }] },
    'readings.0.start must be a date and time such as 2026-03-02T17:15, not "03/04/2026"',
  ],
  [
    'packages',
    { pieces: [130], offers: [{ lengthFt: 125, priceCents: 100 }] },
    'offers must be so long that one holds the longest piece, 130 ft, or by the foot; the longest offered is 125 ft',
  ],
  ['three-point', { likely: 50 }, 'likely must lie between low 30 and high 44, not 50'],
  [
    'payment',
    { principalCents: 10.5 },
    'principalCents must be a whole number of cents, at least 0 and at most 10000000000, not 10.5',
  ],
  ['price-from-cost', { markupBp: undefined }, 'markupBp must be stated, or marginBp instead; both are missing'],
  [
    'price-from-cost',
    { marginBp: 1000 },
    'markupBp must be left out, or marginBp: one of the two says it, not both (1500 and 1000)',
  ],
];

/** Ratings of Table 240.6(A) of 2023, 10 A among them for the first time. */
function standardRating(field: string, value: number): string {
  const ratings =
    '10, 15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250, 300, 350, 400, 450, 500, 600, 700, 800, 1000, 1200, 1600, 2000, 2500, 3000, 4000, 5000, 6000';
  return `${field} must be a standard rating: one of ${ratings}, not ${value}`;
}

describe('refused whole', () => {
  it.each(WHOLE_MESSAGES)('%s with %j: %s', (name, change, message) => {
    const sheet = SHEETS.find((one) => one.name === name);
    const input = Object.fromEntries(
      Object.entries({ ...sheet?.stated, ...change }).filter(([, value]) => value !== undefined),
    );
    expect(problemsOf(name, input).map((one) => `${one.path} ${one.message}`)).toEqual([message]);
  });

  it('is shown for every calculation', () => {
    const shown = new Set(WHOLE_MESSAGES.map(([name]) => name));
    expect(SHEETS.map(({ name }) => name).filter((name) => !shown.has(name))).toEqual([]);
  });
});
