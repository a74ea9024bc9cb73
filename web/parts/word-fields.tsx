import { type CSSProperties, type ReactNode, useId, useState } from 'react';
import { FieldError, Input, TextField } from 'react-aria-components';
import type { Json } from '../json.ts';
import { type Emptied, type Field, read, type Scale, written } from './field.ts';
import { inUnits } from './in-units.ts';
import type { Choice } from './words.ts';

/*
 * Editable words of a sentence. Each has its whole name for a screen reader, keeps what was typed, and shows what the
 * server says of it right below itself.
 */

interface WordProps {
  field: Field;
  /** The whole name, such as `Length of leg 1, in feet`. */
  label: string;
}

/** Room for a text of some letters, within reason, where the browser does not size fields by what they hold. */
const roomFor = (text: string, least: number) =>
  ({ '--room': `${Math.min(Math.max(text.length, least), 34) + 0.4}ch` }) as CSSProperties;

interface TypedWordProps {
  label: string;
  path: string;
  typed: string;
  problem: string | undefined;
  onType: (typed: string) => void;
  placeholder?: string;
  numeric?: boolean;
  least?: number;
  /** Takes the whole line. */
  isWide?: boolean;
  onLeave?: () => void;
}

function TypedWord({
  label,
  path,
  typed,
  problem,
  onType,
  placeholder = '',
  numeric = false,
  least = 1,
  isWide = false,
  onLeave,
}: TypedWordProps) {
  return (
    <TextField
      className={isWide ? 'word wide' : 'word'}
      aria-label={label}
      value={typed}
      onChange={onType}
      isInvalid={problem !== undefined}
      validationBehavior="aria"
    >
      <Input
        className="word-input"
        {...(!isWide && { style: roomFor(typed || placeholder, least) })}
        placeholder={placeholder}
        data-path={path}
        inputMode={numeric ? 'decimal' : 'text'}
        autoComplete="off"
        spellCheck={!numeric}
        onFocus={(event) => event.currentTarget.select()}
        {...(onLeave && { onBlur: onLeave })}
      />
      <FieldError className="word-problem">{problem}</FieldError>
    </TextField>
  );
}

interface NumberWordProps extends WordProps {
  scale?: Scale;
  emptied?: Emptied;
  onLeave?: () => void;
}

/** A number in a sentence. Where it may be unknown, an emptied field says so: `not known`. */
export function NumberWord({ field, label, scale = 'plain', emptied = 'missing', onLeave }: NumberWordProps) {
  const [typed, setTyped] = useState<string>();
  const { value, filled, problem, path, onChange } = field;
  const stillMeant = typed !== undefined && read(typed, { scale, emptied }) === value;
  const shown = stillMeant ? typed : written(value, scale);
  const standard = filled === undefined || filled === null ? 'none stated' : written(filled, scale);
  return (
    <TypedWord
      label={label}
      path={path}
      typed={shown}
      problem={problem === undefined ? undefined : inUnits(problem, scale)}
      numeric
      placeholder={{ unknown: 'not known', missing: 'not stated', unstated: standard }[emptied]}
      onType={(text) => {
        setTyped(text);
        onChange(read(text, { scale, emptied }));
      }}
      onLeave={() => {
        setTyped(undefined);
        onLeave?.();
      }}
    />
  );
}

/** A text in a sentence: a label, the name of an appliance. */
export function TextWord({
  field,
  label,
  emptied = 'missing',
  isWide = false,
}: WordProps & { emptied?: 'missing' | 'unstated'; isWide?: boolean }) {
  const { value, filled, problem, path, onChange } = field;
  return (
    <TypedWord
      label={label}
      path={path}
      typed={typeof value === 'string' ? value : ''}
      problem={problem}
      least={6}
      isWide={isWide}
      placeholder={emptied === 'missing' ? 'not stated' : typeof filled === 'string' ? filled : 'none'}
      onType={(text) => onChange(text === '' ? undefined : text)}
    />
  );
}

const sameAnswer = (a: Json | undefined, b: Json | undefined) => JSON.stringify(a) === JSON.stringify(b);

/**
 * One of some answers, as a word of the sentence. What is not among the answers is shown as it stands;
 * `standard` is what holds where nothing was stated, as long as no answer says so.
 */
export function ChoiceWord({
  field,
  label,
  choices,
  standard: usual,
}: WordProps & { choices: readonly Choice[]; standard?: Json }) {
  const problemId = useId();
  const { value, filled, problem, path, onChange } = field;
  const stated = choices.findIndex((choice) => sameAnswer(choice.value, value));
  const standard = choices.findIndex((choice) => sameAnswer(choice.value, filled ?? usual));
  const chosen = stated >= 0 && (value !== undefined || standard < 0) ? stated : value === undefined ? standard : -1;
  const word = choices[chosen]?.label ?? (typeof value === 'string' ? value : 'not stated');
  return (
    <span className="word">
      <span className="word-choice">
        <span aria-hidden="true">{word}</span>
        <select
          aria-label={label}
          aria-invalid={problem !== undefined}
          aria-describedby={problem === undefined ? undefined : problemId}
          data-path={path}
          value={chosen}
          onChange={(event) => onChange(choices[Number(event.currentTarget.value)]?.value)}
        >
          {chosen < 0 && <option value={-1}>{word}</option>}
          {choices.map((choice, at) => (
            <option key={choice.label} value={at}>
              {choice.label}
            </option>
          ))}
        </select>
      </span>
      {problem !== undefined && (
        <span className="word-problem" id={problemId}>
          {problem}
        </span>
      )}
    </span>
  );
}

/** Several of some answers, as check boxes within the sentence. */
export function ChecksWord({ field, label, choices }: WordProps & { choices: readonly Choice[] }) {
  const { value, filled, problem, path, onChange } = field;
  const chosen = Array.isArray(value)
    ? value
    : typeof value === 'string'
      ? [value]
      : Array.isArray(filled)
        ? filled
        : [];
  const toggle = (answer: Json, isOn: boolean) => {
    const others = chosen.filter((other) => other !== answer);
    onChange(isOn ? [...others, answer] : others);
  };
  return (
    <fieldset className="checks" data-path={path} aria-label={label}>
      {choices.flatMap(({ value: answer, label: word }) =>
        answer === undefined ? (
          []
        ) : (
          <label key={word}>
            <input
              type="checkbox"
              checked={chosen.includes(answer)}
              onChange={(event) => toggle(answer, event.currentTarget.checked)}
            />
            {word}
          </label>
        ),
      )}
      {problem !== undefined && <span className="word-problem">{problem}</span>}
    </fieldset>
  );
}

/** A quiet command within the text, such as `add a leg`. */
export function TextButton({
  onPress,
  children,
  label,
  disabled = false,
}: {
  onPress: () => void;
  children: ReactNode;
  label?: string;
  disabled?: boolean;
}) {
  return (
    <button
      type="button"
      className="text-button"
      onClick={onPress}
      disabled={disabled}
      {...(label && { 'aria-label': label })}
    >
      {children}
    </button>
  );
}
