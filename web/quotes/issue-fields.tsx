import { type ReactNode, useId, useState } from 'react';
import { FieldError, Input, Label, TextArea, TextField } from 'react-aria-components';
import type { FieldProblem } from '../api.ts';
import type { Scale } from '../parts/field.ts';
import { inUnits } from '../parts/in-units.ts';
import { TextButton } from '../parts/word-fields.tsx';
import { scaleOfPath } from '../project/path-words.ts';

const isWithin = (path: string, field: string) => path === field || path.startsWith(`${field}.`);
/** A sum that all allowances make is said in cents, too. */
const scaleOf = (path: string): Scale => (path === 'allowances' ? 'dollars' : scaleOfPath(path));

/** What is refused of a field or of a thing in it, in the units in which it is typed. */
export function problemWithin(problems: readonly FieldProblem[], field: string): string | undefined {
  const found = problems.find(({ path }) => isWithin(path, field));
  return found && inUnits(found.message, scaleOf(found.path));
}

/** What is refused at exactly this path, in the units in which it is typed. */
export function problemAt(problems: readonly FieldProblem[], field: string): string | undefined {
  return problemWithin(
    problems.filter(({ path }) => path === field),
    field,
  );
}

interface GroupProps {
  title: string;
  /** What is stated in it, in a few words, for who does not open it. */
  says: string;
  /** Paths of its fields: it opens where one of them is refused. */
  paths: readonly string[];
  problems: readonly FieldProblem[];
  children: ReactNode;
}

/** Fields that most quotes leave as they are: closed, with a summary of what they say. */
export function Group({ title, says, paths, problems, children }: GroupProps) {
  const [isOpen, setOpen] = useState(false);
  const isRefused = paths.some((path) => problemWithin(problems, path) !== undefined);
  return (
    <details className="more" open={isOpen || isRefused} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>
        {title}: {says}
      </summary>
      {children}
    </details>
  );
}

interface ChosenProps {
  label: string;
  value: string | undefined;
  choices: readonly { id: string; label: string }[];
  problem?: string | undefined;
  onChoose: (id: string) => void;
}

/** One of some answers. */
export function Chosen({ label, value, choices, problem, onChoose }: ChosenProps) {
  const id = useId();
  return (
    <div className="setting">
      <label htmlFor={id}>{label}</label>
      <select
        id={id}
        value={value}
        aria-invalid={problem !== undefined}
        aria-describedby={problem === undefined ? undefined : `${id}-problem`}
        onChange={(event) => onChoose(event.currentTarget.value)}
      >
        {choices.map((choice) => (
          <option key={choice.id} value={choice.id}>
            {choice.label}
          </option>
        ))}
      </select>
      {problem !== undefined && (
        <span className="word-problem" id={`${id}-problem`}>
          {problem}
        </span>
      )}
    </div>
  );
}

interface SeveralProps {
  label: string;
  chosen: readonly string[];
  choices: readonly { id: string; label: string }[];
  problem: string | undefined;
  onChoose: (chosen: string[]) => void;
}

/** Several of some answers. */
export function Several({ label, chosen, choices, problem, onChoose }: SeveralProps) {
  return (
    <fieldset className="setting several">
      <legend>{label}</legend>
      <div>
        {choices.map(({ id, label: words }) => (
          <label key={id}>
            <input
              type="checkbox"
              checked={chosen.includes(id)}
              onChange={(event) =>
                onChoose([...chosen.filter((other) => other !== id), ...(event.currentTarget.checked ? [id] : [])])
              }
            />{' '}
            {words}
          </label>
        ))}
      </div>
      {problem !== undefined && <span className="word-problem">{problem}</span>}
    </fieldset>
  );
}

interface TypedProps {
  label: string;
  value: string;
  /** So many lines where more than one may be typed. */
  lines?: number;
  problem: string | undefined;
  onType: (typed: string) => void;
}

/** A text or a number, kept as it was typed. */
export function Typed({ label, value, lines, problem, onType }: TypedProps) {
  return (
    <TextField
      className="setting"
      value={value}
      onChange={onType}
      isInvalid={problem !== undefined}
      validationBehavior="aria"
    >
      <Label>{label}</Label>
      {lines === undefined ? <Input autoComplete="off" /> : <TextArea rows={lines} />}
      <FieldError className="word-problem">{problem}</FieldError>
    </TextField>
  );
}

interface RowsProps<Row extends Readonly<Record<string, string>>> {
  /** What one of them is called: `allowance`. */
  what: string;
  rows: readonly Row[];
  blank: Row;
  /** What is typed of each, the words first: `Allowance 1, $`. */
  columns: readonly { of: keyof Row & string; unit: string }[];
  /** What is refused of a field of a row, and of all of them together. */
  problemOf: (row: Row, of: keyof Row & string) => string | undefined;
  problem: string | undefined;
  onType: (rows: Row[]) => void;
}

/** Rows of words with a number each, which can be added and removed. */
export function Rows<Row extends Readonly<Record<string, string>>>(props: RowsProps<Row>) {
  const { what, rows, blank, columns, problemOf, problem, onType } = props;
  const article = /^[aeiou]/.test(what) ? 'an' : 'a';
  const numbered = rows.map((row, at) => ({ row, number: at + 1 }));
  const name = `${what.charAt(0).toUpperCase()}${what.slice(1)}`;
  return (
    <div className="typed-rows">
      {numbered.map(({ row, number }) => (
        <div className="typed-row" key={number}>
          {columns.map(({ of, unit }) => (
            <Typed
              key={of}
              label={`${name} ${number}, ${unit}`}
              value={row[of] ?? ''}
              problem={problemOf(row, of)}
              onType={(typed) => onType(rows.map((each, at) => (at + 1 === number ? { ...each, [of]: typed } : each)))}
            />
          ))}
          <TextButton
            label={`Remove ${what} ${number}`}
            onPress={() => onType(rows.filter((_, at) => at + 1 !== number))}
          >
            remove
          </TextButton>
        </div>
      ))}
      <TextButton onPress={() => onType([...rows, blank])}>
        add {article} {what}
      </TextButton>
      {problem !== undefined && <span className="word-problem block">{problem}</span>}
    </div>
  );
}
