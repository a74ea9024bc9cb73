import { distance } from 'fastest-levenshtein';
import { z } from 'zod';

/** One thing wrong with an input: the path with dots, and a message that names the value and what is allowed. */
export interface InputProblem {
  path: string;
  message: string;
}

/** Input that the schema or a rule refuses. Carries every problem found, each with its path. */
export class InputError extends Error {
  readonly problems: readonly InputProblem[];
  constructor(problems: readonly InputProblem[]) {
    super(problems.map(({ path, message }) => (path ? `${path} ${message}` : message)).join('\n'));
    this.name = 'InputError';
    this.problems = problems;
  }
}

type Issue = z.core.$ZodIssue;

/** A value as it can be repeated in a message: short, never the whole of a large input. */
export function shown(value: unknown): string {
  if (value === undefined) return 'nothing';
  const text = typeof value === 'number' ? String(value) : (JSON.stringify(value) ?? String(value));
  return text.length > 60 ? `${text.slice(0, 57)}…` : text;
}

/** A closed object: unknown fields are refused, and where one is close, the name that was probably meant is offered. */
export function closed<Shape extends z.core.$ZodLooseShape>(shape: Shape): z.ZodObject<Shape, z.core.$strict> {
  const names = Object.keys(shape);
  return z.strictObject(shape, {
    error: (issue) =>
      issue.code === 'unrecognized_keys'
        ? issue.keys.map((key) => unknownField(key, names)).join(' ')
        : `must be an object with ${names.join(', ')}, not ${shown(issue.input)}`,
  });
}

/** Says that a field is not known, and which one was probably meant: within a third of its letters. */
function unknownField(key: string, names: readonly string[]): string {
  const near = names
    .map((name) => ({ name, edits: distance(key.toLowerCase(), name.toLowerCase()) }))
    .filter(({ name, edits }) => edits <= Math.max(2, Math.floor(name.length / 3)))
    .sort((a, b) => a.edits - b.edits)[0];
  const meant = near ? `did you mean "${near.name}"?` : `allowed are ${names.join(', ')}.`;
  return `"${key}" is not a field that is known here; ${meant}`;
}

/** A union hides its branches' paths: takes the branch that got furthest, for it is the one that was meant. */
function flatten(issue: Issue): Issue[] {
  if (issue.code !== 'invalid_union') return [issue];
  const branches = issue.errors.filter((branch) => branch.some((inner) => inner.path.length > 0));
  const meant = branches.sort((a, b) => a.length - b.length)[0];
  if (!meant) return [issue];
  return meant.flatMap((inner) => flatten({ ...inner, path: [...issue.path, ...inner.path] } as Issue));
}

/** Turns what zod found into problems with dotted paths; an unknown field is named by its own path. */
export function problemsOf(error: z.core.$ZodError): InputProblem[] {
  return error.issues.flatMap(flatten).flatMap((issue) => {
    const keys = issue.code === 'unrecognized_keys' ? issue.keys : [undefined];
    return keys.map((key) => ({
      path: [...issue.path, ...(key === undefined ? [] : [key])].map(String).join('.'),
      message: issue.message,
    }));
  });
}

/** Reads an input by its schema. @throws {InputError} with every problem found */
export function readInput<Schema extends z.ZodType>(schema: Schema, input: unknown): z.output<Schema> {
  const result = schema.safeParse(input);
  if (result.success) return result.data;
  throw new InputError(problemsOf(result.error));
}
