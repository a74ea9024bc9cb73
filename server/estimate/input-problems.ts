import { z } from 'zod';
import { nearWord } from './near-words.ts';

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

/** A value as it can be repeated in a message: short, and never walked through, however large or deep it is. */
export function shown(value: unknown): string {
  if (value === undefined) return 'nothing';
  if (Array.isArray(value)) return value.length === 0 ? '[]' : `a list of ${value.length}`;
  if (typeof value === 'object' && value !== null) return 'an object';
  if (typeof value !== 'string') return String(value);
  return JSON.stringify(value.length > LONGEST_SHOWN ? `${value.slice(0, LONGEST_SHOWN - 1)}…` : value);
}
const LONGEST_SHOWN = 60;

/** A closed object: unknown fields are refused, and where one is close, the name that was probably meant is offered. */
export function closed<Shape extends z.core.$ZodLooseShape>(shape: Shape): z.ZodObject<Shape, z.core.$strict> {
  const names = Object.keys(shape);
  return z.strictObject(shape, {
    error: (issue) =>
      issue.code === 'unrecognized_keys'
        ? issue.keys.map((key) => unknownField(key, names)).join('\n')
        : `must be an object with ${names.join(', ')}, not ${shown(issue.input)}`,
  });
}

/** Says that a field is not known here, and which one was probably meant. One line, for a key prints escaped. */
function unknownField(key: string, names: readonly string[]): string {
  const meant = nearWord(key, names);
  const instead = meant === undefined ? `allowed are ${names.join(', ')}` : `did you mean "${meant}"?`;
  return `is not a field that is known here (${shown(key)}); ${instead}`;
}

/** Did a branch of a union look inside the value, or only say that it is of another type? */
const lookedInside = (branch: readonly Issue[]) =>
  branch.some((inner) => inner.path.length > 0 || inner.code === 'unrecognized_keys');

/** A union hides its branches' paths: takes the branch that has least to complain of among those that looked inside. */
function flatten(issue: Issue): Issue[] {
  if (issue.code !== 'invalid_union') return [issue];
  const [meant] = issue.errors.filter(lookedInside).sort((a, b) => a.length - b.length);
  if (!meant) return [issue];
  return meant.flatMap((inner) => flatten({ ...inner, path: [...issue.path, ...inner.path] } as Issue));
}

/** How many problems an answer names; nobody mends more at once, and an answer must not outgrow its question. */
const MOST_PROBLEMS = 100;

/** Turns what zod found into problems with dotted paths, the first hundred; an unknown field has a path of its own. */
export function problemsOf(error: z.core.$ZodError): InputProblem[] {
  const problems: InputProblem[] = [];
  for (const issue of error.issues.flatMap(flatten)) {
    const messages = issue.code === 'unrecognized_keys' ? issue.message.split('\n') : [issue.message];
    messages.forEach((message, at) => {
      const key = issue.code === 'unrecognized_keys' ? issue.keys[at] : undefined;
      if (problems.length >= MOST_PROBLEMS) return;
      problems.push({ path: [...issue.path, ...(key === undefined ? [] : [key])].map(String).join('.'), message });
    });
  }
  return problems;
}

/** Reads an input by its schema. @throws {InputError} with every problem found */
export function readInput<Schema extends z.ZodType>(schema: Schema, input: unknown): z.output<Schema> {
  const result = schema.safeParse(input);
  if (result.success) return result.data;
  throw new InputError(problemsOf(result.error));
}
