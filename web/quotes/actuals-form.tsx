import { useMutation } from '@tanstack/react-query';
import { useEffect, useRef, useState } from 'react';
import { FieldError, Input, TextField } from 'react-aria-components';
import { exactDollars, number } from '../../server/drawing/wording.ts';
import { ApiProblem, type FieldProblem, type Tagged } from '../api.ts';
import type { Json } from '../json.ts';
import { read, written } from '../parts/field.ts';
import { TextButton } from '../parts/word-fields.tsx';
import { plain } from '../parts/words.ts';
import { commaAdvice } from './comma-advice.ts';
import { type Quote, quotedOption, saveActuals } from './quote-api.ts';

interface ActualsProps {
  quote: Quote;
  etag: string;
  onSaved: (saved: Tagged<Quote>) => void;
  /** Reads what somebody else saved meanwhile. */
  readAgain: () => Promise<Tagged<Quote>>;
}

/** What is typed: hours by the key of their task, and the cost in dollars. Kept as typed until it is saved. */
interface Typed {
  hours: Readonly<Record<string, string>>;
  /** Tasks that nobody quoted, by what they are called. */
  others: readonly { name: string; hours: string }[];
  cost: string;
}

function typedOf({ actuals, quotedTasks }: Quote): Typed {
  const isQuoted = (key: string) => quotedTasks.some((task) => task.key === key);
  const tasks = actuals?.tasks ?? [];
  const hours = tasks.filter(({ key }) => isQuoted(key)).map((task) => [task.key, String(task.hours)]);
  const others = tasks.filter(({ key }) => !isQuoted(key));
  return {
    hours: Object.fromEntries(hours),
    others: others.map((task) => ({ name: task.key, hours: String(task.hours) })),
    cost: written(actuals?.totalCents, 'dollars'),
  };
}

const isTyped = ({ name, hours }: Typed['others'][number]) => name.trim() !== '' || hours.trim() !== '';

/** Hours that were typed, those quoted first; what is left empty is not known, and says nothing. */
function bodyOf({ quotedTasks }: Quote, { hours, others, cost }: Typed) {
  const quoted = quotedTasks.flatMap(({ key }) => {
    const value = read(hours[key] ?? '', { scale: 'plain', emptied: 'unstated' });
    return value === undefined ? [] : [{ key, hours: value }];
  });
  const unquoted = others.filter(isTyped).map((other) => {
    const value = read(other.hours, { scale: 'plain', emptied: 'unstated' });
    return { key: other.name.trim(), ...(value !== undefined && { hours: value }) };
  });
  const tasks = [...quoted, ...unquoted];
  const totalCents = read(cost, { scale: 'dollars', emptied: 'unstated' });
  return { tasks, ...(totalCents !== undefined && { totalCents }) };
}

/** The form whose first refused field takes the focus, once its message stands below it. */
function useFirstRefused(error: Error | null) {
  const form = useRef<HTMLFormElement>(null);
  useEffect(() => {
    if (error) form.current?.querySelector<HTMLElement>('[aria-invalid="true"]')?.focus();
  }, [error]);
  return form;
}

/** Whether a field shows what is refused, so that nobody has to read its path. */
const isShown = ({ path }: FieldProblem) => path === 'totalCents' || /^tasks\.\d+\.(key|hours)$/.test(path);

/** What is said of a refusal as a whole: what its fields say already is not said again. */
function sayRefusal(error: Error): string {
  const isAllMarked = error instanceof ApiProblem && error.errors.length > 0 && error.errors.every(isShown);
  return isAllMarked ? 'Not saved: see the fields that are marked.' : error.message;
}

/** The hours and the cost that a job took, beside those quoted. */
export function ActualsForm({ quote, etag, onSaved, readAgain }: ActualsProps) {
  const [typed, setTyped] = useState(() => typedOf(quote));
  const body = bodyOf(quote, typed);
  const save = useMutation({
    mutationFn: (tag: string) => saveActuals(quote.id, { actuals: body as Json, etag: tag }),
    onSuccess: (saved) => {
      onSaved(saved);
      setTyped(typedOf(saved.resource));
    },
  });
  const problem = save.error instanceof ApiProblem ? save.error : undefined;
  const problemAt = (path: string) => problem?.errors.find((error) => error.path === path)?.message;
  const form = useFirstRefused(save.error);
  const isChanged = JSON.stringify(typed) !== JSON.stringify(typedOf(quote));
  const takeTheirs = async () => {
    setTyped(typedOf((await readAgain()).resource));
    save.reset();
  };
  return (
    <form
      ref={form}
      onSubmit={(event) => {
        event.preventDefault();
        save.mutate(etag);
      }}
    >
      <h2>What the job took</h2>
      <p className="hint">
        Person-hours by task: 0 for what was not needed. Leave empty what nobody counted: it says nothing then.
      </p>
      <HoursTable
        quote={quote}
        typed={typed}
        onType={setTyped}
        problemOf={(key) => problemAt(`tasks.${body.tasks.findIndex((task) => task.key === key)}.hours`)}
        costProblem={problemAt('totalCents')}
      />
      <OtherTasks
        others={typed.others}
        problemOf={(nth, of) => {
          const before = typed.others.slice(0, nth).filter(isTyped).length;
          return problemAt(`tasks.${body.tasks.length - typed.others.filter(isTyped).length + before}.${of}`);
        }}
        onType={(others) => setTyped({ ...typed, others })}
      />
      <p>
        <button type="submit" className="paper-button" disabled={!isChanged || save.isPending}>
          Save hours
        </button>{' '}
        <span role="status" className="hint">
          {isChanged ? 'not saved yet' : quote.actuals && 'saved'}
        </span>
      </p>
      {save.error && (
        <p role="alert" className="word-problem">
          {sayRefusal(save.error)}
          {problem?.status === 412 && (
            <>
              {' '}
              <TextButton onPress={takeTheirs}>take theirs</TextButton> or{' '}
              <TextButton onPress={async () => save.mutate((await readAgain()).etag)}>
                keep mine, over theirs
              </TextButton>
            </>
          )}
        </p>
      )}
    </form>
  );
}

interface TableProps {
  quote: Quote;
  typed: Typed;
  onType: (typed: Typed) => void;
  /** What the server says of the hours of a task, by its key. */
  problemOf: (key: string) => string | undefined;
  costProblem: string | undefined;
}

function HoursTable({ quote, typed, onType, problemOf, costProblem }: TableProps) {
  return (
    <table className="hours">
      <thead>
        <tr>
          <th scope="col">Task</th>
          <th scope="col" className="figure">
            Quoted
          </th>
          <th scope="col" className="figure">
            Took
          </th>
        </tr>
      </thead>
      <tbody>
        {quote.quotedTasks.map(({ key, hours }) => (
          <tr key={key}>
            <th scope="row">{taskName(quote, key)}</th>
            <td className="figure">{number(hours)} h</td>
            <td className="figure">
              <Hours
                label={`Hours that it took: ${taskName(quote, key)}`}
                typed={typed.hours[key] ?? ''}
                problem={problemOf(key)}
                onType={(value) => onType({ ...typed, hours: { ...typed.hours, [key]: value } })}
              />
            </td>
          </tr>
        ))}
        <tr>
          <th scope="row">Cost of the job in all, before markup, overhead and profit</th>
          <td className="figure">${exactDollars(quote.costCents)}</td>
          <td className="figure">
            <Hours
              label="Cost of the job in all, in dollars"
              typed={typed.cost}
              problem={costProblem}
              onType={(cost) => onType({ ...typed, cost })}
            />
          </td>
        </tr>
      </tbody>
    </table>
  );
}

interface OtherTasksProps {
  others: Typed['others'];
  /** What the server says of the name or the hours of a row, counted from 0. */
  problemOf: (nth: number, of: 'key' | 'hours') => string | undefined;
  onType: (others: Typed['others']) => void;
}

/** Work that nobody quoted and somebody did: what it was called, and how long it took. */
function OtherTasks({ others, problemOf, onType }: OtherTasksProps) {
  const numbered = others.map((other, at) => ({ other, at }));
  const change = (nth: number, changes: Partial<Typed['others'][number]>) =>
    onType(others.map((other, at) => (at === nth ? { ...other, ...changes } : other)));
  return (
    <div className="other-tasks">
      {numbered.map(({ other, at }) => (
        <div className="typed-row" key={at + 1}>
          <Hours
            label={`Task that was not quoted ${at + 1}`}
            typed={other.name}
            problem={problemOf(at, 'key')}
            onType={(name) => change(at, { name })}
          />
          <Hours
            label={`Hours of task that was not quoted ${at + 1}`}
            typed={other.hours}
            problem={problemOf(at, 'hours')}
            onType={(hours) => change(at, { hours })}
          />
          <TextButton
            label={`Remove task that was not quoted ${at + 1}`}
            onPress={() => onType(others.filter((_, nth) => nth !== at))}
          >
            remove
          </TextButton>
        </div>
      ))}
      <TextButton onPress={() => onType([...others, { name: '', hours: '' }])}>
        add a task that was not quoted
      </TextButton>
    </div>
  );
}

/** The name of a task as its line says it; what the owner does has no line. */
function taskName(quote: Quote, key: string): string {
  return quotedOption(quote)?.lines.find((line) => line.key === key)?.description ?? plain(key);
}

interface HoursProps {
  label: string;
  typed: string;
  problem: string | undefined;
  onType: (typed: string) => void;
}

function Hours({ label, typed, problem, onType }: HoursProps) {
  const said = problem === undefined ? undefined : (commaAdvice(typed) ?? problem);
  return (
    <TextField
      aria-label={label}
      value={typed}
      onChange={onType}
      isInvalid={problem !== undefined}
      validationBehavior="aria"
    >
      <Input className="hours-input" inputMode="decimal" autoComplete="off" />
      <FieldError className="word-problem block">{said}</FieldError>
    </TextField>
  );
}
