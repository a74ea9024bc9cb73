import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { useId, useState } from 'react';
import { FieldError, Input, Label, TextField } from 'react-aria-components';
import { ApiProblem, type ListedProject, listProjects, readProject } from '../api.ts';
import { type Json, listAt, valueAt } from '../json.ts';
import { go } from '../navigation.tsx';
import { read } from '../parts/field.ts';
import { lastProjectId } from '../parts/last-project.ts';
import { issueQuote } from './quote-api.ts';

interface Stated {
  projectId: string | undefined;
  optionId: string | undefined;
  customer: string;
  validDays: string;
}

/** Issues a quote of a saved project, at today's prices: who it is for, and how long it holds. */
export function IssueForm() {
  const queries = useQueryClient();
  const [stated, setStated] = useState<Stated>(() => ({
    projectId: lastProjectId(),
    optionId: undefined,
    customer: '',
    validDays: '15',
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
      return issueQuote(project.id, { etag, body: bodyOf(stated, option.id) });
    },
    onSuccess: ({ id }) => {
      queries.removeQueries({ queryKey: ['quotes'] });
      go(`/quotes/${id}`);
    },
  });
  const problems = issue.error instanceof ApiProblem ? issue.error.errors : [];
  const problemAt = (path: string) => problems.find((problem) => problem.path === path)?.message;
  const set = (changes: Partial<Stated>) => setStated({ ...stated, ...changes });
  const byField = ['customer.name', 'validDays'].some((path) => problemAt(path) !== undefined);
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
      <Typed
        label="Customer"
        value={stated.customer}
        problem={problemAt('customer.name')}
        onType={(customer) => set({ customer })}
      />
      <Typed
        label="Holds for, in days"
        value={stated.validDays}
        problem={problemAt('validDays')}
        onType={(validDays) => set({ validDays })}
      />
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

function bodyOf({ customer, validDays }: Stated, optionId: string): Json {
  const days = read(validDays, { scale: 'plain', emptied: 'unstated' });
  return { optionId, customer: { name: customer }, ...(days !== undefined && { validDays: days }) };
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
  problem: string | undefined;
  onType: (typed: string) => void;
}

function Typed({ label, value, problem, onType }: TypedProps) {
  return (
    <TextField
      className="setting"
      value={value}
      onChange={onType}
      isInvalid={problem !== undefined}
      validationBehavior="aria"
    >
      <Label>{label}</Label>
      <Input />
      <FieldError className="word-problem">{problem}</FieldError>
    </TextField>
  );
}
