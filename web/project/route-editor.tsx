import { useState } from 'react';
import { FieldError, Input, Label, TextField } from 'react-aria-components';
import { guessedFeet, LEG_WORDS } from '../../server/drawing/wording.ts';
import { parseRouteLine, printRouteLine } from '../../server/estimate/route-line.ts';
import { isObject, type Json, type JsonObject, moved, valueAt } from '../json.ts';
import type { Form } from '../parts/field.ts';
import { ChoiceWord, TextButton } from '../parts/word-fields.tsx';
import type { Choice } from '../parts/words.ts';
import { blankLeg, legsOf, ownRoutePath, textOf } from './draft.ts';
import { LegSentences } from './leg-sentences.tsx';
import { Part, Sentence } from './sentence.tsx';

/** Whose route is edited: that of all options, or the open option's own. */
export interface RouteShown {
  /** Where the edited route stands: `route` or `options.1.route`. */
  path: string;
  /** Where the open option's own route stands, or would. */
  ownPath: string;
  hasOwn: boolean;
  /** What the open option is called. */
  optionLabel: string;
  onShow: (whose: 'all' | 'own') => void;
}

/** Which route the editor shows: the open option's own where it has one, unless that of all is asked for. */
export function routeShown({
  draft,
  option,
  whose,
  onShow,
}: {
  draft: JsonObject;
  option: number;
  whose: 'all' | 'own';
  onShow: RouteShown['onShow'];
}): RouteShown {
  const ownPath = ownRoutePath(option);
  const hasOwn = valueAt(draft, ownPath) !== undefined;
  return {
    path: hasOwn && whose === 'own' ? ownPath : 'route',
    ownPath,
    hasOwn,
    optionLabel: textOf(valueAt(draft, `options.${option}.label`), `option ${option + 1}`),
    onShow,
  };
}

interface RouteEditorProps {
  form: Form;
  shown: RouteShown;
  /** The leg that is open, from 0; the drawing and this list share it. */
  selected: number;
  onSelect: (leg: number) => void;
}

/** Can the length of a leg be read? */
function hasLength(leg: Json): boolean {
  return isObject(leg) && lengthOf(leg) !== NOT_STATED;
}

const NOT_STATED = 'not stated';

/** The legs as one line, or nothing while a leg is half typed. */
function lineOf(route: Json | undefined): string | undefined {
  if (typeof route === 'string') return route;
  if (!Array.isArray(route) || !route.every(hasLength)) return undefined;
  try {
    return printRouteLine(route as Record<string, unknown>[]);
  } catch {
    return undefined; // a half-typed leg has no line yet; the legs below say what is missing
  }
}

/** Reads a line as legs; a line that cannot be read stays a text, and the server says which words it did not know. */
function routeOfLine(line: string): Json {
  if (line.trim() === '') return [];
  try {
    return parseRouteLine(line) as Json[];
  } catch {
    return line;
  }
}

/** The length of a leg as far as it can be read. */
function lengthOf({ lengthFt }: JsonObject): string {
  if (typeof lengthFt === 'number') return guessedFeet(lengthFt);
  if (!isObject(lengthFt)) return NOT_STATED;
  const { low, likely, high } = lengthFt;
  const isRead = typeof low === 'number' && typeof likely === 'number' && typeof high === 'number';
  return isRead ? guessedFeet({ low, likely, high }) : NOT_STATED;
}

/** The route: one line of text, and the same legs one by one. */
export function RouteEditor({ form, shown, selected, onSelect }: RouteEditorProps) {
  const { path } = shown;
  const route = form.value(path);
  const legs = legsOf(route);
  return (
    <Part title="Route" aside={<span className="aside">from the panel to the car</span>}>
      <WhoseRoute form={form} shown={shown} />
      <RouteLine key={path} form={form} path={path} />
      {typeof route === 'string' ? (
        <p className="hint">The legs follow as soon as the line can be read.</p>
      ) : (
        <LegList form={form} path={path} legs={legs} selected={selected} onSelect={onSelect} />
      )}
    </Part>
  );
}

const WHOSE: Choice[] = [
  { value: 'all', label: 'the route of all options' },
  { value: 'own', label: 'a route of its own' },
];

/** Which route the open option follows; its own begins as a copy, so that nothing is typed twice. */
function WhoseRoute({
  form,
  shown: { path, ownPath, hasOwn, optionLabel, onShow },
}: Omit<RouteEditorProps, 'selected' | 'onSelect'>) {
  const isOwn = path === ownPath;
  const follow = (whose: Json | undefined) => {
    form.set(ownPath, whose === 'own' ? (form.value('route') ?? []) : undefined);
    onShow('own');
  };
  return (
    <Sentence>
      “{optionLabel}” follows{' '}
      <ChoiceWord
        field={{ path: '', value: hasOwn ? 'own' : 'all', filled: undefined, problem: undefined, onChange: follow }}
        label="Whose route the open option follows"
        choices={WHOSE}
      />
      .{' '}
      {hasOwn && (
        <TextButton onPress={() => onShow(isOwn ? 'all' : 'own')}>
          {isOwn ? 'edit the route of all' : 'edit its own'}
        </TextButton>
      )}
    </Sentence>
  );
}

function RouteLine({ form, path }: { form: Form; path: string }) {
  const [typed, setTyped] = useState<string>();
  const { value, problem, onChange } = form.field(path);
  const printed = lineOf(value);
  return (
    <TextField
      className="route-line"
      value={typed ?? printed ?? ''}
      onChange={(line) => {
        setTyped(line);
        onChange(routeOfLine(line));
      }}
      isInvalid={problem !== undefined}
      validationBehavior="aria"
    >
      <Label>Route line</Label>
      <Input
        data-path={path}
        placeholder={
          printed === undefined ? 'a leg is half typed' : '35 joists, 41 lawn-trench clay, 9 concrete-cut 4in'
        }
        autoComplete="off"
        spellCheck={false}
        onBlur={() => setTyped(undefined)}
      />
      <FieldError className="word-problem">{problem}</FieldError>
    </TextField>
  );
}

interface LegListProps extends Omit<RouteEditorProps, 'shown'> {
  path: string;
  legs: JsonObject[];
}

function LegList({ form, path: routePath, legs, selected, onSelect }: LegListProps) {
  const put = (route: JsonObject[], open: number) => {
    form.set(routePath, route);
    onSelect(Math.max(0, Math.min(open, route.length - 1)));
  };
  return (
    <>
      <ol className="legs">
        {legs
          .map((leg, at) => ({ leg, at, path: `${routePath}.${at}` }))
          .map(({ leg, at, path }) => (
            <LegRow
              key={path}
              form={form}
              leg={leg}
              path={path}
              at={at}
              isOpen={at === selected}
              onOpen={() => onSelect(at)}
              onMove={(to) => to >= 0 && to < legs.length && put(moved(legs, { from: at, to }), to)}
              onRemove={() => put([...legs.slice(0, at), ...legs.slice(at + 1)], at)}
            />
          ))}
      </ol>
      <p className="commands">
        <TextButton onPress={() => put([...legs, blankLeg('lawn-trench')], legs.length)}>
          add a leg at the end
        </TextButton>
        {legs.length > 0 && (
          <TextButton
            onPress={() =>
              put([...legs.slice(0, selected + 1), blankLeg('lawn-trench'), ...legs.slice(selected + 1)], selected + 1)
            }
          >
            add one after leg {selected + 1}
          </TextButton>
        )}
      </p>
    </>
  );
}

interface LegRowProps {
  form: Form;
  leg: JsonObject;
  /** Where the leg stands. */
  path: string;
  /** From 0. */
  at: number;
  isOpen: boolean;
  onOpen: () => void;
  onMove: (to: number) => void;
  onRemove: () => void;
}

function LegRow({ form, leg, path, at, isOpen, onOpen, onMove, onRemove }: LegRowProps) {
  const number = at + 1;
  const kind = typeof leg.kind === 'string' ? (LEG_WORDS[leg.kind as keyof typeof LEG_WORDS] ?? leg.kind) : 'a leg';
  return (
    <li className={isOpen ? 'leg open' : 'leg'}>
      <button type="button" className="leg-head" aria-expanded={isOpen} onClick={onOpen}>
        <span className="leg-number">{number}</span>
        <span className="leg-kind">{kind}</span>
        <span className="leg-length">{lengthOf(leg)}</span>
      </button>
      {isOpen && (
        <div className="leg-body">
          <LegSentences form={form} leg={leg} at={path} number={number} />
          <p className="commands">
            <TextButton
              label={`Move leg ${number} toward the panel`}
              disabled={at === 0}
              onPress={() => onMove(at - 1)}
            >
              toward the panel
            </TextButton>
            <TextButton label={`Move leg ${number} toward the car`} onPress={() => onMove(at + 1)}>
              toward the car
            </TextButton>
            <TextButton label={`Remove leg ${number}`} onPress={onRemove}>
              remove
            </TextButton>
          </p>
        </div>
      )}
    </li>
  );
}
