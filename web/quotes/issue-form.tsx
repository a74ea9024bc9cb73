import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { useId, useState } from 'react';
import { FieldError, Input, Label, TextArea, TextField } from 'react-aria-components';
import { ApiProblem, type FieldProblem, type ListedProject, listProjects, readProject, readSettings } from '../api.ts';
import { listAt, valueAt } from '../json.ts';
import { go, PageLink } from '../navigation.tsx';
import { inUnits } from '../parts/in-units.ts';
import { lastProjectId } from '../parts/last-project.ts';
import { SeverityWord } from '../parts/severity.tsx';
import { scaleOfPath } from '../project/path-words.ts';
import { issueQuote } from './quote-api.ts';
import { BLANK_QUOTE, lackOfIssuer, type QuoteStated, quoteBody } from './quote-stated.ts';

interface Stated extends QuoteStated {
  projectId: string | undefined;
  optionId: string | undefined;
}

/** The fields that are typed, each with the path that it is refused at. */
const FIELDS = [
  { of: 'customer', path: 'customer.name', label: 'Customer' },
  { of: 'customerAddress', path: 'customer.address', label: 'Customer’s address' },
  { of: 'validDays', path: 'validDays', label: 'Holds for, in days' },
  { of: 'deposit', path: 'deposit', label: 'Deposit, $ or %' },
  { of: 'exclusions', path: 'exclusions', label: 'Not included, one a line', lines: 3 },
  { of: 'notes', path: 'notes', label: 'Notes', lines: 2 },
] as const;

const SHOWN = [
  { id: 'items', label: 'each item' },
  { id: 'sum', label: 'the sum alone' },
] as const;

const isWithin = (path: string, field: string) => path === field || path.startsWith(`${field}.`);

/** What is refused of a field or of a thing in it, in the units in which it is typed. */
function problemWithin(problems: readonly FieldProblem[], field: string): string | undefined {
  const found = problems.find(({ path }) => isWithin(path, field));
  return found && inUnits(found.message, scaleOfPath(found.path));
}

/** Issues a quote of a saved project, at today's prices: who it is for, what it shows, what it asks and leaves out. */
export function IssueForm() {
  const queries = useQueryClient();
  const [stated, setStated] = useState<Stated>(() => ({
    ...BLANK_QUOTE,
    projectId: lastProjectId(),
    optionId: undefined,
  }));
  const projects = useQuery({ queryKey: ['projects', ''], queryFn: () => listProjects('') });
  const ready = (projects.data?.items ?? []).filter(({ description }) => description !== null);
  const project = ready.find(({ id }) => id === stated.projectId) ?? ready[0];
  const options = optionsOf(project);
  const option = options.find(({ id }) => id === stated.optionId) ?? options[0];
  const issue = useMutation({
    mutationFn: async () => {
      if (!project || !option) throw new Error('Begin a project first, and state what is to be built.');
      const { etag } = await readProject(project.id);
      return issueQuote(project.id, { etag, body: quoteBody(stated, option.id) });
    },
    onSuccess: ({ id }) => {
      queries.removeQueries({ queryKey: ['quotes'] });
      go(`/quotes/${id}`);
    },
  });
  const problems = issue.error instanceof ApiProblem ? issue.error.errors : [];
  const set = (changes: Partial<Stated>) => setStated({ ...stated, ...changes });
  const hasField = ({ path }: FieldProblem) => FIELDS.some((field) => isWithin(path, field.path));
  const byField = problems.length > 0 && problems.every(hasField);
  return (
    <form
      className="issue-form"
      onSubmit={(event) => {
        event.preventDefault();
        issue.mutate();
      }}
    >
      <Chosen
        label="Project"
        value={project?.id}
        choices={ready.map(({ id, title }) => ({ id, label: title }))}
        onChoose={(projectId) => set({ projectId, optionId: undefined })}
      />
      <Chosen label="Option" value={option?.id} choices={options} onChoose={(optionId) => set({ optionId })} />
      <Chosen
        label="Shows the customer"
        value={stated.show}
        choices={SHOWN}
        onChoose={(show) => set({ show: show === 'sum' ? 'sum' : 'items' })}
      />
      <TypedFields stated={stated} problems={problems} onSet={set} />
      <IssuerWarning />
      <p>
        <button type="submit" className="paper-button" disabled={!project || issue.isPending}>
          Issue it
        </button>{' '}
        {issue.error && !byField && (
          <span role="alert" className="word-problem">
            {issue.error.message}
          </span>
        )}
      </p>
      <p className="hint">What was issued stays as it is, whatever becomes of the project and the price book.</p>
    </form>
  );
}

/** The options that a project compares. */
function optionsOf(project: ListedProject | undefined): { id: string; label: string }[] {
  return listAt(project?.description, 'options').map((option) => ({
    id: String(valueAt(option, 'id')),
    label: String(valueAt(option, 'label')),
  }));
}

interface TypedFieldsProps {
  stated: QuoteStated;
  problems: readonly FieldProblem[];
  onSet: (changes: Partial<QuoteStated>) => void;
}

function TypedFields({ stated, problems, onSet }: TypedFieldsProps) {
  return FIELDS.map(({ of, path, ...field }) => (
    <Typed
      key={of}
      {...field}
      value={stated[of]}
      problem={problemWithin(problems, path)}
      onType={(typed) => onSet({ [of]: typed })}
    />
  ));
}

/** Says before it is issued who is not named on it. */
function IssuerWarning() {
  const settings = useQuery({ queryKey: ['settings'], queryFn: readSettings });
  const lack = settings.data && lackOfIssuer(settings.data.resource);
  if (!lack) return null;
  return (
    <p className="issuer-warning">
      <SeverityWord severity="caution" /> {lack} <PageLink href="/settings">State them first</PageLink>.
    </p>
  );
}

interface ChosenProps {
  label: string;
  value: string | undefined;
  choices: readonly { id: string; label: string }[];
  onChoose: (id: string) => void;
}

function Chosen({ label, value, choices, onChoose }: ChosenProps) {
  const id = useId();
  return (
    <div className="setting">
      <label htmlFor={id}>{label}</label>
      <select id={id} value={value} onChange={(event) => onChoose(event.currentTarget.value)}>
        {choices.map((choice) => (
          <option key={choice.id} value={choice.id}>
            {choice.label}
          </option>
        ))}
      </select>
    </div>
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

function Typed({ label, value, lines, problem, onType }: TypedProps) {
  return (
    <TextField
      className="setting"
      value={value}
      onChange={onType}
      isInvalid={problem !== undefined}
      validationBehavior="aria"
    >
      <Label>{label}</Label>
      {lines === undefined ? <Input /> : <TextArea rows={lines} />}
      <FieldError className="word-problem">{problem}</FieldError>
    </TextField>
  );
}
