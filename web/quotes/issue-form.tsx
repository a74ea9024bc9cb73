import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { knownMoney, wholeDollars } from '../../server/drawing/wording.ts';
import type { Estimate, EstimateOption } from '../../server/estimate/answer.ts';
import { ApiProblem, type FieldProblem, type ListedProject, listProjects, readProject, readSettings } from '../api.ts';
import { listAt, valueAt } from '../json.ts';
import { go, PageLink } from '../navigation.tsx';
import { lastProjectId } from '../parts/last-project.ts';
import { SeverityWord } from '../parts/severity.tsx';
import { Chosen, problemWithin } from './issue-fields.tsx';
import { CustomerGroup, PaperGroup, PaymentGroup, ScopeGroup, TermsGroup, TypedFields } from './issue-groups.tsx';
import { issueQuote, projectEstimate, type Quote } from './quote-api.ts';
import {
  BLANK_QUOTE,
  fieldOfPath,
  lackOfIssuer,
  type QuoteStated,
  quoteBody,
  revisionOfQuote,
  SHOWN_PATHS,
  usualTermsOf,
} from './quote-stated.ts';
import { rememberTerms, usualTerms } from './usual-terms.ts';

interface Stated extends QuoteStated {
  projectId: string | undefined;
  optionId: string | undefined;
}

/** What the form begins with: the quote that is revised, else the terms that were used last. */
function beginning(revised: Quote | undefined): Stated {
  if (!revised)
    return { ...BLANK_QUOTE, ...usualTerms(() => localStorage), projectId: lastProjectId(), optionId: undefined };
  return { ...revisionOfQuote(revised), projectId: revised.projectId, optionId: revised.stated.optionId as string };
}

/** Whether the field of a path holds what it held when it was sent. */
function isUnchanged(path: string, sent: Stated, stated: Stated): boolean {
  const field = fieldOfPath(path);
  return field === undefined || JSON.stringify(sent[field]) === JSON.stringify(stated[field]);
}

const isShown = ({ path }: FieldProblem) => SHOWN_PATHS.some((shown) => path === shown || path.startsWith(`${shown}.`));

/**
 * Issues a quote of a saved project, at today's prices: who it is for and which option, the rest in groups that begin
 * with what was used last. With `revised` it begins with what that quote states.
 */
export function IssueForm({ revised }: { revised?: Quote | undefined }) {
  const [stated, setStated] = useState(() => beginning(revised));
  const projects = useQuery({ queryKey: ['projects', ''], queryFn: () => listProjects('') });
  const ready = (projects.data?.items ?? []).filter(({ description }) => description !== null);
  const project = ready.find(({ id }) => id === stated.projectId) ?? ready[0];
  const options = optionsOf(project);
  const option = options.find(({ id }) => id === stated.optionId) ?? options[0];
  const estimate = useQuery({
    queryKey: priceKey(project),
    queryFn: ({ signal }) => projectEstimate(project?.id ?? '', signal),
    enabled: project !== undefined,
    staleTime: 0,
  });
  const issue = useIssue({ stated, project, optionId: option?.id, bookRevision: estimate.data?.bookRevision });
  const [sent, setSent] = useState(stated);
  const refused = issue.error instanceof ApiProblem ? issue.error.errors : [];
  // What was changed since it was refused is no longer what was refused.
  const problems = refused.filter(({ path }) => isUnchanged(path, sent, stated));
  const set = (changes: Partial<Stated>) => setStated({ ...stated, ...changes });
  const group = { stated, problems, onSet: set };
  return (
    <form
      className="issue-form"
      onSubmit={(event) => {
        event.preventDefault();
        setSent(stated);
        issue.mutate();
      }}
    >
      <Chosen
        label="Project"
        value={project?.id}
        choices={ready.map(({ id, title }) => ({ id, label: title }))}
        onChoose={(projectId) => set({ projectId, optionId: undefined, alternates: [], revisionOf: '' })}
      />
      <Chosen
        label="Option"
        value={option?.id}
        choices={options}
        problem={problemWithin(problems, 'optionId')}
        onChoose={(optionId) => set({ optionId })}
      />
      <PriceSeen estimate={estimate.data} optionId={option?.id} problem={estimate.error?.message} />
      <TypedFields fields={[{ of: 'customer', path: 'customer.name', label: 'Customer' }]} {...group} />
      <CustomerGroup {...group} />
      <ScopeGroup {...group} others={options.filter(({ id }) => id !== option?.id)} />
      <PaymentGroup {...group} />
      <TermsGroup {...group} />
      <PaperGroup {...group} projectId={project?.id} />
      <IssuerWarning />
      <p>
        <button type="submit" className="paper-button" disabled={!project || issue.isPending}>
          Issue it
        </button>{' '}
        {issue.error && !(refused.length > 0 && refused.every(isShown)) && (
          <span role="alert" className="word-problem">
            {issue.error.message}
          </span>
        )}
      </p>
      <p className="hint">What was issued stays as it is, whatever becomes of the project and the price book.</p>
    </form>
  );
}

const priceKey = (project: ListedProject | undefined) => ['project-estimate', project?.id, project?.revision];

interface Issue {
  stated: QuoteStated;
  project: ListedProject | undefined;
  optionId: string | undefined;
  /** Of the total that was seen, where it was. */
  bookRevision: number | undefined;
}

/** Issues what is stated, keeps its terms for the next one, and opens it. */
function useIssue({ stated, project, optionId, bookRevision }: Issue) {
  const queries = useQueryClient();
  return useMutation({
    mutationFn: async () => {
      if (!project || optionId === undefined) throw new Error('Begin a project first, and state what is to be built.');
      const { etag } = await readProject(project.id);
      return issueQuote(project.id, { etag, body: quoteBody(stated, { optionId, bookRevision }) });
    },
    onSuccess: ({ id }) => {
      rememberTerms(usualTermsOf(stated), () => localStorage);
      queries.removeQueries({ queryKey: ['quotes'] });
      go(`/quotes/${id}`);
    },
    // Prices may have moved on: what is seen is what holds.
    onError: () => queries.invalidateQueries({ queryKey: priceKey(project) }),
  });
}

/** The options that a project compares. */
function optionsOf(project: ListedProject | undefined): { id: string; label: string }[] {
  return listAt(project?.description, 'options').map((option) => ({
    id: String(valueAt(option, 'id')),
    label: String(valueAt(option, 'label')),
  }));
}

interface PriceSeenProps {
  estimate: Estimate | undefined;
  optionId: string | undefined;
  problem: string | undefined;
}

/** What the option costs by the book as it is, before it is issued; a quote at other prices than these is refused. */
function PriceSeen({ estimate, optionId, problem }: PriceSeenProps) {
  const option = estimate?.options.find(({ id }) => id === optionId);
  return (
    <p role="status" className="hint price-seen">
      {problem ?? (estimate && option ? priceInWords(option, estimate.bookRevision) : 'Estimating the price …')}
    </p>
  );
}

function priceInWords({ buildable, complete, totals, range }: EstimateOption, bookRevision: number): string {
  if (!buildable) return 'It cannot be built as stated, and so cannot be quoted: the project says why.';
  if (!complete) return 'Prices are missing, and so it cannot be quoted: the project names them.';
  const total = knownMoney({ amountCents: totals.totalCents, complete });
  const cases = range ? `, ${wholeDollars(range.p10Cents)} to ${wholeDollars(range.p90Cents)} in 8 of 10 cases` : '';
  return `${total} by revision ${bookRevision} of the price book${cases}. Allowances come on top.`;
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
